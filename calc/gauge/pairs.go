package gauge

import (
	"math"

	"blankoff/calc/declare"
	"blankoff/calc/letters"
	"blankoff/calc/uncertainty"
)

const (
	// mostPairs is what the table of results can show.
	mostPairs = 60
	// wander is how far a reading that counts as steady still moves, as a share of it:
	// ± 2 % (common practice; the procedure asks for less than 2 % in 5 min).
	wander = 0.02
	// span is the least ratio of highest to lowest pressure over which an offset can be
	// told from a factor at all (chosen here).
	span = 2
	// roughness is how far a reading may lie off a smooth curve, as a share of it: 10 %,
	// five times the wander (chosen here).
	roughness = 5 * wander
)

// pair is one line of the table.
type pair struct {
	machine, reference float64 // Pa
	doubt, score       float64 // √(A² + B²), Pa; E
}

// pairs is what is known of the readings before anything is judged.
type pairs struct {
	list      []pair
	worst     int     // the pair with the largest E
	high, low bool    // some pair with E above 1 has the machine higher, lower
	points    []point // pairs up to the ceiling
	fit       line    // its uncertainties cover what the misfit shows
	scattered bool    // no straight line, and no smooth curve, fits
}

// Score is |a − b| / √(A² + B²), A and B being the expanded uncertainties of a and b:
// up to 1 the two agree. Two equal readings score 0, whatever they promise.
func Score(a, b, expandedA, expandedB float64) float64 {
	if a == b {
		return 0
	}
	return math.Abs(a-b) / math.Hypot(expandedA, expandedB)
}

// doubtOf is the expanded uncertainty of a reading.
func doubtOf(reading, accuracy, step float64) float64 {
	return math.Hypot(accuracy*reading, uncertainty.K*uncertainty.FromStep(step))
}

func comparePairs(x *declare.Numbers) any {
	p := &pairs{list: make([]pair, x.Rows("readings"))}
	if len(p.list) > mostPairs {
		x.Refuse("readings", "give at most 60 pairs; three to ten are enough")
		return p
	}
	machine, reference := x.Column("readings", "machine"), x.Column("readings", "reference")
	machineStep, referenceStep := x.In("machine-step"), x.In("reference-step")
	for i := range p.list {
		q := &p.list[i]
		a, b := machine[i], reference[i]
		if a+b != a+b {
			x.Refuse("readings", "line "+letters.Whole(x.Line("readings", i))+": one of the two readings is missing; leave the line out")
		}
		doubtA, doubtB := doubtOf(a, x.In("machine-accuracy"), machineStep), doubtOf(b, x.In("reference-accuracy"), referenceStep)
		*q = pair{a, b, math.Hypot(doubtA, doubtB), Score(a, b, doubtA, doubtB)}
		if q.score > p.list[p.worst].score {
			p.worst = i
		}
		apart := q.score > 1+tie
		p.high, p.low = p.high || apart && a > b, p.low || apart && a < b
		if b <= ceiling*(1+tie) { // a gauge that reads low wanders with the pressure, not with its low reading
			p.points = append(p.points, point{b, a, noiseOf(b, referenceStep), noiseOf(math.Max(a, b), machineStep)})
		}
	}
	p.fitLine()
	return p
}

// noiseOf is the standard uncertainty of a reading from one moment to the next; a
// reading of nought on a display without steps still has a little.
func noiseOf(reading, step float64) float64 {
	return math.Max(1e-6, math.Hypot(uncertainty.FromAccuracy(wander*reading), uncertainty.FromStep(step)))
}

// fitLine fits offset and gain to the pairs up to the ceiling. The errors of the points
// are steps and wander alone: what is common to all readings of a gauge is not noise.
// Where the points scatter more than that, the uncertainties grow with them.
func (p *pairs) fitLine() {
	free := float64(len(p.points) - 2)
	if free < 1 {
		return
	}
	if low, high := extremes(p.points, false); high < span*low || high == 0 {
		low, high = extremes(p.points, true)
		p.scattered = high > low*(1+4*roughness) // it leaps while the pressure stays
		return
	}
	p.fit = lineThrough(p.points)
	p.scattered = p.fit.ok && p.fit.chi2 > chi2Limit(free) && !p.smooth()
	inflate := math.Sqrt(math.Max(1, p.fit.chi2/free))
	p.fit.offsetU *= inflate
	p.fit.gainU *= inflate
}

// extremes are the lowest and the highest pressure, or ratio of the two gauges.
func extremes(points []point, ratio bool) (low, high float64) {
	low = math.Inf(1)
	for _, at := range points {
		x := at.x
		if ratio {
			x = at.y / at.x
		}
		low, high = math.Min(low, x), math.Max(high, x)
	}
	return low, high
}

// smooth tells whether the readings of the machine rise with those of the other gauge
// and no single one lies far off the line: a curve of a gauge bends, a bad contact leaps.
func (p *pairs) smooth() bool {
	for _, a := range p.points {
		for _, b := range p.points {
			if b.x > a.x*(1+roughness) && b.y < a.y*(1-wander) {
				return false
			}
		}
		if left := a.y - p.fit.offset - p.fit.gain*a.x; math.Abs(left) > roughness*math.Max(a.x, a.y) {
			return false
		}
	}
	return true
}
