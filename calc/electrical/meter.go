package electrical

import (
	"math"

	"blankoff/calc/declare"
	"blankoff/calc/quantity"
	"blankoff/calc/uncertainty"
)

// The ways of connecting the meter.
const (
	twoWires  = "two wires"
	nulled    = "nulled"
	fourWires = "four wires"
)

// Meter says how good a resistance reading is, and whether it can answer the question
// at all. Worst case is the sum of all limits of error, as if each were at its end and
// all on one side; the expanded uncertainty is the root of the sum of their squares,
// which about 95 % of readings keep.
var Meter = declare.Calculator{
	ID:       "meter",
	Title:    "How good is this ohms reading",
	Group:    declare.GaugeAndSensor,
	Decision: "How much may this reading be off, and can this meter answer the question?",
	Inputs: []declare.Input{
		{ID: "reading", Label: "Meter shows", Symbol: "R₁", Kinds: []quantity.Kind{quantity.Resistance}, Unit: "Ω", Units: []string{"mΩ", "kΩ", "MΩ"},
			Min: "-5 Ω", Max: "100 GΩ", Required: true, Rising: 1, Help: "Lowest steady value of three."},
		{ID: "reversed", Label: "With the probes swapped", Symbol: "R₂", Kinds: []quantity.Kind{quantity.Resistance}, Unit: "Ω", Units: []string{"mΩ", "kΩ", "MΩ"},
			Min: "-100 Ω", Max: "100 GΩ", Negative: true, Help: "For a pair that makes a voltage of its own, as a thermocouple does: the mean of both ways is free of it."},
		{ID: "method", Label: "Measured with", Choices: []declare.Choice{{Value: twoWires, Label: "two wires"}, {Value: nulled, Label: "two wires, probes nulled"}, {Value: fourWires, Label: "four wires"}},
			Default: twoWires, Help: "Nulled: the meter takes the leads off by itself. Four wires: leads and contacts do not count."},
		{ID: "leads", Label: "Probes held together", Symbol: "R₀", Kinds: []quantity.Kind{quantity.Resistance}, Unit: "Ω", Units: []string{"mΩ"},
			Min: "-5 Ω", Max: "50 Ω", UsualLow: "-0.1 Ω", UsualHigh: "0.5 Ω", Help: "What the meter shows with its probe tips pressed together; after nulling what is left, or blank. Four wires do not need it."},
		{ID: "percent", Label: "Meter accuracy, share", Symbol: "a", Kinds: []quantity.Kind{quantity.Ratio}, Unit: "%",
			Min: "0 %", Max: "50 %", UsualLow: "0.01 %", UsualHigh: "5 %", Default: "1 %", Because: "as for a common meter", Help: "From the meter's booklet, for the range used: ± (1 % + 3 counts)."},
		{ID: "counts", Label: "Meter accuracy, counts", Symbol: "n", Kinds: []quantity.Kind{quantity.Ratio}, Unit: "",
			Min: "0", Max: "1000", UsualLow: "0", UsualHigh: "50", Default: "3", Because: "as for a common meter", Help: "Counts of the last digit."},
		{ID: "resolution", Label: "Last digit", Symbol: "d", Kinds: []quantity.Kind{quantity.Resistance}, Unit: "Ω", Units: []string{"mΩ", "kΩ"},
			Min: "1e-6 Ω", Max: "10 MΩ", Default: "0.1 Ω", Because: "as for a common meter", Help: "What one count is worth in the range used."},
		{ID: "contact", Label: "Allowance for contacts", Symbol: "c", Kinds: []quantity.Kind{quantity.Resistance}, Unit: "Ω", Units: []string{"mΩ"},
			Min: "0 Ω", Max: "50 Ω", UsualLow: "0 Ω", UsualHigh: "1 Ω", Help: "0.05 Ω to 0.5 Ω where tips press on pins (common practice); blank counts none."},
		{ID: "low", Label: "Limit, low", Symbol: "L₁", Kinds: []quantity.Kind{quantity.Resistance}, Unit: "Ω", Units: []string{"kΩ", "MΩ"},
			Min: "0 Ω", Max: "100 GΩ", Help: "What the part must have at least."},
		{ID: "high", Label: "Limit, high", Symbol: "L₂", Kinds: []quantity.Kind{quantity.Resistance}, Unit: "Ω", Units: []string{"kΩ", "MΩ"},
			Min: "0 Ω", Max: "100 GΩ", Help: "What the part may have at most."},
	},
	Influences: []declare.Influence{
		{ID: "reading-error", Text: "error that the meter's maker allows at the reading", U: func(x *declare.Numbers) float64 { return meterU(x, "reading") }},
		{ID: "leads-error", Text: "the same with the probes held together", U: func(x *declare.Numbers) float64 { return uncertainty.FromAccuracy(leadsLimit(x)) }},
		{ID: "contact-error", Text: "contacts", U: func(x *declare.Numbers) float64 { return uncertainty.FromAccuracy(contactLimit(x)) }},
	},
	Outputs: []declare.Output{
		{ID: "resistance", Label: "Resistance", Symbol: "R", Kind: quantity.Resistance, Unit: "Ω", UnitOf: "reading"},
		{ID: "worst", Label: "Off by at the very worst", Symbol: "W", Kind: quantity.Resistance, Unit: "Ω", UnitOf: "reading", Derived: true},
		{ID: "band", Label: "Share of the limits' band that is in doubt", Symbol: "s", Kind: quantity.Ratio, Unit: "%", Derived: true},
		{ID: "able", Label: "Can this meter decide"},
	},
	Formula: []string{"R = R₁ − R₀; with the probes swapped as well, (R₁ + R₂) / 2 − R₀", "U² = (a R₁ + n d)² + (a R₀ + n d)² + c²; four wires leave the first term alone",
		"W = (a R₁ + n d) + (a R₀ + n d) + c", "s = 2 U / (L₂ − L₁)"},
	Sources: []declare.Source{
		{Title: "± (share + counts)", Where: "meter makers' notes, worked examples in testdata/reference/12_uncertainty.csv", Mark: declare.Published},
		{Title: "Root of the sum of squares", Where: "JCGM 100:2008 (GUM), 5.1.2", Mark: declare.Published},
		{Title: "Contacts of 0.05 Ω to 0.5 Ω; a meter four times better than the band", Mark: declare.CommonPractice},
	},
	Cautions: []string{
		"A pair that is warmer at one end makes a voltage of its own: 0.5 mV at a test current of 0.3 mA shows as 1.7 Ω. Let it cool, measure with the probes both ways round, and enter both.",
		"Power off, plug out, part unplugged at both ends: what is connected measures along, and a charged capacitor drives the meter.",
	},
	Hazards: []string{"mains", "stored-charge", "test-current"},
	Limits:  []string{"The maker's limits hold at room temperature, in the meter's year of certificate and with a good battery.", "Nulling takes off the leads, not the counts: the null itself was read with that error."},
	Example: declare.Example{
		In: []declare.Pair{{Name: "reading", Text: "8.4 Ω"}, {Name: "leads", Text: "0.3 Ω"}, {Name: "percent", Text: "1 %"}, {Name: "counts", Text: "3"}, {Name: "resolution", Text: "0.1 Ω"},
			{Name: "low", Text: "6.9 Ω"}, {Name: "high", Text: "9.3 Ω"}},
		Want: []declare.Pair{{Name: "resistance", Text: "8.10 ± 0.49 Ω"}, {Name: "worst", Text: "0.69 Ω"}, {Name: "band", Text: "41 %"}},
		From: "trade brief, section 3, computed: 8.1 ± 0.49 Ω, worst case 0.69 Ω; 2 · 0.488 Ω / 2.4 Ω by hand",
	},
	Eval:  meterEval,
	Judge: meterJudge,
}

// leadsLimit is the error that the maker allows with the probes held together, which
// enters whether they are subtracted by hand or by the meter.
func leadsLimit(x *declare.Numbers) float64 {
	if x.Choice("method") == fourWires {
		return 0
	}
	return uncertainty.MeterLimit(x.In("leads"), x.In("percent"), x.In("counts"), x.In("resolution"))
}

func contactLimit(x *declare.Numbers) float64 {
	if x.Choice("method") == fourWires {
		return 0
	}
	return x.In("contact")
}

func meterEval(x *declare.Numbers) {
	switch {
	case x.Has("low") && x.Has("high") && x.In("low") >= x.In("high"):
		x.Refuse("high", "the high limit is not above the low one")
		return
	case x.Choice("method") == twoWires && !x.Has("leads"):
		x.Refuse("leads", "with two wires the leads count: write what the meter shows with its probe tips held together, such as 0.3 Ω")
		return
	}
	shown := x.In("reading")
	if x.Has("reversed") {
		shown = (shown + x.In("reversed")) / 2
	}
	if x.Choice("method") != fourWires {
		shown -= x.In("leads")
	}
	x.Set("resistance", shown+x.Influence("reading-error")-x.Influence("leads-error")+x.Influence("contact-error"))
}

func meterJudge(r *declare.Result) {
	net, u := r.Out("resistance")
	expanded := uncertainty.K * u
	if net+expanded < 0 {
		r.Refuse("leads", "the probes alone show more than the reading; hold them together, null again, and repeat")
		return
	}
	meterWork(r)
	own := r.Typed("reading").U + r.Typed("leads").U
	if r.Has("reversed") {
		own += (r.Typed("reversed").U - r.Typed("reading").U) / 2
	}
	r.Set("worst", uncertainty.K*(meterU(r.Numbers, "reading")+own)+leadsLimit(r.Numbers)+contactLimit(r.Numbers))
	r.Work("At the very worst all of them add up: {worst}")
	if !r.Has("contact") && r.Choice("method") != fourWires {
		r.Caution("No allowance for contacts was entered. Press, wipe, repeat three times and take the lowest steady value, or measure with four wires.")
	}
	if r.Has("low") && r.Has("high") {
		meterBand(r, expanded)
	}
	if r.Has("low") || r.Has("high") {
		meterVerdict(r, net, expanded)
	}
}

func meterWork(r *declare.Result) {
	line := "R = {in:reading}"
	if r.Has("reversed") {
		line = "R = ({in:reading} + {in:reversed}) / 2"
	}
	if r.Choice("method") != fourWires && r.Has("leads") {
		line += " − {in:leads}"
	}
	r.Work(line + " = {resistance}")
	line = "±: meter at the reading " + meterLimit(r, "reading")
	if limit := leadsLimit(r.Numbers); limit > 0 {
		line += ", with the probes together " + ohms(limit, 3)
	}
	if limit := contactLimit(r.Numbers); limit > 0 {
		line += ", contacts " + ohms(limit, 3)
	}
	r.Work(line + "; root of the sum of their squares")
}

// meterBand says whether the meter can decide at all. A reading passes only from
// L₁ + U to L₂ − U, so with 2U above the band nothing can pass.
func meterBand(r *declare.Result, expanded float64) {
	low, high := r.In("low"), r.In("high")
	share := 2 * expanded / (high - low)
	r.Set("band", share)
	zone := r.Num(low+expanded, "Ω") + " to " + r.Num(high-expanded, "Ω")
	switch {
	case uncertainty.AtMost(share, 0, 0.5) == uncertainty.Pass:
		r.Text("able", "yes: from "+zone+" it passes, and its ± is at most a quarter of the band")
	case uncertainty.AtMost(share, 0, 1) == uncertainty.Pass:
		r.Text("able", "only in the middle: from "+zone+" it passes; a meter with a ± under "+ohms((high-low)/4, 2)+" is advised")
	default:
		r.Text("able", "no: nothing can pass, because its ± is more than half of the band; a ± under "+ohms((high-low)/4, 2)+" is advised")
	}
}

func meterVerdict(r *declare.Result, net, expanded float64) {
	low, high := math.Inf(-1), math.Inf(1)
	if r.Has("low") {
		low = r.In("low")
	}
	if r.Has("high") {
		high = r.In("high")
	}
	limits := cardText(r)
	switch uncertainty.Within(net, expanded, low, high) {
	case uncertainty.Pass:
		r.Verdict(declare.Pass, "{resistance} lies within the limits ("+limits+"), and this meter can say so.")
	case uncertainty.Fail:
		r.Verdict(declare.Fail, "{resistance} lies outside the limits ("+limits+"), and this meter can say so.")
	default:
		r.Verdict(declare.CannotTell, "This meter cannot answer: {resistance} may lie on either side of the limits ("+limits+"). "+meterAdvice(r, distance(net, low, high)))
	}
}

func meterAdvice(r *declare.Result, d float64) string {
	if r.Choice("method") != fourWires || d < onTheLimit {
		return finerMeter(r, d)
	}
	return "A meter that is good to ± " + ohms(under(d), 2) + " at this reading would settle it."
}
