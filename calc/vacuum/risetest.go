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
		stepInput, ceilingInput,
	},
	Influences: []declare.Influence{
		{ID: "scale", Text: "scale error of the gauge, the same at both readings", U: GaugeU},
		{ID: "start-step", Text: "display step at the start", U: stepU},
		{ID: "end-step", Text: "display step at the end", U: stepU},
	},
	Outputs: []declare.Output{
		{ID: "leak", Label: "Gas entering", Symbol: "Q", Kind: quantity.Throughput, Unit: "mbar·L/s", Also: []string{"Torr·L/s", "Pa·m³/s"}},
		{ID: "rate", Label: "Rise", Symbol: "m", Kind: quantity.PressureRate, Unit: "mTorr/min", Also: []string{"Pa/min"}},
		{ID: "times", Label: "Times the limit", Symbol: "n", Kind: quantity.Ratio},
		{ID: "decide", Label: "Length of test that decides", Symbol: "t*", Kind: quantity.Time, Unit: "min", Derived: true},
	},
	Formula: []string{
		"Q = V (p₂ − p₁) / t",
		"n = Q / L; m / L where the limit is a rise",
		"U(Q)² = (a Q)² + (b Q)² + (V e / t)²; b is the accuracy of the volume, e = 2 d/√6 that of a difference of two displays",
		"t* = V e / √((Q − L)² − (a² + b²) Q²); where that root exists, rounded up to two figures, at least ten display steps and one minute. What is stated of readings and watch (±) fades with time like e",
	},
	Sources: []declare.Source{
		{Title: "Q = V Δp / t", Where: "Pfeiffer Vacuum Technology Book, 7.1.2, formula 1-35", Mark: declare.Published},
		{Title: "Verdict by guard bands", Where: "JCGM 106:2012; ISO 14253-1", Mark: declare.Memory},
		{Title: "Stay below 2,000 mTorr with a thermocouple gauge", Where: "", Mark: declare.CommonPractice},
	},
	Cautions: []string{
		"Two readings cannot tell a leak from vapour. Repeat after 30 min more pumping: a leak's rise stays, a vapour's shrinks.",
		neverPressurise,
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

// neverPressurise goes with every calculator that sends somebody to look for a leak.
const neverPressurise = "Never put a vacuum chamber under pressure to find a leak."

// GaugeU is the scale error of a gauge whose accuracy is an entry.
func GaugeU(x *declare.Numbers) float64 { return x.In("gauge") / uncertainty.K }

// stepU is the error of one display.
func stepU(x *declare.Numbers) float64 { return uncertainty.FromStep(x.In("step")) }

func riseEval(x *declare.Numbers) {
	rise := (x.In("end")-x.In("start"))*(1+x.Influence("scale")) + x.Influence("end-step") - x.Influence("start-step")
	rate := rise / x.In("time")
	x.Set("leak", x.In("volume")*rate)
	x.Set("rate", rate)
	limited := x.In("volume") * rate
	if x.Kind("limit") == quantity.PressureRate {
		limited = rate
	}
	if limit := x.In("limit"); limit > 0 && math.Abs(limited) < beyond*limit {
		x.Set("times", limited/limit)
	}
}

// beyond is where nobody asks any more how many times a limit something is.
const beyond = 1e9

// tie lets entries that are equal in different units compare as equal.
const tie = 1e-12

// riseJudge adds the lines that let the value and its uncertainty be redone by hand, and
// decides where there is something to decide.
func riseJudge(r *declare.Result) {
	t := &riseTest{Result: r, start: r.In("start"), step: r.In("step"), time: r.In("time"), size: r.In("volume"), id: "leak"}
	end, ceiling := r.In("end"), r.In("ceiling")*(1+tie)
	if high, field := t.start > ceiling, "end"; high || end > ceiling {
		if high {
			field = "start"
		}
		r.Refuse(field, r.Fill("this reading lies above {ceiling}, where a thermal gauge no longer reads true; end the test earlier, or give the ceiling of another gauge"))
		return
	}
	rise := end - t.start
	still := rise < t.step*(1-tie) || rise == 0 // not up by one display step
	r.Work("Q = V (p₂ − p₁) / t = {volume} × ({end} − {start}) / {time} = {leak}")
	r.Work(declare.With(4, "in SI units: [m³] × [Pa] / [s] = [Pa·m³/s]", t.size, rise, t.time, t.size*rise/t.time))
	if rise > 0 && !still {
		r.WorkWith(2, "±, as shares of Q: gauge [%], volume [%], display steps [%]; together the root of the sum of their squares", r.In("gauge"), volumeShare(r.Numbers), stepsOf*t.step/rise)
	}
	switch {
	case -rise > 2*t.step+tie*t.start: // more than its two display steps explain
		r.Verdict(declare.CannotTell, "The reading fell, so the volume was not closed, or it cooled. Close the valve at the chamber, check that it holds, and test again: a rise would settle it.")
	case r.Has("limit"):
		t.decide(rise, still, rise > tie*end)
	default:
		if still {
			r.Caution(notRisen)
		}
		r.Caution("No limit given, so there is no verdict.")
	}
}

// riseTest is what the verdict needs, in SI units: of the leak, or of the rise where the
// limit is one.
type riseTest struct {
	*declare.Result
	id                string // of the output that has the limit
	start, step, time float64
	value, expanded   float64
	limit             float64
	size              float64   // the volume; 1 for a rise
	_                 [0]func() // never compared: saves the code for it
}

// notRisen is what is left open by a reading that stands still, flickers or sinks a step.
const notRisen = "The reading did not rise by one display step, as with a tight chamber, or with a dead sensor. "

// livens is what would settle it.
const livens = "Open the valve to the pump, or let in a little air: a reading that follows would settle that the sensor lives. Then run the test until the reading has risen."

// decide compares the leak or the rise with the limit. A reading that has not risen must
// not pass: the sensor may be dead, or the valve leak to the running pump.
func (t *riseTest) decide(rise float64, still, moved bool) {
	text := "{leak} "
	if t.Kind("limit") == quantity.PressureRate {
		t.id, t.size, text = "rate", 1, "{rate} "
	}
	t.value, t.expanded = t.Out(t.id)
	t.expanded *= uncertainty.K
	t.limit = t.In("limit")
	long := t.decides()
	decision := uncertainty.AtMost(t.value, t.expanded, t.limit)
	switch {
	case still:
		decision = uncertainty.CannotTell
		text = notRisen
		if !moved || long == 0 {
			long = 0
			text += livens
		} else {
			text += t.longer(long)
		}
	case decision == uncertainty.Pass:
		text += "is not over the limit of {limit}, uncertainty allowed for. No more gas enters than the limit allows, if the valve to the pump holds."
	case decision == uncertainty.Fail:
		text += "is over the limit of {limit}, uncertainty allowed for. Gas enters or vapour comes off: repeat after 30 min more pumping to see which."
	default:
		if rise < 10*t.step {
			t.Caution("The rise is under ten display steps: run the test longer.")
		}
		text += "may lie on either side of {limit}. " + t.longer(long)
	}
	if decision != uncertainty.CannotTell && long > t.time {
		long = t.time // it has decided, however few steps the display made
	}
	if long > 0 {
		t.Set("decide", long)
	}
	t.Decide(decision, text, text, text)
}

// decides gives the length of a test that decides, if the rise goes on as it is: what does
// not shrink with time must be smaller than the distance to the limit. 0: none does.
func (t *riseTest) decides() float64 {
	start, end, watch := t.Typed("start").U, t.Typed("end").U, t.value*t.Typed("time").U
	steps := stepsOf * t.step / uncertainty.K
	fading := uncertainty.K * math.Sqrt(t.size*t.size*(steps*steps+start*start+end*end)+watch*watch) // times 1/t
	soFar := fading / t.time
	off := t.value - t.limit
	room := off * off
	if lasting := t.expanded*t.expanded - soFar*soFar; lasting > 0 {
		room -= lasting
	}
	room = math.Sqrt(room)
	if !(room > 0 && room >= 1e-7*math.Abs(t.value)) { // less is rounding; false for NaN as well
		return 0
	}
	least := shortest
	if long := fading / room; long > least {
		least = long
	}
	if rate, _ := t.Out("rate"); rate > 0 && 10*t.step/rate > least {
		least = 10 * t.step / rate // fewer steps are guessed rather than read (our notes of the trade, common practice)
	}
	return 60 * roundUp(least/60)
}

// shortest is the shortest test worth timing by hand, s (common practice, no source).
const shortest = 60.0

// roundUp keeps two figures, so that a time that is given as enough is still enough as it
// is printed.
func roundUp(x float64) float64 { return twoFigures(x, 1) }

// twoFigures rounds up, or down with the sign −1.
func twoFigures(x, sign float64) float64 {
	p := math.Pow(10, math.Floor(math.Log10(x)+1e-12)-1)
	return sign * math.Ceil(sign*x/p-1e-11) * p
}

// longer says what would settle it, the length of a test that would being known.
func (t *riseTest) longer(long float64) string {
	rate, _ := t.Out("rate")
	switch {
	case long == 0:
		return "No longer test settles it: what is uncertain grows with the rise. " + neededAccuracy(t.Result, t.id)
	case t.start+rate*long > t.In("ceiling"):
		return "A test of {decide} would settle it, but the reading would pass {ceiling} first. Pump lower before closing the valve, or use a gauge with a finer step."
	}
	return "Run the test for {decide} in all to settle it, if the rise goes on as it is."
}

// neededAccuracy gives the accuracy of gauge, of volume, or of both that would do in the
// same test.
func neededAccuracy(r *declare.Result, id string) string {
	value, u := r.Out(id)
	if value == 0 {
		return "Use a gauge with a finer display."
	}
	gauge, volume := r.In("gauge"), 0.0
	if id == "leak" {
		volume = volumeShare(r.Numbers)
	}
	gauge, volume, u = gauge*gauge, volume*volume, uncertainty.K*u/value
	// What is left, as a share squared, when neither gauge nor volume adds anything.
	off := 1 - r.In("limit")/value
	room, text := (off*off-u*u+gauge+volume)*(1-1e-9), gaugeBetter // an accuracy that just reaches the limit does not fail
	switch {
	case room-volume > leastShare:
		room -= volume
	case room-gauge > leastShare:
		room, text = room-gauge, "A volume known to ± [%] would settle it."
	case room > leastShare:
		room, text = room/2, bothBetter
	default:
		return "It is too near the limit for any gauge; treat it as doubtful, and compare again after the repair or at the next service."
	}
	return accuracy(room, text)
}

const (
	gaugeBetter = "A gauge good to [%] of reading would settle it."
	bothBetter  = "Gauge and volume would both have to be better: each to ± [%]."
)

// leastShare is the square of the finest accuracy worth naming, 0.1 %.
const leastShare = 1e-6

// accuracy writes the root of a squared share into a text, never more than it is.
func accuracy(squared float64, text string) string {
	return declare.With(2, text, twoFigures(math.Sqrt(squared), -1))
}
