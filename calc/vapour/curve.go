package vapour

import "math"

// Saturation is the pressure in Pa at which ice or water of a temperature in K gives off
// vapour as fast as it takes it back: the sublimation line up to the triple point, the
// saturation line of water above. It is NaN outside 50 K to 647.096 K.
func Saturation(kelvin float64) float64 {
	if kelvin <= TriplePointKelvin {
		return SublimationPressure(kelvin)
	}
	return WaterPressure(kelvin)
}

// Boiling is the inverse of Saturation: the temperature in K at which water boils, or ice
// turns into vapour, under a pressure in Pa. NaN outside the range.
func Boiling(pascal float64) float64 {
	if pascal <= TriplePointPressure {
		return SublimationTemperature(pascal)
	}
	return WaterTemperature(pascal)
}

// settled rounds a temperature in K to 2⁻²⁶ K, 15 nK. A small uncertainty is found as the
// difference of two temperatures, in which their last bits, which may differ between the
// native build and WebAssembly, would show.
func settled(kelvin float64) float64 {
	const grid = 1 << 26
	return math.Round(kelvin*grid) / grid
}
