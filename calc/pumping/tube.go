package pumping

import (
	"math"

	"blankoff/calc/constant"
)

// Part is one hose or fitting of the line between chamber and pump.
type Part struct {
	_            [0]func() // never compared: saves the code for it
	Bore, Length float64   // m
	Elbows       float64   // number of right-angled elbows
	Name         string
}

// PerElbow is what a right-angled elbow adds to the length, in bores. Handbooks give two
// thirds of a bore to one and a third for molecular flow (from memory); the larger is taken,
// since elbows in a hose line are threaded and sharp.
const PerElbow = 1.33

// shortTube is the length, in bores, under which the hole at the end holds back as much
// gas as a fifth of the tube and more, so that the formula for long tubes promises too much.
const shortTube = 5.0

// turbulentFrom is the Reynolds number above which flow in a tube is no longer laminar.
const turbulentFrom = 2300.0

func area(bore float64) float64 { return math.Pi / 4 * bore * bore }

// molecular is the conductance of a long tube where molecules meet the wall only, m³/s:
// (π/12) c d³/L.
func (g *gas) molecular(t, bore, length float64) float64 {
	return math.Pi / 12 * g.meanSpeed(t) * bore * bore * bore / length
}

// viscous is the conductance of a long tube in laminar flow at a mean pressure, m³/s:
// π d⁴ p/(128 η L).
func (g *gas) viscous(t, bore, length, mean float64) float64 {
	square := bore * bore
	return math.Pi * (square * square) * mean / (128 * g.viscosity(t) * length)
}

// aperture is the conductance of the bare hole in molecular flow, m³/s: c A/4.
func (g *gas) aperture(t, bore float64) float64 { return g.meanSpeed(t) / 4 * area(bore) }

// laminarFlow is the gas flow at which the Reynolds number of a tube reaches its limit,
// Pa·m³/s: Re = 4 Q M/(R T π d η).
func (g *gas) laminarFlow(t, bore float64) float64 {
	return turbulentFrom * math.Pi * bore * g.viscosity(t) * constant.Gas * t / (4 * g.molar)
}

// tube holds what Knudsen's formula needs of one part, worked out once:
//
//	C = wide p + slip (1 + rise p)/(1 + fall p),  p the mean pressure
//
// In the trade's units, air at 20 °C, d and L in cm, p in mbar, C in L/s this is
// d³/L (135 d p + 12.1 (1 + 192 d p)/(1 + 237 d p)). One mbar·cm is one Pa·m, so only the
// factor in front changes in SI: d³/L in m² gives tens of m³/s. For another gas or
// temperature the viscous term goes with 1/η, the molecular one with the mean speed, and
// d p in the fraction with d p √M/(η √T), as Knudsen (1909) has it.
type tube struct {
	_                      [0]func() // never compared: saves the code for it
	wide, slip, rise, fall float64
	turbulent              float64 // (p₁² − p₂²)/Q^1.75 in turbulent flow, Blasius
	laminar                float64 // gas flow up to which it is laminar, Pa·m³/s
	choked                 float64 // most gas for the pressure before it, m³/s
	high, low              float64 // pressures before and after it, when it was last asked of its line
}

func (u *tube) set(g *gas, t float64, p *Part) {
	air, bore := &gases[0], p.Bore
	length := p.Length + p.Elbows*PerElbow*bore
	thin := air.viscosity(room) / g.viscosity(t)
	shape := 10 * bore * bore * bore / length
	dense := thin * math.Sqrt(g.molar/air.molar*room/t) * bore
	u.wide, u.slip = shape*135*thin*bore, shape*12.1*g.meanSpeed(t)/air.meanSpeed(room)
	u.rise, u.fall = 192*dense, 237*dense
	hole, heavy := area(bore), g.molar/(constant.Gas*t)
	u.laminar, u.choked = g.laminarFlow(t, bore), g.choked(t)*hole
	re := turbulentFrom / u.laminar // Reynolds number for one Pa·m³/s
	// Δ(p²) = f (L/d) (4/(π d²))² (R T/M) ṁ², f = 0.316/Re^0.25
	u.turbulent = 0.316 / math.Pow(re, 0.25) * length / bore * (1 / (hole * hole)) * constant.Gas * t / g.molar * (heavy * heavy)
}

// conductance by Knudsen's formula at a mean pressure, m³/s.
func (u *tube) conductance(mean float64) float64 {
	return u.wide*mean + u.slip*(1+u.rise*mean)/(1+u.fall*mean)
}

// before gives the pressure before the tube when the gas flow Q leaves it at the pressure
// after. Knudsen's formula is laminar; where turbulent flow, or the speed of sound, needs a
// higher pressure that counts instead. Blasius' law overtakes the laminar one at a Reynolds
// number of about 1,200 already: between there and 2,300 the larger loss is taken, which is
// on the safe side and leaves no jump.
func (u *tube) before(after, flow float64) float64 {
	p := after + u.drop(after, flow)
	if flow > u.laminar/3 {
		if rough := math.Sqrt(after*after + u.turbulent*math.Pow(flow, 1.75)); rough > p {
			p = rough
		}
	}
	if least := flow / u.choked; least > p {
		return least
	}
	return p
}

// drop solves Q = C((p₁ + p₂)/2) (p₁ − p₂) for p₁ − p₂ by Newton's method. C (p₁ − p₂)
// rises with the drop throughout, since the fraction falls by a fifth at most; the start
// takes the fraction as it is at p₂, which leaves three or four rounds.
func (u *tube) drop(after, flow float64) float64 {
	linear := u.wide*after + u.slip*(1+u.rise*after)/(1+u.fall*after)
	d := 2 * flow / (linear + math.Sqrt(linear*linear+2*u.wide*flow))
	for range 12 {
		mean := after + d/2
		c := u.conductance(mean)
		bend := 1 + u.fall*mean
		slope := c + d/2*(u.wide+u.slip*(u.rise-u.fall)/(bend*bend))
		step := (c*d - flow) / slope
		d -= step
		if math.Abs(step) <= 1e-14*d {
			break
		}
	}
	return d
}

// The regimes of flow by the Knudsen number, free path over bore. The bounds are those of
// Pfeiffer's Vacuum Technology Book, 1.2.6.
const (
	viscousBelow   = 0.01
	molecularAbove = 0.5
)

var regimes = [3]string{"viscous", "transitional", "molecular"}

func regimeOf(knudsen float64) int {
	switch {
	case knudsen < viscousBelow:
		return 0
	case knudsen <= molecularAbove:
		return 1
	}
	return 2
}
