package vacuum

import (
	"math"

	"blankoff/calc/constant"
)

// AirGamma is the ratio of specific heats of air, as in the check values of
// testdata/reference/06_choked_flow.csv.
const AirGamma = 1.4

// CriticalRatio is the pressure behind a hole, as a share of the pressure before it, at
// and below which the flow is choked: it then no longer depends on the pressure behind.
// gamma is the ratio of specific heats, above 1. Air: 0.528.
//
// r = (2/(γ+1))^(γ/(γ−1)): isentropic flow of an ideal gas.
func CriticalRatio(gamma float64) float64 {
	return math.Pow(2/(gamma+1), gamma/(gamma-1))
}

// ChokedSpeed is the volume of upstream gas, m³/s, that flows through a hole of the given
// area, m², while the flow is choked. kelvin is the temperature before the hole,
// molarMass in kg/mol, cd the discharge coefficient (1 for a rounded nozzle, 0.6 to 0.85
// for holes). Air at 20 °C: 19.9 L/s for each cm². It does not depend on the pressure.
//
// S = C A √γ (2/(γ+1))^((γ+1)/(2(γ−1))) √(R T/M): isentropic flow of an ideal gas.
func ChokedSpeed(area, kelvin, gamma, molarMass, cd float64) float64 {
	return cd * area * math.Sqrt(gamma*constant.Gas*kelvin/molarMass) * math.Pow(2/(gamma+1), (gamma+1)/(2*(gamma-1)))
}

// ChokedThroughput is the throughput of the same flow, Pa·m³/s counted at the gas
// temperature before the hole; upstreamPa is the pressure there, Pa.
func ChokedThroughput(area, upstreamPa, kelvin, gamma, molarMass, cd float64) float64 {
	return upstreamPa * ChokedSpeed(area, kelvin, gamma, molarMass, cd)
}

// FlowShare is the flow through a hole as a share of the choked flow, for a pressure
// behind it that is the given share of the pressure before it: 1 up to the critical
// ratio, 0 where the two are equal.
//
// √((r^(2/γ) − r^((γ+1)/γ)) / (rc^(2/γ) − rc^((γ+1)/γ))), rc being the critical ratio:
// the mass flow of isentropic flow, divided by its largest value.
func FlowShare(ratio, gamma float64) float64 {
	critical := CriticalRatio(gamma)
	switch {
	case ratio <= critical:
		return 1
	case ratio >= 1:
		return 0
	}
	return math.Sqrt(flowSquared(ratio, gamma) / flowSquared(critical, gamma))
}

func flowSquared(ratio, gamma float64) float64 {
	r := math.Pow(ratio, 1/gamma)
	return r * (r - ratio)
}

// RoundHole is the diameter, m, of a round hole of an area, m².
func RoundHole(area float64) float64 { return math.Sqrt(4 * area / math.Pi) }

// RoundArea is the area, m², of a round hole of a diameter, m.
func RoundArea(diameter float64) float64 { return math.Pi / 4 * diameter * diameter }
