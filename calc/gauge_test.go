package calc_test

import (
	"fmt"
	"strings"
	"testing"

	"blankoff/calc"
	"blankoff/calc/quantity"
)

// inGas is the true pressure for a reading in one gas alone, in the unit of the row.
func inGas(t *testing.T, r row, reading string) float64 {
	in := []string{"reading", reading, "gauge", "0 %"}
	switch gas := r.in["gas"]; gas {
	case "air":
		in = append(in, "water-high", "0 %")
	case "water_vapour": // the row's factor as the maker's word for this gauge
		in = append(in, "water-low", "100 %", "factor-low", "2", "factor-high", "2")
	default:
		name := map[string]string{"N2": "nitrogen", "CO": "carbon monoxide", "He": "helium", "Ar": "argon", "Xe": "xenon", "H2": "hydrogen", "freon12": "freon 12"}[gas]
		in = append(in, "other", name, "other-share", "100 %")
	}
	return ask(t, "gas-correction", "best", "mbar", in...).Value
}

// cardSignals is a card on which the signal rises with falling pressure, as 17-O013 says
// that it does.
const cardSignals = "signal mV,pressure mTorr\n9,10\n7,100\n5,300\n3,900"

var _ = topicOf(topic{file: "17_gauge_facts.csv", rows: 21,
	numbers: map[string]func(*testing.T, row) float64{
		"pirani_gas_factor":    func(t *testing.T, r row) float64 { return inGas(t, r, "0.1 mbar") / 0.1 },
		"pirani_true_pressure": func(t *testing.T, r row) float64 { return inGas(t, r, r.in["indicated"]) },
		// The useful range of a thermocouple gauge: outside it the reader is cautioned.
		"gauge_range": func(t *testing.T, r row) float64 {
			reading := calc.Find("gas-correction").Input("reading")
			bound := map[string]string{"thermocouple_gauge_lower_limit": reading.UsualLow, "thermocouple_gauge_upper_limit": reading.UsualHigh}[r.in["fact"]]
			q, problem := quantity.Parse(bound, quantity.Pressure)
			if problem != nil {
				t.Fatal(problem.Text)
			}
			return quantity.MustUnit(r.unit).From(q.Value)
		},
	},
	whole: map[string]func(*testing.T, row){"gauge_fact": gaugeFact},
	left:  map[string]string{},
})

// gaugeFact holds the calculators to what the sources say in words.
func gaugeFact(t *testing.T, r row) {
	state := func(pairs string) string {
		return ask(t, "gauge-compare", "state", "", "readings", "machine mTorr,reference mTorr\n"+pairs, "reference-accuracy", "5 %").Text
	}
	ok := false
	switch r.in["fact"] {
	case "thermocouple_gauge_output_when_pressure_falls", "thermocouple_gauge_wire_temperature_maximum_at":
		high := ask(t, "tube-signal", "pressure", "", "curve", cardSignals, "signal", "8 mV")
		low := ask(t, "tube-signal", "pressure", "", "curve", cardSignals, "signal", "4 mV")
		ok = high.SI < low.SI
	case "thermocouple_gauge_heater_drive": // a current that is off is a fault, and is put right
		off := ask(t, "tube-signal", "pressure", "", "curve", cardSignals, "signal", "4 mV", "current", "40 mA", "nominal", "42 mA")
		right := ask(t, "tube-signal", "pressure", "", "curve", cardSignals, "signal", "4 mV", "current", "42 mA", "nominal", "42 mA")
		ok = off.SI < right.SI
	case "contaminated_pirani_reads", "contaminated_thermocouple_gauge_reads":
		ok = strings.Contains(state("410,92\n598,250\n1387,900"), "high by a constant: pattern of a dirty filament")
	case "pirani_in_argon_reads":
		ok = ask(t, "gas-correction", "best", "", "reading", "0.1 mbar", "other", "argon", "other-share", "100 %").Value > 0.1
	case "thermocouple_gauge_error_sources":
		ok = strings.Contains(state("410,92\n598,250\n1387,900"), "dirty") && strings.Contains(state("54,92\n147,250\n529,900"), "gas, unit or setting")
	}
	if !ok {
		t.Errorf("%s: %s = %s is not what the calculators say", r.id, r.in["fact"], r.expected)
	}
}

// modelCard is the invented tube TQ-4 of the trade brief, from 1 to 760,000 mTorr.
func modelCard(factor float64) string {
	text := "signal mV,pressure mTorr"
	for p := 1.0; p < 760_000; p *= factor {
		text += fmt.Sprintf("\n%.6g,%.6g", 9.6/(1+12*p/(p+3500)), p)
	}
	return text
}

var (
	_ = work("gauge-compare",
		pairs("readings", "machine mTorr,reference mTorr\n107,92\n267,250\n923,900", "reference-accuracy", "10 %"),
		pairs("readings", "machine mTorr,reference mTorr\n410,92\n598,250", "reference-accuracy", "10 %", "machine-step", "10 mTorr"),
		pairs("readings", "machine mTorr,reference mTorr\n55,92\n195,250\n757,900", "reference-accuracy", "5 %"),
		pairs("readings", "machine mTorr,reference mTorr\n147,92\n400,250\n1440,900", "reference-accuracy", "5 %", "gas", "wet"),
		pairs("readings", "machine mTorr,reference mTorr\n54,92\n147,250\n529,900", "reference-accuracy", "5 %", "reference-step", "0.1 Pa"),
		pairs("readings", "machine mTorr,reference mTorr\n410,92\n230,250\n3000,900", "reference-accuracy", "10 %"),
		pairs("readings", "machine mTorr,reference mTorr\n476,92\n950,250\n2900,900", "reference-accuracy", "2 %", "machine-accuracy", "5 %"),
		pairs("readings", "machine mTorr,reference mTorr\n107,92\n267,250\n923,900", "reference-accuracy", "60 %"))
	_ = work("reading-jump",
		pairs("before", "212 mTorr", "after", "760,000 mTorr", "interval", "1 s", "volume", "62.0 L ± 2.5 L", "speed", "10.4 m³/h", "port", "10 mm", "altitude", "430 m"),
		pairs("before", "200 mTorr ± 5 mTorr", "after", "30,200 mTorr ± 500 mTorr", "interval", "1 s ± 0.1 s", "volume", "24 L", "speed", "5.1 m³/h ± 5 %", "port", "6 mm", "discharge", "0.7", "gauge", "30 %"),
		pairs("before", "211 mTorr", "after", "250 mTorr", "interval", "2 s", "return", "205 mTorr", "return-interval", "8 s", "volume", "62 L", "speed", "2.89 L/s", "ambient", "960 mbar ± 10 mbar"),
		pairs("before", "47,300 mTorr", "after", "209 mTorr", "interval", "1 s", "volume", "62 L", "speed", "2.89 L/s", "ultimate", "18 mTorr ± 2 mTorr"),
		pairs("before", "15,000 mTorr", "after", "300 mTorr", "interval", "1 s", "volume", "24 L", "speed", "1.42 L/s"))
	_ = work("gas-correction",
		pairs("reading", "617 mTorr ± 20 mTorr", "water-low", "80 %", "water-high", "100 %"),
		pairs("reading", "0.2 mbar", "other", "argon", "other-share", "40 % ± 5 %", "gauge", "15 %"),
		pairs("reading", "150 micron", "water-low", "50 %", "water-high", "50 %", "factor-low", "1.6", "factor-high", "1.6"))
	_ = work("tube-signal",
		pairs("curve", modelCard(1.5), "signal", "6.63 mV ± 0.02 mV", "current", "39.9 mA ± 0.2 mA", "nominal", "42 mA"),
		pairs("curve", modelCard(3), "signal", "3.84 mV", "step", "5 mTorr"),
		pairs("curve", modelCard(1.3), "signal", "1.2 mV ± 0.01 mV", "step", "10 µV", "tube", "10 %"))
)
