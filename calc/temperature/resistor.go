package temperature

import (
	"math"

	"blankoff/calc/declare"
	"blankoff/calc/uncertainty"
)

// resistor is what Study makes ready of a probe that is measured in ohms: between which
// resistances it can be whole, and whether the reading lies there.
type resistor struct {
	_         [0]func() // never compared: saves the code for it
	low, high float64   // Ω at the ends of what such a probe meets
	whole     bool
	wrong     float64 // standard uncertainty of how far the reading is beyond an end, Ω
	doubt     float64 // of a thermistor: what the form of its curve leaves open, ± K

	points bool      // of a thermistor: the curve comes from points
	curve  steinhart // through them
	beta   float64   // K, where the points are two
}

// study sets whole for the net resistance of the reading, leads taken off; an end may be typed
// to as many figures as it is shown.
func (p *resistor) study(x *declare.Numbers, net float64) *resistor {
	p.whole = x.Has("reading") && !x.Typed("reading").Over && net >= p.low*(1-atEnd) && net <= p.high*(1+atEnd)
	return p
}

// atEnd is the share of a resistance that does not count at an end.
const atEnd = 1e-6

// judge is the verdict on a reading that no whole probe gives.
func (p *resistor) judge(r *declare.Result, net float64) {
	r.Work(numbers(r.Numbers, "Such a probe has [Ω] to [Ω] over its whole range; it shows [Ω].", "", p.low, p.high, net))
	state, end, why := "shorted", p.low, "{in:reading} is less than such a probe can have: its wires touch, or it is of another kind than entered. Unplug it and measure at the probe itself."
	if net > p.high {
		state, end, why = "open", p.high, "{in:reading} is more than such a probe can have: a wire or contact is breaking, or it is of another kind than entered. Wipe the contacts and measure at the probe itself."
	}
	is := declare.Fail
	if uncertainty.Within(net, uncertainty.K*p.wrong, p.low, p.high) != uncertainty.Fail {
		is, state = declare.CannotTell, "perhaps "+state
		why = numbers(r.Numbers, "{in:reading} may be beyond what such a probe can have. A meter and data good to ± [Ω] together would settle it.", "", math.Abs(net-end))
	}
	r.Text("state", state)
	r.Verdict(is, why)
}
