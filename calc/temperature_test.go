package calc_test

import (
	"math"
	"strings"
	"testing"

	"blankoff/calc"
	"blankoff/calc/declare"
)

var _ = topicOf(topic{file: "09_thermocouples.csv", rows: 163, numbers: map[string]func(*testing.T, row) float64{
	"thermocouple_emf": func(t *testing.T, r row) float64 {
		return ask(t, "thermocouple", "expected", r.unit, "type", r.in["type"], "reference", r.in["t"], "cold", r.in["t_ref"]).Value
	},
	"thermocouple_temperature": func(t *testing.T, r row) float64 {
		return ask(t, "thermocouple", "temperature", r.unit, "type", r.in["type"], "reading", r.in["emf"], "cold", r.in["t_ref"]).Value
	},
}})

var _ = topicOf(topic{file: "10_rtd_ntc.csv", rows: 49, numbers: map[string]func(*testing.T, row) float64{
	"pt100_resistance": func(t *testing.T, r row) float64 { return platinum(t, r.in["t"], r.in["R0"]) },
	"pt100_temperature": func(t *testing.T, r row) float64 {
		return ask(t, "rtd", "temperature", r.unit, "reading", r.in["R"], "nominal", r.in["R0"]).Value
	},
	// Three coefficients out of the resistances at 100, 200 and −100 °C.
	"cvd_coefficient": func(t *testing.T, r row) float64 {
		at := func(celsius string) float64 { return platinum(t, celsius, "100 Ω")/100 - 1 }
		b := (at("200 °C") - 2*at("100 °C")) / 2e4
		a := at("100 °C")/100 - 100*b
		return map[string]float64{"A": a, "B": b, "C": (at("-100 °C") + 100*a - 1e4*b) / 2e8}[r.in["name"]]
	},
	"pt_class_tolerance": func(t *testing.T, r row) float64 {
		return ask(t, "rtd", "allowed", "K", "class", r.in["class"], "reference", r.in["t"]).Value
	},
	"steinhart_hart_fit_predict": func(t *testing.T, r row) float64 {
		bare := strings.NewReplacer(" ohm", "", " degC", "")
		table := "resistance ohm,temperature degC\n"
		for _, i := range []string{"1", "2", "3"} {
			table += bare.Replace(r.in["R"+i]+","+r.in["T"+i]) + "\n"
		}
		return ask(t, "thermistor", "temperature", r.unit, "points", table, "reading", r.in["R"]).Value
	},
	"steinhart_hart_temperature": func(t *testing.T, r row) float64 {
		return ask(t, "thermistor", "temperature", r.unit, "a", r.in["A"], "b", r.in["B"], "c", r.in["C"], "reading", r.in["R"]).Value
	},
	"ntc_beta": func(t *testing.T, r row) float64 {
		table := "resistance;temperature K\n" + r.in["R1"] + ";" + r.in["T1"] + "\n" + r.in["R2"] + ";" + r.in["T2"]
		return ask(t, "thermistor", "beta", r.unit, "points", strings.Replace(table, "resistance;", "resistance ohm;", 1), "reading", "10 kΩ").Value
	},
	"ntc_resistance_beta": func(t *testing.T, r row) float64 {
		return ask(t, "thermistor", "expected", r.unit, "r25", r.in["R25"], "beta", r.in["beta"], "reference", r.in["T"]).Value
	},
	"ntc_temperature_beta": func(t *testing.T, r row) float64 {
		return ask(t, "thermistor", "temperature", r.unit, "r25", r.in["R25"], "beta", r.in["beta"], "reading", r.in["R"]).Value
	},
}})

func platinum(t *testing.T, celsius, nominal string) float64 {
	return ask(t, "rtd", "expected", "Ω", "reference", celsius, "nominal", nominal).Value
}

// ntcTable is a made-up table of a 10 kΩ sensor, from A 1.129148e-3, B 2.34125e-4,
// C 8.76741e-8.
const ntcTable = "resistance kΩ,temperature °C\n32.6504,0\n9.999854,25\n3.601035,50"

var _ = work("thermocouple",
	pairs("type", "K", "reading", "3.096 mV", "cold", "25 °C"),
	pairs("type", "T", "reading", "-2.7 mV ± 0.01 mV", "cold", "20 °C ± 0.3 K", "reference", "-52 °C ± 0.3 K", "class", "3"),
	pairs("type", "T", "reading", "-2.7 mV ± 0.01 mV", "cold", "20 °C ± 0.3 K", "reference", "-52 °C ± 0.3 K"),
	pairs("type", "J", "reading", "5.27 mV", "cold", "0 °C ± 0.1 K", "reference", "98 °C", "allowed", "5 K"),
	pairs("type", "N", "reference", "-100 °C", "cold", "20 °C"),
	pairs("type", "E", "reading", "50 mV ± 0.1 mV", "cold", "22 °C", "reference", "650 °C ± 2 K"),
)

var _ = work("rtd",
	pairs("reading", "108.3 Ω ± 0.2 Ω", "reference", "20 °C ± 0.2 K", "leads", "0.4 Ω ± 0.1 Ω"),
	pairs("reading", "1,100 Ω", "nominal", "1000 Ω", "reference", "20 °C", "class", "A"),
	pairs("reading", "109.9 Ω ± 0.05 Ω", "reference", "20 °C ± 0.2 K", "allowed", "2 K"),
	pairs("reference", "55 °C ± 1 K", "nominal", "100 Ω"),
)

var _ = work("thermistor",
	pairs("reading", "11.86 kΩ", "r25", "10 kΩ", "beta", "3740 K", "reference", "21 °C ± 0.3 K"),
	pairs("reading", "9 kΩ ± 1 %", "a", "1.129148e-3", "b", "2.34125e-4", "c", "8.76741e-8", "reference", "20 °C ± 0.5 K", "allowed", "3 K"),
	pairs("reading", "20 kΩ ± 1 %", "points", ntcTable),
	pairs("reference", "0 °C ± 1 K", "points", "resistance kΩ,temperature °C\n32.65,0\n10,25"),
)

// probeVerdict runs a calculator and joins the verdict, the state and the reason.
func probeVerdict(t *testing.T, id string, in ...string) string {
	t.Helper()
	a := mustAnswer(t, declare.Request{ID: id, In: pairs(in...)})
	for _, g := range a.Out {
		if g.ID == "state" {
			return a.Verdict.Is + ", " + g.Text + ": " + a.Verdict.Text
		}
	}
	return a.Verdict.Is + ": " + a.Verdict.Text
}

// TestProbeVerdicts: each thing that a probe can be, and what is said of it.
func TestProbeVerdicts(t *testing.T) {
	ntc := []string{"r25", "10 kΩ ± 1 %", "beta", "3740 K ± 1 %"}
	for _, c := range []struct {
		name, id string
		in       []string
		want     []string
	}{
		{"broken couple", "thermocouple", []string{"type", "T", "cold", "20 °C", "reading", "OL"}, []string{"fail, open", "Wipe the contacts"}},
		{"good couple", "thermocouple", []string{"type", "T", "cold", "20 °C ± 0.1 K", "reading", "-2.609 mV ± 0.005 mV", "reference", "-50 °C ± 0.2 K", "class", "3"}, []string{"pass, whole", "± 1 K (class 3)"}},
		{"swapped wires", "thermocouple", []string{"type", "K", "cold", "20 °C", "reading", "-1.225 mV", "reference", "50 °C"}, []string{"fail, whole", "exchange them"}},
		{"the end of a class, in °F", "thermocouple", []string{"type", "T", "cold", "20 °C", "reading", "0.8 mV", "reference", "104 °F", "class", "3"}, []string{"cannot tell, whole", "± 1 K (class 3)"}},
		{"class silent", "thermocouple", []string{"type", "T", "cold", "20 °C", "reading", "-2.609 mV", "reference", "-50 °C"}, []string{"cannot tell", "Class 2 of type T says nothing", "would settle it"}},
		{"poor reference", "thermocouple", []string{"type", "K", "cold", "20 °C ± 0.1 K", "reading", "3.3 mV ± 0.01 mV", "reference", "100 °C ± 5 K"}, []string{"cannot tell", "A reference good to ±", "would settle it"}},
		{"poor cold junction", "thermocouple", []string{"type", "K", "cold", "20 °C ± 5 K", "reading", "3.3 mV", "reference", "100 °C ± 0.1 K"}, []string{"cannot tell", "together would settle it"}},

		{"platinum within class B", "rtd", []string{"reading", "107.79 Ω ± 0.02 Ω", "reference", "20 °C ± 0.1 K"}, []string{"pass, whole", "± 0.4 K (class B)"}},
		{"leads not taken off", "rtd", []string{"reading", "108.8 Ω ± 0.02 Ω", "reference", "20 °C ± 0.1 K"}, []string{"fail, whole", "Leads of 1", "would explain it"}},
		{"platinum shorted", "rtd", []string{"reading", "0.3 Ω"}, []string{"fail, shorted", "touch"}},
		{"platinum nearly open", "rtd", []string{"reading", "5 kΩ"}, []string{"fail, open", "breaking"}},
		{"Pt1000 taken for Pt100", "rtd", []string{"reading", "1,080 Ω"}, []string{"fail, open", "another kind"}},
		{"at the very end", "rtd", []string{"reading", "391 Ω ± 1 Ω"}, []string{"cannot tell, perhaps open", "would settle it"}},
		{"doubtful leads", "rtd", []string{"reading", "19 Ω ± 0.1 Ω", "leads", "0.6 Ω ± 0.5 Ω"}, []string{"cannot tell, perhaps shorted", "would settle it"}},
		{"doubtful kind", "rtd", []string{"reading", "395 Ω ± 0.1 Ω", "nominal", "100 Ω ± 2 Ω"}, []string{"cannot tell, perhaps open", "would settle it"}},
		{"the end as the table prints it", "rtd", []string{"reading", "390.481125 Ω", "reference", "850 °C"}, []string{"cannot tell, whole"}},
		{"ordinary meter, class A", "rtd", []string{"reading", "107.79 Ω", "reference", "20 °C ± 0.01 K", "class", "A"}, []string{"cannot tell", "would settle it"}},

		{"thermistor good", "thermistor", append(ntc, "reading", "31.5 kΩ ± 0.5 %", "reference", "0 °C ± 0.2 K"), []string{"pass, whole", "± 2 K (common practice)"}},
		{"thermistor off", "thermistor", append(ntc, "reading", "40 kΩ ± 0.5 %", "reference", "0 °C ± 0.2 K"), []string{"fail, whole", "outside"}},
		// A good sensor of the usual coefficients, whose beta from 25 °C to 85 °C is 3977 K.
		{"the beta form at a cold trap", "thermistor", []string{"r25", "10 kΩ ± 1 %", "beta", "3977 K ± 0.75 %", "reading", "333.7 kΩ ± 0.1 %", "reference", "-40 °C ± 0.2 K"}, []string{"cannot tell, whole", "would settle it"}},
		{"two points far from it", "thermistor", []string{"points", "resistance kΩ,temperature °C\n3.6,50\n1.07,85", "reading", "333.7 kΩ ± 0.1 %", "reference", "-40 °C ± 0.2 K"}, []string{"cannot tell, whole"}},
		{"thermistor shorted", "thermistor", append(ntc, "reading", "0 Ω"), []string{"fail, shorted", "touch"}},
		{"thermistor open", "thermistor", append(ntc, "reading", "40 MΩ"), []string{"fail, open"}},
		{"thermistor OL", "thermistor", append(ntc, "reading", "OL"), []string{"fail, open"}},
	} {
		got := probeVerdict(t, c.id, c.in...)
		for _, want := range c.want {
			if !strings.Contains(got, want) {
				t.Errorf("%s: %q lacks %q", c.name, got, want)
			}
		}
	}
}

// TestProbesRefuseInWords names the entry and what to do.
func TestProbesRefuseInWords(t *testing.T) {
	for _, c := range []struct {
		id    string
		in    []string
		field string
		want  string
	}{
		{"thermocouple", []string{"type", "K", "cold", "20 °C"}, "reading", "write what the meter shows"},
		{"thermocouple", []string{"type", "S", "cold", "20 °C", "reading", "1 mV"}, "type", "K, T, J, E, N"},
		{"thermocouple", []string{"type", "T", "reading", "1 mV"}, "cold", "blank"},
		{"thermocouple", []string{"type", "T", "cold", "0 °C ± 0 K", "reading", "-6.3 mV"}, "reading", "−270 °C"},
		{"thermocouple", []string{"type", "T", "cold", "0 °C", "reading", "21 mV"}, "reading", "400 °C"},
		{"thermocouple", []string{"type", "J", "cold", "0 °C", "reference", "-211 °C"}, "reference", "−210 °C to 1,200 °C"},
		{"thermocouple", []string{"type", "K", "cold", "0 °C", "reference", "1373 °C"}, "reference", "1,372 °C"},
		{"rtd", nil, "reading", "write what the meter shows"},
		{"rtd", []string{"reference", "-201 °C"}, "reference", "−200 °C to 850 °C"},
		{"rtd", []string{"reference", "851 °C"}, "reference", "850 °C"},
		{"thermistor", []string{"reading", "10 kΩ"}, "beta", "write the sensor's data"},
		{"thermistor", []string{"reading", "10 kΩ", "r25", "10 kΩ"}, "beta", "this is blank"},
		{"thermistor", []string{"reading", "10 kΩ", "beta", "3740 K"}, "r25", "blank"},
		{"thermistor", []string{"reading", "10 kΩ", "a", "1e-3", "c", "1e-7"}, "b", "three coefficients go together"},
		{"thermistor", []string{"reading", "10 kΩ", "a", "1e-3", "b", "2e-4", "c", "1e-7", "beta", "3740 K"}, "beta", "one way only"},
		{"thermistor", []string{"reading", "10 kΩ", "a", "1e-3", "b", "0", "c", "0"}, "b", "does not fall"},
		{"thermistor", []string{"reading", "10 kΩ", "points", "resistance Ω,temperature °C\n10000,25"}, "points", "two or three points"},
		{"thermistor", []string{"reading", "10 kΩ", "points", "resistance Ω,temperature °C\n10000,25\n12000,30"}, "points", "line 3: each point"},
		{"thermistor", []string{"reading", "10 kΩ", "points", "resistance Ω,temperature °C\n10000,25\n10000,25"}, "points", "line 3: each point"},
		{"thermistor", []string{"reading", "10 kΩ", "points", "resistance Ω,temperature °C\n10000,25\n,30"}, "points", "line 3: each point"},
	} {
		a := calc.Answer(declare.Request{ID: c.id, In: pairs(c.in...)})
		if a.Fault == nil || a.Fault.Field != c.field || !strings.Contains(a.Fault.Text, c.want) {
			t.Errorf("%s %v gives %+v, want %s: %q", c.id, c.in, a.Fault, c.field, c.want)
		}
	}
}

// TestColdJunctionByItsVoltage: adding degrees would give another answer, and the answer
// must not be that one.
func TestColdJunctionByItsVoltage(t *testing.T) {
	warm := ask(t, "thermocouple", "temperature", "°C", "type", "E", "reading", "-5.237 mV", "cold", "30 °C").Value
	bare := ask(t, "thermocouple", "temperature", "°C", "type", "E", "reading", "-5.237 mV", "cold", "0 °C").Value
	// By the NIST table: 1.801 mV at 30 °C, so −3.436 mV, which lies between −60 and −70 °C.
	if !(warm > -70 && warm < -60) || math.Abs(warm-(bare+30)) < 1 {
		t.Errorf("%v °C at the meter's 30 °C, %v °C against ice", warm, bare)
	}
}

// TestPointsGiveTheirCoefficients, to the figures that a sheet prints.
func TestPointsGiveTheirCoefficients(t *testing.T) {
	a := mustAnswer(t, declare.Request{ID: "thermistor", In: pairs("reading", "10 kΩ", "points", ntcTable)})
	want := map[string]float64{"A": 1.129148e-3, "B": 2.34125e-4, "C": 8.76741e-8}
	for _, g := range a.Out {
		if g.ID != "coefficients" {
			continue
		}
		for _, cells := range g.Rows {
			if w := want[cells[0].Text]; math.Abs(cells[1].Value-w) > 1e-3*w || !cells[1].IsNumber {
				t.Errorf("%s is %v (%s), want %v", cells[0].Text, cells[1].Value, cells[1].Text, w)
			}
			delete(want, cells[0].Text)
		}
	}
	if len(want) > 0 {
		t.Errorf("%v are missing", want)
	}
}

// TestAnOpenCoupleIsNoOpenResistor: on the millivolt range OL is not the absence of a current.
func TestAnOpenCoupleIsNoOpenResistor(t *testing.T) {
	a := mustAnswer(t, declare.Request{ID: "thermocouple", In: pairs("type", "K", "cold", "20 °C", "reading", "OL")})
	if said := strings.Join(a.Working, " "); strings.Contains(said, "current") || !strings.Contains(said, "more than its range") {
		t.Errorf("OL of a couple is told as %q", said)
	}
}
