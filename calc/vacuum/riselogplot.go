package vacuum

import (
	"blankoff/calc/declare"
	"blankoff/calc/fit"
	"blankoff/calc/plot"
	"blankoff/calc/quantity"
	"blankoff/calc/uncertainty"
)

// riseLogPlot shows the readings with the best curve. Its band is what gauge and fit leave
// open of the leak, as the verdict has it: it opens with the time. The limit starts where
// the curve would come from without its vapour, so that at the end the one runs away from
// the other as the leak does from its limit.
func riseLogPlot(r *declare.Result) *plot.Plot {
	s := r.Studied().(*riseLog)
	p := &plot.Plot{Title: "Rise of the closed chamber", X: r.ColumnAxis("log", "time", "time"), Y: r.ColumnAxis("log", "pressure", "pressure")}
	c := &s.curve[s.best]
	_, u := r.Out("rate")
	curve, band := make([]plot.Point, 0, tracePoints+1), make([]plot.Point, 0, tracePoints+1)
	for i := 0; i <= tracePoints; i++ {
		if i%tracePoints > 0 && c.Terms&fit.Bend == 0 {
			continue // two points make a straight line
		}
		t := s.length() * float64(i) / tracePoints
		at := plot.At(s.start+t, c.At(t))
		curve = append(curve, at)
		at.Low, at.High = at.Y-uncertainty.K*u*t, at.Y+uncertainty.K*u*t
		band = append(band, at)
	}
	p.Parts = append(p.Parts, plot.Part{Kind: plot.Band, Name: "± of the leak", Free: true, Points: band})
	if r.Has("limit") {
		limit := r.In("limit")
		if r.Kind("limit") != quantity.PressureRate {
			limit /= r.In("volume")
		}
		foot := c.Start + c.Rise
		p.Parts = append(p.Parts, plot.Part{Kind: plot.Limit, Name: r.Fill("limit {limit}"), Free: true,
			Points: plot.Line(s.start, foot, s.start+s.length(), foot+limit*s.length())})
	}
	name := "curve: " + shapeNames[s.best]
	if s.doubt != none {
		name = "best curve, not settled"
	}
	p.Parts = append(p.Parts, plot.Part{Kind: plot.Curve, Name: name, Points: curve})
	s.plotReadings(r, p)
	return p
}

// tracePoints is into how many straight pieces a curve that bends is cut.
const tracePoints = 40

// plotReadings adds those of the fit, and those that were left out.
func (s *riseLog) plotReadings(r *declare.Result, p *plot.Plot) {
	c := &s.curve[s.best]
	used, left := make([]plot.Point, len(s.t)), []plot.Point(nil)
	for i, t := range s.t {
		used[i] = plot.At(s.start+t, s.p[i])
		used[i].On = c.At(t)
	}
	from, to := s.start, s.start+s.length()
	ceiling := r.In("ceiling") * (1 + tie)
	for row, t := range s.times {
		if p := s.pressures[row]; p > ceiling || t < from || t > to {
			left = append(left, plot.At(t, p))
		}
	}
	for _, row := range s.wild {
		if t := s.times[row]; t >= from && t <= to {
			left = append(left, plot.At(t, s.pressures[row]))
		}
	}
	if s.above > 0 {
		p.Y.Most = r.In("ceiling")
	}
	if left != nil {
		p.Parts = append(p.Parts, plot.Part{Kind: plot.Left, Name: "not used", Tabled: true, Points: left})
	}
	p.Parts = append(p.Parts, plot.Part{Kind: plot.Readings, Name: "readings", Tabled: true, Points: used})
}
