package verify

import (
	"math"
	"testing"

	"blankoff/calc/quantity"
)

func TestDisagreement(t *testing.T) {
	for _, c := range []struct{ name, said, right, want string }{
		{"rounds down to the figures", "0.017 mbar·L/s", "0.0165 mbar·L/s", agrees},
		{"rounds up to the figures", "0.017 mbar·L/s", "0.0175 mbar·L/s", agrees},
		{"just below", "0.017 mbar·L/s", "0.01649 mbar·L/s", otherFigure},
		{"just above", "0.017 mbar·L/s", "0.01751 mbar·L/s", otherFigure},
		{"zeros at the end count", "0.0170 mbar·L/s", "0.0175 mbar·L/s", otherFigure},
		{"thousands", "2,000 mTorr", "2000.4 mTorr", agrees},
		{"thousands are exact to one", "2,000 mTorr", "2001 mTorr", otherFigure},
		{"decimal comma", "0,35 Torr", "352 mTorr", agrees},
		{"power of ten", "1.8e-2 mbar·L/s", "0.0184 mbar·L/s", agrees},
		{"power of ten as printed", "1.8×10⁻² mbar·L/s", "0.0186 mbar·L/s", otherFigure},
		{"zero", "0 °C", "0.4 °C", agrees},
		{"zero with a decimal", "0.0 Ω", "0.04 Ω", agrees},
		{"zero with a decimal, too much", "0.0 Ω", "0.06 Ω", otherFigure},
		{"below zero", "-34 °C", "-33.6 °C", agrees},
		{"sign", "34 °C", "-34 °C", otherFigure},
		{"scales with another zero", "-29 °F", "-34 °C", agrees},
		{"fractions are exact", "11/16 in", "17.4625 mm", agrees},
		{"fractions are exact, off", "11/16 in", "17.5 mm", otherFigure},
		{"hours and minutes", "1h30", "90 min", agrees},
		{"hours and minutes, off", "1h30", "91 min", otherFigure},
		{"kinds with one dimension", "1 K", "1 Pa", otherKind},
		{"gauge against absolute", "28 inHg", "28 inHg gauge", otherCounted},
		{"over range", "OL", "OL", agrees},
		{"over range against a number", "OL", "8 Ω", otherWords},
		{"number against words", "8 Ω", "R 1/8", otherWords},
		{"words against a number", "eight", "8 Ω", otherForm},
		{"accuracy left out", "24 L", "24.0 L ± 1.0 L", agrees},
		{"accuracy in percent", "24 L ± 4 %", "24.0 L ± 1.0 L", agrees},
		{"accuracy off", "24 L ± 3 %", "24.0 L ± 1.0 L", otherFigure},
		{"accuracy out of nowhere", "24 L ± 1 L", "24.0 L", noAccuracy},
		{"range as accuracy", "23 to 25 L", "24.0 L ± 1.0 L", agrees},
		{"range with units at both ends", "6.9 Ω to 9.3 Ω", "6.9 to 9.3 Ω", agrees},
		{"range with a dash", "7–9 Ω", "6.9 to 9.3 Ω", agrees},
		{"range below zero", "-34 to -30 °C", "-34 to -30 °C", agrees},
		{"one end of a range", "6.9 Ω", "6.9 to 9.3 Ω", otherForm},
		{"range against a value", "6 to 9 Ω", "7 Ω", otherForm},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := disagreement(read(c.said), read(c.right)); got != c.want {
				t.Errorf("%q against %q: %q, want %q", c.said, c.right, got, c.want)
			}
		})
	}
}

func TestRestate(t *testing.T) {
	for _, c := range []struct{ name, said, right, want string }{
		{"as many figures", "0.0224 mbar·L/s", "0.0017654 mbar·L/s", "0.00177 mbar·L/s"},
		{"no fewer than the whole part has", "20 mTorr", "138.4 mTorr", "138 mTorr"},
		{"grows by rounding", "9.1 L", "9.96 L", "10.0 L"},
		{"minus sign kept", "−33 °C", "-34 °C", "−34 °C"},
		{"old mark of thousands kept", "1'900 mTorr", "12000 mTorr", "12'000 mTorr"},
		{"no mark of thousands kept", "19000 mTorr", "12000 mTorr", "12000 mTorr"},
		{"space kept", "9 mTorr", "8 mTorr", "8 mTorr"},
		{"true already", "24 L", "24.0 L ± 1.0 L", "24 L"},
		{"sign turned: left alone", "33 °C", "-34 °C", ""},
		{"fraction: left alone", "1/4 in", "17.4625 mm", ""},
		{"other kind: left alone", "9 L", "8 mTorr", ""},
		{"words: left alone", "R 1/4", "R 1/8", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, ok := restate(c.said, read(c.right))
			if ok != (c.want != "") || ok && got != c.want {
				t.Errorf("%q for %q: %q, %v; want %q", c.said, c.right, got, ok, c.want)
			}
		})
	}
}

// TestKnown: zeros at the end of a whole number say nothing up to the last place that a result is known to.
func TestKnown(t *testing.T) {
	pascal, _ := quantity.FindUnit("Pa")
	result := given("", quantity.Quantity{Value: 10848, U: 1100, HasU: true, Kind: quantity.Pressure, Unit: pascal}) // ± 2,200
	for _, c := range []struct {
		said string
		want string
	}{
		{"10,848 Pa", agrees}, {"10,850 Pa", agrees}, {"10,800 Pa", agrees}, {"10,900 Pa", otherFigure}, {"11,000 Pa", otherFigure}, {"10.8 kPa", agrees}, {"11 kPa", agrees},
	} {
		if got := disagreement(read(c.said), result); got != c.want {
			t.Errorf("%s: %q, want %q", c.said, got, c.want)
		}
	}
}

// FuzzRestate: what is written anew is true, and writing it anew once more changes nothing.
func FuzzRestate(f *testing.F) {
	for _, s := range []string{"24.0 L ± 1.0 L", "6.9 to 9.3 Ω", "-34 °C", "0,35 Torr", "1.8×10⁻² mbar·L/s", "2,000 mTorr", "1h30", "OL", "R 1/8"} {
		f.Add(s, 3.7)
	}
	f.Fuzz(func(t *testing.T, text string, factor float64) {
		right := read(text)
		if right.Form == words || math.IsNaN(factor) || math.Abs(factor) > 1e100 {
			return
		}
		right.Text = "" // never equal by its letters
		right.Low.Value *= factor
		right.High.Value *= factor
		if right.Low.Value > right.High.Value {
			return
		}
		fresh, ok := restate(text, right)
		if !ok {
			return
		}
		if why := disagreement(read(fresh), right); why != agrees {
			t.Fatalf("%q becomes %q, which %s", text, fresh, why)
		}
		if again, _ := restate(fresh, right); again != fresh {
			t.Fatalf("%q becomes %q, then %q", text, fresh, again)
		}
	})
}
