package vapour

import "math"

// Critical point of water, above which there is no boiling (IAPWS R7-97).
const (
	CriticalKelvin   = 647.096
	CriticalPressure = 22.064e6 // Pa
)

// region4 holds n₁ to n₁₀ of the saturation equation of IAPWS R7-97, table 34.
var region4 = [10]float64{
	0.11670521452767e4, -0.72421316703206e6, -0.17073846940092e2, 0.12020824702470e5, -0.32325550322333e7,
	0.14915108613530e2, -0.48232657361591e4, 0.40511340542057e6, -0.23855557567849, 0.65017534844798e3,
}

// WaterPressure is the vapour pressure in Pa over liquid water at a temperature in K,
// from 273.15 K to the critical point; outside it is NaN.
//
// IAPWS R7-97 (2012), the equation of region 4, equation 30.
func WaterPressure(kelvin float64) float64 {
	if !(kelvin >= 273.15 && kelvin <= CriticalKelvin) {
		return math.NaN()
	}
	n := &region4
	t := kelvin + n[8]/(kelvin-n[9])
	a := t*t + n[0]*t + n[1]
	b := n[2]*t*t + n[3]*t + n[4]
	c := n[5]*t*t + n[6]*t + n[7]
	root := 2 * c / (-b + math.Sqrt(b*b-4*a*c))
	return 1e6 * root * root * root * root
}

// WaterTemperature is the temperature in K at which liquid water boils under a pressure
// in Pa, from that of 273.15 K to the critical point; outside it is NaN. It is the exact
// inverse of WaterPressure, as both solve one quadratic equation (equation 31).
func WaterTemperature(pascal float64) float64 {
	if !(pascal >= 611.2126 && pascal <= CriticalPressure) {
		return math.NaN()
	}
	n := &region4
	b := math.Sqrt(math.Sqrt(pascal / 1e6))
	e := b*b + n[2]*b + n[5]
	f := n[0]*b*b + n[3]*b + n[6]
	g := n[1]*b*b + n[4]*b + n[7]
	d := 2 * g / (-f - math.Sqrt(f*f-4*e*g))
	sum := n[9] + d
	return (sum - math.Sqrt(sum*sum-4*(n[8]+n[9]*d))) / 2
}

// SupercooledPressure is the vapour pressure in Pa over water that is still liquid, also
// below its freezing point, at a temperature in K from 123 K to 332 K.
//
// Murphy and Koop, Q. J. R. Meteorol. Soc. 131 (2005), equation 10.
func SupercooledPressure(kelvin float64) float64 {
	t, ln := kelvin, math.Log(kelvin)
	return math.Exp(54.842763 - 6763.22/t - 4.210*ln + 0.000367*t +
		math.Tanh(0.0415*(t-218.8))*(53.878-1331.22/t-9.44523*ln+0.014025*t))
}
