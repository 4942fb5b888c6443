package vapour

import (
	"blankoff/calc/declare"
	"blankoff/calc/plot"
	"blankoff/calc/uncertainty"
)

var floorPlot = declare.Plot{
	Title: "Vapour pressure over ice and water",
	X:     declare.PlotAxis{Label: "temperature", Unit: "°C", Of: "temperature"},
	Y:     declare.PlotAxis{Label: "pressure", Unit: "mTorr", Of: "reading", Log: true},
	Draw:  floorDraw,
}

// floorDraw shows the line of ice, and of water above 0.01 °C, with the trap on it and the
// pressure that the gauge means.
func floorDraw(r *declare.Result, p *plot.Plot) {
	low, high := CriticalKelvin, 0.0
	point := func(kind plot.Kind, id, name string, at float64) {
		value, u := r.Out(id)
		p.Part(kind, name).Add(at, value).Bar(uncertainty.K * u)
		low, high = min(low, at), max(high, at)
	}
	if r.Has("temperature") {
		point(plot.Left, "floor", "floor {floor}", r.In("temperature"))
	}
	if r.Has("reading") {
		ice, _ := r.Out("ice")
		point(plot.Readings, "true", "gauge means {true}", ice)
	}
	p.Trace(plot.Curve, "vapour pressure", max(low-10, 110), min(high+10, CriticalKelvin), 32, floorOf)
}
