package temperature

import (
	"math"

	"blankoff/calc/constant"
	"blankoff/calc/declare"
	"blankoff/calc/quantity"
)

// A thermistor beyond these is taken to be broken, K: 200 °C and −90 °C (common practice,
// no source).
const thermistorHot, thermistorCold = 200 + constant.ZeroCelsius, -90 + constant.ZeroCelsius

// probeRule is the error of a probe that the shop allows where nothing else is entered, K
// (our notes of the trade, common practice).
const probeRule = 2.0

// Thermistor is a sensor whose resistance falls as it warms (NTC).
var Thermistor = declare.Calculator{
	ID:       "thermistor",
	Title:    "Thermistor (NTC)",
	Group:    declare.TemperaturePowerFitting,
	Decision: "How warm is the thermistor, and does it read true?",
	Inputs: []declare.Input{
		{ID: "reading", Label: "Meter reading", Symbol: "R", Kinds: []quantity.Kind{quantity.Resistance}, Unit: "kΩ", Units: []string{"Ω", "MΩ"},
			Min: "0 Ω", Max: "10 GΩ", MayBeOver: true, Rising: -1, Accuracy: "1 %",
			Help: "Sensor unplugged, ordinary ohms range. OL when the meter shows over-range."},
		{ID: "reference", Label: "Reference thermometer", Symbol: "t_r", Kinds: []quantity.Kind{quantity.Temperature}, Unit: "°C", Units: []string{"°F", "K"},
			Min: "-273.15 °C", Max: "2,000 °C", UsualLow: "-80 °C", UsualHigh: "150 °C", Negative: true, Help: referenceHelp},
		{ID: "r25", Label: "Resistance at 25 °C", Symbol: "R₂₅", Kinds: []quantity.Kind{quantity.Resistance}, Unit: "kΩ", Units: []string{"Ω"},
			Min: "1 Ω", Max: "100 MΩ", UsualLow: "100 Ω", UsualHigh: "1 MΩ", Accuracy: "1 %", Help: "From the card, with its beta: 10 kΩ is common."},
		{ID: "beta", Label: "Beta", Symbol: "β", Kinds: []quantity.Kind{quantity.TemperatureDifference}, Unit: "K", Fixed: true,
			Min: "500 K", Max: "10,000 K", UsualLow: "2,500 K", UsualHigh: "5,000 K", Accuracy: "1 %", Help: "From the card, such as 3740 K."},
		{ID: "a", Label: "Coefficient A", Symbol: "A", Kinds: []quantity.Kind{quantity.Ratio}, Min: "-1", Max: "1", Negative: true, Help: "Instead of beta: the three Steinhart–Hart coefficients, for ohms and kelvin."},
		{ID: "b", Label: "Coefficient B", Symbol: "B", Kinds: []quantity.Kind{quantity.Ratio}, Min: "0", Max: "1", Help: "Such as 2.341e-4."},
		{ID: "c", Label: "Coefficient C", Symbol: "C", Kinds: []quantity.Kind{quantity.Ratio}, Min: "-1", Max: "1", Negative: true, Help: "Such as 8.767e-8."},
		{ID: "points", Label: "Points of its table", Help: "Instead of beta: two points give beta, three the coefficients. Take them where the sensor works.", Columns: []declare.Column{
			{ID: "resistance", Label: "Resistance", Kinds: []quantity.Kind{quantity.Resistance}, Unit: "Ω", Min: "0.01 Ω", Max: "10 GΩ", Required: true},
			{ID: "temperature", Label: "Temperature", Kinds: []quantity.Kind{quantity.Temperature}, Unit: "°C", Min: "-150 °C", Max: "400 °C", Required: true}}},
		{ID: "allowed", Label: "Allowed error", Symbol: "a", Kinds: []quantity.Kind{quantity.TemperatureDifference}, Unit: "K", Min: "0 K", Max: "100 K", Help: "From the machine's card; without it 2 K, as is common practice."},
	},
	Influences: []declare.Influence{
		{ID: "reference-error", Text: referenceText, U: referenceU},
		{ID: "curve", Text: "form of the curve away from its points", U: curveU},
	},
	Outputs: []declare.Output{
		{ID: "temperature", Label: "Temperature", Symbol: "t", Kind: quantity.Temperature, Unit: "°C", Also: []string{"°F"}},
		{ID: "expected", Label: "Meter should show", Symbol: "R_r", Kind: quantity.Resistance, Unit: "kΩ", Also: []string{"Ω"}},
		{ID: "error", Label: "Probe less reference", Symbol: "e", Kind: quantity.TemperatureDifference, Unit: "K"},
		{ID: "allowed", Label: "Allowed error", Symbol: "a", Kind: quantity.TemperatureDifference, Unit: "K", Derived: true},
		{ID: "state", Label: "State"},
		{ID: "beta", Label: "Beta from two points", Symbol: "β", Kind: quantity.TemperatureDifference, Unit: "K", Fixed: true},
		{ID: "coefficients", Label: "Coefficients from three points", Columns: []declare.Column{{ID: "name", Label: "Name"}, {ID: "value", Label: "Value", Kinds: []quantity.Kind{quantity.Ratio}}}},
	},
	Formula: []string{
		"1 / T = A + B ln R + C (ln R)³; T in kelvin, R in ohms",
		"R = R₂₅ exp(β (1 / T − 1 / T₂₅)); T₂₅ = 298.15 K",
		"β = ln(R₁ / R₂) / (1 / T₁ − 1 / T₂)",
	},
	Sources: []declare.Source{
		{Title: "Steinhart–Hart equation; beta form", Mark: declare.Memory},
		{Title: "Curve through three points meets the other points of a table within 0.005 K", Where: "LDC-3900 / LDT-5525 manuals, table A.1, testdata/reference/10_rtd_ntc.csv", Mark: declare.Published},
		{Title: "Doubt of beta: 46 K × |T/T₁ − 1| × |T/T₂ − 1|", Where: "the same table gives 30 K", Mark: declare.Computed},
		{Title: "Of three points: 50 K × the three", Mark: declare.Memory},
		{Title: "Allowed error of 2 K; broken below −90 °C and above 200 °C", Mark: declare.CommonPractice},
	},
	Cautions: []string{
		"Unplug the sensor: a board in parallel lowers the reading.",
		"One temperature says nothing of another: compare near the temperature at which the sensor works.",
	},
	Hazards: []string{"mains", "stored-charge", "cold"},
	Limits: []string{
		"The beta form is 2 K to 3 K off at a cold trap: take points there.",
		"Points and coefficients are taken as exact.",
	},
	Example: declare.Example{
		In:   []declare.Pair{{Name: "reading", Text: "220.8 kΩ ± 0.5 %"}, {Name: "r25", Text: "10 kΩ ± 1 %"}, {Name: "beta", Text: "3740 K ± 1 %"}},
		Want: []declare.Pair{{Name: "temperature", Text: "−34.0 ± 3.5 °C"}},
		From: "our notes of the trade, section 7, computed: 220.8 kΩ at −34 °C; ± by hand: 0.08 K, 0.15 K and 0.47 K, and for the form 46 K × 59/298 × 134/348 = 3.51 K; root of the sum of squares",
	},
	Study: thermistorStudy,
	Eval:  thermistorEval,
	Judge: thermistorJudge,
}

func thermistorEval(x *declare.Numbers) {
	known, ok := reference(x)
	if !ok {
		return
	}
	p, _ := x.Studied().(*resistor)
	curve := p.curve
	if p.beta != 0 {
		x.Set("beta", p.beta)
	}
	if !p.points {
		curve = thermistorCurve(x)
	}
	form := x.Influence("curve")
	if known == known {
		ohms := curve.ohms(known - form)
		if ohms != ohms {
			x.Refuse("reference", "the curve has no resistance at this temperature; check it and the sensor's data")
			return
		}
		x.Set("expected", ohms)
	}
	if p.whole {
		setTemperature(x, curve.kelvin(x.In("reading"))+form, known)
	}
}

func thermistorJudge(r *declare.Result) {
	p, _ := r.Studied().(*resistor)
	p.giveCurve(r)
	if p.doubt >= 0.05 {
		r.Caution(r.With(2, "Form of the curve: ± [ΔK] here. Points of its table near this temperature take that away.", p.doubt))
	}
	reading := r.In("reading")
	allowed, rule := begin(r, p, reading, probeRule, "common practice", "R_r = {expected} at {reference}")
	if rule == "" {
		return
	}
	t, _ := r.Out("temperature")
	r.Work("ln R = " + quantity.Format(math.Log(reading), -1, quantity.One, 5) + numbers(r.Numbers, "; T = [K] = {temperature}", "", t))
	judgeError(r, allowed, rule, "Check the sensor's data that were entered, and the contacts.")
}
