package gauge

import (
	"blankoff/calc/declare"
	"blankoff/calc/quantity"
	"blankoff/calc/uncertainty"
)

// Compare holds the machine's gauge against an independent one, at several pressures.
//
// The accuracies are what the two gauges promise, and the promise is what is tested:
// stricter accuracies let more pairs disagree. A gauge's scale error is the same at all
// its readings, so it stays in offset and gain however many pairs there are.
var Compare = declare.Calculator{
	ID:       "gauge-compare",
	Title:    "Machine gauge against an independent gauge",
	Group:    declare.GaugeAndSensor,
	Decision: "Do the two gauges agree within what they promise, and if not, what does the difference look like?",
	Inputs: []declare.Input{
		{ID: "readings", Label: "Pairs of readings", Required: true, Columns: []declare.Column{
			{ID: "machine", Label: "Machine gauge", Kinds: []quantity.Kind{quantity.Pressure}, Unit: "mTorr", Min: "0 Pa", Max: "200 kPa", Required: true},
			{ID: "reference", Label: "Independent gauge", Kinds: []quantity.Kind{quantity.Pressure}, Unit: "mTorr", Min: "0 Pa", Max: "200 kPa", Required: true},
		}, Help: "One line for each pressure, both steady for 2 min: the lowest, about 250 mTorr, about 900 mTorr."},
		{ID: "reference-accuracy", Label: "Accuracy of the independent gauge", Symbol: "a_r", Kinds: []quantity.Kind{quantity.Ratio}, Unit: "%",
			Min: "0.01 %", Max: "100 %", UsualLow: "0.2 %", UsualHigh: "30 %", Required: true,
			Help: "± of reading, from its certificate. Not known is not nought: ask for it first."},
		{ID: "machine-accuracy", Label: "Accuracy of the machine gauge", Symbol: "a_m", Kinds: []quantity.Kind{quantity.Ratio}, Unit: "%",
			Min: "0.01 %", Max: "100 %", UsualLow: "1 %", UsualHigh: "50 %", Default: thermalAccuracy, Because: thermalBecause, Help: "± of reading."},
		{ID: "machine-step", Label: "Display step of the machine gauge", Symbol: "d_m", Kinds: []quantity.Kind{quantity.Pressure}, Unit: "mTorr", Units: []string{"Pa", "mbar"},
			Min: "0 Pa", Max: "10 kPa", Default: "1 mTorr", Because: "as the usual display", Help: "The smallest change shown."},
		{ID: "reference-step", Label: "Display step of the independent gauge", Symbol: "d_r", Kinds: []quantity.Kind{quantity.Pressure}, Unit: "mTorr", Units: []string{"Pa", "mbar"},
			Min: "0 Pa", Max: "10 kPa", Default: "1 mTorr", Because: "as the usual display", Help: "The smallest change shown."},
		{ID: "gas", Label: "Gas in the chamber", Choices: []declare.Choice{{Value: "air", Label: "air, chamber dry"}, {Value: "wet", Label: "water vapour in it"}},
			Default: "air", Because: "as the procedure asks for", Help: "Vapour spoils the comparison: dry the chamber and pump 30 min first."},
	},
	Influences: []declare.Influence{
		{ID: "machine-scale", Text: "scale error of the machine gauge, common to all its readings", U: func(x *declare.Numbers) float64 { return x.In("machine-accuracy") / uncertainty.K }},
		{ID: "reference-scale", Text: "scale error of the independent gauge, common to all its readings", U: func(x *declare.Numbers) float64 { return x.In("reference-accuracy") / uncertainty.K }},
		{ID: "lowest-steps", Text: "display steps at the lowest pair, as a share of it", U: func(x *declare.Numbers) float64 { return pairsOf(x).lowestU }},
		{ID: "offset-fit", Text: "steps and wander of the readings, as they reach the offset", U: func(x *declare.Numbers) float64 { return pairsOf(x).fit.offsetU }},
		{ID: "gain-fit", Text: "steps and wander of the readings, as they reach the gain", U: func(x *declare.Numbers) float64 { return pairsOf(x).fit.gainU }},
	},
	Outputs: []declare.Output{
		{ID: "largest", Label: "Largest score", Symbol: "E", Kind: quantity.Ratio, Derived: true},
		{ID: "offset", Label: "Offset of the machine gauge", Symbol: "o", Kind: quantity.Pressure, Unit: "mTorr", Also: []string{"Pa"}},
		{ID: "gain", Label: "Gain of the machine gauge", Symbol: "g", Kind: quantity.Ratio},
		{ID: "times", Label: "Times the independent gauge, at the lowest pair", Symbol: "n", Kind: quantity.Ratio},
		{ID: "state", Label: "State"},
		{ID: "stands", Label: "As it stands"},
		{ID: "pairs", Label: "Pair by pair", Columns: []declare.Column{
			{ID: "machine", Label: "Machine", Kinds: []quantity.Kind{quantity.Pressure}, Unit: "mTorr"},
			{ID: "reference", Label: "Independent", Kinds: []quantity.Kind{quantity.Pressure}, Unit: "mTorr"},
			{ID: "difference", Label: "Difference", Kinds: []quantity.Kind{quantity.Pressure}, Unit: "mTorr"},
			{ID: "doubt", Label: "Common doubt", Kinds: []quantity.Kind{quantity.Pressure}, Unit: "mTorr"},
			{ID: "score", Label: "Score E", Kinds: []quantity.Kind{quantity.Ratio}},
		}},
	},
	Formula: []string{
		"E = |a − b| / √(A² + B²); A and B are the doubts of the two readings a and b, 95 %",
		"n = a / b; of the pair with the lowest b",
		"a = o + g b; fitted to the pairs up to 2,000 mTorr with errors in both readings",
	},
	Sources: []declare.Source{
		{Title: "Score E, agreement up to 1", Where: "ISO/IEC 17043 and ISO 13528, the form used in proficiency testing", Mark: declare.Published},
		{Title: "Line with errors in both readings (York)", Where: "", Mark: declare.Memory},
		{Title: "Dirt reads high at low pressure", Where: "testdata/reference/17_gauge_facts.csv, cases 17-O016 and 17-O017", Mark: declare.Published},
		{Title: "Shape of dirt and of a wrong heater current", Where: "model tube of our notes of the trade", Mark: declare.Computed},
		{Title: "Readings steady within 2 %, below 2,000 mTorr, three pressures", Where: "", Mark: declare.CommonPractice},
	},
	Cautions: []string{"Write “agrees with gauge number so-and-so”, not “calibrated”: this is a comparison with one gauge."},
	Hazards:  []string{"vacuum", "pane"},
	Limits: []string{
		"Two gauges that share an error, such as two thermal gauges in the same vapour, agree and are both wrong.",
		"Pairs above 2,000 mTorr count for the score, not for offset and gain: thermal gauges bend there.",
		"A pattern names what the difference looks like. It proves no cause.",
	},
	Performance: []string{
		"2,000 simulated comparisons of 3 to 6 pairs, 400 for each case: a sound gauge was said to agree, and dirt, a factor from 1.7 up and a heater current 6 % or more too high were named, in at least 98 % each; a bad contact in at least 90 %. A wrong pattern was named in at most 3 %.",
	},
	Example: declare.Example{
		In:   []declare.Pair{{Name: "readings", Text: "machine mTorr,reference mTorr\n410,92\n598,250\n1387,900\n4122,3000"}, {Name: "reference-accuracy", Text: "10 %"}, {Name: "machine-accuracy", Text: "20 %"}},
		Want: []declare.Pair{{Name: "largest", Text: "3.9"}, {Name: "state", Text: "machine high by a constant: pattern of a dirty filament"}},
		From: "our notes of the trade, case 3, computed: E 3.9, dirty filament",
	},
	Study: comparePairs,
	Eval:  compareEval,
	Judge: compareJudge,
	Plot:  &comparePlot,
}

func pairsOf(x *declare.Numbers) *pairs {
	p, _ := x.Studied().(*pairs)
	return p
}

func compareEval(x *declare.Numbers) {
	if low := pairsOf(x).lowest; low.reference > 0 {
		x.Set("times", low.machine*(1+x.Influence("machine-scale"))/(low.reference*(1+x.Influence("reference-scale")))*(1+x.Influence("lowest-steps")))
	}
	if fit := &pairsOf(x).fit; fit.ok {
		machine := 1 + x.Influence("machine-scale")
		x.Set("offset", fit.offset*machine+x.Influence("offset-fit"))
		x.Set("gain", fit.gain*machine*(1+x.Influence("reference-scale"))+x.Influence("gain-fit"))
	}
}
