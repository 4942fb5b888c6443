package vapour

import (
	"blankoff/calc/constant"
	"blankoff/calc/declare"
	"blankoff/calc/quantity"
)

// solvents hold what is taken where the reader gives no data of his own: density at
// 20 °C kg/m³, molar mass kg/mol, the two flammable limits as shares of the volume, and
// the exposure limit as a share. The limits of isopropyl alcohol are published (NIOSH
// Pocket Guide, as our notes of the trade quotes it); all other values are from memory.
var solvents = [...]struct {
	id string
	data
}{
	{"isopropyl alcohol", data{785, 0.06010, 0.020, 0.127, 400e-6}},
	{"ethanol", data{789, 0.04607, 0.033, 0.19, 1000e-6}},
	{"acetone", data{790, 0.05808, 0.025, 0.128, 250e-6}},
}

// data are the five values that an entry may replace, in the order of names.
type data [5]float64

const (
	density = iota
	molarMass
	lower
	upper
	exposure
)

var names = [5]string{"density", "molar-mass", "lower", "upper", "exposure"}

// lowerShare is the share of the lower explosive limit that must not be passed: 10 %, at
// which gas detectors commonly give their first alarm (common practice, no source).
const lowerShare = 0.1

// SolventVapour tells what some millilitres of solvent make of the air in a volume.
//
// It is an upper bound: all of it evaporates at once and none leaves. It is a mean, too:
// right above the liquid the air is far richer, so no result calls an amount safe, and a
// closed volume never passes.
var SolventVapour = declare.Calculator{
	ID:       "solvent-vapour",
	Title:    "Solvent vapour in air",
	Group:    declare.TemperaturePowerFitting,
	Decision: "Is this much solvent too much for the air here: can it burn, does it harm who breathes it?",
	Inputs: []declare.Input{
		{ID: "amount", Label: "Solvent", Symbol: "v", Kinds: []quantity.Kind{quantity.Volume}, Unit: "mL", Units: []string{"L", "cc"},
			Min: "0.001 mL", Max: "1000 L", UsualLow: "0.1 mL", UsualHigh: "1 L", Accuracy: "10 %", Required: true, Rising: 1, Help: "All that is poured, not what is left. 70 % alcohol counts as 70 % of it."},
		{ID: "solvent", Label: "Which solvent", Choices: []declare.Choice{{Value: "isopropyl alcohol"}, {Value: "ethanol"}, {Value: "acetone"}, {Value: "other", Label: "other: all five values below"}},
			Required: true, Help: "As on the label. A mixture is “other”, with its worst values from the safety data sheet."},
		{ID: "space", Label: "Air volume", Symbol: "V", Kinds: []quantity.Kind{quantity.Volume}, Unit: "m³", Units: []string{"L", "ft³", "gal"},
			Min: "1 mL", Max: "100000 m³", UsualLow: "1 L", UsualHigh: "1000 m³", Accuracy: "10 %", Required: true, Rising: -1, Help: "Chamber, or room length × width × height."},
		{ID: "place", Label: "Where", Choices: []declare.Choice{{Value: "closed", Label: "closed volume: chamber, tube, box"}, {Value: "room", Label: "room that people are in"}},
			Required: true, Help: "A closed volume is never called safe."},
		{ID: "temperature", Label: "Air temperature", Symbol: "T", Kinds: []quantity.Kind{quantity.Temperature}, Unit: "°C", Units: []string{"°F", "K"},
			Min: "-40 °C", Max: "100 °C", UsualLow: "0 °C", UsualHigh: "45 °C", Default: "20 °C", Because: "as in a usual room at sea level", Negative: true, Rising: 1, Help: "Of the air that the vapour mixes with."},
		{ID: "ambient", Label: "Air pressure here", Symbol: "p", Kinds: []quantity.Kind{quantity.Pressure}, Unit: "mbar", Units: []string{"kPa", "inHg", "Torr"},
			Min: "30 kPa", Max: "115 kPa", Default: "1,013.25 mbar", Because: "as in a usual room at sea level", Rising: -1, Help: "Of the air. Thin air makes the share larger."},
		{ID: "density", Label: "Density", Symbol: "ρ", Kinds: []quantity.Kind{quantity.Density}, Unit: "g/mL", Units: []string{"kg/m³"}, Min: "100 kg/m³", Max: "3000 kg/m³", Help: "From the safety data sheet. Blank: of the solvent named."},
		{ID: "molar-mass", Label: "Molar mass", Symbol: "M", Kinds: []quantity.Kind{quantity.MolarMass}, Unit: "g/mol", Units: []string{"kg/mol"}, Min: "10 g/mol", Max: "1000 g/mol", Help: "From the safety data sheet. Blank: of the solvent named."},
		{ID: "lower", Label: "Lower explosive limit", Symbol: "L", Kinds: []quantity.Kind{quantity.Ratio}, Unit: "%", Units: []string{"ppm"}, Min: "100 ppm", Max: "50 %", Help: "Share of the air's volume. Blank: of the solvent named."},
		{ID: "upper", Label: "Upper explosive limit", Symbol: "U", Kinds: []quantity.Kind{quantity.Ratio}, Unit: "%", Units: []string{"ppm"}, Min: "100 ppm", Max: "100 %", Help: "Share of the air's volume. Blank: of the solvent named."},
		{ID: "exposure", Label: "Exposure limit", Symbol: "E", Kinds: []quantity.Kind{quantity.Ratio}, Unit: "ppm", Units: []string{"%"}, Min: "0.001 ppm", Max: "5 %", Help: "Workplace limit where you are. Blank: of the solvent named."},
	},
	Outputs: []declare.Output{
		{ID: "concentration", Label: "Share of the air, all evaporated", Symbol: "c", Kind: quantity.Ratio, Unit: "ppm", Also: []string{"%"}},
		{ID: "explosive", Label: "Share of the lower explosive limit", Kind: quantity.Ratio, Unit: "%"},
		{ID: "breathed", Label: "Share of the exposure limit", Kind: quantity.Ratio, Unit: "%"},
		{ID: "vapour", Label: "Volume as vapour", Symbol: "V_g", Kind: quantity.Volume, Unit: "L"},
		{ID: "most", Label: "Amount that reaches a limit here", Symbol: "v*", Kind: quantity.Volume, Unit: "mL", Derived: true},
	},
	Formula: []string{
		"V_g = v ρ R T / (M p); ideal gas",
		"c = V_g / V; as if spread evenly and none had left",
		"c ≤ 0.1 L; and c ≤ E, taken as a limit at every moment",
	},
	Sources: []declare.Source{
		{Title: "Isopropyl alcohol: 2.0 to 12.7 %, 400 ppm", Where: "NIOSH Pocket Guide, as quoted in our notes of the trade, P-h", Mark: declare.Published},
		{Title: "Densities and molar masses; all limits of ethanol and acetone", Where: "", Mark: declare.Memory},
		{Title: "No more than 10 % of the lower explosive limit", Where: "", Mark: declare.CommonPractice},
	},
	Cautions: []string{
		"Right above the liquid the mixture burns whatever the figures say. No flame, heater, pump, switch or spark near it; vapour is heavier than air and creeps along the floor.",
		"Never pour or spray solvent into a port or chamber of a machine, and never pump on a part that is still wet.",
		"The safety data sheet and the local fire code decide, not this page. Limits differ from place to place.",
	},
	Hazards: []string{"solvent-fire", "fumes", "eyes", "skin"},
	Limits: []string{
		"A mean over the whole volume, without ventilation. A draught helps; a corner, a pit or a bench-top does not.",
		"In a closed volume the air may be saturated before all has evaporated; the rest evaporates when it is opened.",
		"An exposure limit is for a working day; a short breath above it is not at once an injury, nor is one below it a pleasure.",
	},
	Example: declare.Example{
		In:   []declare.Pair{{Name: "amount", Text: "5 mL ± 0 %"}, {Name: "solvent", Text: "isopropyl alcohol"}, {Name: "space", Text: "24 L ± 0 %"}, {Name: "place", Text: "closed"}},
		Want: []declare.Pair{{Name: "vapour", Text: "1.571 L"}, {Name: "concentration", Text: "65,460 ppm"}},
		From: "our notes of the trade, P-h: 1.6 L of vapour, 6.5 % in a closed 24 L chamber; digits by GNU units 2.22: 5 mL × 0.785 g/mL / (60.10 g/mol) × gasconstant × 293.15 K / atm",
	},
	Eval:  solventEval,
	Judge: solventJudge,
}

func (d *data) read(x *declare.Numbers) {
	solvent := x.Choice("solvent")
	for i := range solvents {
		if solvents[i].id == solvent {
			*d = solvents[i].data
		}
	}
	for i := range names {
		name := names[i]
		if x.Has(name) {
			d[i] = x.In(name)
		} else if d[i] == 0 {
			x.Refuse(name, "for a solvent that is not listed give this value, as in the safety data sheet")
		}
	}
}

func solventEval(x *declare.Numbers) {
	var d data
	d.read(x)
	vapour := x.In("amount") * d[density] / d[molarMass] * constant.Gas * x.In("temperature") / x.In("ambient")
	c := vapour / x.In("space")
	x.Set("concentration", c)
	x.Set("explosive", c/d[lower])
	x.Set("breathed", c/d[exposure])
	x.Set("vapour", vapour)
}
