package uncertainty

import "math"

// Covariance of two results that depend on the same inputs: Σᵢ Σⱼ aᵢ bⱼ r(i,j), where aᵢ
// is the change of the first result for one standard uncertainty of input i, bⱼ that of
// the second, and r the correlation coefficients of the inputs (JCGM 100:2008, 5.2.2 and
// F.1.2.3).
func Covariance(a, b []float64, r [][]float64) float64 {
	sum := 0.0
	for i := range a {
		for j := range b {
			sum += a[i] * b[j] * r[i][j]
		}
	}
	return sum
}

// Correlated is the standard uncertainty of a result of inputs that are correlated.
func Correlated(a []float64, r [][]float64) float64 {
	return math.Sqrt(math.Max(0, Covariance(a, a, r)))
}
