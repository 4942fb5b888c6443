package verify

import (
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

var restatements = []struct{ name, said, right, want string }{
	{"as many figures", "0.0224 mbar·L/s", "0.0017654 mbar·L/s", "0.00177 mbar·L/s"},
	{"no fewer than the whole part has", "20 mTorr", "138.4 mTorr", "138 mTorr"},
	{"grows by rounding", "9.1 L", "9.96 L", "10.0 L"},
	{"minus sign kept", "−33 °C", "-34 °C", "−34 °C"},
	{"old mark of thousands kept", "1'900 mTorr", "12000 mTorr", "12'000 mTorr"},
	{"narrow space kept", "1\u202f900 mTorr", "12000 mTorr", "12\u202f000 mTorr"},
	{"no mark of thousands kept", "19000 mTorr", "12000 mTorr", "12000 mTorr"},
	{"too short to show its mark", "900 mTorr", "1200 mTorr", "1,200 mTorr"},
	{"loses its mark", "1,900 mTorr", "900 mTorr", "900.0 mTorr"},
	{"decimal comma kept", "0,35 Torr", "1.2345 Torr", "1,2 Torr"},
	{"decimal comma before three figures", "0,3504 Torr", "1.2345 Torr", "1,2345 Torr"},
	{"space kept", "9 mTorr", "8 mTorr", "8 mTorr"},
	{"true already", "24 L", "24.0 L ± 1.0 L", "24 L"},
	{"nought gets its place", "0.0 Ω", "8.13 Ω", "8.1 Ω"},
	{"becomes nought", "8.1 Ω", "0 Ω", "0.0 Ω"},
	{"a scale keeps its place", "21 °C", "3.456 °C", "3 °C"},
	{"a scale keeps its place, with a decimal", "21.5 °C", "3.456 °C", "3.5 °C"},
	{"half to even", "0.4 L", "0.25 L", "0.2 L"},
	{"power of ten kept", "1.8×10⁻² mbar·L/s", "0.0224 mbar·L/s", "2.2×10⁻² mbar·L/s"},
	{"power of ten moved", "1.8×10⁻² mbar·L/s", "0.00224 mbar·L/s", "2.2×10⁻³ mbar·L/s"},
	{"power of ten moved, plain figures", "1.8e-2 mbar·L/s", "22.4 mbar·L/s", "2.2e1 mbar·L/s"},
	{"power of ten with a caret", "9.8 x 10^2 Pa", "9999 Pa", "1.0 x 10^4 Pa"},
	{"accuracy too", "28.00 L ± 2.0 L", "24.0 L ± 1.0 L", "24.00 L ± 1.0 L"},
	{"accuracy alone", "24 L ± 1.50 L", "24.0 L ± 1.0 L", "24 L ± 1.00 L"},
	{"accuracy in percent", "28 L ± 7 %", "24.0 L ± 1.0 L", "24 L ± 4 %"},
	{"accuracy in another unit", "24 L ± 900 mL", "24.0 L ± 1.0 L", "24 L ± 1,000 mL"},
	{"unit behind both", "28 ± 2 L", "24.0 L ± 1.0 L", "24 ± 1 L"},
	{"as printed", "(2.3 ± 0.2)×10⁻⁵ mbar·L/s", "2.23e-5 mbar·L/s ± 0.1e-5 mbar·L/s", "(2.2 ± 0.1)×10⁻⁵ mbar·L/s"},
	{"same figure twice", "24 L ± 24 L", "25 L ± 26 L", "25 L ± 26 L"},
	{"range for an accuracy", "20–25 L", "24.0 L ± 1.0 L", "23–25 L"},
	{"accuracy for a range", "24 ± 3 L", "23 to 26 L", "24 ± 2 L"},
	{"both ends", "8 to 33 °C", "46 to 91 °F", "8 to 33 °C"},
	{"one end", "6.8 Ω to 9.3 Ω", "6.9 to 9.3 Ω", "6.9 Ω to 9.3 Ω"},
	{"same figure at both ends", "8 to 8 °C", "7 to 9 °C", "7 to 9 °C"},
	{"pins", "1 and 4", "2 and 5", "2 and 5"},
	{"list in another unit", "13, 27 and 41 Pa", "100, 200 and 300 mTorr", "13, 27 and 40 Pa"},
	{"limit", "at least 2 MΩ", "> 1 MΩ", ""},
	{"limit of the same sense", "no less than 2 MΩ", "at least 1 MΩ", "no less than 1 MΩ"},
	{"limit behind", "Up to 340 mTorr", "350 mTorr or less", "Up to 350 mTorr"},
	{"dial", "-27 inHg gauge", "-28 inHg gauge", "-28 inHg gauge"},
	{"dial, other word", "27 inHg vacuum", "-28 inHg gauge", "28 inHg vacuum"},
	{"chain", "1h30", "95 min", "1h35"},
	{"chain, figure with nought", "1h30", "65 min", "1h05"},
	{"chain with units", "1 h 30 min", "125 min", "2 h 5 min"},
	{"chain with decimals", "10 min 30.5 s", "632.26 s", "10 min 32.3 s"},
	{"chain that carries", "1h30", "119.7 min", "2h00"},
	{"chain whose first number would vanish", "1h30", "45 min", ""},
	{"sign turned: left alone", "33 °C", "-34 °C", ""},
	{"becomes nought from below: left alone", "-33 °C", "0 °C", ""},
	{"rounds to nought from below: left alone", "-33 °C", "-0.3 °C", ""},
	{"fraction: left alone", "1/4 in", "17.4625 mm", ""},
	{"mixed number: left alone", "1 1/10 in", "1.2 in", ""},
	{"other kind: left alone", "9 L", "8 mTorr", ""},
	{"words: left alone", "R 1/4", "R 1/8", ""},
	{"tiny", "1e-250 Pa", "3e-270 Pa", "3e-270 Pa"},
	{"large", "1e250 Pa", "3e270 Pa", "3e270 Pa"},
}

func TestRestate(t *testing.T) {
	for _, c := range restatements {
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
