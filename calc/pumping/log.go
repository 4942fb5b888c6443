package pumping

import (
	"math"

	"blankoff/calc/declare"
	"blankoff/calc/letters"
)

// record is a log of readings in the order of time. Dropped readings and noughts, which a
// display shows when it has lost the gauge, are left out.
type record struct {
	points     []point // s; ln of the pressure in Pa
	sorted     bool    // the log was not in order
	high, left int     // readings not used: above the ceiling; missing, at a time that stands twice, or leaping
}

// read takes a log from a table with columns time and pressure; readings above the ceiling
// are counted and left out.
func (r *record) read(x *declare.Numbers, table string, ceiling float64) {
	list := pairs(x, table, "time", "pressure")
	n, last := 0, -1.0
	for _, p := range list {
		switch {
		case !(p.x >= 0) || !(p.y > 0):
			r.left++
		case p.y > ceiling*(1+1e-12):
			r.high++
		default:
			r.sorted = r.sorted || p.x < last
			last = p.x
			p.y = math.Log(p.y)
			list[n] = p
			n++
		}
	}
	list = list[:n]
	ascending(list)
	n, last = 0, -1
	for i, p := range list {
		// One reading that is off both its neighbours by a factor of two, to the same side, is
		// a bad contact: no chamber that is pumped does that.
		leaps := false
		if n > 0 && i+1 < len(list) {
			a, b := list[n-1].y, list[i+1].y
			leaps = math.Abs(2*p.y-a-b) > math.Abs(a-b)+2*math.Ln2
		}
		if p.x == last || leaps {
			r.left++
			continue
		}
		list[n], last = p, p.x
		n++
	}
	r.points = list[:n]
}

// remark tells what was done to the log.
func (r *record) remark(result *declare.Result) {
	if r.sorted {
		result.Caution("The log was not in the order of time; it was sorted.")
	}
	if r.left > 0 {
		caution(result, "Left out: # without a number, at a time that stands twice, or far off both neighbours.", count(r.left))
	}
}

func count(n int) string {
	text := letters.Whole(n) + " reading"
	if n != 1 {
		text += "s"
	}
	return text
}

// reach is the time at which the pressure first falls to ln p = level, between readings
// straight in ln p; NaN when the log begins below it or never comes down to it. shift is
// added to every reading.
func (r *record) reach(level, shift float64) float64 {
	level -= shift
	var before point
	for i, p := range r.points {
		switch {
		case p.y > level:
			before = p
		case i > 0:
			return before.x + (p.x-before.x)*(before.y-level)/(before.y-p.y)
		case p.y == level:
			return p.x
		default:
			return math.NaN()
		}
	}
	return math.NaN()
}
