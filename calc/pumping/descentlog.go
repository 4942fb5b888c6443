package pumping

import (
	"math"

	"blankoff/calc/declare"
	"blankoff/calc/fit"
)

// descentLog is what Study makes of the tables.
type descentLog struct {
	log, curve  *record
	split       float64  // ln of the pressure at which early ends and late begins; NaN where there is no early part
	floor       fit.Line // p over 1/t
	heading     bool     // floor could be fitted
	early, late float64  // log against curve with the gauge as it reads; NaN where they have the part not in common
}

// splitAt is where the early part ends, Pa: 1,000 mTorr (trade brief, 2.6).
const splitAt = 101325.0 / 760

// gaugeRoom keeps the first reading above the split while the gauge's error is varied: a
// factor of 1.5, in ln p.
const gaugeRoom = 0.405

func logStudy(x *declare.Numbers) any {
	d := &descentLog{log: readRecord(x, "log", x.In("ceiling")), split: math.NaN()}
	if len(d.log.time) < 3 {
		x.Refuse("log", "needs three readings or more at or below the ceiling, to which the gauge reads true")
		return d
	}
	d.head()
	if x.Rows("expected") == 0 {
		return d
	}
	d.curve = readRecord(x, "expected", math.Inf(1))
	if len(d.curve.time) < 2 {
		x.Refuse("expected", "needs two rows or more, with a time and a pressure in each")
		return d
	}
	level := math.Min(math.Log(splitAt), math.Min(d.log.log[0]-gaugeRoom, d.curve.log[0]))
	if level > math.Log(splitAt/2) {
		d.split = level
	}
	d.compare()
	if math.IsNaN(d.early) && math.IsNaN(d.late) {
		x.Refuse("expected", "the curve and the log have no time in common; check the units of both")
	}
	return d
}

// head fits the line to the floor through the last three quarters of the time.
func (d *descentLog) head() {
	n := len(d.log.time)
	over, p, kept := make([]float64, n), make([]float64, n), 0
	for i, t := range d.log.time {
		if t >= d.log.time[n-1]/4 && t > 0 && d.log.log[i] < math.Log(splitAt) {
			over[kept], p[kept] = 1/t, math.Exp(d.log.log[i])
			kept++
		}
	}
	if kept < 4 {
		return
	}
	line, ok := fit.Straight(over[:kept], p[:kept])
	if ok && line.Intercept > 0 && line.Slope >= 0 {
		d.floor, d.heading = line, true
	}
}

// earlyWith is the early ratio when the gauge is off by shift in ln p.
func (d *descentLog) earlyWith(shift float64) float64 {
	return d.log.reach(d.split, shift) / d.curve.reach(d.split, 0)
}

// compare finds the two ratios. An error of the gauge's scale goes into the late one as it
// is; that it also moves the end of the early part a little is left aside.
func (d *descentLog) compare() {
	mine, theirs := d.log.reach(d.split, 0), d.curve.reach(d.split, 0)
	d.early = mine / theirs
	delay, before := mine-theirs, theirs
	if !(mine > 0 && theirs > 0) { // no early part: compare by the clock
		d.early, delay, mine, before = math.NaN(), 0, -1, d.curve.time[0]
	}
	sum, weight, near := 0.0, 0.0, 1
	end := d.curve.time[len(d.curve.time)-1]
	for i, t := range d.log.time {
		at := t - delay
		if t <= mine || at <= 0 || at < d.curve.time[0] || at > end*(1+1e-9) {
			continue
		}
		w := 1e-3
		if before > 0 {
			w += math.Log(at / before)
		}
		before = at
		for near < len(d.curve.time)-1 && at > d.curve.time[near] {
			near++
		}
		sum += w * (d.log.log[i] - d.curve.between(near, at))
		weight += w
	}
	d.late = math.Exp(sum / weight)
}

// between is ln p at a time before point i and after the one before it, straight on log-log
// paper; at time nought, which that paper does not have, straight in time.
func (r *record) between(i int, t float64) float64 {
	a, b := r.time[i-1], r.time[i]
	part := (t - a) / (b - a)
	if a > 0 {
		part = math.Log(t/a) / math.Log(b/a)
	}
	return r.log[i-1] + part*(r.log[i]-r.log[i-1])
}
