package load

import (
	"blankoff/calc/declare"
	"blankoff/calc/quantity"
	"blankoff/calc/uncertainty"
)

// IceLoad is the water that a batch gives up, against what the trap can hold.
var IceLoad = declare.Calculator{
	ID:       "ice-load",
	Title:    "Water of a batch and the trap",
	Group:    declare.TemperaturePowerFitting,
	Decision: "Does the trap hold the water of this batch?",
	Inputs: []declare.Input{
		{ID: "mass", Label: "Batch, fresh", Symbol: "m", Kinds: []quantity.Kind{quantity.Mass}, Unit: "kg", Units: []string{"g", "lb", "oz"},
			Min: "1 g", Max: "100000 kg", UsualLow: "0.1 kg", UsualHigh: "100 kg", Required: true, Rising: 1, Help: "Weighed without trays."},
		{ID: "water", Label: "Water content", Symbol: "x", Kinds: []quantity.Kind{quantity.Ratio}, Unit: "%",
			Min: "0 %", Max: "100 %", UsualLow: "20 %", UsualHigh: "98 %", Required: true, Rising: 1, Help: "Share of the fresh mass, from a food table or a dried sample."},
		{ID: "residual", Label: "Water left when dry", Symbol: "r", Kinds: []quantity.Kind{quantity.Ratio}, Unit: "%",
			Min: "0 %", Max: "99 %", UsualLow: "0.5 %", UsualHigh: "10 %", Default: "3 %", Because: "as usual for food, from memory", Rising: -1, Help: "Share of the dried mass."},
		{ID: "capacity", Label: "Ice that the trap holds", Symbol: "k", Kinds: []quantity.Kind{quantity.Mass}, Unit: "kg", Units: []string{"g", "lb"},
			Min: "1 g", Max: "100000 kg", UsualLow: "0.5 kg", UsualHigh: "100 kg", Help: "From the machine's card. Less what already hangs there."},
	},
	Influences: []declare.Influence{{ID: "content", Text: "water content without ±", U: contentU}},
	Outputs: []declare.Output{
		{ID: "removed", Label: "Water removed, ice on the trap", Symbol: "w", Kind: quantity.Mass, Unit: "kg", UnitOf: "mass", Also: []string{"g", "lb"}},
		{ID: "dried", Label: "Batch when dry", Symbol: "d", Kind: quantity.Mass, Unit: "kg", UnitOf: "mass"},
		{ID: "share", Label: "Share of the trap", Symbol: "s", Kind: quantity.Ratio, Unit: "%"},
		{ID: "most", Label: "Largest batch that surely fits", Symbol: "m*", Kind: quantity.Mass, Unit: "kg", UnitOf: "mass", Derived: true},
	},
	Formula: []string{
		"w = m − m (1 − x) / (1 − r); what is dry stays: m (1 − x) = d (1 − r)",
		"s = w / k",
		"m* = m / (s + U); U is the expanded uncertainty of s, rounded down to two figures",
	},
	Sources: []declare.Source{
		{Title: "Balance of the dry matter", Where: "our notes of the trade, section 7, no. 26", Mark: declare.CommonPractice},
		{Title: "Water content ± 5 % of the fresh mass where none is stated", Where: "our notes of the trade, section 7", Mark: declare.CommonPractice},
	},
	Cautions: []string{"A full trap warms and lets vapour through to the pump. Thaw, drain and dry it before the next batch."},
	Hazards:  []string{"cold", "food"},
	Limits:   []string{"All the water counts as ice on the trap: a small pump takes a gram an hour.", "Alcohol, oil and sugar do not freeze out as water does."},
	Example: declare.Example{
		In:   []declare.Pair{{Name: "mass", Text: "4.8 kg"}, {Name: "water", Text: "82 %"}, {Name: "residual", Text: "3 %"}, {Name: "capacity", Text: "3.6 kg"}},
		Want: []declare.Pair{{Name: "removed", Text: "3.91 ± 0.25 kg"}, {Name: "share", Text: "108.6 ± 6.9 %"}},
		From: "our notes of the trade, section 7: 3.91 kg, above 3.6 kg; ± by hand: 4.8 kg · 0.05 / 0.97",
	},
	Eval:  iceEval,
	Judge: iceJudge,
}

// contentU stands in for an accuracy that was not written. It is no Accuracy of the
// input, as "± 5 %" of a share can be read in two ways.
func contentU(x *declare.Numbers) float64 {
	if x.Typed("water").HasU {
		return 0
	}
	return uncertainty.FromAccuracy(0.05)
}

func iceEval(x *declare.Numbers) {
	mass := x.In("mass")
	removed := Removed(mass, x.In("water")+x.Influence("content"), x.In("residual"))
	x.Set("removed", removed)
	x.Set("dried", mass-removed)
	if x.Has("capacity") {
		x.Set("share", removed/x.In("capacity"))
	}
}

func iceJudge(r *declare.Result) {
	water, residual := r.In("water"), r.In("residual")
	if water <= residual {
		r.Refuse("residual", r.Fill("the batch cannot end wetter than it began: the water left, {residual}, must be less than the {water} at the start"))
		return
	}
	r.WorkWith(4, "d = m (1 − x) / (1 − r) = {mass} × [] / [] = {dried}", 1-water, 1-residual)
	r.Work("w = m − d = {mass} − {dried} = {removed}")
	if !r.Typed("water").HasU {
		r.Caution("Water content given without ±: ± 5 % of the fresh mass taken.")
	}
	share, u := r.Out("share")
	if share == 0 { // some water leaves, so the share is above nought where there is one
		r.Caution("No capacity given, so there is no verdict.")
		return
	}
	u *= uncertainty.K
	r.Set("most", roundDown(r.In("mass")/(share+u)))
	r.WorkWith(4, "s = w / k = {removed} / {capacity} = {share}; surely fits: {mass} / [] = {most}", share+u)
	r.Decide(uncertainty.AtMost(share, u, 1),
		"{removed} of ice is not more than the trap's {capacity}, uncertainty allowed for. It fits.",
		"{removed} of ice is more than the trap's {capacity}. Split the batch: {most} at once surely fits.",
		"{removed} of ice may be more than the trap's {capacity}. A batch of {most}, or the water content of a dried sample, would settle it.")
}
