package gauge

import (
	"math"

	"blankoff/calc/declare"
)

// farApart is the ratio of the pressures of two rows beyond which a curve may do between
// them what no rule foresees: on the model tube the ± of sparser rows falls short near
// the atmosphere, where the signal hardly moves.
const farApart = 3

func tubeJudge(r *declare.Result) {
	signal, share := signalOf(r.Numbers)
	if r.Has("current") {
		r.WorkWith(4, "E = e (I₀ / I)² = {signal} × ({nominal} / {current})² = [mV]", signal)
	}
	r.WorkWith(4, "read off the curve at [mV]: p = {pressure}; the signal falls by {sensitivity} there, so 1 µV is {microvolt}", signal)
	if p, _ := r.Out("pressure"); p > ceiling {
		r.Caution("Above {2,000 mTorr} such a tube tells little: noise of 1 µV is {microvolt} here.")
	}
	a, b := curveOf(r.Numbers).part(signal)
	if apart := math.Exp(a.log - b.log); apart > farApart {
		r.Caution(declare.With(2, "The rows of the curve lie [] times apart in pressure here, so the ± may fall short. A row between them would help.", apart))
	}
	if _, known := r.Value("shown"); known && math.Abs(share-1) > 0.04 {
		r.Caution(declare.With(4, "The heater current is off by [%]: the machine, which takes the card's current for granted, shows {shown}.", math.Abs(math.Sqrt(share)-1)))
	}
}
