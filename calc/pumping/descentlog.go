package pumping

import (
	"math"

	"blankoff/calc/declare"
	"blankoff/calc/fit"
)

// descentLog is what Study makes of the tables.
type descentLog struct {
	record               // the log
	curve       record   // the expected one, without points where none was given
	split       float64  // ln of the pressure at which early ends and late begins; NaN where there is no early part
	floor       fit.Line // p over 1/t
	heading     bool     // floor could be fitted
	early, late float64  // log against curve with the gauge as it reads; NaN where they have the part not in common
	delay       float64  // by which the log ran behind the curve when the early part ended
	covered     float64  // the curve's time up to which both go
	needs       float64  // the least of it for a pass: half of the curve (chosen here), as a leak shows late
}

// splitAt is where the early part ends, as ln of 1,000 mTorr in Pa (our notes of the trade, 2.6).
const splitAt = 4.892770018216132

// gaugeRoom keeps the first reading above the split while the gauge's error is varied: a
// factor of 1.5, in ln p.
const gaugeRoom = 0.405

func logStudy(x *declare.Numbers) any {
	d := &descentLog{split: math.NaN()}
	d.read(x, "log", x.In("ceiling"))
	few := len(d.points) < 3
	if few && len(d.points)+d.high == 0 {
		x.Refuse("log", "has no reading that can be used")
		return d
	}
	if !few {
		d.head()
	}
	if x.Rows("expected") == 0 {
		if few {
			x.Refuse("log", "needs three readings or more at or below the ceiling, to which the gauge reads true")
		}
		return d
	}
	d.curve.read(x, "expected", math.MaxFloat64)
	if len(d.curve.points) < 2 {
		x.Refuse("expected", "needs two rows or more, with a time and a pressure in each")
		return d
	}
	d.needs = d.curve.points[len(d.curve.points)-1].x / 2
	if few {
		d.early, d.late = math.NaN(), math.NaN()
		return d
	}
	if level := min(splitAt, d.points[0].y-gaugeRoom, d.curve.points[0].y); level > lowestSplit {
		d.split = level
	}
	d.compare()
	if d.early != d.early && d.late != d.late {
		x.Refuse("expected", "the curve and the log have no time in common; check the units of both")
	}
	return d
}

// lowestSplit is ln of 500 mTorr in Pa: below it there is no early part.
const lowestSplit = 4.199622837656187

// head fits the line to the floor through the last three quarters of the time.
func (d *descentLog) head() {
	n := len(d.points)
	end, kept := d.points[n-1].x, 0
	cells := make([]float64, 2*n)
	over, p := cells[:n], cells[n:]
	for _, at := range d.points {
		if at.x >= end/4 && at.x > 0 && at.y < splitAt {
			over[kept], p[kept] = 1/at.x, math.Exp(at.y)
			kept++
		}
	}
	if kept < 4 {
		return
	}
	d.floor, d.heading = fit.Straight(over[:kept], p[:kept])
	if !(d.floor.Intercept > 0 && d.floor.Slope >= 0) {
		d.floor.UIntercept, d.heading = 0, false
	}
}

func floorU(x *declare.Numbers) float64 {
	d, _ := x.Studied().(*descentLog)
	return d.floor.UIntercept
}

// compare finds the two ratios. An error of the gauge's scale goes into the late one as it
// is; that it also moves the end of the early part a little is left aside. A leak shows at
// the end, when the walls have gone quiet: the second half of the time alone counts where it
// is the worse.
func (d *descentLog) compare() {
	start := d.curve.points[0].x
	mine, before := d.reach(d.split, 0), d.curve.reach(d.split, 0)
	d.early = mine / before
	d.delay = mine - before
	if !(mine > 0 && before > 0) { // no early part: compare by the clock
		d.early, d.delay, mine, before = math.NaN(), 0, -1, start
	}
	d.late = d.mean(mine, before)
	if half := d.covered / 2; half > before {
		if end := d.mean(half+d.delay, half); end > d.late {
			d.late = end
		}
	}
}

// mean is the ratio of the pressures of log and curve after a time of the log, which is the
// time before of the curve.
func (d *descentLog) mean(mine, before float64) float64 {
	curve := d.curve.points
	a, b, start, last := &curve[0], &curve[1], curve[0].x, &curve[len(curve)-1]
	sum, weight, near := 0.0, 0.0, 1
	for _, p := range d.points {
		at := p.x - d.delay
		if p.x <= mine || at <= 0 || at < start || at > last.x*(1+1e-9) {
			continue
		}
		w := 1e-3
		if before > 0 {
			w += math.Log(at / before)
		}
		before, d.covered = at, at
		for at > b.x && b != last {
			near++
			a, b = b, &curve[near]
		}
		sum += w * (p.y - (a.y + part(at, a, b)*(b.y-a.y)))
		weight += w
	}
	return math.Exp(sum / weight)
}
