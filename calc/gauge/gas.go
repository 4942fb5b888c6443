package gauge

import (
	"math"

	"blankoff/calc/declare"
	"blankoff/calc/quantity"
	"blankoff/calc/uncertainty"
	"blankoff/calc/vacuum"
)

// gases are the factors C of one maker for gauges set in air, true = C × shown, mean
// values from 0.01 to 1 mbar: testdata/reference/17_gauge_facts.csv; neon, krypton and
// carbon dioxide from the README of the same collection.
var gases = [...]struct {
	id string
	c  float64
}{
	{"none", 1}, {"argon", 1.7}, {"carbon dioxide", 0.9}, {"carbon monoxide", 1}, {"freon 12", 0.7}, {"helium", 0.8},
	{"hydrogen", 0.5}, {"krypton", 2.4}, {"neon", 1.4}, {"nitrogen", 1}, {"xenon", 3},
}

// GasCorrection gives the true pressure that a thermal gauge set in air stands for.
var GasCorrection = declare.Calculator{
	ID:       "gas-correction",
	Title:    "Thermal gauge in another gas",
	Group:    declare.GaugeAndSensor,
	Decision: "What is the true pressure when the gas is not air: is the chamber wet, or bad?",
	Inputs: []declare.Input{
		{ID: "reading", Label: "Gauge shows", Symbol: "p_g", Kinds: []quantity.Kind{quantity.Pressure}, Unit: "mTorr", Units: []string{"Pa", "mbar", "Torr", "micron"},
			Min: "0 Pa", Max: "200 kPa", UsualLow: "0.001 Torr", UsualHigh: "1 Torr", Required: true, Rising: 1, Help: "A thermal gauge that is set for air, at most 2,000 mTorr."},
		{ID: "water-low", Label: "Water vapour, least", Symbol: "w₁", Kinds: []quantity.Kind{quantity.Ratio}, Unit: "%", Min: "0 %", Max: "100 %",
			Default: "0 %", Because: "as nothing is known of the gas", Help: "Share of the pressure. Dry and empty: 0 %. Ice in the chamber: near 100 %."},
		{ID: "water-high", Label: "Water vapour, most", Symbol: "w₂", Kinds: []quantity.Kind{quantity.Ratio}, Unit: "%", Min: "0 %", Max: "100 %",
			Default: "100 %", Because: "as nothing is known of the gas", Help: "The same as the least where the share is known. Blank: all that is not the other gas."},
		{ID: "other", Label: "Another gas", Choices: []declare.Choice{{Value: "none", Label: "none"}, {Value: "argon", Label: "argon"}, {Value: "carbon dioxide", Label: "carbon dioxide"}, {Value: "carbon monoxide", Label: "carbon monoxide"}, {Value: "freon 12", Label: "freon 12"},
			{Value: "helium", Label: "helium"}, {Value: "hydrogen", Label: "hydrogen"}, {Value: "krypton", Label: "krypton"}, {Value: "neon", Label: "neon"}, {Value: "nitrogen", Label: "nitrogen"}, {Value: "xenon", Label: "xenon"}},
			Default: "none", Help: "Such as argon, or a gas used to search for leaks."},
		{ID: "other-share", Label: "Share of the other gas", Symbol: "s", Kinds: []quantity.Kind{quantity.Ratio}, Unit: "%", Min: "0 %", Max: "100 %", Help: "Of the pressure. What is left is air."},
		{ID: "factor-low", Label: "Factor of water vapour, low", Symbol: "f₁", Kinds: []quantity.Kind{quantity.Ratio}, Unit: "", Min: "0.5", Max: "5",
			Default: "1.49", Because: "from kinetic theory (1.49 to 1.62) and from one maker's factor 0.5, which is 2.0 times", Help: "How many times the true pressure the gauge shows in vapour; 1 / C where its maker gives a C."},
		{ID: "factor-high", Label: "Factor of water vapour, high", Symbol: "f₂", Kinds: []quantity.Kind{quantity.Ratio}, Unit: "", Min: "0.5", Max: "5",
			Default: "2", Because: "from kinetic theory (1.49 to 1.62) and from one maker's factor 0.5, which is 2.0 times", Help: "The same as the low one where the maker of this gauge gives it."},
		{ID: "gauge", Label: "Gauge accuracy in air", Symbol: "a", Kinds: []quantity.Kind{quantity.Ratio}, Unit: "%",
			Min: "0 %", Max: "100 %", UsualLow: "0.1 %", UsualHigh: "50 %", Default: thermalAccuracy, Because: thermalBecause, Help: "± of reading."},
	},
	Influences: []declare.Influence{
		{ID: "scale", Text: "scale error of the gauge", U: vacuum.GaugeU},
		{ID: "mix", Text: "gas anywhere in its range, for the best value", U: func(x *declare.Numbers) float64 {
			low, high := timesOf(x)
			return uncertainty.FromHalfWidth(math.Log(high/low) / 2)
		}},
	},
	Outputs: []declare.Output{
		{ID: "best", Label: "True pressure, best value", Symbol: "p", Kind: quantity.Pressure, Unit: "mTorr", UnitOf: "reading", Also: []string{"Pa", "mbar"}},
		{ID: "low", Label: "True pressure, lowest", Symbol: "p₁", Kind: quantity.Pressure, Unit: "mTorr", UnitOf: "reading", Also: []string{"Pa"}},
		{ID: "high", Label: "True pressure, highest", Symbol: "p₂", Kind: quantity.Pressure, Unit: "mTorr", UnitOf: "reading", Also: []string{"Pa"}},
	},
	Formula: []string{
		"p = p_g / k",
		"k = 1 + w (f − 1) + s (1 / C − 1); each gas adds its own part to what is shown",
		"p = p_g / √(k₁ k₂); the best value, k₁ and k₂ being the least and the most that k can be",
	},
	Sources: []declare.Source{
		{Title: "Factors C of the gases; water vapour 0.5", Where: "INFICON BCG450 operating manual (tina40e1), p. 54, in testdata/reference/17_gauge_facts.csv", Mark: declare.Published},
		{Title: "Water vapour 1.49 to 1.62", Where: "our notes of the trade, 2.9, from kinetic theory with γ of 1.33 to 1.30", Mark: declare.Computed},
		{Title: "Parts add in a mixture; nothing above 2,000 mTorr", Where: "", Mark: declare.CommonPractice},
	},
	Cautions: []string{"It corrects for the gas, not for dirt: a gauge that disagrees in dry air stays wrong."},
	Limits: []string{
		"The two sources for water vapour differ by a third and neither was measured on your tube. The whole range, 1.49 to 2.0, stands until you give your gauge's own factor.",
		"The factors are means from 7.5 to 750 mTorr. Outside, and in mixtures, they shift.",
		"A capacitance gauge does not feel the gas: leave its readings alone.",
	},
	Example: declare.Example{
		In:   []declare.Pair{{Name: "reading", Text: "617 mTorr"}, {Name: "water-low", Text: "100 %"}, {Name: "water-high", Text: "100 %"}, {Name: "factor-low", Text: "1.5"}, {Name: "factor-high", Text: "1.7"}, {Name: "gauge", Text: "0 %"}},
		Want: []declare.Pair{{Name: "best", Text: "386 ± 28 mTorr"}, {Name: "low", Text: "362.9 mTorr"}, {Name: "high", Text: "411.3 mTorr"}},
		From: "our notes of the trade, case 2, by hand: 617 / 1.6 = 385, 617 / 1.7 and 617 / 1.5; ± is ln(1.7 / 1.5) / √3 of it",
	},
	Study: gasEntries,
	Eval:  gasEval,
	Judge: gasJudge,
}

// timesOf gives the least and the most times the true pressure that the gauge shows.
// The shares bend it one way or the other, so all four ends are tried.
func timesOf(x *declare.Numbers) (low, high float64) {
	rest, least, most := 1.0, x.In("water-low"), x.In("water-high")
	if x.Has("other-share") {
		share, other := x.In("other-share"), x.Choice("other")
		for i := range gases {
			if g := &gases[i]; g.id == other {
				rest += share * (1/g.c - 1)
			}
		}
		if most > 1-share && !x.Written("water-high") {
			most = 1 - share
		}
	}
	low = math.MaxFloat64
	f1, f2 := x.In("factor-low")-1, x.In("factor-high")-1
	for end := 0; end < 4; end++ {
		times, f := least, f1
		if end > 1 {
			times = most
		}
		if end&1 == 1 {
			f = f2
		}
		times = rest + times*f
		if times < low {
			low = times
		}
		if times > high {
			high = times
		}
	}
	return low, high
}

func gasEval(x *declare.Numbers) {
	low, high := timesOf(x)
	shown := x.In("reading") * (1 + x.Influence("scale"))
	x.Set("best", shown/math.Sqrt(low*high)*math.Exp(x.Influence("mix")))
	x.Set("low", shown/high)
	x.Set("high", shown/low)
}

// gasEntries refuses what cannot be a mixture, before anything is divided by it.
func gasEntries(x *declare.Numbers) any {
	other, given, share := x.Choice("other"), x.Has("other-share"), 0.0
	if given {
		share = x.In("other-share")
	}
	least, most := x.In("water-low"), x.In("water-high")
	field, text := "", ""
	switch {
	case x.In("reading") > ceiling*(1+tie):
		field, text = "reading", "above {2,000 mTorr} a thermal gauge no longer follows the gas by one factor; pump further down, or use a capacitance gauge"
	case least > most:
		field, text = "water-high", "the most water vapour is less than the least; change the two"
	case x.In("factor-low") > x.In("factor-high"):
		field, text = "factor-high", "the high factor is below the low one; give both"
	case other != "none" && !given:
		field, text = "other-share", "how much of the gas is "+other+"? Write its share of the pressure, such as 50 %"
	case other == "none" && share > 0:
		field, text = "other", "a share of another gas is given; say which gas it is"
	case share+least > 1+tie || share+most > 1+tie && x.Written("water-high"):
		field, text = "water-high", "water vapour and the other gas are more than 100 % together"
	default:
		return nil
	}
	x.Refuse(field, text)
	return nil
}

func gasJudge(r *declare.Result) {
	low, high := timesOf(r.Numbers)
	r.WorkWith(4, "k₁ = [], k₂ = [] times the true pressure, from k = 1 + w (f − 1) + s (1 / C − 1)", low, high)
	r.WorkWith(4, "p = p_g / k: {reading} / [] = {low}; {reading} / [] = {high}; best: {reading} / √(k₁ k₂) = {best}", high, low)
	if high > low*1.05 {
		r.Caution(declare.With(4, "The gas alone leaves a span of [] times. Dry the chamber, or use a gauge that does not feel the gas.", high/low))
	}
}
