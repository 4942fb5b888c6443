package temperature

import "math"

// The Callendar–Van Dusen coefficients of IEC 60751 (published; transcriptions agree, see
// testdata/reference/10_rtd_ntc.csv): 1/°C, 1/°C², 1/°C⁴. The last applies below 0 °C only.
const platinumA, platinumB, platinumC = 3.9083e-3, -5.775e-7, -4.183e-12

// The range of IEC 60751, °C.
const platinumLow, platinumHigh = -200, 850

// platinumRatio is the resistance at t °C as a multiple of that at 0 °C, and its slope in
// 1/°C.
func platinumRatio(t float64) (ratio, slope float64) {
	ratio = 1 + t*(platinumA+platinumB*t)
	slope = platinumA + 2*platinumB*t
	if t < 0 {
		ratio += platinumC * (t - 100) * t * t * t
		slope += platinumC * t * t * (4*t - 300)
	}
	return ratio, slope
}

// platinumCelsius is the inverse: the root of the quadratic, which below 0 °C Newton's
// method corrects. It is smooth a little beyond the range, so that an uncertainty may
// reach over its end.
func platinumCelsius(ratio float64) float64 {
	t := (-platinumA + math.Sqrt(platinumA*platinumA-4*platinumB*(1-ratio))) / (2 * platinumB)
	if t >= 0 {
		return t
	}
	for range 8 {
		at, slope := platinumRatio(t)
		t -= (at - ratio) / slope
	}
	return t
}

// platinumAllowed is the error in kelvin that a class of IEC 60751 allows at t °C
// (published for A; B away from 0 °C from memory and our notes of the trade's check value).
func platinumAllowed(class string, t float64) float64 {
	if class == "A" {
		return 0.15 + 0.002*math.Abs(t)
	}
	return 0.3 + 0.005*math.Abs(t)
}
