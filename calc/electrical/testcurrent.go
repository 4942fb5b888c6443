package electrical

import (
	"math"

	"blankoff/calc/declare"
	"blankoff/calc/quantity"
	"blankoff/calc/uncertainty"
)

// TestCurrent compares what a meter's test current does to a filament with what the
// wire bears in service. Heat is what burns it, and heat goes with the square of the
// current: 1 mA is nothing where 200 mA is 23 times the normal heating.
//
// The rule: a tenth of the normal heating at most passes (common practice: it warms the
// wire too little to shift the reading); the normal heating or more fails. Between the
// two no wire burns, but the reading drifts, so the answer is another range.
var TestCurrent = declare.Calculator{
	ID:       "test-current",
	Title:    "Test current against the filament",
	Group:    declare.GaugeAndSensor,
	Decision: "May this range of the meter be used on this wire?",
	Inputs: []declare.Input{
		{ID: "test", Label: "Test current, or open voltage", Symbol: "I", Kinds: []quantity.Kind{quantity.Current, quantity.Voltage}, Unit: "mA", Units: []string{"µA", "A", "V"},
			Min: "0 A", Max: "1000 A", UsualLow: "0.001 mA", UsualHigh: "1 A", Accuracy: "10 %", Required: true, Rising: 1,
			Help: "From the booklet, for the range used. Where it tells only the voltage at the open probes, that: then the most that it can do is computed."},
		{ID: "resistance", Label: "Resistance of the wire", Symbol: "R", Kinds: []quantity.Kind{quantity.Resistance}, Unit: "Ω", Units: []string{"kΩ"},
			Min: "0.01 Ω", Max: "1 MΩ", UsualLow: "1 Ω", UsualHigh: "100 Ω", Required: true, Help: "From the tube's card."},
		{ID: "normal", Label: "Normal heating", Symbol: "I₀", Kinds: []quantity.Kind{quantity.Current, quantity.Power}, Unit: "mA", Units: []string{"A", "mW"},
			Min: "0 A", Max: "1000 A", UsualLow: "1 mA", UsualHigh: "1 A", Default: "42 mA", Because: "from the card of the demonstration tube TQ-4",
			Help: "The heater current in service, or its power."},
		{ID: "allowed", Label: "Allowed share", Symbol: "s₀", Kinds: []quantity.Kind{quantity.Ratio}, Unit: "%",
			Min: "0.01 %", Max: "100 %", Default: "10 %", Because: "as common practice, no source", Help: "Of the normal heating."},
	},
	Outputs: []declare.Output{
		{ID: "power", Label: "Heat in the wire", Symbol: "P", Kind: quantity.Power, Unit: "mW"},
		{ID: "share", Label: "Share of its normal heating", Symbol: "s", Kind: quantity.Ratio, Unit: "%"},
		{ID: "normal-power", Label: "Normal heating", Symbol: "P₀", Kind: quantity.Power, Unit: "mW"},
		{ID: "most", Label: "Highest test current that is allowed", Symbol: "I₁", Kind: quantity.Current, Unit: "mA"},
	},
	Formula: []string{"P = I² R; where only the open voltage is known, at most V² / R", "P₀ = I₀² R", "s = P / P₀", "I₁ = √(s₀ P₀ / R)"},
	Sources: []declare.Source{
		{Title: "Heat of a current", Where: "definition of resistance and power in the SI Brochure", Mark: declare.Computed},
		{Title: "A tenth passes, the whole fails", Mark: declare.CommonPractice},
	},
	Cautions: []string{
		"No diode, beeper, high-current or insulation test on a tube: their current is often unknown, and a bond tester of 200 mA opens a hair-thin wire.",
		"It says nothing about whether the wire is whole.",
	},
	Hazards: []string{"test-current"},
	Limits:  []string{"Steady current. The pulse of a charged capacitor or of a range that switches is not covered.", "The heater pair's card is for the heater; the couple's wires are as thin, and bear no more."},
	Example: declare.Example{
		In:   []declare.Pair{{Name: "test", Text: "200 mA ± 5 %"}, {Name: "resistance", Text: "8.1 Ω"}, {Name: "normal", Text: "42 mA"}},
		Want: []declare.Pair{{Name: "power", Text: "324 ± 32 mW"}, {Name: "share", Text: "2,270 ± 230 %"}, {Name: "normal-power", Text: "14.29 mW"}},
		From: "our notes of the trade, section 3, computed: 200 mA in 8.1 Ω is 324 mW, 23 times the normal 14.3 mW at 42 mA; ± by hand, twice 5 %",
	},
	Eval:  testCurrentEval,
	Judge: testCurrentJudge,
}

func testCurrentEval(x *declare.Numbers) {
	test, resistance, normal := x.In("test"), x.In("resistance"), x.In("normal")
	power := test * test * resistance
	if x.Kind("test") == quantity.Voltage {
		power = test * test / resistance
	}
	if x.Kind("normal") == quantity.Current {
		normal *= normal * resistance
	}
	if !(normal > 1e-15) { // far below what any wire bears; a share of nought is none
		x.Refuse("normal", "Normal heating must be above nought: write the heater current or its power from the tube's card, such as 42 mA")
		return
	}
	x.Set("power", power)
	x.Set("share", power/normal)
	x.Set("normal-power", normal)
	x.Set("most", math.Sqrt(x.In("allowed")*normal/resistance))
}

func testCurrentJudge(r *declare.Result) {
	share, u := r.Out("share")
	u *= uncertainty.K
	least := r.Kind("test") == quantity.Voltage // then the power is only a bound from above
	line := "P = I² R = ({test})² × {resistance} = {power}"
	if least {
		line = "P ≤ V² / R = ({test})² / {resistance} = {power}, as if nothing else limited the current"
	}
	r.Work(line)
	if r.Kind("normal") == quantity.Current {
		r.Work("P₀ = I₀² R = ({normal})² × {resistance} = {normal-power}")
	}
	r.Work("s = P / P₀ = {power} / {normal-power} = {share}; allowed are {allowed}")
	found := &currentUnsure
	switch {
	case uncertainty.AtMost(share, u, r.In("allowed")) == uncertainty.Pass:
		found = &currentPass
	case least:
		found = &currentBound
	case uncertainty.AtLeast(share, u, 1) == uncertainty.Pass:
		found = &currentFail
	}
	tell(r, found, signless(share), "")
}

// The findings on a test current: # stands for how many times the normal heating it is.
var (
	currentPass   = finding{uncertainty.Pass, "", "{power} is {share} of the wire's normal heating: this range may be used."}
	currentBound  = finding{uncertainty.CannotTell, "", "The open voltage alone allows up to {share} of the normal heating. Measuring the current with a second meter between the probes would settle it; until then do not use this range."}
	currentFail   = finding{uncertainty.Fail, "", "{power} is # times the wire's normal heating: never use this range on it. A range that surely stays under {most} may be used."}
	currentUnsure = finding{uncertainty.CannotTell, "", "{power} is {share} of the normal heating: more than the {allowed} allowed, or too near it, but not surely harmful. Do not use this range: a range that surely stays under {most} would settle it."}
)
