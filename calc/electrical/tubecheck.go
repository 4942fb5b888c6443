package electrical

import (
	"blankoff/calc/declare"
	"blankoff/calc/quantity"
)

// The two ways of building a tube.
const (
	insulated = "insulated"
	jointLegs = "joined"
)

// TubeCheck takes the ten resistances of a sensor tube together: six pairs of pins, and
// each pin to the case. Alone each says little; together they tell a broken wire from a
// bad contact, and say which wire.
//
// In an insulated tube the pairs A–B and C–D are wires and the four pairs across must be
// apart. In a joined one four legs meet at a point, so each pair is the sum of two legs;
// see fitLegs. A pair above the card's limit by less than a third is a doubt and no
// fault: a contact is likelier than a worn wire (our notes of the trade, common practice).
var TubeCheck = declare.Calculator{
	ID:       "tube-check",
	Title:    "Sensor tube, all pins",
	Group:    declare.GaugeAndSensor,
	Decision: "Is this sensor tube electrically intact, or which part of it is open, shorted or badly met?",
	Inputs: []declare.Input{
		{ID: "construction", Label: "Junction", Choices: []declare.Choice{{Value: insulated, Label: "insulated from the heater"}, {Value: jointLegs, Label: "joined to the heater"}},
			Required: true, Help: "From the tube's card. Insulated: heater to couple must be open. Joined: all six pairs have a few ohms."},
		{ID: "ab", Label: "A to B, the heater", Symbol: "R_AB", Kinds: []quantity.Kind{quantity.Resistance}, Unit: "Ω", Units: []string{"kΩ", "MΩ"}, Min: "-5 Ω", Max: "100 GΩ", MayBeOver: true, Rising: 1,
			Help: "A and B are the heater's pins, C and D the couple's: 1, 4 and 6, 7 of a TQ-4; 2, 3 and 5, 8 of a TX-4. Lowest steady value of three."},
		{ID: "ac", Label: "A to C", Kinds: []quantity.Kind{quantity.Resistance}, Unit: "Ω", Units: []string{"kΩ", "MΩ"}, Min: "-5 Ω", Max: "100 GΩ", MayBeOver: true, Help: "OL when the meter shows over-range."},
		{ID: "ad", Label: "A to D", Kinds: []quantity.Kind{quantity.Resistance}, Unit: "Ω", Units: []string{"kΩ", "MΩ"}, Min: "-5 Ω", Max: "100 GΩ", MayBeOver: true, Help: "OL when the meter shows over-range."},
		{ID: "bc", Label: "B to C", Kinds: []quantity.Kind{quantity.Resistance}, Unit: "Ω", Units: []string{"kΩ", "MΩ"}, Min: "-5 Ω", Max: "100 GΩ", MayBeOver: true, Help: "OL when the meter shows over-range."},
		{ID: "bd", Label: "B to D", Kinds: []quantity.Kind{quantity.Resistance}, Unit: "Ω", Units: []string{"kΩ", "MΩ"}, Min: "-5 Ω", Max: "100 GΩ", MayBeOver: true, Help: "OL when the meter shows over-range."},
		{ID: "cd", Label: "C to D, the couple", Symbol: "R_CD", Kinds: []quantity.Kind{quantity.Resistance}, Unit: "Ω", Units: []string{"kΩ", "MΩ"}, Min: "-5 Ω", Max: "100 GΩ", MayBeOver: true,
			Help: "With the probes both ways round; enter the mean."},
		{ID: "a-case", Label: "A to the case", Kinds: []quantity.Kind{quantity.Resistance}, Unit: "MΩ", Units: []string{"Ω", "kΩ"}, Min: "-5 Ω", Max: "100 GΩ", MayBeOver: true, Help: "On the highest range; OL when it shows over-range."},
		{ID: "b-case", Label: "B to the case", Kinds: []quantity.Kind{quantity.Resistance}, Unit: "MΩ", Units: []string{"Ω", "kΩ"}, Min: "-5 Ω", Max: "100 GΩ", MayBeOver: true, Help: "On the highest range; OL when it shows over-range."},
		{ID: "c-case", Label: "C to the case", Kinds: []quantity.Kind{quantity.Resistance}, Unit: "MΩ", Units: []string{"Ω", "kΩ"}, Min: "-5 Ω", Max: "100 GΩ", MayBeOver: true, Help: "On the highest range; OL when it shows over-range."},
		{ID: "d-case", Label: "D to the case", Kinds: []quantity.Kind{quantity.Resistance}, Unit: "MΩ", Units: []string{"Ω", "kΩ"}, Min: "-5 Ω", Max: "100 GΩ", MayBeOver: true, Help: "On the highest range; OL when it shows over-range."},
		{ID: "range-top", Label: "Top of the highest range", Kinds: []quantity.Kind{quantity.Resistance}, Unit: "MΩ", Units: []string{"kΩ", "Ω"}, Min: "1 Ω", Max: "100 GΩ",
			Help: "The highest value that the meter can show, such as 20 MΩ. OL says that there is more than this, no more."},
		{ID: "leads", Label: "Probes held together", Symbol: "R₀", Kinds: []quantity.Kind{quantity.Resistance}, Unit: "Ω", Units: []string{"mΩ"}, Min: "-5 Ω", Max: "50 Ω", UsualLow: "-0.1 Ω", UsualHigh: "0.5 Ω",
			Required: true, Rising: -1, Help: "What the meter shows with its probe tips pressed together. 0 Ω after nulling."},
		{ID: "percent", Label: "Meter accuracy, share", Symbol: "a", Kinds: []quantity.Kind{quantity.Ratio}, Unit: "%", Min: "0 %", Max: "50 %", UsualLow: "0.01 %", UsualHigh: "5 %",
			Default: "1 %", Because: "as for a common meter", Help: "From the meter's booklet, for its lowest ohms range: ± (1 % + 3 counts)."},
		{ID: "counts", Label: "Meter accuracy, counts", Symbol: "n", Kinds: []quantity.Kind{quantity.Ratio}, Unit: "", Min: "0", Max: "1000", UsualLow: "0", UsualHigh: "50",
			Default: "3", Because: "as for a common meter", Help: "Counts of the last digit."},
		{ID: "resolution", Label: "Last digit", Symbol: "d", Kinds: []quantity.Kind{quantity.Resistance}, Unit: "Ω", Units: []string{"mΩ"}, Min: "1e-6 Ω", Max: "10 MΩ",
			Default: "0.1 Ω", Because: "as for a common meter", Help: "What one count is worth on the lowest range."},
		{ID: "heater-low", Label: "Card, heater at least", Kinds: []quantity.Kind{quantity.Resistance}, Unit: "Ω", Units: []string{"kΩ"}, Min: "0 Ω", Max: "1 MΩ", Help: "Insulated tube: from its card."},
		{ID: "heater-high", Label: "Card, heater at most", Kinds: []quantity.Kind{quantity.Resistance}, Unit: "Ω", Units: []string{"kΩ"}, Min: "0 Ω", Max: "1 MΩ", Help: "Insulated tube: from its card."},
		{ID: "couple-low", Label: "Card, couple at least", Kinds: []quantity.Kind{quantity.Resistance}, Unit: "Ω", Units: []string{"kΩ"}, Min: "0 Ω", Max: "1 MΩ", Help: "Insulated tube: from its card."},
		{ID: "couple-high", Label: "Card, couple at most", Kinds: []quantity.Kind{quantity.Resistance}, Unit: "Ω", Units: []string{"kΩ"}, Min: "0 Ω", Max: "1 MΩ", Help: "Insulated tube: from its card."},
		{ID: "card-ab", Label: "Card, A to B", Kinds: []quantity.Kind{quantity.Resistance}, Unit: "Ω", Units: []string{"kΩ"}, Min: "0.01 Ω", Max: "1 MΩ", Help: "Joined tube: from its card."},
		{ID: "card-ac", Label: "Card, A to C", Kinds: []quantity.Kind{quantity.Resistance}, Unit: "Ω", Units: []string{"kΩ"}, Min: "0.01 Ω", Max: "1 MΩ", Help: "Joined tube: from its card."},
		{ID: "card-ad", Label: "Card, A to D", Kinds: []quantity.Kind{quantity.Resistance}, Unit: "Ω", Units: []string{"kΩ"}, Min: "0.01 Ω", Max: "1 MΩ", Help: "Joined tube: from its card."},
		{ID: "card-bc", Label: "Card, B to C", Kinds: []quantity.Kind{quantity.Resistance}, Unit: "Ω", Units: []string{"kΩ"}, Min: "0.01 Ω", Max: "1 MΩ", Help: "Joined tube: from its card."},
		{ID: "card-bd", Label: "Card, B to D", Kinds: []quantity.Kind{quantity.Resistance}, Unit: "Ω", Units: []string{"kΩ"}, Min: "0.01 Ω", Max: "1 MΩ", Help: "Joined tube: from its card."},
		{ID: "card-cd", Label: "Card, C to D", Kinds: []quantity.Kind{quantity.Resistance}, Unit: "Ω", Units: []string{"kΩ"}, Min: "0.01 Ω", Max: "1 MΩ", Help: "Joined tube: from its card."},
		{ID: "tolerance", Label: "Tolerance of the card's pairs", Kinds: []quantity.Kind{quantity.Ratio}, Unit: "%", Min: "0.1 %", Max: "90 %",
			Default: "15 %", Because: "from the card of the demonstration tube TX-4", Help: "Joined tube: how far a pair may be from its card."},
		{ID: "across", Label: "Heater to couple at least", Kinds: []quantity.Kind{quantity.Resistance}, Unit: "MΩ", Units: []string{"kΩ"}, Min: "1 kΩ", Max: "100 GΩ",
			Default: "1 MΩ", Because: "as common practice, no source", Help: "Insulated tube: what A or B to C or D must have."},
		{ID: "case-limit", Label: "Pin to case at least", Kinds: []quantity.Kind{quantity.Resistance}, Unit: "MΩ", Units: []string{"kΩ"}, Min: "1 kΩ", Max: "100 GΩ",
			Default: "10 MΩ", Because: "as common practice, no source", Help: "Below 1 MΩ the tube is wet or shorted; between the two it is damp."},
	},
	Influences: []declare.Influence{
		{ID: "ab-error", Text: "error that the meter's maker allows at A to B", U: func(x *declare.Numbers) float64 { return meterU(x, "ab") }},
		{ID: "cd-error", Text: "the same at C to D", U: func(x *declare.Numbers) float64 { return meterU(x, "cd") }},
		{ID: "leads-error", Text: "the same with the probes held together", U: leadsU},
	},
	Outputs: []declare.Output{
		{ID: "heater", Label: "Heater pair", Symbol: "R₁", Kind: quantity.Resistance, Unit: "Ω"},
		{ID: "couple", Label: "Couple pair", Symbol: "R₂", Kind: quantity.Resistance, Unit: "Ω"},
		{ID: "state", Label: "State"},
		{ID: "proved", Label: "Proved"},
		{ID: "not-proved", Label: "Not proved"},
		{ID: "legs", Label: "Legs of the joined tube", Columns: []declare.Column{{ID: "leg", Label: "Leg"}, {ID: "resistance", Label: "Resistance", Kinds: []quantity.Kind{quantity.Resistance}, Unit: "Ω"}}},
		{ID: "residuals", Label: "Pairs against the legs", Columns: []declare.Column{{ID: "pair", Label: "Pair"}, {ID: "measured", Label: "Measured", Kinds: []quantity.Kind{quantity.Resistance}, Unit: "Ω"},
			{ID: "fitted", Label: "Sum of its legs", Kinds: []quantity.Kind{quantity.Resistance}, Unit: "Ω"}, {ID: "residual", Label: "Left over", Kinds: []quantity.Kind{quantity.Resistance}, Unit: "Ω"},
			{ID: "allowed", Label: "The meter explains up to", Kinds: []quantity.Kind{quantity.Resistance}, Unit: "Ω"}}},
	},
	Formula: []string{"R₁ = R_AB − R₀", "R₂ = R_CD − R₀", "R_ij = r_i + r_j; joined tube, least squares for the legs r", "r_i = (S_i − T) / 2; with all six pairs: S the sum at a pin, T a third of the sum of all six"},
	Sources: []declare.Source{
		{Title: "± (share + counts)", Where: "meter makers' notes, worked examples in testdata/reference/12_uncertainty.csv", Mark: declare.Published},
		{Title: "Legs by least squares", Where: "derived from the six sums, checked by draws", Mark: declare.Computed},
		{Title: "Limits of 1 MΩ and 10 MΩ; 30 % above the card is a contact sooner than a worn wire", Mark: declare.CommonPractice},
	},
	Cautions: []string{
		"It says nothing about how the gauge reads: a dirty filament measures perfectly. Compare the gauge with an independent one next.",
		"A couple that is warmer at one end makes a voltage of its own: 0.5 mV at 0.3 mA shows as 1.7 Ω. Measure cold, both ways round, and enter the mean.",
		"Plug pulled, tube unplugged and free of any board; use the ordinary ohms range only.",
	},
	Hazards: []string{"mains", "stored-charge", "static", "test-current"},
	Limits: []string{"One bad contact leaves the same pattern whether it was at a pair or at the pair that shares no pin with it; only the card tells the two apart.",
		"A contact that is bad at one pin in all three of its pairs looks like a longer leg and leaves nothing over."},
	Example: declare.Example{
		In: []declare.Pair{{Name: "construction", Text: "insulated"}, {Name: "ab", Text: "8.0 Ω"}, {Name: "cd", Text: "14.5 Ω"}, {Name: "ac", Text: "OL"}, {Name: "ad", Text: "OL"}, {Name: "bc", Text: "OL"}, {Name: "bd", Text: "OL"},
			{Name: "range-top", Text: "20 MΩ"}, {Name: "leads", Text: "0 Ω"}, {Name: "heater-low", Text: "6.9 Ω"}, {Name: "heater-high", Text: "9.3 Ω"}, {Name: "couple-low", Text: "12.4 Ω"}, {Name: "couple-high", Text: "16.8 Ω"}},
		Want: []declare.Pair{{Name: "heater", Text: "8.00 ± 0.48 Ω"}, {Name: "couple", Text: "14.50 ± 0.54 Ω"}, {Name: "state", Text: "electrically intact; pins to the case not measured"}},
		From: "our notes of the trade, section 10, case 3: 8.0 Ω, 14.5 Ω and open across is an intact TQ-4; ± by hand",
	},
	Eval:  tubeEval,
	Judge: tubeJudge,
}

// wires are the two pairs that an insulated tube has, by the IDs of their entries.
var wires = [2]struct{ output, name, entry, influence, low, high string }{
	{"heater", "the heater pair", "ab", "ab-error", "heater-low", "heater-high"},
	{"couple", "the couple pair", "cd", "cd-error", "couple-low", "couple-high"},
}

var (
	caseIDs = [4]string{"a-case", "b-case", "c-case", "d-case"}
	cardIDs = [6]string{"card-ab", "card-ac", "card-ad", "card-bc", "card-bd", "card-cd"}
)

func tubeEval(x *declare.Numbers) {
	for i := range wires {
		w := &wires[i]
		if x.Has(w.high) && x.In(w.low) > x.In(w.high) {
			x.Refuse(w.high, "the card's high limit is below its low one")
			return
		}
		if x.Has(w.entry) && !x.Typed(w.entry).Over {
			x.Set(w.output, x.In(w.entry)+x.Influence(w.influence)-(x.In("leads")+x.Influence("leads-error")))
		}
	}
}
