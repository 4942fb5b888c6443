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

func riseLogJudge(r *declare.Result) {
	s := r.Studied().(*riseLog)
	if s.few {
		s.begun(r)
		return
	}
	s.tellUsed(r)
	s.tellFit(r)
	c, found := claim{}, open
	if r.Has("limit") {
		c = claimOf(r)
		found = s.finds(&c)
	}
	switch {
	case s.doubt == none:
		r.Text("shape", shapeTexts[s.shape])
	case found == allUnder:
		r.Text("shape", "within the limit, whatever its shape")
	default:
		r.Text("shape", "cannot tell: "+doubtTexts[s.doubt])
	}
	r.Text("criterion", s.ranking())
	leak, u := r.Out("leak")
	if low := leak - uncertainty.K*u; s.doubt == none && s.shape == saturating || low <= 0 && leak > 0 {
		r.Caution("No leak is proved: it is at most " + r.Num(leak+uncertainty.K*u, "mbar·L/s") + ".")
	}
	s.decide(r, &c, found)
}

// decide sets the verdict.
func (s *riseLog) decide(r *declare.Result, c *claim, found finding) {
	whole, uWhole := r.Out("whole")
	switch {
	case s.fell > 0:
		s.stands(r, declare.CannotTell, "a reading fell: begin anew", r.With(4, "The reading fell from [mTorr] to [mTorr] at [min], as no closed chamber does: a valve, the gauge or its plug was touched. The readings before or after that alone, or another log, would settle it.", s.p[s.fell-1], s.p[s.fell], s.start+s.t[s.fell]))
		return
	case whole*s.length() < -2*r.In("step") && whole < -uncertainty.K*uWhole:
		s.stands(r, declare.CannotTell, "the reading falls: begin anew", "The reading fell, so the volume was not closed, or it cooled. Close the valve at the chamber, check that it holds, and log again: a rise would settle it.")
		return
	case !s.risen:
		s.stands(r, declare.CannotTell, "no rise yet: see that the sensor lives", notRisen+livens)
		return
	case !r.Has("limit"):
		r.Caution("No limit given, so there is no verdict.")
		r.Text("stands", "no verdict without a limit")
		return
	}
	head, id := "The leak, {", "leak"
	if c.size == 1 {
		id = "rate"
	}
	switch found {
	case allUnder:
		s.stands(r, declare.Pass, "decided: the rise as a whole is under its limit", "The rise as a whole, {whole"+underLimit+"The leak is no more than that. Nothing is to be hunted.")
	case under:
		more := "Nothing is to be hunted."
		if s.best != straight {
			more = "The rest of the rise is vapour. " + hunts[saturating]
		}
		s.stands(r, declare.Pass, "decided: the leak is under its limit", head+id+underLimit+more)
	case over:
		more := hunts[s.shape]
		if s.doubt != none {
			more = hunts[straight] + " Whether vapour is there as well is not told: " + doubtTexts[s.doubt] + "."
		}
		s.stands(r, declare.Fail, "decided: the leak is over its limit", head+id+"}, is over the limit of {limit}, uncertainty allowed for. "+more)
	default:
		text := head + id + "}, may lie on either side of {limit}"
		if s.doubt != none {
			text += ", and the shape is not told: " + doubtTexts[s.doubt]
		}
		s.goOn(r, c, id, text+". ")
	}
}

const underLimit = "}, is not over the limit of {limit}, uncertainty allowed for, if the valve to the pump holds. "

// stands sets the verdict, and in few words how the log stands.
func (s *riseLog) stands(r *declare.Result, is, short, text string) {
	r.Text("stands", short)
	r.Verdict(is, text)
}

// goOn says how much longer the log must be to decide, or what else would.
func (s *riseLog) goOn(r *declare.Result, c *claim, id, text string) {
	short := "a longer log is not likely to decide"
	switch length := s.settles(c, r.In("step"), r.In("ceiling")); {
	case length > 0:
		r.Set("more", about(length-s.length()))
		short = "keep going, about {more} more"
		text += "About {more} more would settle it, if the rise goes on as it is."
	case s.doubt != none:
		short = "keep going, how long is not to be foreseen"
		text += otherLog
	case s.highest+s.whole*s.length() > r.In("ceiling"):
		text += "The reading would pass {ceiling} before a longer log decides. Pumping lower before closing the valve, or reading more often, would settle it."
	default:
		text += "No longer log is likely to. " + neededAccuracy(r, id)
	}
	s.stands(r, declare.CannotTell, short, text)
}

// begun says how long it takes until there are readings enough for a curve.
func (s *riseLog) begun(r *declare.Result) {
	n := len(s.t)
	if s.above > 0 {
		s.stands(r, declare.CannotTell, "begin anew, and read more often", s.tooFew(n)+"A log that is read more often would settle it.")
		return
	}
	if n == 1 {
		s.stands(r, declare.CannotTell, "keep going, seven more readings", s.tooFew(n)+"Seven more, one a minute, would settle it, or tell how long it takes.")
		return
	}
	more := (s.t[n-1] - s.t[0]) / float64(n-1) * float64(leastReadings-n)
	r.Set("more", about(more))
	s.stands(r, declare.CannotTell, "keep going, about {more} more", s.tooFew(n)+"{more} more at this pace would settle it, or tell how long it takes.")
}

// about rounds a time that is foreseen up to whole minutes, a short one to half a minute.
func about(s float64) float64 {
	if s > 120 {
		return 60 * math.Ceil(s/60-1e-9)
	}
	return 30 * math.Ceil(s/30-1e-9)
}

const otherLog = "Another log after 30 min more pumping would settle it: a leak's slope stays, vapour's shrinks."

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
