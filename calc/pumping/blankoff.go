package pumping

import (
	"blankoff/calc/declare"
	"blankoff/calc/quantity"
)

// BlankOff judges a pump by what it reaches with its inlet capped.
var BlankOff = declare.Calculator{
	ID:       "blank-off",
	Title:    "Pump blank-off test",
	Group:    declare.PumpAndLines,
	Decision: "Is the pump with its oil good enough, or is it the fault?",
	Inputs: []declare.Input{
		{ID: "log", Label: "Readings", Columns: timeColumns, Required: true, Help: "At the capped inlet; every few minutes, the last for at least 5 min."},
		{ID: "limit", Label: "Service limit", Symbol: "L", Kinds: []quantity.Kind{quantity.Pressure}, Unit: "mTorr", Units: pressureUnits,
			Min: "1e-6 Pa", Max: "200 kPa", UsualLow: "1 mTorr", UsualHigh: "500 mTorr", Required: true, Help: "From the machine's card."},
		{ID: "ballast", Label: "Gas ballast", Choices: []declare.Choice{{Value: "closed", Label: "closed"}, {Value: "open", Label: "open"}}, Required: true, Help: "During these readings."},
		{ID: "oil", Label: "Oil", Choices: []declare.Choice{{Value: "warm", Label: "warm"}, {Value: "cold", Label: "cold"}, {Value: "unknown", Label: "not known"}}, Default: "unknown",
			Help: "Warm: the pump's body is hand-warm or hotter."},
		{ID: "warm", Label: "Pump has run", Symbol: "w", Kinds: []quantity.Kind{quantity.Time}, Unit: "min", Units: []string{"h"}, Min: "0 s", Max: "1000 d",
			Help: "Until the last reading. Left blank, the time that the readings span is taken."},
		gaugeInput,
		stepInput,
	},
	Influences: []declare.Influence{
		{ID: "scale", Text: "scale error of the gauge", U: gaugeU},
		{ID: "display", Text: "display step", U: displayU},
	},
	Outputs: []declare.Output{
		{ID: "reached", Label: "Reached", Symbol: "p", Kind: quantity.Pressure, Unit: "mTorr", Also: []string{"mbar"}},
		{ID: "times", Label: "Times the limit", Symbol: "n", Kind: quantity.Ratio},
		{ID: "state", Label: "State"},
		{ID: "change", Label: "Change at the end, in 5 min", Symbol: "c", Kind: quantity.Ratio, Unit: "%", Derived: true},
		{ID: "wait", Label: "Go on for", Kind: quantity.Time, Unit: "min", Derived: true},
	},
	Formula: []string{
		"U(p)² = (a p)² + (2 s / √12)²; p is the last reading",
		"n = p / L",
		"c = (p − q) / q; steady when within 2 %, q being the reading 5 min before the last",
	},
	Sources: []declare.Source{
		{Title: "Inlet capped, ballast closed, oil warm after 20 to 30 min; steady within 2 % in 5 min; wet oil above three times the limit", Where: "", Mark: declare.CommonPractice},
		{Title: "Water at 20 °C has 17.5 Torr of its own: free water keeps any pump from its limit", Where: "our notes of the trade, 2.7", Mark: declare.Computed},
		{Title: "Verdict by guard bands", Where: "JCGM 106:2012; ISO 14253-1", Mark: declare.Memory},
	},
	Cautions: []string{
		"It judges pump and oil together, with the tee and the cap: one leaking O-ring there looks like a bad pump.",
		"A pass clears the pump, not its hose. A pump that passes here and a chamber that does not: look at hose, chamber and gauge.",
	},
	Hazards: []string{"vacuum", "hot-oil"},
	Limits:  []string{"A thermal gauge reads water or solvent vapour high, up to twice. That helps to find it, but the number is then no pressure of air."},
	Example: declare.Example{
		In: []declare.Pair{{Name: "log", Text: "time min,pressure mTorr\n20,702\n25,694\n30,690"}, {Name: "limit", Text: "45 mTorr"}, {Name: "ballast", Text: "closed"}, {Name: "oil", Text: "warm"},
			{Name: "warm", Text: "30 min"}},
		Want: []declare.Pair{{Name: "reached", Text: "690 ± 140 mTorr"}, {Name: "state", Text: "wet oil suspected"}},
		From: "our notes of the trade, case 6: blank-off 690 mTorr, wet loads; ± 20 % by hand",
	},
	Study: blankStudy,
	Eval:  blankEval,
	Judge: blankJudge,
}

func blankEval(x *declare.Numbers) {
	b, _ := x.Studied().(*blankLog)
	reached := b.last*(1+x.Influence("scale")) + x.Influence("display")
	x.Set("reached", reached)
	x.Set("times", reached/x.In("limit"))
}
