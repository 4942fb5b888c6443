package vacuum

import (
	"math"

	"blankoff/calc/constant"
)

// AirViscosity is the dynamic viscosity of air in Pa·s at a temperature in K, from about
// 150 K to 800 K: 18.1 µPa·s at 20 °C. It does not depend on the pressure.
//
// μ = μ₀ (T/T₀)^1.5 (T₀ + s)/(T + s), Sutherland's law with 17.16 µPa·s at 273.15 K and
// s = 110.4 K; constants from memory, good to about 2 %.
func AirViscosity(kelvin float64) float64 {
	const at0, t0, s = 17.16e-6, 273.15, 110.4
	ratio := kelvin / t0
	return at0 * ratio * math.Sqrt(ratio) * (t0 + s) / (kelvin + s)
}

// CapillaryThroughput is the flow of air in Pa·m³/s, counted at the gas temperature in K,
// through a round capillary of a bore and a length in m, between two pressures in Pa. It
// holds for laminar, viscous flow: see Reynolds and CapillaryKnudsen.
//
// Q = π d⁴ (p₁² − p₂²) / (256 μ l): the law of Hagen and Poiseuille for each short piece,
// added up along the length for a gas that widens at a constant temperature.
func CapillaryThroughput(bore, length, before, behind, kelvin float64) float64 {
	bore *= bore
	return bore * bore * capillaryFlow(length, before, behind, kelvin)
}

// CapillaryBore is the bore in m of the capillary that lets a throughput through. Two square
// roots, unlike a power of ¼, have the same last bits natively and in WebAssembly, and so
// has the small difference of two bores that is an uncertainty.
func CapillaryBore(throughput, length, before, behind, kelvin float64) float64 {
	return math.Sqrt(math.Sqrt(throughput / capillaryFlow(length, before, behind, kelvin)))
}

// capillaryFlow is the throughput for each m⁴ of the bore's fourth power.
func capillaryFlow(length, before, behind, kelvin float64) float64 {
	return math.Pi * (before*before - behind*behind) / (256 * AirViscosity(kelvin) * length)
}

// Reynolds is the Reynolds number of a throughput of air in a round bore. Flow stays
// laminar up to about 2,000 (textbooks say 2,300; from memory).
func Reynolds(throughput, bore, kelvin float64) float64 {
	mass := throughput * constant.Air / (constant.Gas * kelvin)
	return 4 * mass / (math.Pi * bore * AirViscosity(kelvin))
}

// CapillaryKnudsen is the mean free path in air at a pressure, as a share of a bore. Below
// 0.01 the flow is viscous.
//
// λ = μ/p √(π R T/(2 M)): kinetic theory.
func CapillaryKnudsen(bore, pressure, kelvin float64) float64 {
	return AirViscosity(kelvin) / pressure * math.Sqrt(math.Pi*constant.Gas*kelvin/(2*constant.Air)) / bore
}
