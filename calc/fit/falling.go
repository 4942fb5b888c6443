package fit

import "math"

// falling is exp(x) for x of 0 or less, to two units in the last place. A fit of a long log needs it some ten thousand times, and on
// WebAssembly math.Exp takes four times as long.
func falling(x float64) float64 {
	if x < -700 { // below 10⁻³⁰⁴
		return 0
	}
	k := int(x*math.Log2E - 0.5)
	// ln 2 in two parts, so that its product with k is exact in the first.
	r := x - float64(k)*0x1.62e42feep-1 - float64(k)*0x1.a39ef35793c76p-33
	// 1 + r + r²/2! + …: with |r| below a half of ln 2 what is left out is below 10⁻¹⁷.
	y := 1 + r*(1+r*(1.0/2+r*(1.0/6+r*(1.0/24+r*(1.0/120+r*(1.0/720+r*(1.0/5040+r*(1.0/40320+r*(1.0/362880+
		r*(1.0/3628800+r*(1.0/39916800+r*(1.0/479001600+r*(1.0/6227020800)))))))))))))
	return y * math.Float64frombits(uint64(k+1023)<<52)
}
