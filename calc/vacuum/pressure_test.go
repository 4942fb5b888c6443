package vacuum_test

import (
	"strings"
	"testing"

	"blankoff/calc"
	"blankoff/calc/declare"
)

func run(id string, in ...string) declare.Answer {
	r := declare.Request{ID: id}
	for i := 0; i < len(in); i += 2 {
		r.In = append(r.In, declare.Pair{Name: in[i], Text: in[i+1]})
	}
	return calc.Answer(r)
}

func TestPressureCases(t *testing.T) {
	for _, c := range []struct {
		name             string
		in               []string
		output, want     string
		caution, noWords string // a part of a caution that must, and one that must not, appear
	}{
		{"trade brief, 2.1: perfect vacuum shows 29.92 inHg at sea level", []string{"value", "0 Pa", "ambient", "1 atm"}, "vacuum", "29.92 inHg", "", ""},
		{"trade brief, 2.1: 26.54 inHg at 1,000 m; by hand ± 3 %", []string{"value", "0 Pa", "altitude", "1000 m"}, "vacuum", "26.54 ± 0.80 inHg", "", ""},
		{"GNU units: stdatmP(1600 m) is 24.6657 inHg; the trade brief's 24.66 is at the geopotential height", []string{"value", "0 Pa", "altitude", "1600 m"}, "ambient", "24.67 ± 0.74 inHg", "", ""},
		{"GNU units: stdatmP(2500 m) is 22.0565 inHg; 22.05 in the trade brief likewise", []string{"value", "0 Pa", "altitude", "2500 m"}, "ambient", "22.06 ± 0.66 inHg", "", ""},
		{"trade brief, 2.1: 25 inches can be 125 Torr at sea level (reference 01-O049)", []string{"value", "25 inHg vacuum ± 0 inHg", "ambient", "760 Torr"}, "absolute", "125,000 mTorr", "", "full scale"},
		{"the same from an ordinary dial: ± 2 % of an atmosphere", []string{"value", "25 inHg vacuum", "ambient", "760 Torr"}, "absolute", "125,000 ± 15,000 mTorr", "± 2 % of its full scale taken", ""},
		{"a dial with an accuracy of its own, by hand 25.4 Torr · 0.5", []string{"value", "-20 inHg gauge ± 0.5 inHg", "ambient", "760 Torr"}, "absolute", "252,000 ± 13,000 mTorr", "", "full scale"},
		{"trade brief, 2.1: 1 mbar is 750.062 mTorr", []string{"value", "1.00000 mbar"}, "absolute", "750.062 mTorr", "", ""},
		{"a standard atmosphere is all of itself", []string{"value", "760 Torr"}, "share", "100 %", "", ""},
		{"by hand: 13.3322 Pa / 101,325 Pa", []string{"value", "100 mTorr ± 10 mTorr"}, "share", "0.0132 ± 0.0013 %", "", ""},
		{"a barometer is better than the altitude", []string{"value", "0 Pa", "ambient", "28.5 inHg", "altitude", "430 m"}, "ambient", "28.5 inHg", "altitude was not needed", ""},
		{"trade brief, 2.2: the ice floor at -34 °C lies in the working band", []string{"value", "187 mTorr"}, "place", "medium vacuum, where freeze drying happens", "", ""},
		{"above the triple point of water", []string{"value", "5 Torr"}, "place", "low (rough) vacuum, above the triple point of water: water can be liquid", "", ""},
		{"below it", []string{"value", "4.5 Torr"}, "place", "low (rough) vacuum, below the triple point of water: only ice and vapour", "", ""},
		{"the shop's air", []string{"value", "28.4 inHg abs", "altitude", "430 m"}, "place", "air, or nearly so", "", ""},
		{"a dial near its bottom knows nothing", []string{"value", "-28 inHg gauge", "altitude", "430 m"}, "place", "not known: the uncertainty covers everything down to nothing", "Use an absolute gauge", ""},
		{"its uncertainty reaches across a mark", []string{"value", "-28.3 inHg gauge ± 0.1 inHg", "ambient", "28.5 inHg"}, "place",
			"not settled: the uncertainty reaches from “low (rough) vacuum, below the triple point of water: only ice and vapour” to “low (rough) vacuum, above the triple point of water: water can be liquid”", "", ""},
		{"84 kPa is the air at 1,600 m, and a vacuum at the sea", []string{"value", "84 kPa"}, "place", "air in a high place, or low (rough) vacuum: give the altitude", "", ""},
		{"the altitude tells", []string{"value", "84 kPa", "altitude", "1600 m"}, "place", "air, or nearly so", "", ""},
		{"thinner than air anywhere on a road", []string{"value", "40 kPa"}, "place", "low (rough) vacuum, above the triple point of water: water can be liquid", "", ""},
		{"a display of zero is no vacuum", []string{"value", "0 mTorr"}, "place", "a display of zero: less than it can show, or a dead sensor", "", ""},
		{"what cancels out leaves no ±", []string{"value", "5 psig ± 0 psi", "altitude", "0 m"}, "vacuum", "−10.18 inHg", "", ""},
		{"inches of mercury without a word are absolute, and that is said", []string{"value", "28 inHg"}, "absolute", "711,200 mTorr", "write -28 inHg gauge", ""},
		{"a dial at the very bottom: rounding leaves no negative pressure", []string{"value", "-29.9212555798 inHg gauge ± 0 inHg", "ambient", "1 atm"}, "absolute", "0 mTorr", "", ""},
		{"pressure above the air is warned of", []string{"value", "5 psig", "ambient", "1 atm"}, "vacuum", "−10.18 ± 0.60 inHg", "must never be put under pressure", ""},
		{"and of an absolute reading too", []string{"value", "2 atm"}, "place", "above the pressure of the air outside", "must never be put under pressure", ""},
	} {
		a := run("pressure", c.in...)
		if a.Fault != nil {
			t.Errorf("%s: %s: %s", c.name, a.Fault.Field, a.Fault.Text)
			continue
		}
		cautions := strings.Join(a.Cautions, "\n")
		if got := given(a, c.output).Text; got != c.want || !strings.Contains(cautions, c.caution) || c.noWords != "" && strings.Contains(cautions, c.noWords) {
			t.Errorf("%s: got %s, want %s; cautions:\n%s", c.name, got, c.want, cautions)
		}
		if a.Verdict.Is != "" {
			t.Errorf("%s: a conversion gives a verdict: %+v", c.name, a.Verdict)
		}
	}
}

func TestPressureRefusals(t *testing.T) {
	for _, c := range []struct {
		name        string
		in          []string
		field, want string
	}{
		{"trade brief, calculator 1: negative absolute pressure", []string{"value", "-28 inHg"}, "value", "write “gauge”, as in -28 inHg gauge"},
		{"trade brief, calculator 2: deeper than the air here", []string{"value", "-29 inHg gauge", "ambient", "84 kPa"}, "value", "below a perfect vacuum where the air has 24.81 inHg"},
		{"deeper than the air even with the weather", []string{"value", "-29 inHg gauge", "altitude", "1600 m"}, "value", "below a perfect vacuum"},
		{"a dial without the air around it", []string{"value", "-28 inHg gauge"}, "ambient", "give the air pressure here, or the altitude"},
		{"gauge reading far above all", []string{"value", "5000 psig", "ambient", "1 atm"}, "value", "above what is possible"},
		{"air pressure corrected to nothing", []string{"value", "1 Pa", "ambient", "1 mbar"}, "ambient", "below what is possible"},
		{"altitude above every road", []string{"value", "1 Pa", "altitude", "30,000 ft"}, "altitude", "above what is possible"},
		{"trade brief, acceptance test 2: 500 without a unit", []string{"value", "500"}, "value", "write 500 mTorr or 500 Pa"},
	} {
		a := run("pressure", c.in...)
		if a.Fault == nil || a.Fault.Field != c.field || !strings.Contains(a.Fault.Text, c.want) {
			t.Errorf("%s: got %+v, want field %s and %q", c.name, a.Fault, c.field, c.want)
		}
	}
}

func TestThroughputCases(t *testing.T) {
	for _, c := range []struct {
		name         string
		in           []string
		output, want string
	}{
		{"trade brief, 2.1: 1 sccm (0 °C) counted at 0 °C", []string{"rate", "1 sccm", "reference", "0 °C", "gas-temperature", "0 °C"}, "leak", "0.01689 mbar·L/s"},
		{"trade brief, 2.1: 1 sccm (0 °C) counted at 20 °C", []string{"rate", "1 sccm", "reference", "0 °C"}, "leak", "0.01812 mbar·L/s"},
		{"trade brief, 2.1: 1 mbar·L/s of water vapour at 20 °C is 2.66 g/h", []string{"rate", "1.00 mbar·L/s"}, "water", "2.661 g/h"},
		{"trade brief, 2.2: 180 g/h of water is 68 mbar·L/s", []string{"rate", "68 mbar·L/s"}, "water", "180.9 g/h"},
		{"trade brief, 2.4: 0.1 mbar·L/s is 5.5 sccm (0 °C)", []string{"rate", "0.1 mbar·L/s"}, "standard", "5.518 sccm"},
		{"trade brief, 2.4: 127 mbar·L/s is 7,000 sccm (0 °C)", []string{"rate", "127 mbar·L/s"}, "standard", "7,007 sccm"},
		{"20 °C and 68 °F are one", []string{"rate", "1 sccm", "reference", "32 °F", "gas-temperature", "68 °F"}, "leak", "0.01812 mbar·L/s"},
		{"± 5 % stays ± 5 %", []string{"rate", "0.02 mbar·L/s ± 5 %"}, "leak", "0.0200 ± 0.0010 mbar·L/s"},
	} {
		if a := run("throughput", c.in...); a.Fault != nil || given(a, c.output).Text != c.want {
			t.Errorf("%s: got %s (%+v), want %s", c.name, given(a, c.output).Text, a.Fault, c.want)
		}
	}
	for _, c := range []struct {
		name        string
		in          []string
		field, want string
	}{
		{"trade brief, calculator 3: sccm without their reference", []string{"rate", "50 sccm"}, "reference", "no meaning without its reference temperature"},
		{"negative leak rate", []string{"rate", "-1 mbar·L/s"}, "rate", "below what is possible"},
		{"negative sccm", []string{"rate", "-1 sccm", "reference", "0 °C"}, "rate", "below what is possible"},
		{"more sccm than the range of the leak rate", []string{"rate", "1e9 sccm", "reference", "0 °C"}, "rate", "above what is possible here (1e6 mbar·L/s)"},
		{"more mol/s", []string{"rate", "50 mol/s"}, "rate", "above what is possible here (1e6 mbar·L/s)"},
		{"negative mol/s", []string{"rate", "-1e-6 mol/s"}, "rate", "below what is possible"},
		{"a pumping speed is no leak rate", []string{"rate", "5 L/s"}, "rate", "a volume flow rate (length³·time⁻¹); a leak rate"},
		{"a power is no leak rate, though its dimension is the same", []string{"rate", "5 W"}, "rate", "a power"},
		{"colder than any trap", []string{"rate", "1 mbar·L/s", "gas-temperature", "-300 °C"}, "gas-temperature", "below what is possible"},
	} {
		a := run("throughput", c.in...)
		if a.Fault == nil || a.Fault.Field != c.field || !strings.Contains(a.Fault.Text, c.want) {
			t.Errorf("%s: got %+v, want field %s and %q", c.name, a.Fault, c.field, c.want)
		}
	}
}
