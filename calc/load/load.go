// Package load holds the calculators of what is dried: how much water a batch gives up,
// how long that must take at the least, and what it costs.
package load

import (
	"blankoff/calc/constant"
	"blankoff/calc/vapour"
)

// Heat of ice, from memory (our notes of the trade, section 7): to warm it, J/(kg·K), a mean over
// the temperatures of a trap, and to melt it, J/kg.
const (
	iceHeat  = 2050.0
	meltHeat = 334e3
)

// MeltHeat is the heat in J that turns ice of a mass in kg and a temperature in K into
// water of 0 °C.
func MeltHeat(mass, kelvin float64) float64 {
	return mass * (iceHeat*(constant.ZeroCelsius-kelvin) + meltHeat)
}

// Removed is the water in kg that leaves a batch of a mass in kg as it dries from one
// share of water to another; both shares are of the mass at that time. What is dry stays:
// m (1 − x) = d (1 − r), d being the mass afterwards.
func Removed(mass, water, residual float64) float64 {
	return mass - mass*(1-water)/(1-residual)
}

// vapourRate is the mass flow in kg/s of water vapour in a throughput in Pa·m³/s counted
// at a temperature in K.
func vapourRate(throughput, kelvin float64) float64 {
	return throughput / vapour.Volume(1, kelvin, 1)
}
