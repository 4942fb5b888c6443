package vacuum

import (
	"blankoff/calc/declare"
	"blankoff/calc/plot"
	"blankoff/calc/quantity"
	"blankoff/calc/uncertainty"
)

var riseLogPlot = declare.Plot{
	Title: "Rise of the closed chamber",
	X:     declare.PlotAxis{Label: "time", Unit: "min", Of: "log", Column: "time"},
	Y:     declare.PlotAxis{Label: "pressure", Unit: "mTorr", Of: "log", Column: "pressure"},
	Draw:  riseLogDraw,
}

var curveNames = [3]string{"curve: a leak", "curve: vapour", "curve: a leak and vapour"}

// riseLogDraw shows the readings with the best curve. The band is what gauge and fit leave
// open of the leak, as the verdict has it: it opens with the time. The limit starts where
// the curve would come from without its vapour, so that at the end the one runs away from
// the other as the leak does from its limit.
func riseLogDraw(r *declare.Result, p *plot.Plot) {
	s := r.Studied().(*riseLog)
	if s.few {
		readings := p.Part(plot.Readings, "readings")
		for i, t := range s.t {
			readings.Add(t, s.p[i])
		}
		return
	}
	c := &s.curve[s.best]
	end, pieces := s.start+s.length(), 40
	if s.best == straight {
		pieces = 1
	}
	curve := func(t float64) float64 { return c.At(t - s.start) }
	name := "best curve, not settled"
	if s.doubt == none {
		name = curveNames[s.shape]
	}
	p.Trace(plot.Curve, name, s.start, end, pieces, curve)
	band := p.Trace(plot.Band, "± of the leak", s.start, end, pieces, curve)
	band.Free = true
	_, u := r.Out("rate")
	for i := range band.Points {
		at := &band.Points[i]
		at.Bar(uncertainty.K * u * (at.X - s.start))
	}
	if r.Has("limit") {
		limit, foot := r.In("limit"), c.Start+c.Rise
		if r.Kind("limit") != quantity.PressureRate {
			limit /= r.In("volume")
		}
		p.Line(plot.Limit, "limit {limit}", s.start, foot, end, foot+limit*s.length()).Free = true
	}
	used, left := p.Part(plot.Readings, "readings"), p.Part(plot.Left, "not used")
	for i, t := range s.t {
		used.Add(s.start+t, s.p[i])
	}
	ceiling := r.In("ceiling")
	for row, t := range s.times {
		if p := s.pressures[row]; p > ceiling*(1+tie) || t < s.start || t > end {
			left.Add(t, p)
		}
	}
	for _, row := range s.wild {
		left.Add(s.times[row], s.pressures[row])
	}
	if s.above > 0 {
		p.Y.Most = ceiling
	}
}
