package vapour

import (
	"math"

	"blankoff/calc/constant"
)

// Volume is the volume in m³ that a mass of water vapour in kg fills at a temperature in
// K and a pressure in Pa, as an ideal gas. At the pressures of a freeze dryer that is
// exact to far better than any pressure is known.
func Volume(mass, kelvin, pascal float64) float64 {
	return mass / constant.Water * constant.Gas * kelvin / pascal
}

// SublimationHeat is the heat in J/kg that ice at a temperature in K, above 30 K, takes
// up as it turns into vapour.
//
// L M = 46,782.5 + 35.8925 T − 0.07414 T² + 541.5 exp(−(T/123.75)²) J/mol: Murphy and
// Koop, Q. J. R. Meteorol. Soc. 131 (2005), equation 5, from memory. It agrees with
// IAPWS-95 and the IAPWS equation of ice (testdata/reference/08_latent_heat.csv) to
// 0.02 % from -80 °C to the triple point, and with the slope of the vapour pressure.
func SublimationHeat(kelvin float64) float64 {
	t, bend := kelvin, kelvin/123.75
	return (46782.5 + 35.8925*t - 0.07414*t*t + 541.5*math.Exp(-bend*bend)) / constant.Water
}
