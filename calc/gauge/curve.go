package gauge

import "math"

// curve is a tube's signal against pressure, signals rising. Between the rows the
// logarithm of the pressure is a monotone cubic of the signal: over the useful range a
// tube's millivolts bend little against it, and a pressure can neither turn back nor fall
// below nought. On eleven rows of the model tube it is good to 2 % from 20 to
// 3,000 mTorr, where straight lines miss by up to a quarter.
type curve struct{ rows []row }

// row is a row of the curve and the way to the next.
type row struct {
	signal, log  float64   // V; ln of Pa, falling
	slope        float64   // d ln p / d signal
	width, chord float64   // of the signal; d ln p / d signal straight to the next row
	_            [0]func() // never compared: saves the code for it
}

// newCurve takes rows in order of the signal, rising or falling, pressures the other way.
//
// Slopes: Fritsch and Butland, SIAM J. Sci. Stat. Comput. 5 (1984) 300, weighted harmonic
// mean of the two neighbouring chords, from memory; at the ends a parabola through three
// rows, held so that the curve stays monotone. The tests look for turning points.
func newCurve(signal, pressure []float64) *curve {
	n := len(signal)
	rows := make([]row, n)
	at, way := 0, 1
	if signal[n-1] < signal[0] {
		at, way = n-1, -1
	}
	for i := range rows {
		k := &rows[i]
		k.signal, k.log = signal[at], math.Log(pressure[at])
		at += way
		if i > 0 {
			b := &rows[i-1]
			b.width = k.signal - b.signal
			b.chord = (k.log - b.log) / b.width
		}
	}
	b := &rows[0]
	b.slope = endSlope(b, &rows[1])
	for i := 1; i < n-1; i++ {
		k := &rows[i]
		w1, w2 := 2*k.width+b.width, k.width+2*b.width
		k.slope = (w1 + w2) / (w1/b.chord + w2/k.chord)
		b = k
	}
	rows[n-1].slope = endSlope(b, &rows[n-3])
	return &curve{rows}
}

func endSlope(at, next *row) float64 {
	s := ((2*at.width+next.width)*at.chord - at.width*next.chord) / (at.width + next.width)
	return math.Min(s, at.chord/10) // all chords fall; a level end would have no sensitivity
}

// part finds the two rows between which a signal lies.
func (c *curve) part(signal float64) (a, b *row) {
	a = &c.rows[0]
	for i := 1; ; i++ {
		if b = &c.rows[i]; signal < b.signal || i == len(c.rows)-1 {
			return a, b
		}
		a = b
	}
}

// at gives the pressure at a signal, Pa, and d ln p / d signal, 1/V.
func (c *curve) at(signal float64) (pressure, slope float64) {
	a, b := c.part(signal)
	h := a.width
	t := (signal - a.signal) / h
	s := 1 - t
	log := s*s*(1+2*t)*a.log + t*s*s*h*a.slope + t*t*(3-2*t)*b.log - t*t*s*h*b.slope
	return math.Exp(log), 6*t*s*a.chord + s*(1-3*t)*a.slope + t*(3*t-2)*b.slope
}

// doubt is how far the pressure between two rows may be off, as a standard share of it:
// half of what separates the curve from the farther of two straight lines, one in the
// logarithm and one in the pressure itself. It vanishes at the rows.
func (c *curve) doubt(signal float64) float64 {
	a, b := c.part(signal)
	t := (signal - a.signal) / a.width
	p, _ := c.at(signal)
	p = math.Log(p)
	plain := math.Log(math.Exp(a.log)*(1-t) + math.Exp(b.log)*t)
	return math.Max(math.Abs(a.log+t*(b.log-a.log)-p), math.Abs(plain-p)) / 2
}
