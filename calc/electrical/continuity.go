// Package electrical holds the calculators for an ordinary multimeter.
package electrical

import (
	"math"

	"blankoff/calc/declare"
	"blankoff/calc/quantity"
	"blankoff/calc/uncertainty"
)

// Limits of the trade, where no card limit is given.
const (
	// leastWire is the least that a whole pair of a sensor tube has, Ω (common
	// practice, no source): below it two wires touch, or the wrong pins were met.
	leastWire = 1.0
	// mostWire is the most that a pair of such a tube has, Ω (common practice, no
	// source); the cards of the trade brief end at 16.8 Ω. Above it, without a card,
	// something else is being measured.
	mostWire = 100.0
	// coarseStep is the last digit of a range that reaches 10 MΩ, Ω: on a finer one OL
	// says little about a leak to the case.
	coarseStep = 1000.0
	// apart and joined bound what counts as no connection between parts that must
	// not touch, Ω (trade brief, common practice).
	apart, joined = 10e6, 1e6
)

// The two things that may be expected between two points.
const (
	expectWire = "wire"
	expectNone = "no connection"
)

// Continuity says what a resistance reading of two pins proves, and what it cannot.
var Continuity = declare.Calculator{
	ID:       "continuity",
	Title:    "Continuity of a sensor pair",
	Decision: "Is the wire between these two pins whole, broken or shorted, and can this meter tell?",
	Inputs: []declare.Input{
		{ID: "reading", Label: "Meter shows", Symbol: "R₁", Kinds: []quantity.Kind{quantity.Resistance}, Unit: "Ω", Units: []string{"kΩ", "MΩ"},
			Min: "-5 Ω", Max: "100 GΩ", Required: true, MayBeOver: true, Rising: 1,
			Help: "Lowest steady value of three. OL when the meter shows over-range."},
		{ID: "leads", Label: "Probes held together", Symbol: "R₀", Kinds: []quantity.Kind{quantity.Resistance}, Unit: "Ω", Units: []string{"mΩ"},
			Min: "-5 Ω", Max: "50 Ω", UsualLow: "-0.1 Ω", UsualHigh: "0.5 Ω", Required: true, Rising: -1,
			Help: "What the meter shows with its probe tips pressed together. 0 Ω after nulling."},
		{ID: "percent", Label: "Meter accuracy, share", Symbol: "a", Kinds: []quantity.Kind{quantity.Ratio}, Unit: "%",
			Min: "0 %", Max: "50 %", UsualLow: "0.01 %", UsualHigh: "5 %", Default: "1 %", Because: "as for a common meter",
			Help: "From the meter's booklet, for its lowest ohms range: ± (1 % + 3 counts)."},
		{ID: "counts", Label: "Meter accuracy, counts", Symbol: "n", Kinds: []quantity.Kind{quantity.Ratio}, Unit: "",
			Min: "0", Max: "1000", UsualLow: "0", UsualHigh: "50", Default: "3", Because: "as for a common meter", Help: "Counts of the last digit."},
		{ID: "resolution", Label: "Last digit", Symbol: "r", Kinds: []quantity.Kind{quantity.Resistance}, Unit: "Ω", Units: []string{"mΩ", "kΩ"},
			Min: "1e-6 Ω", Max: "10 MΩ", Default: "0.1 Ω", Because: "as for a common meter", Help: "What one count is worth in the range used."},
		{ID: "expect", Label: "There should be", Choices: []declare.Choice{{Value: expectWire, Label: "a wire between them"}, {Value: expectNone, Label: "no connection"}},
			Default: expectWire, Help: "A pair of the tube is a wire; a pin and the case must have no connection."},
		{ID: "low", Label: "Card limit, low", Kinds: []quantity.Kind{quantity.Resistance}, Unit: "Ω", Units: []string{"kΩ"},
			Min: "0 Ω", Max: "100 GΩ", Help: "From the tube's card, if there is one."},
		{ID: "high", Label: "Card limit, high", Kinds: []quantity.Kind{quantity.Resistance}, Unit: "Ω", Units: []string{"kΩ"},
			Min: "0 Ω", Max: "100 GΩ", Help: "From the tube's card, if there is one."},
	},
	Influences: []declare.Influence{
		{ID: "reading-error", Text: "error that the meter's maker allows at the reading", U: func(x *declare.Numbers) float64 { return meterU(x, "reading") }},
		{ID: "leads-error", Text: "the same with the probes held together", U: func(x *declare.Numbers) float64 { return meterU(x, "leads") }},
	},
	Outputs: []declare.Output{
		{ID: "resistance", Label: "Resistance", Symbol: "R", Kind: quantity.Resistance, Unit: "Ω", UnitOf: "reading"},
		{ID: "state", Label: "State"},
	},
	Formula: []string{"R = R₁ − R₀", "U(R)² = (a R₁ + n r)² + (a R₀ + n r)²"},
	Sources: []declare.Source{
		{Title: "± (share + counts)", Where: "meter makers' notes, worked examples in testdata/reference/12_uncertainty.csv", Mark: declare.Published},
		{Title: "Limits of 1 Ω, 1 MΩ and 10 MΩ", Where: "", Mark: declare.CommonPractice},
	},
	Cautions: []string{
		"It says nothing about how the gauge reads: a dirty filament measures perfectly. Compare the gauge with an independent one.",
		"Measure with the tube unplugged, cold and free of any board; use the ordinary ohms range only.",
	},
	Hazards: []string{"mains", "stored-charge", "test-current"},
	Limits:  []string{"Contact resistance at the pins, 0.05 Ω to 0.5 Ω, is not in the uncertainty: press, wipe, and take the lowest steady value of three."},
	Example: declare.Example{
		In: []declare.Pair{{Name: "reading", Text: "8.4 Ω"}, {Name: "leads", Text: "0.3 Ω"}, {Name: "percent", Text: "1 %"}, {Name: "counts", Text: "3"}, {Name: "resolution", Text: "0.1 Ω"},
			{Name: "low", Text: "6.9 Ω"}, {Name: "high", Text: "9.3 Ω"}},
		Want: []declare.Pair{{Name: "resistance", Text: "8.10 ± 0.49 Ω"}, {Name: "state", Text: "continuous"}},
		From: "trade brief, section 3, computed: 8.1 ± 0.49 Ω",
	},
	Eval:  continuityEval,
	Judge: continuityJudge,
}

func meterU(x *declare.Numbers, id string) float64 {
	if x.Typed(id).Over {
		return 0
	}
	return uncertainty.FromAccuracy(uncertainty.MeterLimit(x.In(id), x.In("percent"), x.In("counts"), x.In("resolution")))
}

func continuityEval(x *declare.Numbers) {
	if x.Has("low") && x.Has("high") && x.In("low") > x.In("high") {
		x.Refuse("high", "the high card limit is below the low one")
		return
	}
	if x.Typed("reading").Over {
		return
	}
	x.Set("resistance", x.In("reading")+x.Influence("reading-error")-x.In("leads")-x.Influence("leads-error"))
}

func continuityJudge(r *declare.Result) {
	over := r.Typed("reading").Over
	if over {
		r.Work("The meter shows OL: the resistance is above the top of its range.")
	} else {
		net, u := r.Out("resistance")
		if net+uncertainty.K*u < 0 {
			r.Refuse("leads", "the probes alone show more than the reading; hold them together, null again, and repeat")
			return
		}
		r.Work("R = R₁ − R₀ = " + r.Entry("reading") + " − " + r.Entry("leads") + " = " + r.Show("resistance"))
		r.Work("±: √((" + meterLimit(r, "reading") + ")² + (" + meterLimit(r, "leads") + ")²), the meter's error at each of the two")
	}
	if r.Choice("expect") == expectNone {
		judgeApart(r, over)
		return
	}
	judgeWire(r, over)
}

// meterLimit writes the error that the meter's maker allows at an entry.
func meterLimit(r *declare.Result, id string) string {
	return quantity.Format(uncertainty.K*meterU(r.Numbers, id), -1, r.Typed("reading").Unit, 3)
}

// judgeWire decides on a pair that should be a whole wire.
func judgeWire(r *declare.Result, over bool) {
	if over {
		r.Text("state", "open")
		r.Verdict(declare.Fail, "No connection: the wire is broken, or a probe did not touch. Wipe the pins, press, and repeat three times before you condemn the tube.")
		return
	}
	net, u := r.Out("resistance")
	short := shortBelow(r)
	limit := quantity.Format(short, -1, quantity.MustUnit("Ω"), 3)
	switch uncertainty.AtLeast(net, uncertainty.K*u, short) {
	case uncertainty.Fail:
		r.Text("state", "shorted")
		r.Verdict(declare.Fail, r.Show("resistance")+" is less than such a wire can have ("+limit+"): the pair is shorted, the pins are the wrong ones, or the probes were nulled on closed pins. Find the key again and repeat.")
	case uncertainty.CannotTell:
		r.Text("state", "continuous, but not measurable with this meter")
		low, high := card(r)
		if uncertainty.Within(net, uncertainty.K*u, low, high) == uncertainty.Fail { // short or not, it is not what the card wants
			judgeCard(r)
			return
		}
		r.Verdict(declare.CannotTell, "Current passes, but "+r.Show("resistance")+" reaches across "+limit+", so a whole wire and a short look alike. "+finerMeter(r, math.Min(math.Abs(net-short), distance(net, low, high))))
	default:
		r.Text("state", "continuous")
		judgeCard(r)
	}
}

// shortBelow is the resistance under which a pair counts as shorted: half the card's
// low limit, or what any such wire has at least. Where the card lets a wire have
// nothing, or less than that, there is no such limit: a cable is not a filament.
func shortBelow(r *declare.Result) float64 {
	switch {
	case r.Has("low") && r.In("low") > 0:
		return r.In("low") / 2
	case r.Has("low") || r.Has("high") && r.In("high") <= leastWire:
		return math.Inf(-1)
	}
	return leastWire
}

// judgeCard compares a continuous pair with the tube card's limits.
func judgeCard(r *declare.Result) {
	net, u := r.Out("resistance")
	low, high := card(r)
	if !r.Has("high") && uncertainty.AtMost(net, uncertainty.K*u, mostWire) != uncertainty.Pass {
		judgeHigh(r, net, u)
		return
	}
	if !r.Has("low") && !r.Has("high") {
		r.Verdict(declare.Pass, r.Show("resistance")+": the wire is whole. That is all it proves.")
		return
	}
	limits := "the card's limits (" + cardText(r) + ")"
	switch uncertainty.Within(net, uncertainty.K*u, low, high) {
	case uncertainty.Pass:
		r.Verdict(declare.Pass, r.Show("resistance")+" lies within "+limits+": electrically intact. That is all it proves.")
	case uncertainty.Fail:
		text := r.Show("resistance") + " lies outside " + limits + ", but current passes. "
		if net > high {
			text += "Wipe the pins and repeat, then check the pin numbers: contact resistance is likelier than a worn wire."
		} else {
			text += "Check the key and the pin numbers, then null the probes again."
		}
		r.Verdict(declare.Fail, text)
	default:
		r.Verdict(declare.CannotTell, "The wire is whole, but "+r.Show("resistance")+" may lie on either side of "+limits+". "+finerMeter(r, distance(net, low, high)))
	}
}

// judgeHigh decides on more ohms than a pair of a tube has, where no card says how many
// it may have.
func judgeHigh(r *declare.Result, net, u float64) {
	if uncertainty.AtLeast(net, uncertainty.K*u, joined) == uncertainty.Pass {
		r.Text("state", "open")
		r.Verdict(declare.Fail, r.Show("resistance")+" is no wire: the pair is open, and the meter shows what leaks across it. Wipe the pins, press, and repeat three times.")
		return
	}
	r.Text("state", "continuous, but too high for such a wire")
	r.Verdict(declare.CannotTell, r.Show("resistance")+" is more than a pair of such a tube has. Check the unit and the decimal sign, the pin numbers, and that the probes touch; a card's high limit would settle it.")
}

// card gives the limits of the tube's card; without one, or with a low limit of nought,
// that side is open.
func card(r *declare.Result) (low, high float64) {
	low, high = math.Inf(-1), math.Inf(1)
	if r.Has("low") && r.In("low") > 0 {
		low = r.In("low")
	}
	if r.Has("high") {
		high = r.In("high")
	}
	return low, high
}

func cardText(r *declare.Result) string {
	switch {
	case !r.Has("high"):
		return "at least " + r.Entry("low")
	case !r.Has("low"):
		return "at most " + r.Entry("high")
	}
	return r.Entry("low") + " to " + r.Entry("high")
}

func distance(x, low, high float64) float64 {
	return math.Min(math.Abs(x-low), math.Abs(high-x))
}

// finerMeter says which meter would settle it, d being the distance to the limit.
func finerMeter(r *declare.Result, d float64) string {
	if d < 0.005 {
		return "It sits on the limit itself: no ordinary meter settles that. Measure with four wires, or compare with a known-good tube."
	}
	if step := niceStep(d / 10); step < r.In("resolution") && settles(r, step, d) {
		return "A meter or range with a last digit of " + quantity.Format(step, -1, quantity.MustUnit("Ω"), 1) + ", or a four-wire measurement, would settle it."
	}
	good := niceStep(d) / 10
	return "A measurement good to ± " + quantity.Format(math.Floor(d/good+1e-9)*good, -1, quantity.MustUnit("Ω"), 2) + ", such as with four wires, would settle it."
}

// settles tells whether a finer last digit alone, at the same share and counts, brings
// the uncertainty under d: often the share of the reading is what matters.
func settles(r *declare.Result, step, d float64) bool {
	_, u := r.Out("resistance")
	meter := func(resolution float64) float64 {
		limit := func(id string) float64 {
			return uncertainty.MeterLimit(r.In(id), r.In("percent"), r.In("counts"), resolution)
		}
		return math.Pow(limit("reading"), 2) + math.Pow(limit("leads"), 2)
	}
	others := math.Max(0, math.Pow(uncertainty.K*u, 2)-meter(r.In("resolution")))
	return others+meter(step) < 0.99*d*d
}

// niceStep is the largest power of ten at or under x.
func niceStep(x float64) float64 { return math.Pow(10, math.Floor(math.Log10(x)+1e-9)) }

func megohm(ohms float64) string {
	return quantity.Format(ohms, -1, quantity.MustUnit("MΩ"), 3)
}

// judgeApart decides on two points that must not be connected. A card limit, where
// one is given, takes the place of both limits of the trade.
func judgeApart(r *declare.Result, over bool) {
	if over && r.In("resolution") < coarseStep {
		r.Text("state", "open on this range")
		r.Verdict(declare.CannotTell, "OL says only that the resistance is above the top of this range, which may be a few hundred ohms. Set the highest range, enter what its last digit is worth (0.01 MΩ, say), and measure again.")
		return
	}
	if over {
		r.Text("state", "open")
		r.Verdict(declare.Pass, "No connection found up to the top of the meter's highest range.")
		return
	}
	net, u := r.Out("resistance")
	expanded := uncertainty.K * u
	good, bad := apart, joined
	if r.Has("low") && r.In("low") > 0 { // a limit of nought would pass a dead short
		good, bad = r.In("low"), r.In("low")
	}
	goodText, badText := megohm(good), megohm(bad)
	if good == bad {
		goodText, badText = r.Entry("low"), r.Entry("low")
	}
	switch {
	case uncertainty.AtLeast(net, expanded, good) == uncertainty.Pass:
		r.Text("state", "open")
		r.Verdict(declare.Pass, r.Show("resistance")+" is above "+goodText+": no connection that matters.")
	case uncertainty.AtLeast(net, expanded, bad) == uncertainty.Fail:
		r.Text("state", "connected")
		r.Verdict(declare.Fail, r.Show("resistance")+" is below "+badText+": wet inside, or touching. Dry it for 24 h in a warm room and repeat; if it stays, replace the tube.")
	case good == bad:
		r.Text("state", "leaky, or damp")
		r.Verdict(declare.CannotTell, r.Show("resistance")+" may lie on either side of "+goodText+". Dry it for 24 h in a warm room and repeat.")
	default:
		r.Text("state", "leaky, or damp")
		r.Verdict(declare.CannotTell, r.Show("resistance")+" lies between "+badText+" and "+goodText+", or reaches into that span. Dry it for 24 h in a warm room and repeat.")
	}
}
