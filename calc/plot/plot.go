// Package plot draws readings, curves and limits as SVG: axes with units, straight or
// logarithmic, round numbers on them, a legend, and the whole once more in words. The page
// at publish time, the terminal and the browser's WebAssembly draw with this one code.
//
//	p := plot.Plot{Title: "Rise of the closed chamber", X: plot.Axis{Label: "time", Unit: minutes}, Y: …,
//		Parts: []plot.Part{{Kind: plot.Readings, Name: "readings", Points: points}}}
//	drawing := p.Draw()
//
// It takes numbers in SI units and writes them in those of the axes. Coordinates end at a
// tenth of a pixel, so that what differs in its last bits is drawn with the same bytes.
// Colours are left to the style sheet (site/drawn.css), through the classes below; what a
// colour says, a shape and a word say too. It is not for surfaces, bars or pies.
package plot

import (
	"math"

	"blankoff/calc/quantity"
)

// Plot is what there is to draw.
type Plot struct {
	Title string // what it is; the first words of the text for those who cannot see it
	X, Y  Axis
	Parts []Part // later ones lie over earlier ones of the same kind
}

// Axis is one of the two. Most and Least, in SI units, end what is shown; 0 is no end.
// Without them an axis reaches as far as the parts that are not Free.
type Axis struct {
	Label       string
	Unit        quantity.Unit
	Log         bool
	Least, Most float64
}

// Kind is how a part is drawn.
type Kind int

// The kinds, from the lowest layer to the highest.
const (
	Band     Kind = iota // the area between Low and High
	Limit                // a dashed line
	Level                // a dotted line
	Known                // a thin line: what was known before
	Curve                // a bold line: what was found
	Left                 // open squares: readings that were not used
	Readings             // full squares, with a bar from Low to High where they differ
	kinds
)

// Part is one thing that is drawn. Free parts are cut where the others end.
type Part struct {
	Kind   Kind
	Name   string // for the legend: 36 characters at most are shown
	Free   bool
	Tabled bool // its points stand in the table behind the plot
	Points []Point
}

// Point is a place in SI units. Low and High bound the bar of a reading or a band; On is
// the curve where a reading lies, for the table.
type Point struct{ X, Y, Low, High, On float64 }

// At is a point without bar and curve.
func At(x, y float64) Point { return Point{x, y, y, y, math.NaN()} }

// Line is a straight one between two points.
func Line(x1, y1, x2, y2 float64) []Point { return []Point{At(x1, y1), At(x2, y2)} }

// Drawing is a finished plot: the inside of an SVG of that size, and what it shows in words.
type Drawing struct {
	Width, Height float64
	Body, Words   string
}

// Size of letters and room of one, in pixels; system fonts differ, this is a wide one. The
// picture is as wide as the text of a phone of 360 px.
const (
	wide   = 330.0
	size   = 13.0
	lead   = 17.0
	letter = 7.8
)

// SVG is the whole picture. It holds no style, no id and no reference, so any number fit on
// a page.
func (d *Drawing) SVG() string {
	c := canvas{}
	c.raw(`<svg class="drawn" viewBox="0 0 `)
	c.at(d.Width, d.Height)
	c.raw(`" width="`)
	c.px(d.Width)
	c.raw(`" height="`)
	c.px(d.Height)
	c.raw(`" font-size="13" role="img" aria-label="`)
	c.escaped(d.Words)
	c.raw(`">`)
	c.raw(d.Body)
	c.raw("</svg>")
	return string(c.out)
}
