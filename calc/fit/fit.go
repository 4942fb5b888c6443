// Package fit draws lines and bending curves through readings and says how well it
// knows them: least squares with the covariance of what it finds, Theil and Sen's line,
// the information criterion that chooses between curves, Student's t, and the
// statistics of repeated readings.
//
// It is not for fitting any curve whatever: the one curve that bends is the rise of a
// closed chamber, y = a + b t + c (1 − exp(−t/τ)), and its parts.
//
// Conventions: x (or t) and y have the same length; u is a standard uncertainty; s is
// the standard deviation of the residuals; a fit that the readings do not determine is
// reported by false, never by NaN.
package fit

// Mean is the mean of the readings. The second pass takes away what rounding left of
// the first, so that readings far from zero lose nothing (NIST StRD, NumAcc).
func Mean(x []float64) float64 {
	mean := 0.0
	for pass := 0; pass < 2; pass++ {
		off := 0.0
		for _, v := range x {
			off += v - mean
		}
		mean += off / float64(len(x))
	}
	return mean
}

func dot(a, b []float64) float64 {
	sum := 0.0
	for i := range a {
		sum += a[i] * b[i]
	}
	return sum
}

// less takes share·b away from a.
func less(a []float64, share float64, b []float64) {
	for i := range a {
		a[i] -= share * b[i]
	}
}

// centred gives x less its mean, and the mean.
func centred(x []float64) ([]float64, float64) {
	mean := Mean(x)
	off := make([]float64, len(x))
	for i, v := range x {
		off[i] = v - mean
	}
	return off, mean
}

func finite(lists ...[]float64) bool {
	for _, list := range lists {
		for _, v := range list {
			if v-v != 0 { // no number, or no end; quicker than to ask for both
				return false
			}
		}
	}
	return true
}
