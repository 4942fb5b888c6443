package vacuum

import (
	"math"
	"strconv"

	"blankoff/calc/declare"
	"blankoff/calc/quantity"
	"blankoff/calc/uncertainty"
)

var shapeTexts = [3]string{"straight: gas enters at a steady rate", "saturating: vapour, and no leak seen", "both: a leak, and vapour"}

// hunts says what to do about a rise of each shape.
var hunts = [3]string{"Hunt the leak.", "Dry the chamber, and look for what is wet.", "Hunt the leak, and dry the chamber."}

// doubtTexts say why the shape is not told.
var doubtTexts = [...]string{
	fewSteps:    "the rise is under ten display steps",
	leftOver:    "no curve leaves plain scatter: the readings wander about it, as when something is touched, the room's temperature moves, or the gas comes off in another way",
	closeRivals: "no shape is ahead by 4 in AICc",
	vapourOpen:  "vapour that makes a fifth of the rise or more is neither proved nor ruled out",
	leakOpen:    "a leak beside the vapour is neither proved nor ruled out",
	fellBack:    "a reading fell",
}

const settleShape = ". A log twice as long, or another after 30 min more pumping, would settle it: a leak's slope stays, vapour's shrinks."

func riseLogJudge(r *declare.Result) {
	s := r.Studied().(*riseLog)
	s.tellUsed(r)
	s.tellFit(r)
	within := s.within(r)
	switch {
	case s.doubt == none:
		r.Text("shape", shapeTexts[s.shape])
	case within:
		r.Text("shape", "within the limit, whatever its shape")
	default:
		r.Text("shape", "cannot tell: "+doubtTexts[s.doubt])
	}
	r.Text("criterion", s.ranking())
	leak, u := r.Out("leak")
	if low := leak - uncertainty.K*u; s.doubt == none && s.shape == saturating || low <= 0 && leak > 0 {
		r.Caution("No leak is proved: it is at most " + r.Num(leak+uncertainty.K*u, "mbar·L/s") + ".")
	}
	s.decide(r, within)
}

// whole compares the rise as a whole, leak and vapour together, with the limit. The leak
// is not more than the whole.
func (s *riseLog) within(r *declare.Result) bool {
	if s.fell > 0 || !s.risen || !r.Has("limit") {
		return false
	}
	value, u := r.Out("whole")
	if r.Kind("limit") != quantity.PressureRate {
		volume := r.In("volume")
		u = math.Hypot(u*volume, value*r.Typed("volume").U)
		value *= volume
	}
	return uncertainty.AtMost(value, uncertainty.K*u, r.In("limit")) == uncertainty.Pass
}

// decide sets the verdict.
func (s *riseLog) decide(r *declare.Result, within bool) {
	id := "leak"
	if r.Kind("limit") == quantity.PressureRate {
		id = "rate"
	}
	value, u := r.Out(id)
	whole, uWhole := r.Out("whole")
	switch {
	case s.fell > 0:
		r.Verdict(declare.CannotTell, declare.With(4, "The reading fell from [mTorr] to [mTorr] at [min], as no closed chamber does: a valve, the gauge or its plug was touched. The readings before or after that alone, or another log, would settle it.", s.p[s.fell-1], s.p[s.fell], s.start+s.t[s.fell]))
		return
	case whole*s.length() < -2*r.In("step") && whole < -uncertainty.K*uWhole:
		r.Verdict(declare.CannotTell, "The reading fell, so the volume was not closed, or it cooled. Close the valve at the chamber, check that it holds, and log again: a rise would settle it.")
		return
	case !s.risen:
		r.Verdict(declare.CannotTell, notRisen+livens)
		return
	case !r.Has("limit"):
		r.Caution("No limit given, so there is no verdict.")
		return
	}
	is, head, more := declare.CannotTell, "The leak, {", ""
	decision := uncertainty.AtMost(value, uncertainty.K*u, r.In("limit"))
	switch {
	case within:
		is, head, id, more = declare.Pass, "The rise as a whole, {", "whole", "The leak is no more than that. Nothing is to be hunted."
	case decision == uncertainty.Pass && s.best == straight:
		is, more = declare.Pass, "Nothing is to be hunted."
	case decision == uncertainty.Pass:
		is, more = declare.Pass, "The rest of the rise is vapour. "+hunts[saturating]
	case decision == uncertainty.Fail && s.doubt == none:
		is, more = declare.Fail, hunts[s.shape]
	case decision == uncertainty.Fail && s.doubt != leftOver:
		is, more = declare.Fail, hunts[straight]+" Whether vapour is there as well is not told: "+doubtTexts[s.doubt]+"."
	case s.doubt != none:
		more = ", and the shape is not told: " + doubtTexts[s.doubt] + settleShape
	default:
		more = ". " + s.longer(r, id)
	}
	tail := "}, may lie on either side of {limit}"
	switch is {
	case declare.Pass:
		tail = "}, is not over the limit of {limit}, uncertainty allowed for, if the valve to the pump holds. "
	case declare.Fail:
		tail = "}, is over the limit of {limit}, uncertainty allowed for. "
	}
	r.Verdict(is, head+id+tail+more)
}

// longer says how long a log would decide. What the readings leave open of a slope shrinks
// with the time to the power 3/2 at the same interval; the accuracy of gauge and volume
// does not shrink.
func (s *riseLog) longer(r *declare.Result, id string) string {
	value, u := r.Out(id)
	open := uncertainty.K * s.u
	if id == "leak" {
		open *= r.In("volume")
	}
	room := math.Pow(value-r.In("limit"), 2) - math.Max(0, math.Pow(uncertainty.K*u, 2)-open*open)
	length := 0.0
	if room > 0 {
		length = s.length() * math.Pow(open/math.Sqrt(room), 2.0/3)
	}
	switch {
	case !(length > s.length()) || length > 10*s.length():
		return "No longer log settles it. " + neededAccuracy(r, id)
	case s.highest+s.whole*(length-s.length()) > r.In("ceiling"):
		return "A log of about " + r.Num(60*roundUp(length/60), "min") + " would settle it, but the reading would pass {ceiling} first. Pump lower before closing the valve, or read more often."
	}
	return "A log of about " + r.Num(60*roundUp(length/60), "min") + " would settle it, if the rise goes on as it is."
}

// ranking lists the shapes by AICc, and the lead of the best.
func (s *riseLog) ranking() string {
	// AICc counts in the unit of the pressures; that of the display is 1 mTorr here.
	shift := 2 * float64(len(s.t)) / s.crowd * math.Log(quantity.MustUnit("mTorr").From(1))
	text := shapeNames[s.best] + " " + tenth(s.aicc[s.best]+shift)
	for i, shape := range s.order[1:] {
		switch {
		case !s.own[shape]:
			continue
		case i == 0:
			text += ", ahead by " + tenth(s.aicc[shape]-s.aicc[s.best]) + " of "
		default:
			text += "; "
		}
		text += shapeNames[shape] + " " + tenth(s.aicc[shape]+shift)
	}
	return text
}

// tellUsed says what part of the log was used, and why the rest was not.
func (s *riseLog) tellUsed(r *declare.Result) {
	n := len(s.t)
	r.Text("used", strconv.Itoa(n)+" of "+strconv.Itoa(s.total)+", from "+r.Num(s.start, "min")+" to "+r.Num(s.start+s.length(), "min"))
	if s.mixed {
		r.Caution("The times were not in order; the readings were sorted by time.")
	}
	for _, left := range [3]struct {
		count int
		why   string
	}{
		{s.above, " of the readings lie above {ceiling} and were left out: a thermal gauge no longer reads true there."},
		{s.blank, " of the readings are blank or over range and were left out."},
		{s.first, " readings of the first two minutes were left out: they bend, and do not belong to the curve of the rest. Closing the valve moves gas."},
	} {
		if left.count > 0 {
			r.Caution(strconv.Itoa(left.count) + left.why)
		}
	}
	for _, row := range s.wild {
		r.Caution("Line " + strconv.Itoa(r.Line("log", row)) + " was left out: " + r.Num(s.pressures[row], "mTorr") + " at " + r.Num(s.times[row], "min") + " is far from the curve of the others. Check it in the notes.")
	}
	if s.crowd > 1 {
		r.Caution("Neighbouring readings are alike: " + r.Num(s.crowd, "") + " of them count as one, and the uncertainty is larger for it.")
	}
}

// tellFit gives the numbers of the best curve, with what the scatter alone leaves open.
func (s *riseLog) tellFit(r *declare.Result) {
	c := &s.curve[s.best]
	text := "fitted alone, “" + shapeNames[s.best] + "”: p₀ = " + r.NumU(c.Start, c.UStart, "mTorr")
	if s.best != saturating {
		text += ", m = " + r.NumU(c.Slope, c.USlope, "mTorr/min")
	}
	if s.best != straight {
		text += ", A = " + r.NumU(c.Rise, c.URise, "mTorr") + ", τ = " + r.NumU(c.Tau, c.UTau, "s")
	}
	r.Work(text + ", scatter " + r.Num(c.S, "mTorr"))
	half, start := c.At(s.length()/2), c.At(0)
	if half != start {
		r.Work("curvature R = (p(T) − p(T/2)) / (p(T/2) − p(0)) = " + r.Num((c.At(s.length())-half)/(half-start), "") + " on that curve; 1 is straight")
	}
	r.Work("m = " + r.NumU(s.slope, s.u, "mTorr/min") + " with all that the readings leave open")
	r.Work("Q = V m = {volume} × " + r.Num(s.slope, "Pa/s") + " = {leak}, the gauge's ± {gauge} and the volume's ± allowed for")
}

// tenth writes a number to a tenth.
func tenth(x float64) string {
	text := strconv.FormatFloat(math.Abs(x), 'f', 1, 64)
	if x <= -0.05 {
		text = "−" + text
	}
	return text
}
