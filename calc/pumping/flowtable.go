package pumping

import "math"

// flowTable is the gas flow of a line over the chamber pressure, worked out once so that an
// integration can ask for it a thousand times: ln Q over x = ln(p − blank-off). Without a
// hose that is a straight line, which it then gives to the last figure. Slopes are limited
// as by Fritsch and Carlson (1980), so that more pressure always means more flow.
type flowTable struct {
	x, y, slope []float64
	near        int // where the last question fell; pressures change little by little
}

// nodeStep is the distance of the nodes in ln(q − blank-off).
const nodeStep = 0.15

// newFlowTable covers chamber pressures from low to high, both above the blank-off.
func newFlowTable(l *Line, low, high float64) *flowTable {
	base := l.Pump.Ultimate
	qLow, _ := l.At(low)
	qHigh, _ := l.At(high)
	from, to := math.Log(qLow-base), math.Log(qHigh-base)
	count := 2
	if nodes := math.Ceil((to - from) / nodeStep); nodes > 0 {
		count += int(math.Min(400, nodes))
	}
	cells := make([]float64, 3*count)
	t := &flowTable{x: cells[:count], y: cells[count : 2*count], slope: cells[2*count:]}
	for i := range t.x {
		p, flow := l.chamber(base + math.Exp(from+(to-from)*float64(i)/float64(count-1)))
		t.x[i], t.y[i] = math.Log(p-base), math.Log(flow)
	}
	t.tilt()
	return t
}

// tilt sets the slopes: the three-point derivative, at most three times the smaller of the
// two neighbouring chords; a chord at the ends.
func (t *flowTable) tilt() {
	last := len(t.x) - 1
	chord := func(i int) float64 { return (t.y[i+1] - t.y[i]) / (t.x[i+1] - t.x[i]) }
	t.slope[0], t.slope[last] = chord(0), chord(last-1)
	for i := 1; i < last; i++ {
		a, b := chord(i-1), chord(i)
		before, after := t.x[i]-t.x[i-1], t.x[i+1]-t.x[i]
		m := (a*after + b*before) / (before + after)
		t.slope[i] = math.Min(m, 3*math.Min(a, b))
	}
}

// at gives ln Q and its slope over x. Beyond the ends the line goes on straight.
func (t *flowTable) at(x float64) (y, slope float64) {
	last := len(t.x) - 1
	switch {
	case x <= t.x[0]:
		return t.y[0] + t.slope[0]*(x-t.x[0]), t.slope[0]
	case x >= t.x[last]:
		return t.y[last] + t.slope[last]*(x-t.x[last]), t.slope[last]
	}
	i := t.near
	for i > 0 && x < t.x[i] {
		i--
	}
	for i < last-1 && x > t.x[i+1] {
		i++
	}
	t.near = i
	h := t.x[i+1] - t.x[i]
	s := (x - t.x[i]) / h
	rise := t.y[i+1] - t.y[i]
	a, b := h*t.slope[i]-rise, h*t.slope[i+1]-rise
	// y₀ + rise s + s(1 − s)(a(1 − s) − b s)
	left, right := s*(1-s), a*(1-s)-b*s
	return t.y[i] + rise*s + left*right, (rise + (1-2*s)*right - left*(a+b)) / h
}
