package gauge

import (
	"math"

	"blankoff/calc/declare"
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
	machine, reference float64   // Pa
	doubt, score       float64   // √(A² + B²), Pa; E
	_                  [0]func() // never compared: saves the code for it
}

// pairs is what is known of the readings before anything is judged.
type pairs struct {
	list      []pair
	lowest    pair    // that with the lowest reference above nought
	lowestU   float64 // standard uncertainty of its ratio by display steps, a share
	worst     int     // the pair with the largest E
	high, low bool    // some pair with E above 1 has the machine higher, lower
	points    []point // pairs up to the ceiling
	from, to  float64 // their lowest and highest pressure; to is 0 where there is none
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

func comparePairs(x *declare.Numbers) any {
	n := x.Rows("readings")
	p := &pairs{list: make([]pair, n)}
	if n > mostPairs {
		x.Refuse("readings", "give at most 60 pairs; three to ten are enough")
		return p
	}
	machine, reference := x.Column("readings", "machine"), x.Column("readings", "reference")
	machineStep, referenceStep := uncertainty.FromStep(x.In("machine-step")), uncertainty.FromStep(x.In("reference-step"))
	machineShare, referenceShare := x.In("machine-accuracy"), x.In("reference-accuracy")
	steps := uncertainty.K * uncertainty.K * (machineStep*machineStep + referenceStep*referenceStep)
	points, counted, largest := make([]point, n), 0, 0.0
	for i, a := range machine {
		q, b := &p.list[i], reference[i]
		if a+b != a+b {
			x.Refuse("readings", declare.With(4, "line []: one of the two readings is missing; leave the line out", float64(x.Line("readings", i))))
			return p
		}
		q.machine, q.reference = a, b
		if b > 0 && !(p.lowest.reference > 0 && p.lowest.reference <= b) {
			p.lowest, p.lowestU = *q, math.Hypot(machineStep/math.Max(a, 1e-9), referenceStep/b)
		}
		doubtA, doubtB := machineShare*a, referenceShare*b
		q.doubt = math.Sqrt(doubtA*doubtA + doubtB*doubtB + steps)
		q.score = Score(a, b, q.doubt, 0)
		if q.score > largest {
			p.worst, largest = i, q.score
		}
		if q.score > 1+tie {
			if a > b {
				p.high = true
			} else {
				p.low = true
			}
		}
		if b <= ceiling*(1+tie) {
			at := &points[counted]
			counted++
			at.x, at.y, at.ux = b, a, noiseOf(b, referenceStep)
			if a < b { // a gauge that reads low wanders with the pressure, not with its low reading
				a = b
			}
			at.uy = noiseOf(a, machineStep)
		}
	}
	p.points = points[:counted]
	p.fitLine()
	return p
}

// noiseOf is the standard uncertainty of a reading from one moment to the next, step being
// that of the display; a reading of nought on a display without steps still has a little.
func noiseOf(reading, step float64) float64 {
	reading *= wander / uncertainty.K
	if u := math.Sqrt(reading*reading + step*step); u > 1e-6 {
		return u
	}
	return 1e-6
}

// fitLine fits offset and gain to the pairs up to the ceiling. The errors of the points
// are steps and wander alone: what is common to all readings of a gauge is not noise.
// Where the points scatter more than that, the uncertainties grow with them.
func (p *pairs) fitLine() {
	low, high := math.MaxFloat64, 0.0 // pressure
	least, most := low, high          // ratio of the two gauges
	for i := range p.points {
		at := &p.points[i]
		ratio := at.y / at.x
		if at.x < low {
			low = at.x
		}
		if at.x > high {
			high = at.x
		}
		if ratio < least {
			least = ratio
		}
		if ratio > most || ratio != ratio { // 0 / 0 stays, and is no leap
			most = ratio
		}
	}
	p.from, p.to = low, high
	free := float64(len(p.points) - 2)
	if free < 1 {
		return
	}
	if high < span*low || high == 0 {
		p.scattered = most > least*(1+4*roughness) // it leaps while the pressure stays
		return
	}
	p.fit = lineThrough(p.points)
	p.scattered = p.fit.ok && p.fit.chi2 > chi2Limit(free) && !p.smooth()
	if inflate := math.Sqrt(p.fit.chi2 / free); inflate > 1 {
		p.fit.offsetU *= inflate
		p.fit.gainU *= inflate
	}
}

// smooth tells whether the readings of the machine rise with those of the other gauge
// and no single one lies far off the line: a curve of a gauge bends, a bad contact leaps.
func (p *pairs) smooth() bool {
	for i := range p.points {
		a := &p.points[i]
		for j := range p.points {
			if b := &p.points[j]; b.x > a.x*(1+roughness) && b.y < a.y*(1-wander) {
				return false
			}
		}
		if left := math.Abs(a.y - p.fit.offset - p.fit.gain*a.x); left > roughness*a.x && left > roughness*a.y {
			return false
		}
	}
	return true
}
