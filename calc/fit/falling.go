package fit

import "math"

// series are 1/n! for exp(r) = 1 + r + r²/2! + …, the last first. With |r| below a half of ln 2 what is left out is below 10⁻¹⁷.
var series = [...]float64{1.0 / 6227020800, 1.0 / 479001600, 1.0 / 39916800, 1.0 / 3628800, 1.0 / 362880, 1.0 / 40320, 1.0 / 5040, 1.0 / 720, 1.0 / 120, 1.0 / 24, 1.0 / 6, 0.5, 1, 1}

// falling is exp(x) for x of 0 or less, to two units in the last place. A fit of a long log needs it some ten thousand times, and on
// WebAssembly math.Exp takes four times as long.
func falling(x float64) float64 {
	if x < -700 { // below 10⁻³⁰⁴
		return 0
	}
	k := int(x*math.Log2E - 0.5)
	// ln 2 in two parts, so that its product with k is exact in the first.
	r := x - float64(k)*0x1.62e42feep-1 - float64(k)*0x1.a39ef35793c76p-33
	y := series[0]
	for _, c := range series[1:] {
		y = y*r + c
	}
	return y * math.Float64frombits(uint64(k+1023)<<52)
}
