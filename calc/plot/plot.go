// Package plot draws readings, curves and limits as SVG: axes with units, straight or
// logarithmic, round numbers on them, a legend, and the whole once more in words. The page
// at publish time, the terminal and the browser's WebAssembly draw with this one code.
//
//	p := plot.Plot{Title: "Rise of the closed chamber"}
//	p.X.Label, p.X.Unit = "time", minutes
//	p.Y.Label, p.Y.Unit = "pressure", mTorr
//	readings := p.Part(plot.Readings, "readings")
//	readings.Add(60, 44.7)
//	drawing := p.Draw()
//
// It takes numbers in SI units and writes them in those of the axes. Coordinates end at a
// tenth of a pixel, so that what differs in its last bits is drawn with the same bytes.
// Colours are left to the style sheet (site/drawn.css), through the classes below; what a
// colour says, a shape and a word say too. It is not for surfaces, bars or pies.
//
// Every kilobyte of it goes to every phone. That is why points and parts are reached by
// pointers, and why types that are never compared say so.
package plot

import "blankoff/calc/quantity"

// Plot is what there is to draw.
type Plot struct {
	Title string // what it is; the first words of the text for those who cannot see it
	X, Y  Axis
	Parts []*Part
	On    func(x float64) float64 // the curve that was found, for the table; nil: none
}

// Axis is one of the two. It reaches as far as the parts that are not Free. Most, in SI
// units, ends what is shown, unless it is 0; readings above it become arrows.
type Axis struct {
	_     [0]func()
	Label string
	Unit  quantity.Unit
	Log   bool
	Most  float64

	low, high float64 // ends, in the unit
	from, to  float64 // ends, in pixels
	lying     bool
	ticks     []tick
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

// classes of the style sheet, by kind.
var classes = [kinds]string{"band", "dashed", "dots", "dim", "bold", "", "solid"}

// Part is one thing that is drawn, its points in the order of X. Free parts are cut where
// the others end.
type Part struct {
	Kind   Kind
	Name   string // for the legend, which has room for 36 characters, 20 of them for very many readings; without one it is not named
	Free   bool
	Points []Point
}

// Point is a place in SI units. Low and High bound the bar of a reading or a band.
type Point struct {
	_               [0]func()
	X, Y, Low, High float64
}

// Part adds a part.
func (p *Plot) Part(kind Kind, name string) *Part {
	part := &Part{Kind: kind, Name: name}
	p.Parts = append(p.Parts, part)
	return part
}

// Line adds a straight line.
func (p *Plot) Line(kind Kind, name string, x1, y1, x2, y2 float64) *Part {
	part := p.Part(kind, name)
	part.Add(x1, y1)
	part.Add(x2, y2)
	return part
}

// Trace adds a curve in so many straight pieces.
func (p *Plot) Trace(kind Kind, name string, from, to float64, pieces int, curve func(x float64) float64) *Part {
	part := p.Part(kind, name)
	if kind == Curve {
		p.On = curve
	}
	for i := 0; i <= pieces; i++ {
		x := from + (to-from)*float64(i)/float64(pieces)
		part.Add(x, curve(x))
	}
	return part
}

// Add adds a point, which may be given a bar.
func (part *Part) Add(x, y float64) *Point {
	part.Points = append(part.Points, Point{})
	at := &part.Points[len(part.Points)-1]
	at.X, at.Y, at.Low, at.High = x, y, y, y
	return at
}

// Bar bounds a reading on both sides.
func (at *Point) Bar(half float64) { at.Low, at.High = at.Y-half, at.Y+half }

// Drawing is a finished plot: the inside of an SVG of that height, what it shows in words,
// and the table of its readings, of which every so-manyth is there.
type Drawing struct {
	_           [0]func()
	Height      float64
	Body, Words string
	Head        []string
	Rows        [][]string
	Every       int
}

// Width is that of every drawing, in pixels: as wide as the text of a phone of 360 px.
const Width = 330.0

// Size of letters, distance of lines, and room of a letter; system fonts differ, this is a
// wide one.
const lead, letter = 17.0, 7.8

// SVG is the whole picture. It holds no style, no id and no reference, so any number fit on
// a page.
func (d *Drawing) SVG() string {
	c := canvas{}
	c.raw(`<svg class="drawn" width="330" viewBox="0 0 330 `)
	c.px(d.Height)
	c.raw(`" font-size="13" role="img" aria-label="`)
	c.escaped(d.Words)
	c.raw(`">` + d.Body + "</svg>")
	return string(c.out)
}
