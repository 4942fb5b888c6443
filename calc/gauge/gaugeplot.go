package gauge

import (
	"math"

	"blankoff/calc/declare"
	"blankoff/calc/plot"
	"blankoff/calc/quantity"
)

// comparePlot shows how many times too high the machine's gauge reads, by pressure: a wrong
// factor is level, an offset climbs towards low pressures. Bars are the doubt of both.
func comparePlot(r *declare.Result) *plot.Plot {
	p := pairsOf(r.Numbers)
	drawn := &plot.Plot{Title: "Machine gauge over independent gauge", X: r.ColumnAxis("readings", "reference", "independent gauge"), Y: declare.Axis("machine over independent", quantity.Ratio, "")}
	drawn.X.Log, drawn.Y.Log = true, true
	low, high := math.MaxFloat64, 0.0
	ratios := make([]plot.Point, 0, len(p.list))
	for i := range p.list {
		q := &p.list[i]
		if q.reference > 0 && q.machine > 0 {
			at := plot.At(q.reference, q.machine/q.reference)
			at.Low, at.High = at.Y-q.doubt/q.reference, at.Y+q.doubt/q.reference
			ratios = append(ratios, at)
			low, high = min(low, q.reference), max(high, q.reference)
		}
	}
	if high == 0 {
		return nil
	}
	drawn.Parts = append(drawn.Parts, plot.Part{Kind: plot.Limit, Name: "1: alike", Points: plot.Line(low, 1, high, 1)})
	if p.fit.ok {
		offset, _ := r.Out("offset")
		gain, _ := r.Out("gain")
		var curve []plot.Point
		for i := 0.0; i <= curvePieces; i++ {
			x := p.from * math.Pow(p.to/p.from, i/curvePieces)
			if p.from > 0 {
				curve = append(curve, plot.At(x, gain+offset/x))
			}
		}
		drawn.Parts = append(drawn.Parts, plot.Part{Kind: plot.Curve, Name: "offset and gain", Free: true, Points: curve})
	}
	drawn.Parts = append(drawn.Parts, plot.Part{Kind: plot.Readings, Name: "pairs ± common doubt", Points: ratios})
	return drawn
}

// curvePieces is into how many straight pieces a curve is cut.
const curvePieces = 40

// tubePlot shows the tube's curve, and where the signal meets it.
func tubePlot(r *declare.Result) *plot.Plot {
	c := curveOf(r.Numbers)
	p := &plot.Plot{Title: "Curve of the tube", X: r.ColumnAxis("curve", "signal", "signal"), Y: r.ColumnAxis("curve", "pressure", "pressure")}
	p.Y.Log = true
	first, last := c.rows[0].signal, c.rows[len(c.rows)-1].signal
	rows, curve := make([]plot.Point, 0, len(c.rows)), make([]plot.Point, 0, curvePieces+1)
	for i := range c.rows {
		rows = append(rows, plot.At(c.rows[i].signal, math.Exp(c.rows[i].log)))
	}
	for i := 0.0; i <= curvePieces; i++ {
		x := first + (last-first)*i/curvePieces
		pressure, _ := c.at(x)
		curve = append(curve, plot.At(x, pressure))
	}
	signal, _ := signalOf(r.Numbers)
	pressure, u := r.Out("pressure")
	here := plot.At(signal, pressure)
	here.Low, here.High = pressure-2*u, pressure+2*u
	p.Parts = []plot.Part{
		{Kind: plot.Level, Free: true, Points: []plot.Point{plot.At(signal, 1e-9), here}},
		{Kind: plot.Known, Name: "curve", Points: curve},
		{Kind: plot.Left, Name: "rows of the card", Points: rows},
		{Kind: plot.Readings, Name: r.Fill("{pressure}"), Points: []plot.Point{here}},
	}
	return p
}
