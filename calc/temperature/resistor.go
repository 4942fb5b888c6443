package temperature

import (
	"math"

	"blankoff/calc/declare"
	"blankoff/calc/uncertainty"
)

// resistor is what Study makes ready of a probe that is measured in ohms: between which
// resistances it can be whole, and whether the reading lies there.
type resistor struct {
	low, high float64 // Ω at the ends of what such a probe meets
	whole     bool

	points bool      // of a thermistor: the curve comes from points
	curve  steinhart // through them
	beta   float64   // K, where the points are two
}

// study sets whole for the net resistance of the reading, leads taken off.
func (p *resistor) study(x *declare.Numbers, net float64) *resistor {
	p.whole = x.Has("reading") && !x.Typed("reading").Over && net >= p.low && net <= p.high
	return p
}

// judge is the verdict on a reading that no whole probe gives.
func (p *resistor) judge(r *declare.Result, net float64) {
	r.Work(numbers("Such a probe has [Ω] to [Ω] over its whole range; it shows [Ω].", "", p.low, p.high, net))
	state, end, why := "shorted", p.low, "{in:reading} is less than such a probe can have: its wires touch, or it is of another kind than entered. Unplug it and measure at the probe itself."
	if net > p.high {
		state, end, why = "open", p.high, "{in:reading} is more than such a probe can have: a wire or contact is breaking, or it is of another kind than entered. Wipe the contacts and measure at the probe itself."
	}
	is := declare.Fail
	if uncertainty.Within(net, uncertainty.K*r.Typed("reading").U, p.low, p.high) != uncertainty.Fail {
		is, state = declare.CannotTell, "perhaps "+state
		why = numbers("{in:reading} may be beyond what such a probe can have. A meter good to ± [Ω] would settle it.", "", math.Abs(net-end))
	}
	r.Text("state", state)
	r.Verdict(is, why)
}
