package picture

import (
	"fmt"
	"math"
	"slices"
	"strconv"

	"blankoff/calc/fit"
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
	curve     fit.Curve
	title     string
	words     string
	tells     []string
	label     string
	labelTime float64 // the label stands above the curve and ends there
}{
	"straight": {fit.Curve{Terms: fit.Start | fit.Slope, Start: 100, Slope: 42}, "Rise of a chamber that leaks",
		"a straight line, as much in each minute as in the one before", []string{"straight"}, "straight: a leak", 4.9},
	"bending": {fit.Curve{Terms: fit.Start | fit.Bend, Start: 100, Rise: 320, Tau: 1.8}, "Rise of a wet chamber",
		"the curve bends and levels off, since vapour stops of itself", []string{"bends"}, "bends, then level: vapour", 10},
	"both": {fit.Curve{Terms: fit.Start | fit.Slope | fit.Bend, Start: 100, Slope: 21, Rise: 210, Tau: 1.2}, "Rise of a wet chamber that leaks too",
		"the curve bends and then goes on in a straight line", []string{"bends", "straight"}, "bends, then straight: both", 7.8},
}

// Shapes names the rises that can be drawn.
var Shapes = []string{"straight", "bending", "both"}

// The field of a curve in the picture, and what its axes reach.
const (
	fieldLeft, fieldRight  = 50.0, 318.0
	fieldTop, fieldBottom  = 34.0, 202.0
	mostMinutes, mostMTorr = 10.0, 600.0
)

func timeX(min float64) float64       { return fieldLeft + (fieldRight-fieldLeft)*min/mostMinutes }
func pressureY(mTorr float64) float64 { return fieldBottom - (fieldBottom-fieldTop)*mTorr/mostMTorr }

// Draw draws the curve with a reading each minute, and the limit as a line from the first reading.
func (r Rise) Draw() (*Drawing, error) {
	s, known := shapes[r.Shape]
	if !known {
		return nil, fmt.Errorf("there is no rise of the shape %q", r.Shape)
	}
	var c canvas
	c.axes()
	c.path(bold, trace(&s.curve))
	c.readings(&s.curve)
	c.text("", end, timeX(s.labelTime)-4, pressureY(s.curve.At(s.labelTime))-12, s.label)
	words := s.words
	if r.Limit > 0 && !math.IsInf(r.Limit, 0) {
		c.limit(s.curve.Start, r)
		words += fmt.Sprintf("; the limit is a dashed line that climbs %s mTorr a minute", count(r.Limit))
	}
	d := &Drawing{Title: s.title, Words: words, Tells: slices.Clone(s.tells)}
	return c.done(d, fieldBottom+lead*2+8), nil
}

func (c *canvas) axes() {
	for mTorr := 0.0; mTorr <= mostMTorr; mTorr += 200 {
		y := pressureY(mTorr)
		c.path(grid, m(fieldLeft, y)+"H"+px(fieldRight))
		c.text("", end, fieldLeft-8, y+size*0.35, strconv.Itoa(int(mTorr)))
	}
	c.text("", start, 4, fieldTop-16, "mTorr")
	for min := 0.0; min <= mostMinutes; min += 2 {
		c.path("", m(timeX(min), fieldBottom)+"v5")
		c.text("", middle, timeX(min), fieldBottom+lead+2, strconv.Itoa(int(min)))
	}
	c.text("", middle, (fieldLeft+fieldRight)/2, fieldBottom+2*lead+2, "minutes after the valve was closed")
	c.path("", m(fieldLeft, fieldTop)+"V"+px(fieldBottom)+"H"+px(fieldRight))
}

// trace is the curve in short straight pieces; two readings are enough where it is straight.
func trace(curve *fit.Curve) string {
	path := m(timeX(0), pressureY(curve.At(0)))
	if curve.Terms&fit.Bend != 0 {
		for min := 0.25; min < mostMinutes; min += 0.25 + min/8 {
			path += l(timeX(min), pressureY(curve.At(min)))
		}
	}
	return path + l(timeX(mostMinutes), pressureY(curve.At(mostMinutes)))
}

func (c *canvas) readings(curve *fit.Curve) {
	path := ""
	for min := 0.0; min <= mostMinutes; min++ {
		path += m(timeX(min)-2.5, pressureY(curve.At(min))-2.5) + "h5v5h-5z"
	}
	c.path(solid, path)
}

// limit draws what the machine may rise, with its word at the foot where no curve comes.
func (c *canvas) limit(from float64, r Rise) {
	until := math.Min(mostMinutes, (mostMTorr-from)/r.Limit)
	c.path(dashed, m(timeX(0), pressureY(from))+l(timeX(until), pressureY(from+r.Limit*until)))
	text := "limit " + count(r.Limit) + " mTorr/min"
	if of := text + ", " + r.Of; r.Of != "" && textWidth(of) < 228 {
		text = of
	}
	y := fieldBottom - 9.0
	c.path(dashed, m(fieldLeft+6, y-4)+"h24")
	c.text("", start, fieldLeft+36, y, text)
}
