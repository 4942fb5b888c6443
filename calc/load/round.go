package load

import "math"

// roundDown keeps two figures, so that an amount given as enough is still enough as it is
// printed.
func roundDown(x float64) float64 {
	if !(x > 0) {
		return 0
	}
	place := math.Pow(10, math.Floor(math.Log10(x)+1e-12)-1)
	return math.Floor(x/place+1e-11) * place
}
