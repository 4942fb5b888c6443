package pumping

import (
	"blankoff/calc/declare"
	"blankoff/calc/quantity"
	"blankoff/calc/uncertainty"
)

// OilLife says whether the pump's oil is due. What is seen goes before hours: oil that is
// milky, dark or smells burnt is due however new it is.
var OilLife = declare.Calculator{
	ID:       "oil-life",
	Title:    "Oil: due or not",
	Group:    declare.PumpAndLines,
	Decision: "Is the pump's oil due for a change, and why?",
	Inputs: []declare.Input{
		{ID: "hours", Label: "Run since the last change", Symbol: "h", Kinds: []quantity.Kind{quantity.Time}, Unit: "h", Units: []string{"d"},
			Min: "0 s", Max: "1e5 h", UsualLow: "0 h", UsualHigh: "3,000 h", Required: true, Help: "Hours of the pump, not of the calendar."},
		{ID: "interval", Label: "Change interval", Symbol: "i", Kinds: []quantity.Kind{quantity.Time}, Unit: "h", Units: []string{"d"},
			Min: "1 h", Max: "1e5 h", UsualLow: "20 h", UsualHigh: "3,000 h", Required: true, Help: "From the pump's card, for dry work."},
		{ID: "wet-runs", Label: "Wet runs since", Symbol: "n", Kinds: []quantity.Kind{quantity.Ratio}, Min: "0", Max: "10000", UsualLow: "0", UsualHigh: "200", Default: "0",
			Because: "as for dry runs only", Help: "Runs in which vapour reached the pump: wet loads, a warm trap, a defrost too early."},
		{ID: "ballast", Label: "Ballast hours since", Symbol: "b", Kinds: []quantity.Kind{quantity.Time}, Unit: "h", Units: []string{"min"}, Min: "0 s", Max: "1e5 h", UsualLow: "0 h", UsualHigh: "500 h",
			Default: "0 h", Because: "as for dry runs only", Help: "Time with the gas ballast open to dry the oil."},
		{ID: "wet-weight", Label: "A wet run counts as", Symbol: "w", Kinds: []quantity.Kind{quantity.Time}, Unit: "h", Units: []string{"min"}, Min: "0 s", Max: "1000 h", UsualLow: "0 h", UsualHigh: "50 h",
			Default: "5 h", Because: "from memory; your own records are better", Accuracy: "50 %", Help: "Further hours of wear."},
		{ID: "ballast-weight", Label: "A ballast hour makes good", Symbol: "g", Kinds: []quantity.Kind{quantity.Time}, Unit: "h", Units: []string{"min"}, Min: "0 s", Max: "100 h", UsualLow: "0 h", UsualHigh: "10 h",
			Default: "2 h", Because: "from memory; your own records are better", Accuracy: "50 %", Help: "Of what wet runs added, never of the hours run."},
		{ID: "amber", Label: "Amber oil ages faster by", Symbol: "m", Kinds: []quantity.Kind{quantity.Ratio}, Unit: "%", Min: "0 %", Max: "500 %", UsualLow: "0 %", UsualHigh: "100 %",
			Default: "20 %", Because: "from memory; your own records are better", Help: "Counts only when the colour below is amber."},
		{ID: "colour", Label: "Colour", Required: true, Help: "Beside fresh oil, in a white cup.",
			Choices: []declare.Choice{{Value: "clear", Label: "clear as new"}, {Value: "amber", Label: "amber"}, {Value: "dark", Label: "dark brown"}, {Value: "black", Label: "black"}}},
		{ID: "clarity", Label: "Clarity", Required: true, Help: "In the sight glass, pump stopped for 30 min.",
			Choices: []declare.Choice{{Value: "clear", Label: "clear"}, {Value: "cloudy", Label: "cloudy"}, {Value: "milky", Label: "milky"}}},
		{ID: "smell", Label: "Smell", Default: "none", Help: "Do not breathe it in: wave some air towards you.",
			Choices: []declare.Choice{{Value: "none", Label: "none, or of fresh oil"}, {Value: "burnt", Label: "burnt or acid"}, {Value: "solvent", Label: "solvent"}}},
		{ID: "level", Label: "Level", Default: "at the mark", Help: "Pump stopped.",
			Choices: []declare.Choice{{Value: "at the mark", Label: "at the mark"}, {Value: "risen", Label: "risen since it was filled"}, {Value: "low", Label: "below the mark"}}},
	},
	Outputs: []declare.Output{
		{ID: "due", Label: "Due in", Symbol: "d", Kind: quantity.Time, Unit: "h", Also: []string{"d"}},
		{ID: "worn", Label: "Hours that count", Symbol: "k", Kind: quantity.Time, Unit: "h"},
		{ID: "state", Label: "State"},
	},
	Formula: []string{
		"k = h + n w − b g; the wet runs less the ballast never count below nought, and amber oil has h (1 + m) for h",
		"d = i − k; or now, where the look of the oil says so",
	},
	Sources: []declare.Source{
		{Title: "Milky, dark, burnt or acid oil is changed at once; ballast dries oil", Where: "", Mark: declare.CommonPractice},
		{Title: "Weights of wet runs, ballast hours and amber colour", Where: "", Mark: declare.Memory},
	},
	Cautions: []string{
		"Good looks prove little: the blank-off test is what clears a pump.",
		"Drain it warm, not hot, over a tray. Used oil goes to a collection point; local rules decide.",
	},
	Hazards: []string{"hot-oil", "skin", "fumes"},
	Limits:  []string{"The weights are a rule of thumb. A shop that notes hours, looks and blank-off at each change soon has better ones."},
	Example: declare.Example{
		In: []declare.Pair{{Name: "hours", Text: "120 h"}, {Name: "interval", Text: "200 h"}, {Name: "wet-runs", Text: "6"}, {Name: "wet-weight", Text: "5 h ± 50 %"}, {Name: "ballast", Text: "8 h"},
			{Name: "ballast-weight", Text: "2 h ± 50 %"}, {Name: "colour", Text: "clear"}, {Name: "clarity", Text: "clear"}},
		Want: []declare.Pair{{Name: "due", Text: "66 ± 17 h"}, {Name: "worn", Text: "134 ± 17 h"}, {Name: "state", Text: "not due"}},
		From: "by hand: 120 + 6 · 5 − 8 · 2 = 134; ± √(15² + 8²) = 17",
	},
	Eval:  oilEval,
	Judge: oilJudge,
}

func oilEval(x *declare.Numbers) {
	worn := x.In("hours")
	if x.Choice("colour") == "amber" {
		worn *= 1 + x.In("amber")
	}
	if wet := x.In("wet-runs")*x.In("wet-weight") - x.In("ballast")*x.In("ballast-weight")/3600; wet > 0 {
		worn += wet
	}
	x.Set("worn", worn)
	if state, _ := oilLooks(x); state == "" {
		x.Set("due", x.In("interval")-worn)
	}
}

// looks are the looks that decide, the first that is met before the others.
var looks = [...]struct{ input, choice, state, why string }{
	{"clarity", "milky", "due now: milky", "Milky oil holds free water, whatever its hours. Change it, run 30 min and change again if it clouds; then find how the water got past the trap."},
	{"smell", "burnt", "due now: burnt", burntOil},
	{"colour", "black", "due now: burnt", burntOil},
	{"colour", "dark", "due now: dark", "Dark oil is spent, whatever its hours. Change it and flush once."},
	{"smell", "solvent", "due now: solvent", "Solvent in the oil keeps the pressure up and may catch fire. Pump off and cool; change the oil and flush, away from flames."},
}

const burntOil = "Burnt oil has lost its body and eats the seals. Change it, flush, and change again; check the oil level and the exhaust filter for the cause."

// oilLooks gives the state and the reason where the look of the oil decides; else nothing.
func oilLooks(x *declare.Numbers) (state, why string) {
	for i := range looks {
		if l := &looks[i]; x.Choice(l.input) == l.choice {
			return l.state, l.why
		}
	}
	return "", ""
}

func oilJudge(r *declare.Result) {
	r.Work("k = {worn}, interval {interval}")
	level := r.Choice("level")
	if level == "low" {
		r.Caution("The level is low: find where the oil went, and fill to the mark with the card's grade before the pump runs again.")
	}
	is := declare.Fail
	state, text := oilLooks(r.Numbers)
	if state == "" {
		due, u := r.Out("due")
		decision := uncertainty.AtLeast(due, uncertainty.K*u, 1) // s: with nothing left it is due
		switch {
		case decision == uncertainty.Fail:
			state, text = "due by hours", "{worn} count against an interval of {interval}: change it."
		case r.Choice("clarity") == "cloudy" || level == "risen":
			is, state = declare.CannotTell, "perhaps wet"
			text = "Cloudy oil, or more of it than was filled in, may be water. Ballast open for 60 min on the capped pump, then a look: clear oil at its mark would settle it, and so would cloudy oil, which is changed."
		case decision == uncertainty.CannotTell:
			is, state = declare.CannotTell, "about due"
			text = "{worn} count against an interval of {interval}, and the weights are only a rule of thumb. A blank-off test would settle it: if the pump passes, run on; if not, change the oil."
		default:
			is, state, text = declare.Pass, "not due", "Not due by hours or by looks: {due} of {interval} are left."
		}
	}
	r.Text("state", state)
	r.Verdict(is, text)
}
