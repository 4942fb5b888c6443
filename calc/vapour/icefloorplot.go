package vapour

import (
	"blankoff/calc/declare"
	"blankoff/calc/plot"
	"blankoff/calc/quantity"
	"blankoff/calc/uncertainty"
)

// floorPlot shows the line of ice, and of water above 0.01 °C, with the trap on it and the
// pressure that the gauge means.
func floorPlot(r *declare.Result) *plot.Plot {
	unit := "mTorr"
	if r.Written("reading") {
		unit = r.Typed("reading").Unit.Symbol
	}
	p := &plot.Plot{Title: "Vapour pressure over ice and water", X: declare.Axis("temperature", quantity.Temperature, "°C"), Y: declare.Axis("pressure", quantity.Pressure, unit)}
	if r.Written("temperature") {
		p.X.Unit = r.Typed("temperature").Unit
	}
	p.Y.Log = true
	at, wide := r.Or("temperature", 0), 10.0
	ice, _ := r.Value("ice")
	low, high := at, at
	if r.Has("reading") {
		low, high = min(at, ice), max(at, ice)
		if !r.Has("temperature") {
			low, high = ice, ice
		}
	}
	low, high = max(low-wide, 110), min(high+wide, CriticalKelvin)
	line := make([]plot.Point, 0, 33)
	for i := 0.0; i <= 32; i++ {
		t := low + (high-low)*i/32
		line = append(line, plot.At(t, floorOf(t)))
	}
	p.Parts = []plot.Part{{Kind: plot.Curve, Name: "vapour pressure", Tabled: true, Points: line}}
	if r.Has("reading") {
		p.Parts = append(p.Parts, bar(r, "true", ice, "gauge means {true}"))
		p.Parts[1].Points[0].X = ice
	}
	if r.Has("temperature") {
		p.Parts = append(p.Parts, bar(r, "floor", at, "floor {floor}"))
		p.Parts[len(p.Parts)-1].Kind = plot.Left
	}
	return p
}

// bar is a result at a temperature, with its ±.
func bar(r *declare.Result, id string, at float64, name string) plot.Part {
	value, u := r.Out(id)
	point := plot.At(at, value)
	point.Low, point.High = value-uncertainty.K*u, value+uncertainty.K*u
	return plot.Part{Kind: plot.Readings, Name: r.Fill(name), Points: []plot.Point{point}}
}
