package pumping

import (
	"math"

	"blankoff/calc/declare"
	"blankoff/calc/plot"
	"blankoff/calc/quantity"
)

// logPlot shows a pump-down on log-log paper, over the curve of the machine with the band
// that is allowed.
func logPlot(r *declare.Result) *plot.Plot {
	d, _ := r.Studied().(*descentLog)
	p := &plot.Plot{Title: "Pump-down", X: r.ColumnAxis("log", "time", "time"), Y: r.ColumnAxis("log", "pressure", "pressure")}
	p.X.Log, p.Y.Log = true, true
	if d.curve.points != nil {
		known := plotted(d.curve.points, r.In("band"))
		p.Parts = append(p.Parts, plot.Part{Kind: plot.Band, Name: r.Fill("± {band} of it"), Free: true, Points: known},
			plot.Part{Kind: plot.Known, Name: "expected curve", Points: known})
	}
	last := d.points[len(d.points)-1].x
	if d.heading {
		floor, _ := r.Out("floor")
		p.Parts = append(p.Parts, plot.Part{Kind: plot.Level, Name: r.Fill("heading for {floor}"), Points: plot.Line(last/4, floor, last, floor)})
	}
	var above []plot.Point
	time, ceiling := r.Column("log", "time"), r.In("ceiling")*(1+1e-12)
	for i, pressure := range r.Column("log", "pressure") {
		if pressure > ceiling {
			above = append(above, plot.At(time[i], pressure))
		}
	}
	if above != nil {
		p.Parts = append(p.Parts, plot.Part{Kind: plot.Left, Name: "not used", Tabled: true, Points: above})
	}
	p.Parts = append(p.Parts, plot.Part{Kind: plot.Readings, Name: r.Fill("readings ± {gauge}"), Tabled: true, Points: plotted(d.points, r.In("gauge"))})
	return p
}

// plotted are points of a log, with a share up and down that is one factor both ways.
func plotted(points []point, share float64) []plot.Point {
	list := make([]plot.Point, len(points))
	for i, at := range points {
		p := math.Exp(at.y)
		list[i] = plot.At(at.x, p)
		list[i].Low, list[i].High = p/(1+share), p*(1+share)
	}
	return list
}

// pumpPlot shows the course that was computed, whose table stands among the results.
func pumpPlot(r *declare.Result) *plot.Plot {
	rows := r.Cells("course")
	if rows == nil {
		return nil
	}
	end, unit := r.In("end"), r.Typed("end").Unit.Symbol
	floor, _ := r.Out("floor")
	p := &plot.Plot{Title: "Pump-down", X: declare.Axis("time", quantity.Time, "min"), Y: declare.Axis("pressure", quantity.Pressure, unit)}
	p.Y.Log = true
	course := make([]plot.Point, len(rows))
	for i, row := range rows {
		course[i] = plot.At(row[0].Value, row[1].Value)
	}
	last := course[len(course)-1].X
	p.Parts = []plot.Part{
		{Kind: plot.Limit, Name: r.Fill("wanted {end}"), Points: plot.Line(0, end, last, end)},
		{Kind: plot.Level, Name: r.Fill("lowest {floor}"), Points: plot.Line(0, floor, last, floor)},
		{Kind: plot.Curve, Name: "computed", Points: course},
	}
	return p
}
