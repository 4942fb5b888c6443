package picture

import (
	"fmt"
	"math"
	"slices"
	"unicode/utf8"

	"blankoff/calc/fit"
	"blankoff/calc/plot"
	"blankoff/calc/quantity"
)

// Rise is a chamber that was closed: its curve, in mTorr and minutes.
type Rise struct {
	Shape string  // straight, bending or both
	Limit float64 // of the rise, mTorr a minute; none if zero
	Of    string  // whose limit
}

// shapes are what a leak, vapour and the two together may do. The model is that of the calculator rise-log; its figures are chosen
// so that the shapes differ at a glance.
var shapes = map[string]struct {
	curve fit.Curve
	title string
	words string
	tells []string
	label string // of the legend
}{
	"straight": {fit.Curve{Terms: fit.Start | fit.Slope, Start: 100, Slope: 42}, "Rise of a chamber that leaks",
		"a straight line, as much in each minute as in the one before", []string{"straight"}, "straight: a leak"},
	"bending": {fit.Curve{Terms: fit.Start | fit.Bend, Start: 100, Rise: 320, Tau: 1.8}, "Rise of a wet chamber",
		"the curve bends and levels off, since vapour stops of itself", []string{"bends"}, "bends, then level: vapour"},
	"both": {fit.Curve{Terms: fit.Start | fit.Slope | fit.Bend, Start: 100, Slope: 21, Rise: 210, Tau: 1.2}, "Rise of a wet chamber that leaks too",
		"the curve bends and then goes on in a straight line", []string{"bends", "straight"}, "bends, then straight: both"},
}

// Shapes names the rises that can be drawn.
var Shapes = []string{"straight", "bending", "both"}

// How long the chamber was watched, in minutes, and what the axis reaches to.
const minutes, mostMTorr = 10, 600

// Draw draws the curve with a reading each minute, and the limit as a line from the first reading.
func (r Rise) Draw() (*Drawing, error) {
	s, known := shapes[r.Shape]
	if !known {
		return nil, fmt.Errorf("there is no rise of the shape %q", r.Shape)
	}
	d, words := r.draw(mTorr)
	inside := func(unit quantity.Unit) string {
		anew, _ := r.draw(unit)
		return anew.Body
	}
	return Framed(Frame{
		Title: s.title, Words: words, Tells: slices.Clone(s.tells), Width: plot.Width, Height: d.Height, Body: d.Body,
		Scale: Scale{Kind: quantity.Pressure, In: inside},
	}), nil
}

var mTorr = quantity.MustUnit("mTorr")

// draw draws it with pressures in the unit.
func (r Rise) draw(unit quantity.Unit) (d *plot.Drawing, words string) {
	s := shapes[r.Shape]
	p := plot.Plot{Title: s.title}
	p.X.Label, p.X.Unit = "time after the valve was closed", quantity.MustUnit("min")
	p.Y.Label, p.Y.Unit = "pressure", unit
	at := func(seconds float64) float64 { return mTorr.To(s.curve.At(p.X.Unit.From(seconds))) }
	pieces := 1 // two points make a straight line
	if s.curve.Terms&fit.Bend != 0 {
		pieces = 24
	}
	foot := &p.Trace(plot.Curve, s.label, 0, p.X.Unit.To(minutes), pieces, at).Points[0]
	foot.Low, foot.High = 0, mTorr.To(mostMTorr) // the shapes are told apart at one scale
	words = s.words
	if r.Limit > 0 && !math.IsInf(r.Limit, 0) {
		p.Line(plot.Limit, r.limitName(), 0, foot.Y, p.X.Unit.To(minutes), mTorr.To(s.curve.Start+minutes*r.Limit)).Free = true
		words += fmt.Sprintf("; the limit is a dashed line that climbs %s mTorr a minute", count(r.Limit))
	}
	readings := p.Part(plot.Readings, "")
	for min := 0.0; min <= minutes; min++ {
		x := p.X.Unit.To(min)
		readings.Add(x, at(x))
	}
	return p.Draw(), words
}

// legendRoom is how many characters a line of the legend has.
const legendRoom = 36

// limitName names the limit and whose it is, if there is room.
func (r Rise) limitName() string {
	text := "limit " + count(r.Limit) + " mTorr/min"
	if of := text + ", " + r.Of; r.Of != "" && utf8.RuneCountInString(of) <= legendRoom {
		return of
	}
	return text
}
