package pumping

import (
	"math"

	"blankoff/calc/declare"
	"blankoff/calc/quantity"
)

// record is a log of readings in the order of time. Dropped readings and noughts, which a
// display shows when it has lost the gauge, are left out.
type record struct {
	time, log  []float64 // s; ln of the pressure in Pa
	sorted     bool      // the log was not in order
	high, left int       // readings not used: above the ceiling; missing, or at a time that stands twice
}

// readRecord takes a log from a table with columns time and pressure; readings above the
// ceiling are counted and left out.
func readRecord(x *declare.Numbers, table string, ceiling float64) *record {
	times, pressures := x.Column(table, "time"), x.Column(table, "pressure")
	r := &record{}
	kept, last := make([]int, 0, len(times)), -1.0
	for i, t := range times {
		switch p := pressures[i]; {
		case !(t >= 0) || !(p > 0):
			r.left++
		case p > ceiling*(1+1e-12):
			r.high++
		default:
			r.sorted = r.sorted || t < last
			kept, last = append(kept, i), t
		}
	}
	ascending(kept, times)
	cells, n := make([]float64, 2*len(kept)), 0
	r.time, r.log = cells[:len(kept)], cells[len(kept):]
	for _, i := range kept {
		if n > 0 && times[i] == r.time[n-1] {
			r.left++
			continue
		}
		r.time[n], r.log[n] = times[i], math.Log(pressures[i])
		n++
	}
	r.time, r.log = r.time[:n], r.log[:n]
	return r
}

// remark tells what was done to the log.
func (r *record) remark(result *declare.Result) {
	if r.sorted {
		result.Caution("The log was not in the order of time; it was sorted.")
	}
	if r.left > 0 {
		result.Caution("Left out: " + count(r.left) + " without a reading, or at a time that stands twice.")
	}
}

// reach is the time at which the pressure first falls to ln p = level, between readings
// straight in ln p; NaN when the log begins below it or never comes down to it. shift is
// added to every reading.
func (r *record) reach(level, shift float64) float64 {
	level -= shift
	if len(r.log) == 0 || r.log[0] < level {
		return math.NaN()
	}
	for i := range r.log {
		if r.log[i] <= level {
			if i == 0 || r.log[i] == r.log[i-1] {
				return r.time[i]
			}
			return r.time[i-1] + (r.time[i]-r.time[i-1])*(r.log[i-1]-level)/(r.log[i-1]-r.log[i])
		}
	}
	return math.NaN()
}

// timeColumns are those of a log.
var timeColumns = []declare.Column{
	{ID: "time", Label: "Time", Kinds: []quantity.Kind{quantity.Time}, Unit: "min", Min: "0 s", Required: true},
	{ID: "pressure", Label: "Reading", Kinds: []quantity.Kind{quantity.Pressure}, Unit: "mTorr", Min: "0 Pa", Max: "200 kPa", Required: true},
}
