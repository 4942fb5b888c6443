package quantity_test

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	. "blankoff/calc/quantity"
)

func TestFormat(t *testing.T) {
	for _, c := range []struct {
		value, u float64 // in the unit; u standard, 0 for none
		unit     string
		figures  int
		want     string
	}{
		// GUM 7.2.6: U to two figures, the value to the same place.
		{0.0224, 0.0006, "mbar·L/s", 0, "0.0224 ± 0.0012 mbar·L/s"},
		{0.02, 0.001, "mbar·L/s", 0, "0.0200 ± 0.0020 mbar·L/s"},
		{8.1, 0.2447, "Ω", 0, "8.10 ± 0.49 Ω"},
		{11023, 10990, "mTorr", 0, "11,000 ± 22,000 mTorr"},
		{1234567, 617, "Pa", 0, "1,234,600 ± 1,200 Pa"},
		{0, 0.5, "Pa", 0, "0.0 ± 1.0 Pa"},
		{-0.004, 0.05, "Pa", 0, "0.00 ± 0.10 Pa"},
		{-5.04, 0.05, "Pa", 0, "−5.04 ± 0.10 Pa"},
		{5, 0.0498, "Pa", 0, "5.00 ± 0.10 Pa"}, // 0.0996 is 0.10 to two figures
		{0.51234, 4e-5, "Pa", 0, "0.512340 ± 0.000080 Pa"},
		{24, 5e-6, "L", 0, "24.000000 ± 0.000010 L"},
		{2.24e-5, 0.06e-5, "mbar·L/s", 0, "(2.24 ± 0.12)×10⁻⁵ mbar·L/s"},
		{2e-5, 4e-5, "mbar·L/s", 0, "2×10⁻⁵ ± 8×10⁻⁵ mbar·L/s"},
		{0, 4e-5, "mbar·L/s", 0, "0 ± 8×10⁻⁵ mbar·L/s"},
		{5e6, 1e7, "Pa", 0, "5,000,000 ± 2×10⁷ Pa"},
		{20, 0.5, "°C", 0, "20.0 ± 1.0 °C"},
		{68, 0.5, "°F", 0, "68.0 ± 1.0 °F"},
		// Without an uncertainty: the figures asked for, no zeros that say nothing.
		{0.4533, 0, "mbar", 4, "0.4533 mbar"},
		{0.5, 0, "mbar", 4, "0.5 mbar"},
		{760, 0, "Torr", 4, "760 Torr"},
		{101325, 0, "Pa", 4, "101,300 Pa"},
		{101325, 0, "Pa", 6, "101,325 Pa"},
		{12345678, 0, "Pa", 4, "1.235×10⁷ Pa"},
		{0.0001, 0, "Pa", 4, "0.0001 Pa"},
		{0.00001234, 0, "Pa", 3, "1.23×10⁻⁵ Pa"},
		{9.9996, 0, "Pa", 4, "10 Pa"},

		{0, 0, "Pa", 4, "0 Pa"},
		{math.Copysign(0, -1), 0, "Pa", 4, "0 Pa"},
		{-28, 0, "inHg", 4, "−28 inHg"},
		{1.8, 0, "kΩ", 0, "1.8 kΩ"},
		{3, 0, "", 4, "3"},
	} {
		unit := MustUnit(c.unit)
		if got := Format(unit.To(c.value), unit.Span(c.u), unit, c.figures); got != c.want {
			t.Errorf("%v ± %v %s: got %q, want %q", c.value, 2*c.u, c.unit, got, c.want)
		}
	}
}

func TestFormatNeverShowsNaN(t *testing.T) {
	extremes := []float64{math.NaN(), math.Inf(1), math.Inf(-1), math.MaxFloat64, -math.MaxFloat64, math.SmallestNonzeroFloat64, 1e-310, 1e-300, 1e300, 0}
	for _, symbol := range []string{"Pa", "MPa", "µbar", "mbar·L/s", "µPa·mm³/s", "°C", "%", ""} {
		for _, value := range extremes {
			for _, u := range append(extremes, -1, 1) {
				got := Format(value, u, MustUnit(symbol), 4)
				if strings.Contains(got, "NaN") || strings.Contains(got, "Inf") || len(got) > 400 {
					t.Errorf("%v ± %v %s: %q", value, u, symbol, got)
				}
			}
		}
	}
}

// manyUnits are those in which values are printed and read again.
func manyUnits() []Unit {
	var list []Unit
	for _, symbol := range append(Symbols(), "mbar·L/s", "Torr·L/s", "Pa·m³/s", "atm·cm³/s", "mTorr/min", "g/h", "mol/s", "m³/h", "") {
		list = append(list, MustUnit(symbol))
	}
	return list
}

func TestPrintedIsReadAgain(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	for _, unit := range manyUnits() {
		for range 200 {
			figures := 1 + random.IntN(12)
			x := (random.Float64() - 0.3) * math.Pow(10, float64(random.IntN(60)-30))
			text := Format(unit.To(x), -1, unit, figures)
			q, problem := Parse(text, unit.Kind)
			if problem != nil {
				t.Errorf("%q: %s", text, problem.Text)
				continue
			}
			x = unit.From(unit.To(x)) // what a scale with a zero of its own can hold
			if off := math.Abs(unit.From(q.Value) - x); off > 0.5001*math.Pow(10, float64(1-figures))*math.Abs(x)+1e-11*math.Abs(x)+math.Abs(unit.From(0))*1e-13 {
				t.Errorf("%v %s to %d figures: %q is read as %v", x, unit.Symbol, figures, text, unit.From(q.Value))
			}
			if again := Format(q.Value, -1, q.Unit, figures); again != text {
				t.Errorf("%q is printed again as %q", text, again)
			}
		}
	}
}

func TestPrintedUncertaintyIsReadAgain(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 4))
	for _, unit := range manyUnits() {
		for range 200 {
			x := (random.Float64() - 0.3) * math.Pow(10, float64(random.IntN(24)-12))
			u := math.Abs(x) * math.Pow(10, -6*random.Float64()) // from a millionth to all of the value
			text := Format(unit.To(x), unit.Span(u), unit, 4)
			q, problem := Parse(text, unit.Kind)
			if problem != nil {
				t.Errorf("%v ± %v: %q: %s", x, 2*u, text, problem.Text)
				continue
			}
			slack := math.Abs(unit.From(0)) * 1e-13
			if off := math.Abs(unit.From(q.Value) - x); off > 0.1*u+slack || !q.HasU || math.Abs(q.U-unit.Span(u)) > 0.051*unit.Span(u) {
				t.Errorf("%v ± %v %s: %q is read as %v ± %v", x, 2*u, unit.Symbol, text, unit.From(q.Value), 2*q.U/unit.Span(1))
			}
		}
	}
}
