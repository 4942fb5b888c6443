package gauge

import (
	"math"

	"blankoff/calc/declare"
	"blankoff/calc/plot"
	"blankoff/calc/uncertainty"
)

var comparePlot = declare.Plot{
	Title: "Machine gauge over independent gauge",
	X:     declare.PlotAxis{Label: "independent gauge", Unit: "mTorr", Of: "readings", Column: "reference", Log: true},
	Y:     declare.PlotAxis{Label: "machine over independent", Log: true},
	Draw:  compareDraw,
}

// pieces is into how many straight pieces a curve is cut.
const pieces = 40

// compareDraw shows how many times too high the machine's gauge reads, by pressure: a wrong
// factor is level, an offset climbs towards low pressures. Bars are the doubt of both.
func compareDraw(r *declare.Result, drawn *plot.Plot) {
	p := pairsOf(r.Numbers)
	low, high := math.MaxFloat64, 0.0
	ratios := drawn.Part(plot.Readings, "pairs ± common doubt")
	for i := range p.list {
		q := &p.list[i]
		if q.reference > 0 {
			ratios.Add(q.reference, q.machine/q.reference).Bar(q.doubt / q.reference)
			low, high = min(low, q.reference), max(high, q.reference)
		}
	}
	if high == 0 {
		return
	}
	drawn.Line(plot.Limit, "1: alike", low, 1, high, 1).Points[0].Low = 0.5 // so that it does not lie on the axis
	if p.fit.ok && p.from > 0 {
		ratio := func(x float64) float64 { return p.fit.gain + p.fit.offset/x }
		drawn.Trace(plot.Curve, "offset and gain", p.from, p.to, pieces, ratio).Free = true
	}
}

var tubePlot = declare.Plot{
	Title: "Curve of the tube",
	X:     declare.PlotAxis{Label: "signal", Unit: "mV", Of: "curve", Column: "signal"},
	Y:     declare.PlotAxis{Label: "pressure", Unit: "mTorr", Of: "curve", Column: "pressure", Log: true},
	Draw:  tubeDraw,
}

// tubeDraw shows the tube's curve, and where the signal meets it.
func tubeDraw(r *declare.Result, p *plot.Plot) {
	c := curveOf(r.Numbers)
	rows := p.Part(plot.Left, "rows of the card")
	for i := range c.rows {
		rows.Add(c.rows[i].signal, math.Exp(c.rows[i].log))
	}
	p.Trace(plot.Known, "curve", c.rows[0].signal, c.rows[len(c.rows)-1].signal, pieces, func(x float64) float64 {
		pressure, _ := c.at(x)
		return pressure
	})
	signal, _ := signalOf(r.Numbers)
	pressure, u := r.Out("pressure")
	p.Part(plot.Readings, "{pressure}").Add(signal, pressure).Bar(uncertainty.K * u)
}
