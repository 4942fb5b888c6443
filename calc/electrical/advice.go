package electrical

import (
	"math"

	"blankoff/calc/declare"
	"blankoff/calc/letters"
	"blankoff/calc/quantity"
	"blankoff/calc/uncertainty"
)

func distance(x, low, high float64) float64 {
	return nearer(math.Abs(x-low), math.Abs(high-x))
}

func nearer(a, b float64) float64 {
	if b < a {
		return b
	}
	return a
}

// onTheLimit is how near to a limit, Ω, no ordinary meter settles anything.
const onTheLimit = 0.005

// goodTo says how good a measurement would settle it, d being the distance to the limit.
func goodTo(d float64) string {
	if d < onTheLimit {
		return "It sits on the limit itself: no ordinary meter settles that. Measure with four wires, or compare with one known to be good."
	}
	return put("A measurement good to ± #, such as with four wires, would settle it.", ohms(under(d), 2), "")
}

// under rounds to two figures, down: with a ± of the whole distance a value outside a
// limit would still touch it.
func under(d float64) float64 {
	step := niceStep(d) / 10
	return (math.Ceil(d/step-1e-9) - 1) * step
}

// finerMeter says which meter would settle it.
func finerMeter(r *declare.Result, d float64) string {
	if step := niceStep(d / 10); d >= onTheLimit && step < r.In("resolution") && settles(r, step, d) {
		return put("A meter or range with a last digit of #, or a four-wire measurement, would settle it.", ohms(step, 1), "")
	}
	return goodTo(d)
}

// settles tells whether a finer last digit alone, at the same share and counts, brings
// the uncertainty under d: often the share of the reading is what matters.
func settles(r *declare.Result, step, d float64) bool {
	_, u := r.Out("resistance")
	u *= uncertainty.K
	others := u*u - meterSquares(r, r.In("resolution"))
	if others < 0 {
		others = 0
	}
	return others+meterSquares(r, step) < 0.99*d*d
}

// meterSquares is the sum of the squares of the meter's two limits of error, Ω².
func meterSquares(r *declare.Result, resolution float64) float64 {
	reading, leads := allowed(r.Numbers, r.In("reading"), resolution), allowed(r.Numbers, r.In("leads"), resolution)
	return reading*reading + leads*leads
}

// allowed is the error that the meter's maker allows at a value, Ω.
func allowed(x *declare.Numbers, value, resolution float64) float64 {
	return uncertainty.MeterLimit(value, x.In("percent"), x.In("counts"), resolution)
}

// tell gives a finding.
func tell(r *declare.Result, f *finding, part, reading string) {
	if f.state != "" {
		r.Text("state", put(f.state, part, reading))
	}
	text := put(f.text, part, reading)
	r.Decide(f.is, text, text, text)
}

// put writes a part and a reading into a text, in place of # and *.
func put(text, part, reading string) string {
	return letters.Replace(letters.Replace(text, "#", part), "*", reading)
}

// endless is the limit where there is none, Ω.
const endless = math.MaxFloat64

// niceStep is the largest power of ten at or under x.
func niceStep(x float64) float64 { return math.Pow(10, math.Floor(math.Log10(x)+1e-9)) }

func ohms(x float64, figures int) string {
	return quantity.Format(x, -1, quantity.MustUnit("Ω"), figures)
}

func megohm(x float64) string { return quantity.Format(x, -1, quantity.MustUnit("MΩ"), 3) }
