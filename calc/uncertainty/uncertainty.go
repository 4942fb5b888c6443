// Package uncertainty says how sure a computed value is and what may be decided
// from it: first-order propagation (JCGM 100:2008, the GUM) and a decision rule
// with guard bands (JCGM 106:2012; ISO 14253-1).
//
// Conventions: u is a standard uncertainty, U = k·u an expanded one with k = 2.
// All numbers are in the unit of their quantity.
package uncertainty

import "math"

// K is the coverage factor used throughout, about 95 % for a normal distribution
// (JCGM 100:2008, 6.3.3).
const K = 2

// FromAccuracy turns a stated accuracy ± a into a standard uncertainty. It is read
// as covering about 95 % of cases, U = a; see DEVELOPERS.md for why not a/√3.
func FromAccuracy(a float64) float64 { return math.Abs(a) / K }

// FromHalfWidth is the standard uncertainty of a value that lies anywhere within
// ± a with equal chance (JCGM 100:2008, 4.3.7).
func FromHalfWidth(a float64) float64 { return math.Abs(a) / math.Sqrt(3) }

// FromStep is the standard uncertainty of a display that moves in steps: anywhere
// within half a step (JCGM 100:2008, F.2.2.1).
func FromStep(step float64) float64 { return FromHalfWidth(step / 2) }

// Combine is the root of the sum of squares of independent contributions
// (JCGM 100:2008, 5.1.2).
func Combine(u ...float64) float64 {
	sum := 0.0
	for _, x := range u {
		sum += x * x
	}
	return math.Sqrt(sum)
}

// MeterLimit is the largest error that a meter's maker allows for a reading:
// ± (a share of the reading + a number of counts of the last digit).
func MeterLimit(reading, share, counts, resolution float64) float64 {
	return math.Abs(reading)*share + counts*resolution
}

// noise is the share of a result below which a change is rounding, not an effect: an
// entry that cancels out leaves some 1e-16.
const noise = 1e-13

// Propagate gives the standard uncertainty of each result of f at x, whose entries
// have standard uncertainties u and are independent; an entry with u = 0 is exact.
// What enters f twice is varied as one, so correlation through a shared entry is
// taken care of.
//
// Each contribution is half the change of f between x+u and x−u, which the GUM
// allows in place of the derivative (JCGM 100:2008, 5.1.3, note 2). Where one side
// cannot be computed the other side's whole change is used; where neither can, the
// result is infinite. f reports failure by returning false and must write all its
// results into out.
func Propagate(f func(x, out []float64) bool, x, u []float64, results int) []float64 {
	sum := make([]float64, results)
	mid, high, low := make([]float64, results), make([]float64, results), make([]float64, results)
	if !f(x, mid) {
		return sum
	}
	moved := make([]float64, len(x))
	copy(moved, x)
	for i := range x {
		if u[i] <= 0 {
			continue
		}
		moved[i] = x[i] + u[i]
		up := f(moved, high)
		moved[i] = x[i] - u[i]
		down := f(moved, low)
		moved[i] = x[i]
		for j := range sum {
			change := math.Inf(1) // neither side can be computed: nothing is known, which is not the same as exact
			switch {
			case up && down:
				change = (high[j] - low[j]) / 2
			case up:
				change = high[j] - mid[j]
			case down:
				change = mid[j] - low[j]
			}
			if math.Abs(change) <= noise*math.Abs(mid[j]) {
				continue
			}
			sum[j] = math.Hypot(sum[j], change) // the squares alone may overflow
		}
	}
	return sum
}
