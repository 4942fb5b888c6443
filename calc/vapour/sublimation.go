package vapour

import "math"

// SublimationPressure is the vapour pressure in Pa over ice at a temperature in K, from
// 50 K to the triple point; outside it is NaN. It meets WaterPressure at the triple
// point, which is why the boiling curve is made of these two; the ice floor keeps to the
// line of Murphy and Koop, as the trade does. The two differ by 0.1 % at -100 °C, less
// above.
//
// IAPWS R14-08 (2011), equation 6: ln(p/pₜ) = θ⁻¹ Σ aᵢ θ^bᵢ, θ = T/273.16 K.
func SublimationPressure(kelvin float64) float64 {
	if !(kelvin >= 50 && kelvin <= TriplePointKelvin) {
		return math.NaN()
	}
	ln, _ := sublimationLine(kelvin)
	return math.Exp(ln)
}

// sublimationLine is ln p and its slope, 1/K.
func sublimationLine(kelvin float64) (ln, slope float64) {
	const a1, a2, a3 = -0.212144006e2, 0.273203819e2, -0.610598130e1
	const b1, b2, b3 = 0.333333333e-2 - 1, 0.120666667e1 - 1, 0.170333333e1 - 1 // each less the 1 of θ⁻¹
	theta := kelvin / TriplePointKelvin
	x, y, z := a1*math.Pow(theta, b1), a2*math.Pow(theta, b2), a3*math.Pow(theta, b3)
	return math.Log(TriplePointPressure) + x + y + z, (b1*x + b2*y + b3*z) / kelvin
}

// iceLine is ln p of IcePressure and its slope, 1/K.
func iceLine(kelvin float64) (ln, slope float64) {
	t := kelvin
	return 9.550426 - 5723.265/t + 3.53068*math.Log(t) - 0.00728332*t, 5723.265/(t*t) + 3.53068/t - 0.00728332
}

// IceTemperature is the temperature in K of ice whose vapour has a pressure in Pa: the
// inverse of IcePressure, from 110 K to the triple point; outside it is NaN.
func IceTemperature(pascal float64) float64 { return solve(iceLine, pascal, 110) }

// SublimationTemperature is the inverse of SublimationPressure, from 50 K.
func SublimationTemperature(pascal float64) float64 { return solve(sublimationLine, pascal, 50) }

// solve finds where a line of ln p that rises reaches a pressure, between a lowest
// temperature and the triple point. Newton's steps are taken in 1/T, in which the lines
// are nearly straight; one that leaves the bracket is replaced by half of it.
func solve(line func(float64) (ln, slope float64), pascal, lowest float64) float64 {
	low, high := lowest, TriplePointKelvin
	want := math.Log(pascal)
	bottom, _ := line(low)
	top, _ := line(high)
	if !(want >= bottom-tie && want <= top+tie) {
		return math.NaN()
	}
	inverse := 1/low + (1/high-1/low)*(want-bottom)/(top-bottom)
	kelvin := math.Min(math.Max(1/inverse, low), high)
	for range 60 { // four or five do; bisection alone would need no more
		ln, slope := line(kelvin)
		if ln < want {
			low = kelvin
		} else {
			high = kelvin
		}
		next := 1 / (1/kelvin + (ln-want)/(slope*kelvin*kelvin))
		if !(next >= low && next <= high) {
			next = (low + high) / 2
		}
		if math.Abs(next-kelvin) < 1e-13*kelvin {
			return next
		}
		kelvin = next
	}
	return kelvin
}

// tie lets entries that are equal in different units compare as equal.
const tie = 1e-12
