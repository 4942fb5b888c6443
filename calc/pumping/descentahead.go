package pumping

import (
	"math"

	"blankoff/calc/declare"
	"blankoff/calc/uncertainty"
)

// forward is in how many steps a log is thought on to the end of its curve, and how many
// readings stand for what is to come.
const forward = 16

// settles gives the time at which a log that goes on as it is would decide, or 0 where it
// would not up to the end of its curve.
func (d *descentLog) settles(r *declare.Result) float64 {
	last := d.points[len(d.points)-1].x
	end, least := d.curve.points[len(d.curve.points)-1].x+d.delay, d.needs+d.delay
	if !(end > last && last > 0) {
		return 0
	}
	step, before := math.Pow(end/last, 1.0/forward), last
	for range forward {
		at := before * step
		if before < least*(1-1e-9) && at > least { // the least that a pass needs is a time of its own
			if d.decides(r, least) {
				return least
			}
		}
		if d.decides(r, at) {
			return at
		}
		before = at
	}
	return 0
}

// decides thinks the log on: down to where it is heading, or as far over its curve as it is
// now, and judges the late part as it would judge a log.
func (d *descentLog) decides(r *declare.Result, to float64) bool {
	n := len(d.points)
	last := d.points[n-1]
	next := descentLog{record: record{points: make([]point, n, n+forward)}, curve: d.curve, split: d.split, needs: d.needs}
	copy(next.points, d.points)
	over := last.y - d.curve.at(last.x-d.delay)
	for i := 1; i <= forward; i++ {
		at := point{x: last.x * math.Pow(to/last.x, float64(i)/forward)}
		at.y = d.curve.at(at.x-d.delay) + over
		if d.heading {
			at.y = math.Log(d.floor.At(1 / at.x))
		}
		next.points = append(next.points, at)
	}
	next.compare()
	limit, expanded := 1+r.In("band"), next.late*r.In("gauge")
	if uncertainty.AtLeast(next.late, expanded, 1/limit) == uncertainty.Fail {
		return false
	}
	switch uncertainty.AtMost(next.late, expanded, limit) {
	case uncertainty.Fail:
		return true
	case uncertainty.Pass:
		return next.covered >= next.needs*(1-1e-9)
	}
	return false
}

// at is ln of the pressure of a record at a time: straight on log-log paper, and beyond its
// ends as at them.
func (r *record) at(t float64) float64 {
	list := r.points
	for i := 1; i < len(list); i++ {
		if a, b := &list[i-1], &list[i]; t < b.x {
			if t <= a.x {
				return a.y
			}
			return a.y + part(t, a, b)*(b.y-a.y)
		}
	}
	return list[len(list)-1].y
}

// part is how far from a to b a time lies, on log-log paper; at time nought, which that paper
// does not have, straight in time.
func part(t float64, a, b *point) float64 {
	if a.x > 0 {
		return math.Log(t/a.x) / math.Log(b.x/a.x)
	}
	return (t - a.x) / (b.x - a.x)
}
