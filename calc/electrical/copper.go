package electrical

import "math"

// Annealed copper at 20 °C.
const (
	// copperRho is 1/58 Ω·mm²/m, in Ω·m (NBS Handbook 100, 1966: 0.017241 Ω·mm²/m).
	copperRho = 1e-6 / 58
	// copperAlpha is its change by kelvin, as a share of the value at 20 °C (IACS copper).
	copperAlpha = 0.00393
	// copperReference is 20 °C in kelvin.
	copperReference = 293.15
)

// gaugeArea is the copper area of an American wire gauge in m²: the diameter is
// 0.005 in at gauge 36 and grows 92 times in the 39 steps down to gauge −3, which is
// written 0000 (ASTM B258).
func gaugeArea(gauge float64) float64 {
	diameter := 0.005 * 0.0254 * math.Pow(92, (36-gauge)/39)
	return math.Pi / 4 * diameter * diameter
}

// copperResistance is that of one conductor in Ω: length in m, area in m², temperature
// in kelvin, −40 °C to 100 °C where the straight line in temperature holds well.
func copperResistance(length, area, kelvin float64) float64 {
	return copperRho * length / area * (1 + copperAlpha*(kelvin-copperReference))
}
