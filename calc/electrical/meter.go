package electrical

import (
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
		{ID: "reading-error", Text: "error that the meter's maker allows at the reading", U: readingU},
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
		{Title: "Contacts of 0.05 Ω to 0.5 Ω; a meter four times better than the band; displays of 60,000 counts at most, 200 of them at least", Mark: declare.CommonPractice},
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
		From: "our notes of the trade, section 3, computed: 8.1 ± 0.49 Ω, worst case 0.69 Ω; 2 · 0.488 Ω / 2.4 Ω by hand",
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
	return limitOf(x, "leads")
}

func contactLimit(x *declare.Numbers) float64 {
	if x.Choice("method") == fourWires {
		return 0
	}
	return x.In("contact")
}

func meterEval(x *declare.Numbers) {
	method, shown := x.Choice("method"), x.In("reading")
	if x.Has("high") && x.Has("low") && x.In("low") >= x.In("high") {
		x.Refuse("high", "the high limit is not above the low one")
	}
	if method == twoWires && !x.Has("leads") {
		x.Refuse("leads", "with two wires the leads count: write what the meter shows with its probe tips held together, such as 0.3 Ω")
	}
	shown = (shown + x.Or("reversed", shown)) / 2
	if method != fourWires {
		shown -= x.In("leads")
	}
	x.Set("resistance", shown+x.Influence("reading-error")-x.Influence("leads-error")+x.Influence("contact-error"))
}

func meterJudge(r *declare.Result) {
	if leadsExceed(r) {
		return
	}
	four := r.Choice("method") == fourWires
	leads, contact := leadsLimit(r.Numbers), contactLimit(r.Numbers)
	own := r.Typed("reading").U
	worst := own
	shown, less, others := "{in:reading}", "", ""
	if r.Has("reversed") {
		shown = "({in:reading} + {in:reversed}) / 2"
		worst += (r.Typed("reversed").U - own) / 2
	}
	if !four && r.Has("leads") {
		less = " − {in:leads}"
		worst += r.Typed("leads").U
	}
	coarseDigit(r)
	r.Work(put("R = #* = {resistance}", shown, less))
	if leads > 0 {
		others = ", with the probes together " + ohms(leads, 3)
	}
	if contact > 0 {
		others += ", contacts " + ohms(contact, 3)
	}
	r.Work(put("±: meter at the reading #*; root of the sum of their squares", meterLimit(r, "reading"), others))
	r.Set("worst", uncertainty.K*(readingU(r.Numbers)+worst)+leads+contact)
	r.Work("At the very worst all of them add up: {worst}")
	if !four && !r.Has("contact") {
		r.Caution("No allowance for contacts was entered. Press, wipe, repeat three times and take the lowest steady value, or measure with four wires.")
	}
	meterVerdict(r, four)
}

// meterBand says whether the meter can decide at all. A reading passes only from
// L₁ + U to L₂ − U, so with 2U above the band nothing can pass.
func meterBand(r *declare.Result, expanded, low, high float64) {
	share := 2 * expanded / (high - low)
	r.Set("band", share)
	text := "no: nothing can pass, because its ± is more than half of the band; a ± under * is advised"
	if uncertainty.AtMost(share, 0, 0.5) == uncertainty.Pass {
		text = "yes: from # it passes, and its ± is at most a quarter of the band"
	} else if uncertainty.AtMost(share, 0, 1) == uncertainty.Pass {
		text = "only in the middle: from # it passes; a meter with a ± under * is advised"
	}
	r.Text("able", put(text, r.Num(low+expanded, "Ω")+" to "+r.Num(high-expanded, "Ω"), ohms((high-low)/4, 2)))
}

// meterVerdict holds the resistance against the limits, where there are any.
func meterVerdict(r *declare.Result, four bool) {
	net, u := r.Out("resistance")
	u *= uncertainty.K
	low, high := r.Or("low", -endless), r.Or("high", endless)
	if high-low < endless/2 { // both are given
		meterBand(r, u, low, high)
	} else if high-low > endless { // neither is
		return
	}
	d, found, advice := distance(net, low, high), &meterUnsure, ""
	switch is := uncertainty.Within(net, u, low, high); {
	case is == uncertainty.Pass:
		found = &meterPass
	case is == uncertainty.Fail:
		found = &meterFail
	case !four || d < onTheLimit:
		advice = finerMeter(r, d)
	default:
		advice = put("A meter that is good to ± # at this reading would settle it.", ohms(under(d), 2), "")
	}
	tell(r, found, cardText(r), advice)
}

// The findings of a meter: # stands for the limits, * for advice.
var (
	meterPass   = finding{uncertainty.Pass, "", "{resistance} lies within the limits (#), and this meter can say so."}
	meterFail   = finding{uncertainty.Fail, "", "{resistance} lies outside the limits (#), and this meter can say so."}
	meterUnsure = finding{uncertainty.CannotTell, "", "This meter cannot answer: {resistance} may lie on either side of the limits (#). *"}
)
