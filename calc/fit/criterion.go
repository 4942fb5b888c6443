package fit

import "math"

// AICc is the information criterion of Akaike, corrected for few readings, of a fit by
// least squares: n ln(SS/n) + 2k + 2k(k+1)/(n−k−1), where k counts the parameters and
// one more for the scatter (Burnham & Anderson, Model Selection and Multimodel
// Inference, 2nd edition, 2.4). The smaller, the better. Where there are too few
// readings for k parameters it is +Inf.
func AICc(n, k int, ss float64) float64 {
	if n-k-1 < 1 {
		return math.Inf(1)
	}
	return float64(n)*math.Log(ss/float64(n)) + Penalty(float64(n), k)
}

// Penalty is what AICc charges for k parameters, given n readings that tell something
// of their own.
func Penalty(n float64, k int) float64 {
	p := float64(k)
	if n-p-1 <= 0 {
		return math.Inf(1)
	}
	return 2*p + 2*p*(p+1)/(n-p-1)
}
