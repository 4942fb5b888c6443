package pumping

import "math"

// flowTable is the gas flow of a line over the chamber pressure, worked out once so that an
// integration can ask for it a thousand times: ln Q over x = ln(p − blank-off). Without a
// hose that is a straight line, which it then gives to the last figure. Slopes are limited
// as by Fritsch and Carlson (1980), so that more pressure always means more flow.
type flowTable struct {
	nodes []node
	near  int // where the last question fell; pressures change little by little
}

type node struct{ x, y, slope float64 }

// nodeStep is the distance of the nodes in ln(q − blank-off).
const nodeStep = 0.15

// newFlowTable covers chamber pressures from low to high, both above the blank-off. The slope
// of a node is the three-point derivative, at most three times the smaller of the two
// neighbouring chords; a chord at the ends.
func newFlowTable(l *Line, low, high float64) *flowTable {
	base := l.Pump.Ultimate
	qLow, _ := l.At(low)
	qHigh, _ := l.At(high)
	from, to := math.Log(qLow-base), math.Log(qHigh-base)
	count := 2
	if nodes := math.Ceil((to - from) / nodeStep); nodes > 0 {
		count += int(min(400, nodes))
	}
	t := &flowTable{nodes: make([]node, count)}
	var last *node
	before, chord := 0.0, 0.0 // of the chord before the last node
	for i := range t.nodes {
		n := &t.nodes[i]
		p, flow := l.chamber(base + math.Exp(from+(to-from)*float64(i)/float64(count-1)))
		n.x, n.y = math.Log(p-base), math.Log(flow)
		if i > 0 {
			after := n.x - last.x
			next := (n.y - last.y) / after
			last.slope, n.slope = next, next
			if i > 1 {
				last.slope = min((chord*after+next*before)/(before+after), 3*min(chord, next))
			}
			before, chord = after, next
		}
		last = n
	}
	return t
}

// at gives ln Q and its slope over x. Beyond the ends the line goes on straight.
func (t *flowTable) at(x float64) (y, slope float64) {
	nodes, i := t.nodes, t.near
	last := len(nodes) - 2
	a, b := &nodes[i], &nodes[i+1]
	for i > 0 && x < a.x {
		i--
		a, b = &nodes[i], a
	}
	for i < last && x > b.x {
		i++
		a, b = b, &nodes[i+1]
	}
	t.near = i
	h := b.x - a.x
	end := a
	switch {
	case i == last && x >= b.x:
		end = b
	case i > 0 || x > a.x:
		s := (x - a.x) / h
		rise := b.y - a.y
		under, over := h*a.slope-rise, h*b.slope-rise
		// y₀ + rise s + s(1 − s)(a(1 − s) − b s)
		left, right := s*(1-s), under*(1-s)-over*s
		return a.y + rise*s + left*right, (rise + (1-2*s)*right - left*(under+over)) / h
	}
	return end.y + end.slope*(x-end.x), end.slope
}
