package fit

import "math"

// Coverage is the factor k by which a standard uncertainty with ν degrees of freedom
// is to be multiplied so that ± k u covers the share p (JCGM 100:2008, annex G). Without
// degrees of freedom, or for a p that is none, it is +Inf.
func Coverage(p, freedom float64) float64 {
	switch {
	case !(p > 0):
		return 0
	case !(p < 1) || !(freedom > 0):
		return math.Inf(1)
	}
	low, high := 0.0, 1e150 // whose square is still a number
	for {                   // the share within ± k rises with k, so halving cannot go astray
		mid := low + (high-low)/2
		if high > 2*low+1 {
			mid = math.Sqrt((low + 1e-3) * high) // by powers first
		}
		if mid <= low || mid >= high || high-low < 1e-15*high {
			return mid
		}
		if Within(mid, freedom) < p {
			low = mid
		} else {
			high = mid
		}
	}
}

// Within is the probability that Student's t with ν degrees of freedom lies within ± k:
// the incomplete beta function of 26.7.1 and 26.5.27 of Abramowitz & Stegun. A million
// degrees of freedom stand for the normal distribution (1.2e-6 off in the factor at 95 %).
func Within(k, freedom float64) float64 {
	freedom = math.Min(freedom, 1e6)
	x := k * k / (freedom + k*k)
	// What both forms of the function share: x^½ (1−x)^(ν/2) / B(½, ν/2).
	front := math.Sqrt(x) * math.Exp(-freedom/2*math.Log(1+k*k/freedom)) * gammaRatio(freedom/2) / math.Sqrt(math.Pi)
	if x < 1.5/(freedom/2+2.5) {
		return front / 0.5 * betaFraction(0.5, freedom/2, x)
	}
	return 1 - front/(freedom/2)*betaFraction(freedom/2, 0.5, freedom/(freedom+k*k))
}

// gammaRatio is Γ(a+½)/Γ(a), without the large numbers themselves: the series of 6.1.47 of
// Abramowitz & Stegun for large a, and steps of one down from there.
func gammaRatio(a float64) float64 {
	factor := 1.0
	for ; a < 40; a++ {
		factor *= a / (a + 0.5)
	}
	b := 1 / a
	return factor * math.Sqrt(a) * (1 - b/8*(1-b/16*(1+5*b/8*(1-21*b/160*(1+19*b/8)))))
}

// betaFraction is the continued fraction of 26.5.8 of Abramowitz & Stegun, by Lentz's
// method; x is on the side where it converges fast.
func betaFraction(a, b, x float64) float64 {
	const tiny = 1e-300
	c, d, sum := 1.0, 0.0, 1.0
	for i := 0; i < 500; i++ {
		m := float64(i / 2)
		term := 1.0
		switch {
		case i == 0:
		case i%2 == 0:
			term = m * (b - m) * x / ((a + 2*m - 1) * (a + 2*m))
		default:
			term = -(a + m) * (a + b + m) * x / ((a + 2*m) * (a + 2*m + 1))
		}
		if d = 1 + term*d; math.Abs(d) < tiny {
			d = tiny
		}
		if c = 1 + term/c; math.Abs(c) < tiny {
			c = tiny
		}
		d = 1 / d
		sum *= c * d
		if math.Abs(c*d-1) < 1e-16 {
			break
		}
	}
	return sum - 1
}

// Effective is the number of degrees of freedom of a combined uncertainty, after Welch
// and Satterthwaite (JCGM 100:2008, G.4.1): uc⁴ / Σ(uᵢ⁴/νᵢ). What is known without
// readings has infinite degrees of freedom and adds nothing to the sum.
func Effective(u, freedom []float64) float64 {
	squares, sum := 0.0, 0.0
	for i, ui := range u {
		squares += ui * ui
		if !math.IsInf(freedom[i], 1) && ui != 0 {
			sum += ui * ui * ui * ui / freedom[i]
		}
	}
	if sum == 0 {
		return math.Inf(1)
	}
	return squares * squares / sum
}
