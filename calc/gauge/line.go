package gauge

import "math"

// point is one point with its standard errors in both coordinates.
type point struct {
	x, y, ux, uy float64
	_            [0]func() // never compared: saves the code for it
}

// line is a straight line y = offset + gain x. The uncertainties are standard ones, from
// the errors of the points alone.
type line struct {
	offset, gain   float64
	offsetU, gainU float64
	chi2           float64 // sum of squares of what is left, in units of the errors
	ok             bool
	_              [0]func() // never compared: saves the code for it
}

// lineThrough finds the line that minimises the sum of (y − offset − gain x)² /
// (uy² + gain² ux²). At least three points, not all at one x; else ok is false.
//
// Source: York, Evensen, López Martínez and De Basabe Delgado, Am. J. Phys. 72 (2004)
// 367, equations 13, with uncorrelated errors; from memory, checked in the tests against
// direct minimisation and against the spread of fits. A gain of nought to begin with
// makes the first pass the plain regression on x.
func lineThrough(points []point) line {
	var l line
	if len(points) < 3 {
		return l
	}
	for range 100 {
		last := l.gain
		l.pass(points)
		if math.Abs(l.gain-last) <= 1e-13*math.Abs(last) {
			break
		}
	}
	l.ok = l.offsetU+l.gainU+math.Abs(l.gain) < math.Inf(1) // false for NaN as well
	return l
}

// pass goes from one gain to the next, and computes all else for the present one.
func (l *line) pass(points []point) {
	sum, meanX, meanY := 0.0, 0.0, 0.0
	for i := range points {
		p := &points[i]
		w := l.weight(p)
		sum += w
		meanX += w * p.x
		meanY += w * p.y
	}
	meanX /= sum
	meanY /= sum
	above, below, shift, spread, chi2 := 0.0, 0.0, 0.0, 0.0, 0.0
	for i := range points {
		p := &points[i]
		w, dx, dy := l.weight(p), p.x-meanX, p.y-meanY
		beside := w * (dx*p.uy*p.uy + l.gain*dy*p.ux*p.ux) // the line's own point, from the mean
		above += w * beside * dy
		below += w * beside * dx
		shift += w * beside
		spread += w * beside * beside
		chi2 += w * (dy - l.gain*dx) * (dy - l.gain*dx)
	}
	spread -= shift * shift / sum
	l.chi2 = chi2
	l.gain = above / below
	l.offset = meanY - l.gain*meanX
	l.gainU = 1 / math.Sqrt(spread)
	l.offsetU = math.Hypot(1/math.Sqrt(sum), (meanX+shift/sum)*l.gainU)
}

func (l *line) weight(p *point) float64 { return 1 / (p.uy*p.uy + l.gain*l.gain*p.ux*p.ux) }

// chi2Limit is the value that the sum of squares of n independent normal errors passes
// once in a hundred: Wilson and Hilferty's approximation, good to 2 % from n = 1 on.
func chi2Limit(n float64) float64 {
	const once = 2.3263 // normal deviate
	k := 2 / (9 * n)
	root := 1 - k + once*math.Sqrt(k)
	return n * root * root * root
}
