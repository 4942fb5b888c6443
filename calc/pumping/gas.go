// Package pumping holds the pump and its lines: what a hose lets through, what is left
// of the pump's speed at the chamber, how long pumping takes, and what a blank-off test
// and the state of the oil say about the pump.
//
// Symbols: p a pressure (Pa), q that at the pump's inlet, Q a gas flow (Pa·m³/s), S a
// pumping speed and C a conductance (both m³/s), d a bore and L a length (m).
package pumping

import (
	"math"

	"blankoff/calc/constant"
)

// gas is one gas that may flow in a hose.
type gas struct {
	name  string
	molar float64 // molar mass, kg/mol
	gamma float64 // ratio of the heat capacities near 20 °C, from memory
	// Sutherland's law: viscosity eta at the temperature t0 and the constant s, K.
	eta, t0, s float64
}

// gases: molar masses by the IUPAC weights. Sutherland's constants are from memory, within
// 2 % for −20 to 100 °C; those of water vapour were fitted here over that span to the
// dilute-gas formula of IAPWS R12-08 (worst 1.2 %), whose coefficients are from memory too.
var gases = [...]gas{
	{"air", constant.Air, 1.40, 1.716e-5, 273.15, 110.4},
	{"water vapour", constant.Water, 1.33, 0.899e-5, 273.15, 295},
	{"nitrogen", 28.0134e-3, 1.40, 1.663e-5, 273.15, 107},
	{"argon", 39.948e-3, 1.667, 2.125e-5, 273.15, 144},
	{"helium", 4.002602e-3, 1.667, 1.870e-5, 273.15, 79.4},
	{"hydrogen", 2.01588e-3, 1.41, 0.841e-5, 273.15, 97},
	{"carbon dioxide", 44.0095e-3, 1.30, 1.370e-5, 273.15, 222},
}

// room is the temperature at which the constants of Knudsen's formula hold, K.
const room = 293.15

// findGas gives the gas of a name; air for a name that is none.
func findGas(name string) *gas {
	for i := range gases {
		if gases[i].name == name {
			return &gases[i]
		}
	}
	return &gases[0]
}

// viscosity is the dynamic viscosity at t kelvin, Pa·s, by Sutherland's law. It does not
// depend on the pressure while the gas is dilute.
func (g *gas) viscosity(t float64) float64 {
	ratio := t / g.t0
	return g.eta * ratio * math.Sqrt(ratio) * (g.t0 + g.s) / (t + g.s)
}

// meanSpeed is the mean speed of the molecules at t kelvin, m/s: √(8RT/(πM)).
func (g *gas) meanSpeed(t float64) float64 {
	return math.Sqrt(8 * constant.Gas * t / (math.Pi * g.molar))
}

// freePath is the mean free path times the pressure, Pa·m: η √(πRT/(2M)). For air at
// 20 °C 0.0066 Pa·m, so 50 mm at 1 mTorr.
func (g *gas) freePath(t float64) float64 {
	return g.viscosity(t) * math.Sqrt(math.Pi*constant.Gas*t/(2*g.molar))
}

// choked is the most gas, in m³/s at the pressure before it, that 1 m² of opening passes
// whatever lies behind it: 199 m/s for air at 20 °C (isentropic nozzle, no losses).
func (g *gas) choked(t float64) float64 {
	up := (g.gamma + 1) / (2 * (g.gamma - 1))
	return math.Sqrt(g.gamma*constant.Gas*t/g.molar) * math.Pow(2/(g.gamma+1), up)
}
