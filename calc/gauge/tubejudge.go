package gauge

import (
	"math"

	"blankoff/calc/declare"
	"blankoff/calc/quantity"
)

// farApart is the ratio of the pressures of two rows beyond which a curve may do between
// them what no rule foresees: on the model tube the ± of sparser rows falls short near
// the atmosphere, where the signal hardly moves.
const farApart = 3

func tubeJudge(r *declare.Result) {
	c, share, signal := curveOf(r.Numbers), currentShare(r.Numbers), signalAtCard(r.Numbers)
	if r.Has("current") {
		r.Work("E = e (I₀ / I)² = {signal} × ({nominal} / {current})² = " + r.Num(signal, "mV"))
	}
	r.Work("read off the curve at " + r.Num(signal, "mV") + ": p = {pressure}; the signal falls by {sensitivity} there, so 1 µV is {microvolt}")
	i := c.row(signal)
	p, _ := r.Out("pressure")
	if p > ceiling {
		r.Caution("Above 2,000 mTorr such a tube tells little: noise of 1 µV is {microvolt} here.")
	}
	if apart := math.Exp(c.log[i] - c.log[i+1]); apart > farApart {
		r.Caution("The rows of the curve lie " + quantity.Format(apart, -1, quantity.One, 2) + " times apart in pressure here, so the ± may fall short. A row between them would help.")
	}
	if _, known := r.Value("shown"); known && math.Abs(share-1) > 0.04 {
		r.Caution("The heater current is off by " + r.Num(math.Abs(math.Sqrt(share)-1), "%") + ": the machine, which takes the card's current for granted, shows {shown}.")
	}
}
