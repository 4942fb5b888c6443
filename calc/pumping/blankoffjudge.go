package pumping

import (
	"math"
	"strconv"

	"blankoff/calc/declare"
	"blankoff/calc/uncertainty"
)

// blankLog is what Study finds in the readings.
type blankLog struct {
	record *record
	last   float64 // Pa
	change float64 // share by which the reading changed in the last five minutes
	rate   float64 // of ln p at the end, 1/s
	known  bool    // there is a reading before, so that change and rate mean something
	run    float64 // how long the pump ran, s; at least
}

const (
	fiveMinutes = 300.0
	steadyShare = 0.02 // in five minutes (trade brief, procedure P-e)
	wetAbove    = 3.0  // times the limit; common practice, no source
	leastWarm   = 20 * 60.0
	fullWarm    = 30 * 60.0
)

func blankStudy(x *declare.Numbers) any {
	b := &blankLog{record: readRecord(x, "log", math.Inf(1))}
	last := len(b.record.time) - 1
	if last < 0 {
		x.Refuse("log", "has no reading with a time and a pressure")
		return b
	}
	b.last, b.run = math.Exp(b.record.log[last]), b.record.time[last]-b.record.time[0]
	if x.Has("warm") {
		b.run = x.In("warm")
	}
	end := b.record.time[last]
	for i := last - 1; i >= 0; i-- {
		gap := end - b.record.time[i]
		b.rate, b.known = (b.record.log[last]-b.record.log[i])/gap, true
		if gap >= fiveMinutes*(1-1e-9) {
			break
		}
	}
	b.change = math.Expm1(b.rate * fiveMinutes)
	// One display step is no change.
	if b.known && math.Abs(math.Exp(b.record.log[last])*b.change) < x.In("step")*1.5 {
		b.change = 0
	}
	return b
}

// The states of a blank-off test.
const (
	blankGood    = "pump and oil are good"
	blankBad     = "over its limit"
	blankWet     = "wet oil suspected"
	blankWarm    = "warm up longer"
	blankFalling = "still falling"
	blankVoid    = "void: ballast open"
	blankNear    = "too near the limit to tell"
	blankRising  = "rising"
	blankOne     = "one reading only"
)

func blankJudge(r *declare.Result) {
	b := r.Studied().(*blankLog)
	b.record.remark(r)
	p, u := r.Out("reached")
	r.Work("p = {reached}, limit {limit}")
	if b.known && math.Abs(b.change) < 10 {
		r.Set("change", b.change)
		r.Work("over the last readings it changed by {change} in 5 min")
	}
	if r.Choice("ballast") == "open" {
		b.untold(r, blankVoid, 10*60, "Open ballast lets air in, so this says nothing of the pump. Close it, wait {wait}, and read again: that would settle it.")
		return
	}
	decision := uncertainty.AtMost(p, uncertainty.K*u, r.In("limit"))
	if missing := b.cold(r); missing > 0 {
		b.untold(r, blankWarm, missing, "Cold oil neither passes nor fails a pump. Run it {wait} more with the inlet capped, then read again: that would settle it.")
		return
	}
	falling, rising := b.known && b.change < -steadyShare, b.known && b.change > steadyShare
	switch {
	case decision == uncertainty.Pass && !rising:
		r.Text("state", blankGood)
		r.Verdict(declare.Pass, "{reached} is at or under {limit}: the pump is cleared.")
	case decision == uncertainty.Pass:
		b.untold(r, blankRising, 10*60, "It is under {limit} but rising. Go on for {wait}: a reading that stays under would settle it.")
	case falling:
		b.stillFalling(r, p)
	case decision == uncertainty.CannotTell:
		b.near(r, p, u)
	case !b.known:
		b.untold(r, blankOne, 10*60, "One reading over {limit} does not say whether it still falls. Go on for {wait} and read again: that would settle it.")
	case rising || p > wetAbove*r.In("limit"):
		r.Text("state", blankWet)
		r.Verdict(declare.Fail, "{reached} is over {limit}, "+wetReason(rising)+": water or solvent in the oil is the first suspect. Ballast open for 60 min on the capped pump, then close it, wait 10 min and repeat; if it stays, change the oil.")
	default:
		r.Text("state", blankBad)
		r.Verdict(declare.Fail, "{reached} is over {limit} and steady. Check the O-rings of tee and cap, then change the oil and flush; after two changes it is vanes, valve or shaft seal.")
	}
}

func wetReason(rising bool) string {
	if rising {
		return "and rises as the pump warms"
	}
	return "more than three times"
}

// untold gives a doubt with the time that would settle it.
func (b *blankLog) untold(r *declare.Result, state string, wait float64, text string) {
	r.Set("wait", wait)
	r.Text("state", state)
	r.Verdict(declare.CannotTell, text)
}

// cold gives how much longer the pump must run before a reading counts, s; 0 when it is warm.
func (b *blankLog) cold(r *declare.Result) float64 {
	oil := r.Choice("oil")
	switch {
	case oil == "warm" && !r.Has("warm"):
		return 0 // felt by hand; the readings may have begun late
	case b.run < leastWarm*(1-1e-9):
		return wholeMinutes(fullWarm - b.run)
	case oil == "cold":
		return wholeMinutes(math.Max(10*60, fullWarm-b.run))
	}
	return 0
}

// wholeMinutes rounds up to a whole minute.
func wholeMinutes(s float64) float64 { return 60 * math.Ceil(s/60-1e-9) }

// stillFalling says how long it would take to the limit, if it goes on as it is.
func (b *blankLog) stillFalling(r *declare.Result, p float64) {
	goal := r.In("limit") / (1 + r.In("gauge"))
	wait := math.Max(5*60, wholeMinutes(math.Log(math.Max(1, p/goal))/math.Max(-b.rate, 1e-9)))
	if wait > 2*3600 {
		r.Text("state", blankFalling)
		r.Verdict(declare.CannotTell, "It still falls, by less than would bring it under {limit} in 2 h. Ballast open for 60 min on the capped pump, closed for 10 min, and a new reading would settle it.")
		return
	}
	b.untold(r, blankFalling, wait, "It still falls. If it goes on so, {wait} more would settle it; take a reading every 5 min.")
}

// near says which gauge would decide.
func (b *blankLog) near(r *declare.Result, p, u float64) {
	r.Text("state", blankNear)
	need := r.In("gauge") * math.Abs(p-r.In("limit")) / (uncertainty.K * u)
	text := "{reached} may lie on either side of {limit}. "
	if need < 0.005 {
		r.Verdict(declare.CannotTell, text+"No gauge would settle it: take it as due for an oil change, and read again after.")
		return
	}
	r.Verdict(declare.CannotTell, text+"A gauge good to "+strconv.Itoa(max(1, int(need*100+1e-9)))+" % of reading would settle it.")
}
