package fit

import "math"

// Repeated are the statistics of readings of one thing taken again and again.
type Repeated struct {
	N       int
	Mean    float64
	S       float64 // standard deviation of one reading (JCGM 100:2008, 4.2.2)
	U       float64 // standard uncertainty of the mean, s/√n (4.2.3)
	Freedom int
}

// Repeat takes the statistics of two or more readings.
func Repeat(x []float64) (Repeated, bool) {
	if len(x) < 2 || !finite(x) {
		return Repeated{}, false
	}
	off, mean := centred(x)
	n := len(x)
	s := math.Sqrt(dot(off, off) / float64(n-1))
	return Repeated{n, mean, s, s / math.Sqrt(float64(n)), n - 1}, true
}

// Correlation is the correlation coefficient of two quantities read together, which is
// also that of their means (JCGM 100:2008, 5.2.3, C.3.6). It is 0 where one stays the
// same.
func Correlation(x, y []float64) (float64, bool) {
	if len(x) != len(y) || len(x) < 2 || !finite(x, y) {
		return 0, false
	}
	dx, _ := centred(x)
	dy, _ := centred(y)
	size := math.Sqrt(dot(dx, dx)) * math.Sqrt(dot(dy, dy))
	if !(size > 0) {
		return 0, true
	}
	return math.Max(-1, math.Min(1, dot(dx, dy)/size)), true
}
