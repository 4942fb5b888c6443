package fit

import (
	"math"
	"slices"
)

// TheilSen is the line whose slope is the median of the slopes between all pairs of
// readings, and whose intercept is the median of y − slope x (Sen, J. Am. Stat. Assoc.
// 63 (1968) 1379). Up to 29 % of the readings may be wrong without carrying it off. Its
// cost grows with the square of the number of readings: meant for a few hundred.
func TheilSen(x, y []float64) (slope, intercept float64, ok bool) {
	if len(x) != len(y) || !finite(x, y) {
		return 0, 0, false
	}
	slopes := make([]float64, 0, len(x)*(len(x)-1)/2)
	for i := range x {
		for j := i + 1; j < len(x); j++ {
			if x[i] != x[j] {
				slopes = append(slopes, (y[j]-y[i])/(x[j]-x[i]))
			}
		}
	}
	if len(slopes) == 0 {
		return 0, 0, false
	}
	slope = Median(slopes)
	rest := make([]float64, len(x))
	for i := range x {
		rest[i] = y[i] - slope*x[i]
	}
	intercept = Median(rest)
	return slope, intercept, finite([]float64{slope, intercept})
}

// Median puts the list in order and gives its middle; of an empty list it is NaN.
func Median(list []float64) float64 {
	n := len(list)
	if n == 0 {
		return math.NaN()
	}
	slices.Sort(list)
	return list[(n-1)/2] + (list[n/2]-list[(n-1)/2])/2
}
