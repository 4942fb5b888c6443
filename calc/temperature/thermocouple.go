package temperature

import (
	"math"

	"blankoff/calc/constant"
	"blankoff/calc/declare"
	"blankoff/calc/quantity"
	"blankoff/calc/uncertainty"
)

// What an ordinary millivolt meter is taken to be good for where no ± is written: a share
// of the reading and two counts of 0.01 mV (from memory).
const meterShare, meterCounts = 0.005, 0.02e-3

// Thermocouple turns millivolts into temperature and back. The cold junction is counted by
// adding its voltage: the curve bends, so adding its degrees would be wrong by kelvins.
var Thermocouple = declare.Calculator{
	ID:       "thermocouple",
	Title:    "Thermocouple",
	Group:    declare.TemperaturePowerFitting,
	Decision: "How warm is the junction, and does the probe read true?",
	Inputs: []declare.Input{
		{ID: "type", Label: "Type", Choices: []declare.Choice{{Value: "K"}, {Value: "T"}, {Value: "J"}, {Value: "E"}, {Value: "N"}}, Required: true,
			Help: "Printed on the plug or the cable."},
		{ID: "reading", Label: "Meter reading", Symbol: "V", Kinds: []quantity.Kind{quantity.Voltage}, Unit: "mV", Units: []string{"µV", "V"},
			Min: "-100 mV", Max: "100 mV", Negative: true, MayBeOver: true, Rising: 1,
			Help: "On the millivolt range, plus lead on the positive wire. ± from the meter's booklet may follow."},
		{ID: "cold", Label: "Temperature at the meter", Symbol: "t_c", Kinds: []quantity.Kind{quantity.Temperature}, Unit: "°C", Units: []string{"°F", "K"},
			Min: "-50 °C", Max: "150 °C", UsualLow: "0 °C", UsualHigh: "45 °C", Negative: true, Required: true, Accuracy: "1 K",
			Help: "Of the terminals where the probe's own wires end (the cold junction). 0 °C ± 0.1 K for an ice bath."},
		{ID: "reference", Label: "Reference thermometer", Symbol: "t_r", Kinds: []quantity.Kind{quantity.Temperature}, Unit: "°C", Units: []string{"°F", "K"},
			Min: "-273.15 °C", Max: "2,000 °C", UsualLow: "-80 °C", UsualHigh: "150 °C", Negative: true, Help: referenceHelp},
		{ID: "class", Label: "Tolerance class", Choices: []declare.Choice{{Value: "1"}, {Value: "2"}, {Value: "3", Label: "3, for cold use"}}, Default: "2", Because: "as for ordinary probes (common practice)",
			Help: "Classes 1 and 2 end at −40 °C; class 3 goes on to −200 °C."},
		{ID: "allowed", Label: "Allowed error", Symbol: "a", Kinds: []quantity.Kind{quantity.TemperatureDifference}, Unit: "K", Min: "0 K", Max: "100 K", Help: allowedHelp},
	},
	Influences: []declare.Influence{
		{ID: "meter", Text: "error of a meter without ±", U: coupleMeterU},
		{ID: "reference-error", Text: referenceText, U: referenceU},
	},
	Outputs: []declare.Output{
		{ID: "temperature", Label: "Temperature", Symbol: "t", Kind: quantity.Temperature, Unit: "°C", Also: []string{"°F"}},
		{ID: "expected", Label: "Meter should show", Symbol: "V_r", Kind: quantity.Voltage, Unit: "mV"},
		{ID: "error", Label: "Probe less reference", Symbol: "e", Kind: quantity.TemperatureDifference, Unit: "K"},
		{ID: "allowed", Label: "Allowed error", Symbol: "a", Kind: quantity.TemperatureDifference, Unit: "K", Derived: true},
		{ID: "state", Label: "State"},
	},
	Formula: []string{
		"E(t) = V + E(t_c); solved for t by Newton's method. Adding degrees instead of voltages is wrong",
		"E(t) = Σᵢ cᵢ t^i; the reference function, in two spans of temperature",
		"E(t) = Σᵢ cᵢ t^i + a₀ exp(a₁ (t − a₂)²); type K above 0 °C",
		"V_r = E(t_r) − E(t_c)",
	},
	Sources: []declare.Source{
		{Title: "Reference functions of ITS-90 for K, T, J, E, N", Where: "NIST ITS-90 Thermocouple Database, SRD 60; coefficients and 163 check values in testdata/reference", Mark: declare.Published},
		{Title: "Tolerance classes of IEC 60584-1", Mark: declare.Memory},
		{Title: "Meter without ±: 0.5 % and 0.02 mV", Mark: declare.Memory},
	},
	Cautions: []string{
		"Wire and plugs of the probe's own type must run up to the meter: copper in between moves the cold junction.",
		"One temperature says nothing of another: compare near the temperature at which the probe works.",
	},
	Hazards: []string{"mains", "cold"},
	Limits: []string{
		"Near −270 °C a type K, E, T or N gives almost no voltage: the uncertainty shown there is what the meter leaves open.",
		"A junction that has drifted along its wire reads differently in another bath.",
	},
	Example: declare.Example{
		In:   []declare.Pair{{Name: "type", Text: "T"}, {Name: "reading", Text: "-2.609 mV ± 0.05 mV"}, {Name: "cold", Text: "20 °C ± 1 K"}},
		Want: []declare.Pair{{Name: "temperature", Text: "−50.0 ± 1.9 °C"}},
		From: "NIST ITS-90 tables of type T: −1.819 mV at −50 °C less 0.790 mV at 20 °C (09-O159 of testdata/reference); ± by hand from the slopes of the table, 0.034 and 0.040 mV/K",
	},
	Eval:  coupleEval,
	Judge: coupleJudge,
}

func coupleMeterU(x *declare.Numbers) float64 {
	q := x.Typed("reading")
	if !x.Has("reading") || q.Over || q.HasU {
		return 0
	}
	return (meterShare*math.Abs(q.Value) + meterCounts) / uncertainty.K
}

func coupleEval(x *declare.Numbers) {
	known, ok := reference(x)
	if !ok {
		return
	}
	c := findCouple(x.Choice("type"))
	cold, _ := c.emf(x.In("cold") - constant.ZeroCelsius)
	if known == known {
		t := known - constant.ZeroCelsius
		if t < c.lowest()-tie || t > c.highest()+tie {
			c.refuse(x, "reference", " is defined from ", " to ", " only")
			return
		}
		mV, _ := c.emf(t)
		x.Set("expected", (mV-cold)/1000)
	}
	if !x.Has("reading") || x.Typed("reading").Over {
		return
	}
	t := c.celsius(1000*(x.In("reading")+x.Influence("meter")) + cold)
	if t != t {
		c.refuse(x, "reading", " gives no such voltage with this temperature at the meter: it ends at ", " and ", ". Check the type, the unit and the polarity")
		return
	}
	setTemperature(x, t+constant.ZeroCelsius, known)
}

// refuse says where the curve of the type ends.
func (c *couple) refuse(x *declare.Numbers, field, before, between, after string) {
	x.Refuse(field, x.With(4, "type "+c.name+before+"[°C]"+between+"[°C]"+after, c.lowest()+constant.ZeroCelsius, c.highest()+constant.ZeroCelsius))
}

func coupleJudge(r *declare.Result) {
	c, class := findCouple(r.Choice("type")), r.Choice("class")
	reading, reference := r.In("reading"), r.In("reference")
	cold, _ := c.emf(r.In("cold") - constant.ZeroCelsius)
	expected, _ := c.emf(reference - constant.ZeroCelsius)
	allowed, ok := c.allowed(int(class[0]-'0'), reference-constant.ZeroCelsius)
	if !ok {
		allowed = math.NaN()
	}
	allowed, rule := begin(r, nil, 0, allowed, "class "+class, numbers(r.Numbers, "V_r = E(t_r) − E(t_c) = [mV] − [mV] = {expected}", "", expected/1000, cold/1000))
	if rule == "" {
		return
	}
	t, _ := r.Out("temperature")
	mV, slope := c.emf(t - constant.ZeroCelsius)
	r.Work(numbers(r.Numbers, "E(t_c) = E({cold}) = [mV]; E(t) = {reading} + [mV] = [mV]", "", cold/1000, cold/1000, mV/1000))
	r.Work(numbers(r.Numbers, "t = {temperature}; there type # gives [mV] for each kelvin", c.name, slope/1000))
	if coupleMeterU(r.Numbers) > 0 {
		r.Caution("Meter reading given without ±: ± (0.5 % and 0.02 mV) taken, as for a meter with steps of 0.01 mV (from memory).")
	}
	if math.Abs(reading) < noVoltage {
		r.Caution("Near 0 mV the junction is as warm as the meter, or the two wires touch on the way, or one is broken. Warm the probe in your hand: the reading must rise.")
	}
	if allowed != allowed {
		rule = "Class " + class + " of type " + c.name
	}
	// Do swapped wires explain an error? Then the voltage has the other sign.
	hint := "Check the type, the temperature at the meter and the plugs on the way."
	if math.Abs(c.celsius(cold-1000*reading)+constant.ZeroCelsius-reference) <= allowed {
		hint = "With its two wires exchanged it would read {reference} within the limit: exchange them and repeat."
	}
	judgeError(r, allowed, rule, hint)
}

// noVoltage is a reading that a short between the wires would also give, V (common
// practice, no source).
const noVoltage = 0.05e-3
