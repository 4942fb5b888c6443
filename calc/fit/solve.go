package fit

import "math"

// orthonormal are columns turned, one after the other, into directions at right angles:
// Gram and Schmidt's way with every projection done twice, which is as good as
// Householder's (Giraud, Langou & Rozložník, 2005) and shorter.
type orthonormal struct {
	q [4][]float64
	r [4][4]float64 // column j is Σ r[i][j] q[i]
	n int
}

// clear takes from v its part along the directions, and adds it to part.
func (o *orthonormal) clear(v []float64, part *[4]float64) {
	for i := 0; i < 2*o.n; i++ {
		q := o.q[i%o.n]
		share := dot(q, v)
		part[i%o.n] += share
		for k := range v {
			v[k] -= share * q[k]
		}
	}
}

// add takes a column in, which it uses up. False says that it is made of the others.
func (o *orthonormal) add(v []float64) bool {
	size := dot(v, v)
	var part [4]float64
	o.clear(v, &part)
	left := dot(v, v)
	if !(left > 1e-26*size) || math.IsInf(left, 0) {
		return false
	}
	left = math.Sqrt(left)
	for k := range v {
		v[k] /= left
	}
	part[o.n] = left
	for i, share := range part {
		o.r[i][o.n] = share
	}
	o.q[o.n] = v
	o.n++
	return true
}

// back solves R x = b in place.
func (o *orthonormal) back(x *[4]float64) {
	for i := o.n - 1; i >= 0; i-- {
		for j := i + 1; j < o.n; j++ {
			x[i] -= o.r[i][j] * x[j]
		}
		x[i] /= o.r[i][i]
	}
}

// inverse gives (AᵀA)⁻¹, A being the columns: times s² it is the covariance of their
// factors.
func (o *orthonormal) inverse() (c [4][4]float64) {
	for k := 0; k < o.n; k++ {
		var e [4]float64
		e[k] = 1
		o.back(&e) // column k of R⁻¹
		for i := range c {
			for j := range c {
				c[i][j] += e[i] * e[j]
			}
		}
	}
	return c
}
