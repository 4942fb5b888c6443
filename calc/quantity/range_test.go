package quantity_test

import (
	"strings"
	"testing"

	. "blankoff/calc/quantity"
)

func TestReadRange(t *testing.T) {
	for _, c := range []struct {
		text      string
		kind      Kind
		low, high float64
	}{
		{"6.9 to 9.3 Ω", Resistance, 6.9, 9.3}, // contract
		{"6.9 Ω to 9.3 Ω", Resistance, 6.9, 9.3},
		{"8–11 mV", Voltage, 0.008, 0.011}, // contract, with an en dash
		{"8-11 mV", Voltage, 0.008, 0.011},
		{"8 - 11 mV", Voltage, 0.008, 0.011},
		{"8 … 11 mV", Voltage, 0.008, 0.011},
		{"8…11 mV", Voltage, 0.008, 0.011},
		{"500 mΩ to 2 Ω", Resistance, 0.5, 2},
		{"0 to 9.3 Ω", Resistance, 0, 9.3},
		{"-34 to -30 °C", Temperature, 239.15, 243.15},
		{"−34 – −30 °C", Temperature, 239.15, 243.15},
		{"8 to 32 °C", Temperature, 281.15, 305.15},
		{"1e-3 to 2e-3 mbar", Pressure, 0.1, 0.2},
		{"1e-3-2e-3 mbar", Pressure, 0.1, 0.2},
		{"1,000 to 2,000 Pa", Pressure, 1000, 2000},
		{"1/4 to 3/8 in", Length, 0.00635, 0.009525},
		{"20 to 30 min", Time, 1200, 1800},
		{"5 to 5 Ω", Resistance, 5, 5},
		{"11.2 Ω ± 15 %", Resistance, 9.52, 12.88}, // a card may state it so (trade brief, section 10)
		{"24 ± 1 L", Volume, 0.023, 0.025},
	} {
		for _, kinds := range [][]Kind{nil, {c.kind}} {
			r, problem := ParseRange(c.text, kinds...)
			if problem != nil {
				t.Errorf("%q: %s", c.text, problem.Text)
				continue
			}
			if !near(r.Low.Value, c.low) || !near(r.High.Value, c.high) || r.Low.Kind != c.kind || r.High.Kind != c.kind {
				t.Errorf("%q: got %v %v to %v %v, want %v to %v", c.text, r.Low.Value, r.Low.Kind.Name(), r.High.Value, r.High.Kind.Name(), c.low, c.high)
			}
		}
	}
}

func TestRangeRefused(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"", "“” is not a range; write two values, such as 6.9 to 9.3 Ω"},
		{"5 Ω", "“5 Ω” is not a range; write two values, such as 6.9 to 9.3 Ω"},
		{"9.3 to 6.9 Ω", "“9.3 to 6.9 Ω”: the low end is above the high end"},
		{"6.9 L to 9.3 Ω", "“6.9 L to 9.3 Ω”: the two ends are of different kinds"},
		{"6.9 to", "“6.9 to” is not a range; write two values, such as 6.9 to 9.3 Ω"},
		{"OL to 9.3 Ω", "“OL to 9.3 Ω”: a range needs two numbers, not OL"},
		{"6.9 Ω to OL", "“6.9 Ω to OL”: a range needs two numbers, not OL"},
		{"-20 inHg gauge to 30 inHg abs", "“-20 inHg gauge to 30 inHg abs”: one end is gauge, the other absolute"},
		{"6.9 to 9.3 foo", "“foo” is not a unit known here"},
		{"a to b", "“b” is not a number with a unit"},
	} {
		if r, problem := ParseRange(c.text); problem == nil || problem.Text != c.want {
			t.Errorf("%q: got %+v, %+v, want %q", c.text, r, problem, c.want)
		}
	}
	if _, problem := ParseRange("OL to 9.3 Ω", Resistance); problem == nil {
		t.Errorf("OL is taken for the low end of a range")
	}
	if _, problem := ParseRange("6.9 to 9.3 Ω", Pressure); problem == nil || !strings.Contains(problem.Text, "a resistance") || !strings.Contains(problem.Text, "a pressure") {
		t.Errorf("wrong dimension: got %+v, want both named", problem)
	}
	if _, problem := ParseRange(strings.Repeat("9 to ", 1<<18)); problem == nil {
		t.Errorf("a megabyte is read as a range")
	}
}

func TestSplitText(t *testing.T) {
	for _, c := range []struct{ text, value, unit string }{
		{"24 L ± 1 L", "24 ± 1", "L"}, // contract
		{"24 L", "24", "L"},
		{"  0,02   mbar ", "0,02", "mbar"},
		{"2,000 mTorr", "2,000", "mTorr"},
		{"1e-5 mbar·L/s", "1e-5", "mbar·L/s"},
		{"11/16 in", "11/16", "in"},
		{"20 %", "20", "%"},
		{"10 % ± 2 %", "10 ± 2", "%"},
		{"−34 °C", "-34", "°C"},
		// Kept whole, because parting would lose something.
		{"24 L ± 5 %", "24 L ± 5 %", ""},
		{"24 L ± 500 mL", "24 L ± 500 mL", ""},
		{"-28 inHg gauge", "-28 inHg gauge", ""},
		{"14.7 psia", "14.7 psia", ""},
		{"5 bar abs", "5 bar abs", ""},
		{"1h30", "1h30", ""},
		{"1h3", "1h3", ""},
		{"1 h 30 min", "1 h 30 min", ""},
		{"5 ft 3 in", "5 ft 3 in", ""},
		{"OL", "OL", ""},
		{"3", "3", ""},
		{"wire", "wire", ""},
		{"", "", ""},
	} {
		if value, unit := SplitText(c.text); value != c.value || unit != c.unit {
			t.Errorf("%q: got %q and %q, want %q and %q", c.text, value, unit, c.value, c.unit)
		}
	}
}
