package pumping

import (
	"math"

	"blankoff/calc/declare"
	"blankoff/calc/plot"
)

var logPlot = declare.Plot{
	Title: "Pump-down",
	X:     declare.PlotAxis{Label: "time", Unit: "min", Of: "log", Column: "time", Log: true},
	Y:     declare.PlotAxis{Label: "pressure", Unit: "mTorr", Of: "log", Column: "pressure", Log: true},
	Draw:  logDraw,
}

// logDraw shows a pump-down on log-log paper, over the curve of the machine with the band
// that is allowed.
func logDraw(r *declare.Result, p *plot.Plot) {
	d, _ := r.Studied().(*descentLog)
	addPoints(p.Part(plot.Readings, "readings ± {gauge}"), d.points, r.In("gauge"))
	if d.curve.points != nil {
		addPoints(p.Part(plot.Known, "expected curve"), d.curve.points, 0)
		band := p.Part(plot.Band, "± {band} of it")
		band.Free = true
		addPoints(band, d.curve.points, r.In("band"))
	}
	if d.heading {
		floor, last := d.floor.Intercept, d.points[len(d.points)-1].x
		p.Line(plot.Level, "heading for {floor}", last/4, floor, last, floor)
	}
	left := p.Part(plot.Left, "not used")
	times := r.Column("log", "time")
	for i, pressure := range r.Column("log", "pressure") {
		if pressure > r.In("ceiling")*(1+1e-12) {
			left.Add(times[i], pressure)
		}
	}
}

// addPoints adds those of a log, with a share up and down that is one factor both ways.
func addPoints(part *plot.Part, points []point, share float64) {
	for _, from := range points {
		at := part.Add(from.x, math.Exp(from.y))
		at.Low /= 1 + share
		at.High *= 1 + share
	}
}

var pumpPlot = declare.Plot{
	Title: "Pump-down",
	X:     declare.PlotAxis{Label: "time", Unit: "min"},
	Y:     declare.PlotAxis{Label: "pressure", Unit: "mTorr", Of: "end", Log: true},
	Draw:  pumpDraw,
}

// pumpDraw shows the course that was computed, whose table stands among the results.
func pumpDraw(r *declare.Result, p *plot.Plot) {
	rows := r.Cells("course")
	if rows == nil {
		return
	}
	course := p.Part(plot.Curve, "computed")
	last := 0.0
	for _, row := range rows {
		last = row[0].Value
		course.Add(last, row[1].Value)
	}
	end := r.In("end")
	p.Line(plot.Limit, "wanted {end}", 0, end, last, end)
	floor, _ := r.Out("floor")
	p.Line(plot.Level, "lowest {floor}", 0, floor, last, floor).Points[0].Low = floor / 2 // so that it does not lie on the axis
}
