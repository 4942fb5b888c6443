package fit

import "math"

// Terms says which terms a curve has.
type Terms int

// The terms of y = Start + Slope t + Rise (1 − exp(−t/Tau)).
const (
	Start Terms = 1 << iota
	Slope
	Bend // Rise and Tau
)

// Curve is a fitted curve; terms that it does not have are zero.
type Curve struct {
	Terms
	Start, Slope, Rise, Tau     float64
	UStart, USlope, URise, UTau float64 // from the scatter, to first order
	UPlateau                    float64 // of Start + Rise, where it has both
	// Pull is how far each reading draws the curve to itself: the share of an error in it
	// by which the curve follows.
	Pull    []float64
	S, SS   float64
	Freedom int
}

// Parameters is the number of parameters fitted, that of the scatter not counted.
func (t Terms) Parameters() int {
	n := 0
	for _, term := range [3]Terms{Start, Slope, Bend} {
		if t&term != 0 {
			n++
		}
	}
	if t&Bend != 0 {
		n++
	}
	return n
}

// At is the curve at t.
func (c *Curve) At(t float64) float64 {
	y := c.Start + c.Slope*t
	if c.Terms&Bend != 0 {
		y -= c.Rise * math.Expm1(-t/c.Tau)
	}
	return y
}

// column is the derivative of a curve for one of its parameters, written over list where
// that has the room: a search asks for a hundred of them.
func column(list []float64, term Terms, t []float64, rise, tau float64) []float64 {
	if list == nil {
		list = make([]float64, len(t))
	}
	switch term {
	case Start:
		for i := range list {
			list[i] = 1
		}
	case Slope:
		copy(list, t)
	case Bend:
		decay(list, t, tau)
		for i, at := range t {
			if list[i] = 1 - list[i]; at < 0.01*tau {
				list[i] = -math.Expm1(-at / tau)
			}
		}
	default: // the time constant; of its logarithm, times it
		decay(list, t, tau)
		for i, at := range t {
			list[i] *= -rise * at / tau
		}
	}
	return list
}

// decay is exp(−t/τ). Where the times keep their step but for the rounding with which they were
// written, it goes from one to the next by a product, sixteen times at most.
func decay(list, t []float64, tau float64) {
	e, step, factor, since := 0.0, 0.0, 0.0, 0
	for i, at := range t {
		next := 0.0
		if i > 0 {
			next = at - t[i-1]
		}
		off := (next - step) / tau
		if since++; since < 16 && math.Abs(off) < 1e-9 && step > 0 {
			e *= factor * (1 - off)
		} else {
			e = falling(-at / tau)
			if since = 0; next != step {
				step, factor = next, falling(-next/tau)
			}
		}
		list[i] = e
	}
}

// Plane is what remains of a fit when the terms that are linear in their parameters
// have been solved for: for any time constant the best curve, at the price of a few
// sums. The search for the time constant then has one dimension ("variable projection":
// Golub & Pereyra, SIAM J. Numer. Anal. 10 (1973) 413), needs no starting values for the
// rest and cannot wander off.
type Plane struct {
	terms  Terms
	t, y   []float64
	linear orthonormal // the terms without Bend
	part   [4]float64  // of y in them
	rest   []float64   // y less that part
	bend   []float64   // of the latest trial, less its part in them
	change []float64   // by the time constant, likewise
	steep  float64     // slope of the last direction
}

// Trial is the best curve with one time constant.
type Trial struct {
	_                    [0]func() // never compared: saves the code for it
	Tau, Rise, Slope, SS float64
	Width                float64 // what SS grows by for a change of Rise by 1, all else refitted
	Lean                 float64 // what Slope falls by for that change
}

// NewPlane prepares the fit. False says that the readings are too few for the terms, not
// finite, or all at one time.
func NewPlane(t, y []float64, terms Terms) (*Plane, bool) {
	if len(t) != len(y) || len(t) <= terms.Parameters() || !finite(t, y) {
		return nil, false
	}
	p := &Plane{terms: terms, t: t, y: y, rest: append([]float64(nil), y...)}
	for term := Start; term <= Slope; term <<= 1 {
		if terms&term == 0 {
			continue
		}
		if !p.linear.add(column(nil, term, t, 0, 0)) {
			return nil, false
		}
		if n := p.linear.n - 1; term == Slope {
			p.steep = 1 / p.linear.r[n][n]
		}
	}
	p.linear.clear(p.rest, &p.part)
	return p, true
}

// At finds the best curve with this time constant. A bend that cannot be told from the
// other terms gives false.
func (p *Plane) At(tau float64) (Trial, bool) {
	p.bend = column(p.bend, Bend, p.t, 0, tau)
	size := dot(p.bend, p.bend)
	var taken [4]float64
	p.linear.clear(p.bend, &taken)
	width := dot(p.bend, p.bend)
	if !(width > 1e-24*size) || math.IsInf(width, 0) {
		return Trial{}, false
	}
	r := Trial{Tau: tau, Rise: dot(p.bend, p.rest) / width, Width: width}
	for i, v := range p.rest {
		off := v - r.Rise*p.bend[i]
		r.SS += off * off
	}
	if p.steep > 0 {
		n := p.linear.n - 1
		r.Lean = taken[n] * p.steep
		r.Slope = p.part[n]*p.steep - r.Rise*r.Lean
	}
	return r, true
}

// step is Gauss and Newton's, for the logarithm of the time constant of the latest trial.
// The change of the residuals is taken to the order that matters at the minimum (Kaufman,
// BIT 15 (1975) 49).
func (p *Plane) step(at Trial) float64 {
	p.change = column(p.change, 0, p.t, at.Rise, at.Tau)
	change := p.change
	var part [4]float64
	p.linear.clear(change, &part)
	share := dot(p.bend, change) / at.Width
	along, size := 0.0, 0.0
	for i, v := range change {
		v -= share * p.bend[i]
		along += v * (p.rest[i] - at.Rise*p.bend[i])
		size += v * v
	}
	return along / size
}

// Descend goes from a time constant downhill to the nearest minimum of the sum of
// squares, in ln τ, the steps shortened after Levenberg and Marquardt where they lead
// uphill. It stays between low and high, and ends where a step would change the time
// constant by less than the share close; false says that no bend can be told apart at the
// start.
func (p *Plane) Descend(tau, low, high, close float64) (float64, bool) {
	at, ok := p.At(tau)
	if !ok {
		return 0, false
	}
	damping, last := 0.0, math.Inf(1)
	for round := 0; round < 200; round++ {
		step := p.step(at)
		if !(math.Abs(step) >= close) {
			break
		}
		// So near the minimum the sum of squares no longer shows which way is down; the
		// steps themselves still do, as long as they shrink.
		near := math.Abs(step) < 1e-5 && math.Abs(step) < last
		last = math.Abs(step)
		moved := false
		for try := 0; try < 40 && !moved; try++ {
			next, fine := p.At(math.Max(low, math.Min(high, at.Tau*math.Exp(math.Max(-2, math.Min(2, step/(1+damping)))))))
			if moved = fine && next.Tau != at.Tau && (next.SS < at.SS || near); moved {
				at = next
				damping = math.Max(0, damping/4-0.01)
			} else {
				damping = 2*damping + 0.5
			}
		}
		if !moved {
			break
		}
	}
	return at.Tau, true
}

// Unsloped gives the best curve with the same time constant and no Slope.
func (p *Plane) Unsloped(r Trial) Trial {
	a, own, width := p.part[p.linear.n-1], r.Lean/p.steep, math.Sqrt(r.Width)
	along := r.Rise * width // of y in the direction of the bend
	u := Trial{Tau: r.Tau, Width: own*own + r.Width}
	u.Rise = (a*own + along*width) / u.Width
	u.SS = r.SS + math.Max(0, a*a+along*along-u.Rise*u.Rise*u.Width)
	return u
}

// Curve gives the curve with this time constant and the uncertainties of all its
// parameters.
func (p *Plane) Curve(tau float64) (Curve, bool) {
	c := Curve{Terms: p.terms, Freedom: len(p.t) - p.terms.Parameters()}
	o := p.linear
	x, rest := p.part, p.rest
	if p.terms&Bend != 0 {
		c.Tau = tau
		if !o.add(column(nil, Bend, p.t, 0, tau)) {
			return c, false
		}
		rest = append([]float64(nil), p.rest...)
		o.clear(rest, &x)
	}
	c.SS = dot(rest, rest)
	c.S = math.Sqrt(c.SS / float64(c.Freedom))
	o.back(&x)
	rise := o.n - 1
	if p.terms&Bend != 0 { // the time constant too, for the uncertainties
		c.Rise = x[rise]
		if !o.add(column(nil, 0, p.t, c.Rise, tau)) {
			return c, false
		}
	}
	v := o.inverse()
	at := 0
	if p.terms&Start != 0 {
		c.Start, c.UStart = x[0], c.u(v[0][0])
		at++
	}
	if p.terms&Slope != 0 {
		c.Slope, c.USlope = x[at], c.u(v[at][at])
	}
	if p.terms&Bend != 0 {
		c.URise, c.UTau = c.u(v[rise][rise]), tau*c.u(v[o.n-1][o.n-1])
		c.UPlateau = c.u(v[0][0] + 2*v[0][rise] + v[rise][rise])
	}
	c.pull(&o, len(p.t))
	return c, true
}

// u turns an element of (AᵀA)⁻¹ into a standard uncertainty.
func (c *Curve) u(v float64) float64 { return c.S * math.Sqrt(math.Max(0, v)) }

// pull fills in how far each reading draws the curve to itself.
func (c *Curve) pull(o *orthonormal, n int) {
	c.Pull = make([]float64, n)
	for _, q := range o.q[:o.n] {
		for i, v := range q {
			c.Pull[i] += v * v
		}
	}
}

// Fit finds the curve with these terms; tau is where the search for the time constant
// begins, and has no meaning without a bend.
func Fit(t, y []float64, terms Terms, tau float64) (Curve, bool) {
	p, ok := NewPlane(t, y, terms)
	if !ok {
		return Curve{}, false
	}
	if terms&Bend != 0 {
		if tau, ok = p.Descend(tau, 0, math.Inf(1), 1e-15); !ok {
			return Curve{}, false
		}
	}
	return p.Curve(tau)
}
