// Package vapour holds the vapour pressure of water and ice and the calculators that
// stand on it: the ice floor, boiling, the volume of vapour, and solvent in air.
package vapour

import "math"

// Physical points of water.
const (
	TriplePointKelvin   = 273.16  // K, definition before 2019, measured since
	TriplePointPressure = 611.657 // Pa, IAPWS R14-08 (2011)
)

// IcePressure is the vapour pressure in Pa over ice at a temperature in K, valid
// from 110 K to the triple point.
//
// Source: Murphy and Koop, Q. J. R. Meteorol. Soc. 131 (2005), equation 7. It agrees
// with the IAPWS sublimation line within 0.1 % from -60 °C up.
func IcePressure(kelvin float64) float64 {
	ln, _ := iceLine(kelvin)
	return math.Exp(ln)
}
