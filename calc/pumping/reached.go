package pumping

import (
	"blankoff/calc/declare"
	"blankoff/calc/quantity"
	"blankoff/calc/uncertainty"
)

// Reached holds one reading against the highest that is still good.
var Reached = declare.Calculator{
	ID:       "reached",
	Title:    "Pressure reached against its limit",
	Group:    declare.PumpAndLines,
	Decision: "Is the pressure that was reached within its limit, or can this gauge not tell?",
	Inputs: []declare.Input{
		{ID: "reading", Label: "Gauge shows", Symbol: "p", Kinds: []quantity.Kind{quantity.Pressure}, Unit: "mTorr", Units: pressureUnits, Min: "0 Pa", Max: "200 kPa",
			UsualLow: "1 mTorr", UsualHigh: "2,000 mTorr", Required: true, Rising: 1, Help: "At the time that the limit names."},
		{ID: "limit", Label: "Limit", Symbol: "L", Kinds: []quantity.Kind{quantity.Pressure}, Unit: "mTorr", Units: pressureUnits, Min: "1e-6 Pa", Max: "200 kPa",
			UsualLow: "1 mTorr", UsualHigh: "2,000 mTorr", Required: true, Help: "The highest reading that is still good, from the machine's card."},
		gaugeInput,
		stepInput,
	},
	Influences: []declare.Influence{
		{ID: "scale", Text: "scale error of the gauge", U: gaugeU},
		{ID: "display", Text: "display step", U: displayU},
	},
	Outputs: []declare.Output{
		{ID: "reached", Label: "Reached", Symbol: "p", Kind: quantity.Pressure, Unit: "mTorr", UnitOf: "reading", Also: []string{"Pa", "mbar"}},
		{ID: "times", Label: "Times the limit", Symbol: "n", Kind: quantity.Ratio},
	},
	Formula: []string{
		"U(p)² = (a p)² + (2 s / √12)²",
		"n = p / L",
	},
	Sources: []declare.Source{
		{Title: "Verdict by guard bands", Where: "JCGM 106:2012; ISO 14253-1", Mark: declare.Memory},
		{Title: "Gauge ± 20 % where nothing is stated", Where: "", Mark: declare.Memory},
	},
	Cautions: []string{"One good reading is no proof of a repair: the way down and the rise of the closed chamber belong to it."},
	Hazards:  []string{"vacuum", "pane"},
	Limits:   []string{"A thermal gauge reads water vapour high, up to twice: a wet chamber looks worse than it is."},
	Example: declare.Example{
		In:   []declare.Pair{{Name: "reading", Text: "120 mTorr"}, {Name: "limit", Text: "150 mTorr"}},
		Want: []declare.Pair{{Name: "reached", Text: "120 ± 24 mTorr"}, {Name: "times", Text: "0.80 ± 0.16"}},
		From: "by hand: 20 % of 120 mTorr are 24, the display adds 0.6; 120 / 150 = 0.8",
	},
	Eval:  reachedEval,
	Judge: reachedJudge,
}

func reachedEval(x *declare.Numbers) {
	p := x.In("reading")*(1+x.Influence("scale")) + x.Influence("display")
	x.Set("reached", p)
	x.Set("times", p/x.In("limit"))
}

func reachedJudge(r *declare.Result) {
	p, u := r.Out("reached")
	limit := r.In("limit")
	r.Work("n = p / L = {reached} / {limit} = {times}")
	near := "{reached} may lie on either side of {limit}. "
	if rest := displayU(r.Numbers); r.Typed("reading").HasU {
		near += "A reading with less doubt would settle it, or one taken later." // its ± is the reader's own
	} else if settled := gaugeToSettle(r, p-limit, u, rest); settled != "" {
		near += settled + ", or a reading taken later."
	} else {
		near += "No gauge with this step would settle it; read again later."
	}
	r.Decide(uncertainty.AtMost(p, uncertainty.K*u, limit),
		"{reached} is within {limit}, doubt and all.",
		"{reached} is over {limit}, doubt allowed for. Air, vapour, the pump or the gauge itself: find out which.",
		near)
}
