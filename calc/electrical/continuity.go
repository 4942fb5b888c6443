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
	// source); the cards of our notes of the trade end at 16.8 Ω. Above it, without a card,
	// something else is being measured.
	mostWire = 100.0
	// fewestCounts is where the display of a common meter ends at the latest, mostCounts
	// where it ends at the longest, and readCounts what it shows at least of a value on the
	// range that fits (common practice, no source).
	fewestCounts, mostCounts, readCounts = 1999, 60_000, 200
	// apart and joined bound what counts as no connection between parts that must
	// not touch, Ω (our notes of the trade, common practice).
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
	Group:    declare.GaugeAndSensor,
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
			Min: "1e-6 Ω", Max: "10 MΩ", Default: "0.1 Ω", Because: "as for a common meter", Help: "What one count is worth in the range used: 0.1 Ω on the lowest, 0.01 MΩ, say, on one that reaches 20 MΩ."},
		{ID: "range-top", Label: "Top of the range", Kinds: []quantity.Kind{quantity.Resistance}, Unit: "Ω", Units: []string{"kΩ", "MΩ"},
			Min: "0.1 Ω", Max: "100 GΩ", Help: "For OL: the highest value that the range can show, such as 20 MΩ. OL says that the resistance is above it, no more."},
		{ID: "expect", Label: "There should be", Choices: []declare.Choice{{Value: expectWire, Label: "a wire between them"}, {Value: expectNone, Label: "no connection"}},
			Default: expectWire, Help: "A pair of the tube is a wire; a pin and the case must have no connection."},
		{ID: "low", Label: "Card limit, low", Kinds: []quantity.Kind{quantity.Resistance}, Unit: "Ω", Units: []string{"kΩ"},
			Min: "0 Ω", Max: "100 GΩ", Help: "From the tube's card, if there is one."},
		{ID: "high", Label: "Card limit, high", Kinds: []quantity.Kind{quantity.Resistance}, Unit: "Ω", Units: []string{"kΩ"},
			Min: "0 Ω", Max: "100 GΩ", Help: "From the tube's card, if there is one."},
	},
	Influences: []declare.Influence{
		{ID: "reading-error", Text: "error that the meter's maker allows at the reading", U: readingU},
		{ID: "leads-error", Text: "the same with the probes held together", U: leadsU},
	},
	Outputs: []declare.Output{
		{ID: "resistance", Label: "Resistance", Symbol: "R", Kind: quantity.Resistance, Unit: "Ω", UnitOf: "reading"},
		{ID: "state", Label: "State"},
	},
	Formula: []string{"R = R₁ − R₀", "U(R)² = (a R₁ + n r)² + (a R₀ + n r)²"},
	Sources: []declare.Source{
		{Title: "± (share + counts)", Where: "meter makers' notes, worked examples in testdata/reference/12_uncertainty.csv", Mark: declare.Published},
		{Title: "Limits of 1 Ω, 1 MΩ and 10 MΩ; displays of 1,999 to 60,000 counts, 200 of them at least", Where: "", Mark: declare.CommonPractice},
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
		From: "our notes of the trade, section 3, computed: 8.1 ± 0.49 Ω",
	},
	Eval:  continuityEval,
	Judge: continuityJudge,
}

// limitOf is the error that the meter's maker allows at an entry, Ω; OL has none.
func limitOf(x *declare.Numbers, id string) float64 {
	if x.Typed(id).Over {
		return 0
	}
	return allowed(x, x.In(id), lastDigit(x, x.In(id)))
}

// lastDigit is what the last digit is worth at a value, Ω. The one of the lowest range,
// which is taken where none was entered, is not that of a range that shows megohms.
func lastDigit(x *declare.Numbers, value float64) float64 {
	digit := x.In("resolution")
	if value > mostCounts*digit && !x.Written("resolution") {
		return value / readCounts
	}
	return digit
}

// coarseDigit says that another last digit was taken than the usual one.
func coarseDigit(r *declare.Result) {
	if digit := lastDigit(r.Numbers, r.In("reading")); digit > r.In("resolution") {
		r.Caution(put("No range shows {reading} to {resolution}: a last digit of # was taken. Enter the one of the range used.", r.Num(digit, "Ω"), ""))
	}
}

func meterU(x *declare.Numbers, id string) float64 { return limitOf(x, id) / uncertainty.K }

func readingU(x *declare.Numbers) float64 { return meterU(x, "reading") }

func leadsU(x *declare.Numbers) float64 { return meterU(x, "leads") }

func continuityEval(x *declare.Numbers) {
	if x.Has("high") && x.In("low") > x.In("high") {
		x.Refuse("high", "the high card limit is below the low one")
	} else if !x.Typed("reading").Over {
		x.Set("resistance", x.In("reading")+x.Influence("reading-error")-x.In("leads")-x.Influence("leads-error"))
	}
}

func continuityJudge(r *declare.Result) {
	over := r.Typed("reading").Over
	if over {
		line := "The meter shows OL: the resistance is above the top of its range."
		if r.Has("range-top") {
			line = "The meter shows OL: the resistance is above the top of its range, {range-top}."
		}
		r.Work(line)
	} else {
		if leadsExceed(r) {
			return
		}
		coarseDigit(r)
		r.Work("R = R₁ − R₀ = {reading} − {leads} = {resistance}")
		r.Work(put("±: √((#)² + (*)²), the error at each of the two", meterLimit(r, "reading"), meterLimit(r, "leads")))
	}
	if r.Choice("expect") == expectNone {
		judgeApart(r, over)
	} else {
		judgeWire(r, over)
	}
}

// leadsExceed refuses leads that surely have more than the reading.
func leadsExceed(r *declare.Result) bool {
	net, u := r.Out("resistance")
	if net+uncertainty.K*u < 0 {
		r.Refuse("leads", "the probes alone show more than the reading; hold them together, null again, and repeat")
		return true
	}
	return false
}

// meterLimit writes the error that the meter's maker allows at an entry, with the ± that
// was entered.
func meterLimit(r *declare.Result, id string) string {
	return quantity.Format(math.Hypot(limitOf(r.Numbers, id), uncertainty.K*r.Typed(id).U), -1, r.Typed("reading").Unit, 3)
}
