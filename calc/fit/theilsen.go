package fit

import "math"

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

// Median is the middle of a list; of an empty list it is NaN.
func Median(list []float64) float64 {
	n := len(list)
	if n == 0 {
		return math.NaN()
	}
	rows := make([]int, n)
	for i := range rows {
		rows[i] = i
	}
	Order(rows, list)
	low, high := list[rows[(n-1)/2]], list[rows[n/2]]
	return low + (high-low)/2
}

// Order puts rows in the order of what a list has for each, by Shell's method: a log is in
// order as a rule, and the library's way costs a phone ten times the code.
func Order(rows []int, by []float64) {
	for gap := len(rows) / 2; gap > 0; gap /= 2 {
		for i := gap; i < len(rows); i++ {
			row := rows[i]
			at := i
			for ; at >= gap && by[rows[at-gap]] > by[row]; at -= gap {
				rows[at] = rows[at-gap]
			}
			rows[at] = row
		}
	}
}
