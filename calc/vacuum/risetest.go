package vacuum

import (
	"math"

	"blankoff/calc/declare"
	"blankoff/calc/quantity"
	"blankoff/calc/uncertainty"
)

// RiseTest is the two-point rate of rise of a closed chamber.
//
// What keeps a longer test from helping without end is the gauge's scale error: it
// is the same at both readings, so it stays the same share of the rise however long
// the test runs. Only the display step is divided by the time. `decide` says when
// time helps and when another gauge is needed.
var RiseTest = declare.Calculator{
	ID:       "rise-test",
	Title:    "Chamber rise test",
	Group:    declare.Leaks,
	Decision: "Does more gas enter the closed chamber than the limit allows?",
	Inputs: []declare.Input{
		{ID: "volume", Label: "Closed volume", Symbol: "V", Kinds: []quantity.Kind{quantity.Volume}, Unit: "L", Units: []string{"m³", "ft³", "gal"},
			Min: "1 mL", Max: "100 m³", UsualLow: "2 L", UsualHigh: "500 L", Accuracy: "5 %", Required: true, Rising: 1,
			Help: "Chamber with lines up to the closed valve. Its accuracy may follow: 24 L ± 1 L."},
		{ID: "start", Label: "Reading at the start", Symbol: "p₁", Kinds: []quantity.Kind{quantity.Pressure}, Unit: "mTorr", Units: []string{"Pa", "mbar", "Torr", "micron"},
			Min: "0 Pa", Max: "200 kPa", UsualLow: "1 mTorr", UsualHigh: "2,000 mTorr", Required: true, Rising: -1,
			Help: "Two minutes after the valve was closed."},
		{ID: "end", Label: "Reading at the end", Symbol: "p₂", Kinds: []quantity.Kind{quantity.Pressure}, Unit: "mTorr", Units: []string{"Pa", "mbar", "Torr", "micron"},
			Min: "0 Pa", Max: "200 kPa", UsualLow: "1 mTorr", UsualHigh: "2,000 mTorr", Required: true, Rising: 1,
			Help: "On the same gauge, nothing touched in between."},
		{ID: "time", Label: "Time between them", Symbol: "t", Kinds: []quantity.Kind{quantity.Time}, Unit: "min", Units: []string{"s", "h"},
			Min: "1 s", Max: "100 d", UsualLow: "2 min", UsualHigh: "2 h", Required: true, Rising: -1, Help: "10 min, 1h30, 90 s."},
		{ID: "limit", Label: "Limit", Symbol: "L", Kinds: []quantity.Kind{quantity.Throughput, quantity.PressureRate}, Unit: "mbar·L/s",
			Units: []string{"Torr·L/s", "Pa·m³/s", "mTorr/min"}, Min: "0 mbar·L/s", UsualLow: "0.0001 mbar·L/s", UsualHigh: "1 mbar·L/s",
			Help: "As a leak rate, or as a rise such as 20 mTorr/min."},
		{ID: "gauge", Label: "Gauge accuracy", Symbol: "a", Kinds: []quantity.Kind{quantity.Ratio}, Unit: "%",
			Min: "0 %", Max: "100 %", UsualLow: "0.1 %", UsualHigh: "50 %", Default: "20 %", Because: "from memory for a thermocouple gauge without a certificate",
			Help: "± of reading. It shifts both readings alike."},
		{ID: "step", Label: "Display step", Symbol: "d", Kinds: []quantity.Kind{quantity.Pressure}, Unit: "mTorr", Units: []string{"Pa", "mbar", "micron"},
			Min: "0 Pa", Max: "100 kPa", UsualLow: "0.01 mTorr", UsualHigh: "100 mTorr", Default: "1 mTorr", Because: "as the usual display",
			Help: "The smallest change shown, or the flicker where that is larger."},
		{ID: "ceiling", Label: "Gauge reads true up to", Symbol: "c", Kinds: []quantity.Kind{quantity.Pressure}, Unit: "mTorr", Units: []string{"Torr", "Pa", "mbar"},
			Min: "1 mTorr", Max: "200 kPa", Default: "2,000 mTorr",
			Help: "A thermocouple gauge bends above about 2,000 mTorr; a capacitance gauge does not."},
	},
	Influences: []declare.Influence{
		{ID: "scale", Text: "scale error of the gauge, the same at both readings", U: func(x *declare.Numbers) float64 { return uncertainty.FromAccuracy(x.In("gauge")) }},
		{ID: "start-step", Text: "display step at the start", U: func(x *declare.Numbers) float64 { return uncertainty.FromStep(x.In("step")) }},
		{ID: "end-step", Text: "display step at the end", U: func(x *declare.Numbers) float64 { return uncertainty.FromStep(x.In("step")) }},
	},
	Outputs: []declare.Output{
		{ID: "leak", Label: "Gas entering", Symbol: "Q", Kind: quantity.Throughput, Unit: "mbar·L/s", Also: []string{"Torr·L/s", "Pa·m³/s"}},
		{ID: "rate", Label: "Rise", Symbol: "m", Kind: quantity.PressureRate, Unit: "mTorr/min", Also: []string{"Pa/min"}},
		{ID: "decide", Label: "Length of test that decides", Symbol: "t*", Kind: quantity.Time, Unit: "min", Derived: true},
	},
	Formula: []string{
		"Q = V (p₂ − p₁) / t",
		"U(Q)² = (a Q)² + (b Q)² + (V e / t)²; b is the accuracy of the volume, e = 2 d/√6 that of a difference of two displays",
		"t* = V e / √((Q − L)² − (a² + b²) Q²); where that root exists, rounded up to two figures, at least ten display steps and one minute. What is stated of readings and watch (±) fades with time like e",
	},
	Sources: []declare.Source{
		{Title: "Q = V Δp / t", Where: "Pfeiffer Vacuum Technology Book, 7.1.2, formula 1-35", Mark: declare.Published},
		{Title: "Verdict by guard bands", Where: "JCGM 106:2012; ISO 14253-1", Mark: declare.Published},
		{Title: "Stay below 2,000 mTorr with a thermocouple gauge", Where: "", Mark: declare.CommonPractice},
	},
	Cautions: []string{
		"Two readings cannot tell a leak from vapour. Repeat after 30 min more pumping: a leak's rise stays, a vapour's shrinks.",
		"Never put a vacuum chamber under pressure to find a leak.",
	},
	Hazards: []string{"vacuum", "pane"},
	Limits: []string{
		"The volume must be closed: a valve that leaks to the running pump hides the rise, a leaking valve to a stopped pump makes one.",
		"The rise is taken as straight between the two readings. A log of readings shows whether it is.",
	},
	Example: declare.Example{
		In: []declare.Pair{{Name: "volume", Text: "60 L ± 2 %"}, {Name: "start", Text: "0.05 mbar"}, {Name: "end", Text: "0.25 mbar"}, {Name: "time", Text: "600 s"},
			{Name: "limit", Text: "0.05 mbar·L/s"}, {Name: "gauge", Text: "10 %"}},
		Want: []declare.Pair{{Name: "leak", Text: "0.0200 ± 0.0020 mbar·L/s"}},
		From: "GNU units 2.22, case 03-O007 of testdata/reference; ± by hand: 0.02 · √(0.1² + 0.02² + 0.0054²)",
	},
	Eval:  riseEval,
	Judge: riseJudge,
}

func riseEval(x *declare.Numbers) {
	start, end, t := x.In("start"), x.In("end"), x.In("time")
	if ceiling := x.In("ceiling"); math.Max(start, end) > ceiling*(1+tie) {
		field := "end"
		if start > ceiling*(1+tie) {
			field = "start"
		}
		x.Refuse(field, "this reading lies above "+quantity.Format(ceiling, -1, x.Typed("ceiling").Unit, 4)+
			", where a thermal gauge no longer reads true; end the test earlier, or give the ceiling of another gauge")
		return
	}
	scale := 1 + x.Influence("scale")
	rise := (end-start)*scale + x.Influence("end-step") - x.Influence("start-step")
	x.Set("leak", x.In("volume")*rise/t)
	x.Set("rate", rise/t)
}

func riseJudge(r *declare.Result) {
	r.Work("Q = V (p₂ − p₁) / t = " + r.Entry("volume") + " × (" + r.Entry("end") + " − " + r.Entry("start") + ") / " + r.Entry("time") + " = " + r.Show("leak"))
	workRise(r)
	if fell(r) {
		r.Verdict(declare.CannotTell, "The reading fell, so the volume was not closed, or it cooled. Close the valve at the chamber, check that it holds, and test again.")
		return
	}
	if !r.Has("limit") {
		if still(r) {
			r.Caution("The reading moved by less than one display step: the chamber is tight, or the sensor is dead.")
		}
		r.Caution("No limit given, so there is no verdict.")
		return
	}
	id := "leak"
	if r.Kind("limit") == quantity.PressureRate {
		id = "rate"
	}
	decideRise(r, id)
}

// fell tells whether the reading dropped by more than its two display steps explain.
func fell(r *declare.Result) bool {
	return r.In("start")-r.In("end") > 2*r.In("step")+tie*r.In("start")
}

// still tells whether the reading moved by less than one display step.
func still(r *declare.Result) bool {
	return math.Abs(r.In("end")-r.In("start")) < r.In("step")*(1-tie) || r.In("end") == r.In("start")
}

// workRise adds the lines that let the value and its uncertainty be redone by hand.
func workRise(r *declare.Result) {
	rise := r.In("end") - r.In("start")
	si := func(value float64, unit string) string { return quantity.Format(value, -1, quantity.MustUnit(unit), 4) }
	r.Work("in SI units: " + si(r.In("volume"), "m³") + " × " + si(rise, "Pa") + " / " + si(r.In("time"), "s") + " = " + si(r.In("volume")*rise/r.In("time"), "Pa·m³/s"))
	if rise <= 0 || still(r) {
		return
	}
	share := func(value float64) string { return quantity.Format(value, -1, quantity.MustUnit("%"), 2) }
	volume := uncertainty.K * r.Typed("volume").U / r.In("volume")
	steps := uncertainty.K * math.Sqrt2 * uncertainty.FromStep(r.In("step")) / rise
	r.Work("±, as shares of Q: gauge " + share(r.In("gauge")) + ", volume " + share(volume) + ", display steps " + share(steps) + "; together the root of the sum of their squares")
}

// tie lets entries that are equal in different units compare as equal.
const tie = 1e-12

// decideRise compares output id, a leak rate or a rise, with the limit.
func decideRise(r *declare.Result, id string) {
	value, u := r.Out(id)
	limit, show := r.In("limit"), r.Show(id)
	t, ever := riseDecides(r, id)
	decision := uncertainty.AtMost(value, uncertainty.K*u, limit)
	if still(r) {
		stayed(r, id, t, ever && r.In("end")-r.In("start") > tie*r.In("end"))
		return
	}
	if ever && decision != uncertainty.CannotTell {
		r.Set("decide", math.Min(t, r.In("time"))) // it has decided, however few steps the display made
	} else if ever {
		r.Set("decide", t)
	}
	if rise := r.In("end") - r.In("start"); rise < 10*r.In("step") && decision == uncertainty.CannotTell {
		r.Caution("The rise is under ten display steps: run the test longer.")
	}
	switch decision {
	case uncertainty.Pass:
		r.Verdict(declare.Pass, show+" is not over the limit of "+r.Entry("limit")+", uncertainty allowed for. No more gas enters than the limit allows.")
	case uncertainty.Fail:
		r.Verdict(declare.Fail, show+" is over the limit of "+r.Entry("limit")+", uncertainty allowed for. Gas enters or vapour comes off: repeat after 30 min more pumping to see which.")
	default:
		r.Verdict(declare.CannotTell, show+" may lie on either side of "+r.Entry("limit")+". "+howToDecide(r, id, t, ever))
	}
}

// stayed is the verdict where the reading has not moved: a dead sensor must not pass.
func stayed(r *declare.Result, id string, t float64, ever bool) {
	text := "The reading moved by less than one display step, as with a tight chamber, or with a dead sensor. "
	if !ever {
		r.Verdict(declare.CannotTell, text+"Open the valve to the pump, or let in a little air: a reading that follows would settle that the sensor lives. Then run the test until the reading has moved.")
		return
	}
	r.Set("decide", t)
	r.Verdict(declare.CannotTell, text+howToDecide(r, id, t, ever))
}

// riseDecides gives the length of a test that decides, if the rise goes on as it is:
// what does not shrink with time must be smaller than the distance to the limit.
func riseDecides(r *declare.Result, id string) (t float64, ever bool) {
	value, u := r.Out(id)
	size := 1.0
	if id == "leak" {
		size = r.In("volume")
	}
	step := uncertainty.FromStep(r.In("step"))
	fading := uncertainty.K * uncertainty.Combine(size*step, size*step, size*r.Typed("start").U, size*r.Typed("end").U, value*r.Typed("time").U) // times 1/t
	lasting := math.Max(0, math.Pow(uncertainty.K*u, 2)-math.Pow(fading/r.In("time"), 2))
	room := math.Pow(value-r.In("limit"), 2) - lasting
	if room <= 0 || math.Sqrt(room) < 1e-9*math.Abs(value) {
		return 0, false
	}
	least := math.Max(shortest, math.Max(fading/math.Sqrt(room), stepsSeen(r)))
	return 60 * roundUp(least/60), true
}

// roundUp and roundDown keep two figures, so that a time or an accuracy that is given
// as enough is still enough as it is printed.
func roundUp(x float64) float64   { p := secondFigure(x); return math.Ceil(x/p-1e-11) * p }
func roundDown(x float64) float64 { p := secondFigure(x); return math.Floor(x/p+1e-11) * p }

func secondFigure(x float64) float64 { return math.Pow(10, math.Floor(math.Log10(x)+1e-12)-1) }

// shortest is the shortest test worth timing by hand, s (common practice, no source).
const shortest = 60.0

// stepsSeen is the time in which the display moves ten steps, below which a rise is
// guessed rather than read (trade brief, common practice).
func stepsSeen(r *declare.Result) float64 {
	rate, _ := r.Out("rate")
	if rate <= 0 {
		return 0
	}
	return 10 * r.In("step") / rate
}

// howToDecide says what would settle it.
func howToDecide(r *declare.Result, id string, t float64, ever bool) string {
	if !ever {
		return "No longer test settles it: what is uncertain grows with the rise. " + neededAccuracy(r, id)
	}
	rate, _ := r.Out("rate")
	text := quantity.Format(t, -1, quantity.MustUnit("min"), 2)
	if end := r.In("start") + rate*t; end > r.In("ceiling") {
		return "A test of " + text + " would settle it, but the reading would pass " + r.Entry("ceiling") + " first. Pump lower before closing the valve, or use a gauge with a finer step."
	}
	return "Run the test for " + text + " in all to settle it, if the rise goes on as it is."
}

// neededAccuracy gives the accuracy of gauge, of volume, or of both that would do in
// the same test.
func neededAccuracy(r *declare.Result, id string) string {
	value, u := r.Out(id)
	if value == 0 {
		return "Use a gauge with a finer display."
	}
	gauge, volume := r.In("gauge"), 0.0
	if id == "leak" {
		volume = uncertainty.K * r.Typed("volume").U / r.In("volume")
	}
	// What is left, as a share squared, when neither gauge nor volume adds anything.
	room := math.Pow(1-r.In("limit")/value, 2) - math.Pow(uncertainty.K*u/value, 2) + gauge*gauge + volume*volume
	switch {
	case room-volume*volume > leastShare:
		return "A gauge good to " + shareText(room-volume*volume) + " of reading would settle it."
	case room-gauge*gauge > leastShare:
		return "A volume known to ± " + shareText(room-gauge*gauge) + " would settle it."
	case room > leastShare:
		return "Gauge and volume would both have to be better: each to ± " + shareText(room/2) + "."
	}
	return "It is too near the limit for any gauge; treat it as doubtful, and compare again after the repair or at the next service."
}

// leastShare is the square of the finest accuracy worth naming, 0.1 %.
const leastShare = 1e-6

// shareText writes the root of a squared share, never more than it is.
func shareText(squared float64) string {
	return quantity.Format(roundDown(math.Sqrt(squared)), -1, quantity.MustUnit("%"), 2)
}
