package calc_test

import (
	"math"
	"strconv"
	"testing"

	"blankoff/calc/uncertainty"
)

// aLead is an extension lead that loses next to nothing, so that any length computes.
func aLead(more ...string) []string {
	return append([]string{"current", "1 µA", "supply", "100 V"}, more...)
}

// oneWay is the resistance of a single conductor; the calculator counts out and back.
func oneWay(t *testing.T, unit string, in ...string) float64 {
	t.Helper()
	return ask(t, "cord-drop", "resistance", unit, aLead(in...)...).Value / 2
}

// oneOhm is a lead of 29 m of 1 mm²: 2 · 29 / 58 = 1 Ω at 20 °C.
func oneOhm(t *testing.T, temperature string) float64 {
	t.Helper()
	return 2 * oneWay(t, "Ω", "length", "29 m", "conductor", "1 mm²", "temperature", temperature)
}

func squareMillimetres(r row) string { return r.in["area"][:len(r.in["area"])-len("mm2")] + "mm²" }

var _ = topicOf(topic{file: "11_copper.csv", rows: 46, numbers: map[string]func(*testing.T, row) float64{
	"awg_diameter": func(t *testing.T, r row) float64 {
		area := ask(t, "cord-drop", "area", "mm²", aLead("length", "1 m", "conductor", r.in["awg"]+" AWG")...).Value
		return math.Sqrt(4*area/math.Pi) / map[string]float64{"mm": 1, "in": 25.4}[r.unit]
	},
	"awg_resistance_per_1000ft": func(t *testing.T, r row) float64 {
		return oneWay(t, "Ω", "length", "1000 ft", "conductor", r.in["awg"]+" AWG")
	},
	"copper_resistivity": func(t *testing.T, r row) float64 {
		return oneWay(t, "Ω", "length", "1 m", "conductor", "1 mm²")
	},
	"copper_temperature_coefficient": func(t *testing.T, r row) float64 {
		return (oneOhm(t, "70 °C") - 1) / 50
	},
	"copper_resistance_at_temperature": func(t *testing.T, r row) float64 {
		return r.number(t, "R20") * oneOhm(t, text(r.number(t, "t"), "°C"))
	},
	// The inverse: at the expected temperature the lead must have the row's resistance.
	"copper_temperature_from_resistance": func(t *testing.T, r row) float64 {
		want, _ := strconv.ParseFloat(r.expected, 64)
		return 20 + (want-20)*(r.number(t, "R")/r.number(t, "R20")-1)/(oneOhm(t, text(want, "°C"))-1)
	},
	"conductor_resistance": func(t *testing.T, r row) float64 {
		return oneWay(t, "Ω", "length", r.in["length"], "conductor", squareMillimetres(r))
	},
	"lead_pair_resistance": func(t *testing.T, r row) float64 {
		return 2 * oneWay(t, "Ω", "length", r.in["one_way_length"], "conductor", r.in["awg"]+" AWG")
	},
}, whole: map[string]func(*testing.T, row){
	// The most that the standard lets a cord have lies within the ± of the calculator.
	"iec60228_max_resistance": func(t *testing.T, r row) {
		g := ask(t, "cord-drop", "resistance", "Ω", aLead("length", "1 km", "conductor", squareMillimetres(r))...)
		most, _ := strconv.ParseFloat(r.expected, 64)
		if value, expanded := g.Value/2, uncertainty.K*g.U/2; most < value || most > value+expanded {
			t.Errorf("%s: at most %v Ω/km by the standard, the calculator has %v ± %v", r.id, most, value, expanded)
		}
	},
}, left: map[string]string{
	"11-O034": "correction of the standard with the rounded coefficient 0.004/K, as the row says; 0.00393/K is used here",
	"11-O035": "the same",
	"11-O036": "the same",
}})

// plate asks the heater for what its plate lets expect.
func plate(t *testing.T, r row, power, volt string) string {
	t.Helper()
	return text(ask(t, "heater", "expected", "Ω", "cold", "1 Ω", "supply", r.in[volt], "power", r.in[power]).Value, "Ω")
}

var _ = topicOf(topic{file: "14_heater_power.csv", rows: 19, numbers: map[string]func(*testing.T, row) float64{
	"resistance_from_power": func(t *testing.T, r row) float64 {
		return ask(t, "heater", "expected", "Ω", "cold", "1 Ω", "supply", r.in["V"], "power", r.in["P"]).Value
	},
	"current_from_power": func(t *testing.T, r row) float64 {
		return ask(t, "heater", "current", "A", "cold", plate(t, r, "P", "V"), "supply", r.in["V"]).Value
	},
	// The inverse: with the expected resistance the heater must draw the row's current.
	"resistance_from_vi": func(t *testing.T, r row) float64 {
		want, _ := strconv.ParseFloat(r.expected, 64)
		return want * ask(t, "heater", "current", "A", "cold", text(want, "Ω"), "supply", r.in["V"]).Value / r.number(t, "I")
	},
	"temperature_from_resistance": func(t *testing.T, r row) float64 {
		return ask(t, "heater", "element", "°C", "cold", r.in["R0"][:3]+" Ω", "hot", text(r.number(t, "R"), "Ω"), "supply", "3 V",
			"cold-temperature", "20 °C", "coefficient", text(100*r.number(t, "alpha"), "%")).Value
	},
	"power_from_resistance": func(t *testing.T, r row) float64 {
		return ask(t, "heater", "power", "W", "cold", text(r.number(t, "R"), "Ω"), "supply", r.in["V"]).Value
	},
	"power_at_other_voltage": func(t *testing.T, r row) float64 {
		return ask(t, "heater", "power", "W", "cold", plate(t, r, "P_rated", "V_rated"), "supply", r.in["V"]).Value
	},
	"resistance_at_temperature": func(t *testing.T, r row) float64 {
		return ask(t, "heater", "working", "Ω", "cold", text(r.number(t, "R0"), "Ω"), "supply", "100 V", "coefficient", text(100*r.number(t, "alpha"), "%"),
			"cold-temperature", "20 °C", "temperature", text(20+r.number(t, "dT"), "°C")).Value
	},
	// Two calculators in a row: the current through heater and lead, then what a lead of
	// that resistance leaves of the voltage.
	"load_voltage_with_lead": func(t *testing.T, r row) float64 {
		lead := r.number(t, "R_lead")
		current := ask(t, "heater", "current", "A", "cold", text(r.number(t, "R_load")+lead, "Ω"), "supply", r.in["V"]).Value
		return ask(t, "cord-drop", "voltage", "V", "length", text(29*lead, "m"), "conductor", "1 mm²", "current", text(current, "A"), "supply", r.in["V"]).Value
	},
}, left: map[string]string{
	"14-O018": "two heaters side by side: the heater calculator takes one at its own plug, and says so",
}})

// The rows about meters of 12_uncertainty.csv, put to the meter calculator as well: four
// wires leave the maker's limit alone. Volts and amperes are typed as ohms.
func TestMeterKeepsTheMakersLimits(t *testing.T) {
	met := 0
	for _, r := range readReference(t, "12_uncertainty.csv") {
		if r.quantity != "dmm_error_limit" {
			continue
		}
		counts, digit := r.in["counts"], 0.0
		if counts != "" {
			digit = r.number(t, "resolution")
		} else { // a share of the range instead of counts
			counts, digit = "1", r.number(t, "pct_range")/100*r.number(t, "range")
		}
		in := []string{"reading", text(r.number(t, "reading"), "Ω"), "method", "four wires", "percent", r.in["pct_reading"], "counts", counts, "resolution", text(digit, "Ω")}
		r.check(t, uncertainty.K*ask(t, "meter", "resistance", "Ω", in...).U)
		r.check(t, ask(t, "meter", "worst", "Ω", in...).Value)
		met++
	}
	if met != 7 {
		t.Errorf("%d rows about meters were met, want 7", met)
	}
}

var (
	_ = work("meter",
		pairs("reading", "8.4 Ω ± 0.1 Ω", "leads", "0.3 Ω ± 0.05 Ω", "contact", "0.3 Ω", "low", "6.9 Ω", "high", "9.3 Ω"),
		pairs("reading", "8.1 Ω", "method", "nulled", "percent", "0.5 %", "counts", "10", "resolution", "0.01 Ω", "high", "9.3 Ω"),
		pairs("reading", "8.2 Ω", "reversed", "8.0 Ω ± 0.1 Ω", "method", "four wires", "low", "8.05 Ω", "high", "8.15 Ω"),
		pairs("reading", "12 Ω", "leads", "0.2 Ω", "low", "6.9 Ω", "high", "9.3 Ω"),
	)
	_ = work("tube-check",
		pairs("construction", "joined", "leads", "0.2 Ω ± 0.05 Ω", "ab", "8.3 Ω ± 0.1 Ω", "ac", "10.9 Ω", "ad", "11.4 Ω", "bc", "11.2 Ω", "bd", "11.7 Ω", "cd", "14.3 Ω", "range-top", "20 MΩ", "a-case", "OL", "b-case", "15 MΩ", "c-case", "OL", "d-case", "OL"),
		pairs("construction", "joined", "leads", "0.2 Ω", "ab", "9.5 Ω", "ac", "10.9 Ω", "ad", "11.4 Ω", "bc", "11.2 Ω", "bd", "11.7 Ω", "cd", "14.3 Ω", "card-ab", "8.1 Ω", "card-cd", "14.1 Ω", "tolerance", "10 %"),
		pairs("construction", "joined", "leads", "0.2 Ω", "ab", "8.3 Ω", "ac", "OL", "ad", "11.4 Ω", "bc", "OL", "bd", "11.7 Ω", "cd", "OL"),
		pairs("construction", "insulated", "leads", "0.2 Ω", "ab", "8.3 Ω", "cd", "19.5 Ω", "bd", "0.9 MΩ ± 0.05 MΩ", "couple-high", "16.8 Ω", "percent", "0.5 %"),
		pairs("construction", "insulated", "leads", "0.2 Ω", "ab", "8.3 Ω", "heater-low", "6.9 Ω", "heater-high", "8.2 Ω", "a-case", "4 MΩ", "case-limit", "5 MΩ", "across", "2 MΩ"),
	)
	_ = work("test-current",
		pairs("test", "1 mA", "resistance", "8.1 Ω ± 0.5 Ω"),
		pairs("test", "3 V ± 0.1 V", "resistance", "8.1 Ω ± 0.5 Ω", "normal", "14.3 mW ± 1 mW"),
		pairs("test", "0.2 V", "resistance", "8.1 Ω", "allowed", "50 %"),
		pairs("test", "30 mA ± 1 mA", "resistance", "14.5 Ω", "normal", "42 mA ± 1 mA"),
	)
	_ = work("heater",
		pairs("cold", "37.4 Ω", "supply", "120 V ± 2 V", "card", "35.1 Ω ± 0.5 Ω"),
		pairs("cold", "5.0 Ω ± 0.3 Ω", "supply", "24 V", "power", "180 W ± 5 W", "rated", "24 V"),
		pairs("cold", "42.7 Ω", "hot", "44.5 Ω ± 0.3 Ω", "supply", "230 V", "power", "1240 W", "coefficient", "0.017 % ± 0.002 %"),
		pairs("cold", "1.1 Ω", "supply", "2.9 V", "coefficient", "0.45 %", "temperature", "300 °C ± 20 K", "cold-temperature", "20 °C ± 2 K"),
	)
	_ = work("cord-drop",
		pairs("length", "30 m ± 1 m", "conductor", "12 AWG", "current", "9.5 A ± 0.5 A", "supply", "120 V ± 2 V", "start", "28 A ± 1 A"),
		pairs("length", "20 m", "conductor", "1.5 mm² ± 0.05 mm²", "current", "8.2 A", "supply", "230 V", "temperature", "50 °C ± 10 K"),
		pairs("length", "24 m", "conductor", "14 AWG", "current", "6.0 A", "supply", "120 V", "start", "36 A"),
		pairs("length", "60 ft", "conductor", "2.5 mm²", "current", "9.5 A", "supply", "120 V", "limit", "2 % ± 0.1 %"),
	)
)
