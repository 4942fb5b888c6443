package pumping

import (
	"math"

	"blankoff/calc/declare"
	"blankoff/calc/uncertainty"
)

// blankLog is what Study finds in the readings.
type blankLog struct {
	record
	last   float64 // Pa
	change float64 // share by which the reading changed in the last five minutes
	rate   float64 // of ln p at the end, 1/s
	known  bool    // there is a reading before, so that change and rate mean something
	run    float64 // how long the pump ran, s; at least
}

const (
	fiveMinutes = 300.0
	steadyShare = 0.02 // in five minutes (our notes of the trade, procedure P-e)
	wetAbove    = 3.0  // times the limit; common practice, no source
	leastWarm   = 20 * 60.0
	fullWarm    = 30 * 60.0
)

func blankStudy(x *declare.Numbers) any {
	b := &blankLog{}
	b.read(x, "log", math.MaxFloat64)
	points := b.points
	i := len(points) - 1
	if i < 0 {
		x.Refuse("log", "has no reading with a time and a pressure")
		return b
	}
	end := points[i]
	b.last, b.run = math.Exp(end.y), end.x-points[0].x
	b.run = max(b.run, x.In("warm")) // what the readings span, it has run
	for gap := 0.0; i > 0 && gap < fiveMinutes*(1-1e-9); {
		i--
		gap = end.x - points[i].x
		b.rate, b.known = (end.y-points[i].y)/gap, true
	}
	// One display step is no change, however short the time in which it came.
	if moved := math.Abs(b.last - math.Exp(points[i].y)); moved >= x.In("step")*1.5 {
		b.change = math.Expm1(b.rate * fiveMinutes)
	}
	return b
}

func blankJudge(r *declare.Result) {
	b, _ := r.Studied().(*blankLog)
	b.remark(r)
	p, u := r.Out("reached")
	limit := r.In("limit")
	r.Work("p = {reached}, limit {limit}")
	if b.known && math.Abs(b.change) < 10 {
		r.Set("change", b.change)
		r.Work("over the last readings it changed by {change} in 5 min")
	}
	decision, missing := uncertainty.AtMost(p, uncertainty.K*u, limit), b.cold(r)
	falling, rising := b.known && b.change < -steadyShare, b.known && b.change > steadyShare
	// A doubt comes with the time that would settle it, where time would.
	is, state, wait, text := declare.CannotTell, "", 0.0, ""
	switch {
	case r.Choice("ballast") == "open":
		state, wait = "void: ballast open", 10*60
		text = "Open ballast lets air in, so this says nothing of the pump. Close it, wait {wait}, and read again: that would settle it."
	case missing > 0:
		state, wait = "warm up longer", missing
		text = "Cold oil neither passes nor fails a pump. Run it {wait} more with the inlet capped, then read again: that would settle it."
	case decision == uncertainty.Pass && !rising:
		is, state, text = declare.Pass, "pump and oil are good", "{reached} is at or under {limit}: the pump is cleared."
	case decision == uncertainty.Pass:
		state, wait = "rising", 10*60
		text = "It is under {limit} but rising. Go on for {wait}: a reading that stays under would settle it."
	case falling:
		state, text = "still falling", "It still falls. If it goes on so, {wait} more would settle it; take a reading every 5 min."
		if wait = b.fall(p / (limit / (1 + r.In("gauge")))); wait > 2*3600 {
			wait, text = 0, "It still falls, by less than would bring it under {limit} in 2 h. Ballast open for 60 min on the capped pump, closed for 10 min, and a new reading would settle it."
		}
	case decision == uncertainty.CannotTell:
		state, text = "too near the limit to tell", "{reached} may lie on either side of {limit}. "
		toSettle := gaugeToSettle(r, p-limit, u, displayU(r.Numbers))
		if toSettle == "" {
			toSettle = "No gauge with this step would settle it: take it as due for an oil change, and read again after"
		}
		text += toSettle + "."
	case !b.known:
		state, wait = "one reading only", 10*60
		text = "One reading over {limit} does not say whether it still falls. Go on for {wait} and read again: that would settle it."
	case rising || p > wetAbove*limit:
		reason := "more than three times"
		if rising {
			reason = "and rises as the pump warms"
		}
		is, state = declare.Fail, "wet oil suspected"
		text = "{reached} is over {limit}, " + reason + ": water or solvent in the oil is the first suspect. Ballast open for 60 min on the capped pump, then close it, wait 10 min and repeat; if it stays, change the oil."
	default:
		is, state = declare.Fail, "over its limit"
		text = "{reached} is over {limit} and steady. Check the O-rings of tee and cap, then change the oil and flush; after two changes it is vanes, valve or shaft seal."
	}
	if wait > 0 {
		r.Set("wait", wait)
	}
	r.Text("state", state)
	r.Verdict(is, text)
}

// cold gives how much longer the pump must run before a reading counts, s; 0 when it is warm.
func (b *blankLog) cold(r *declare.Result) float64 {
	oil, missing := r.Choice("oil"), fullWarm-b.run
	switch {
	case oil == "warm" && !r.Has("warm"):
		return 0 // felt by hand; the readings may have begun late
	case b.run < leastWarm*(1-1e-9):
	case oil == "cold":
		missing = max(10*60, missing)
	default:
		return 0
	}
	return wholeMinutes(missing)
}

// wholeMinutes rounds up to a whole minute.
func wholeMinutes(s float64) float64 { return 60 * math.Ceil(s/60-1e-9) }

// fall says how long it would take to come down by a factor, if it goes on as it is, s.
func (b *blankLog) fall(factor float64) float64 {
	return max(5*60, wholeMinutes(math.Log(max(1, factor))/max(-b.rate, 1e-9)))
}
