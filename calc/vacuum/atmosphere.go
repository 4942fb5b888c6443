// Package vacuum holds the calculators of pressure, leak rate and rise of pressure.
package vacuum

import (
	"math"

	"blankoff/calc/constant"
)

// StandardAtmosphere is the pressure in Pa at a geometric height in m above sea
// level, from -500 m to 11,000 m.
//
// p = 101325 (1 − 0.0065 H / 288.15)^5.25588, H = 6356766 z / (6356766 + z): U.S.
// Standard Atmosphere 1976, equation 33a with the geopotential height of equation
// 18. The exponent is g M / (R* L) with the constants of that standard
// (9.80665, 28.9644 g/mol, 8.31432, 6.5 K/km).
func StandardAtmosphere(metres float64) float64 {
	const earth, lapse, exponent = 6356766.0, 0.0065, 9.80665 * 0.0289644 / (8.31432 * 0.0065)
	h := earth * metres / (earth + metres)
	return constant.Atmosphere * math.Pow(1-lapse*h/288.15, exponent)
}
