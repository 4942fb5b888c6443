package electrical

import (
	"math"

	"blankoff/calc/declare"
	"blankoff/calc/quantity"
	"blankoff/calc/uncertainty"
)

func distance(x, low, high float64) float64 {
	return math.Min(math.Abs(x-low), math.Abs(high-x))
}

// onTheLimit is how near to a limit, Ω, no ordinary meter settles anything.
const onTheLimit = 0.005

// goodTo says how good a measurement would settle it, d being the distance to the limit.
func goodTo(d float64) string {
	if d < onTheLimit {
		return "It sits on the limit itself: no ordinary meter settles that. Measure with four wires, or compare with one known to be good."
	}
	return "A measurement good to ± " + ohms(under(d), 2) + ", such as with four wires, would settle it."
}

// under rounds to two figures, down: with a ± of the whole distance a value outside a
// limit would still touch it.
func under(d float64) float64 {
	step := niceStep(d) / 10
	return (math.Ceil(d/step-1e-9) - 1) * step
}

// finerMeter says which meter would settle it.
func finerMeter(r *declare.Result, d float64) string {
	if d < onTheLimit {
		return goodTo(d)
	}
	if step := niceStep(d / 10); step < r.In("resolution") && settles(r, step, d) {
		return "A meter or range with a last digit of " + ohms(step, 1) + ", or a four-wire measurement, would settle it."
	}
	return goodTo(d)
}

// settles tells whether a finer last digit alone, at the same share and counts, brings
// the uncertainty under d: often the share of the reading is what matters.
func settles(r *declare.Result, step, d float64) bool {
	_, u := r.Out("resistance")
	meter := func(resolution float64) float64 {
		limit := func(id string) float64 {
			return uncertainty.MeterLimit(r.In(id), r.In("percent"), r.In("counts"), resolution)
		}
		return math.Pow(limit("reading"), 2) + math.Pow(limit("leads"), 2)
	}
	others := math.Max(0, math.Pow(uncertainty.K*u, 2)-meter(r.In("resolution")))
	return others+meter(step) < 0.99*d*d
}

// niceStep is the largest power of ten at or under x.
func niceStep(x float64) float64 { return math.Pow(10, math.Floor(math.Log10(x)+1e-9)) }

func ohms(x float64, figures int) string {
	return quantity.Format(x, -1, quantity.MustUnit("Ω"), figures)
}

func megohm(x float64) string { return quantity.Format(x, -1, quantity.MustUnit("MΩ"), 3) }
