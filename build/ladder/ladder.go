// Package ladder draws the pressure ladder: a logarithmic scale from the atmosphere
// down to the pump's blank-off pressure, with the rungs that physics and the machine
// set, the working band, and the pressures that a page speaks of.
//
// It is a pure function from pressures to two SVG texts. It knows no page, machine or
// file, and it never decides what a pressure means.
//
//	drawing, err := ladder.Draw(ladder.Ladder{
//		Scale: ladder.Scale{TopPa: 101325, BottomPa: 1.3, Unit: mTorr},
//		Rungs: []ladder.Rung{{Pa: 46.7, Label: "ready limit", Kind: ladder.Limit}},
//	})
//
// Colours are left to the style sheet: parts carry classes (rung, mark, band, leader,
// number, label, cursor and the kinds below). Lengths are SVG user units, which are
// CSS pixels at the drawing's own size.
package ladder

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"blankoff/calc/quantity"
)

// Ladder is everything that a drawing shows.
type Ladder struct {
	Scale Scale
	Rungs []Rung
	Band  Band
	Marks []Mark

	spoken string // the whole of it in one sentence, which both drawings carry
}

// Scale says where the ladder ends and in which unit its numbers are.
type Scale struct {
	TopPa, BottomPa float64
	Unit            quantity.Unit
}

// Kind says what sets a rung. It is also the rung's class in the drawing.
type Kind string

const (
	Air         Kind = "air"          // the atmosphere at the shop's altitude
	TriplePoint Kind = "triple-point" // above it water may be liquid, below it is ice or vapour
	IceFloor    Kind = "ice-floor"    // vapour pressure of ice at the condenser's temperature
	Limit       Kind = "limit"        // what somebody decided: a ready limit, a dry-empty limit
	Floor       Kind = "floor"        // the lowest there is: pump blanked off, or the sensor's end
)

// Rung is a pressure that does not depend on the page.
type Rung struct {
	Pa    float64
	Label string // for the tall ladder: "ice floor, trap -34 °C"
	Short string // for the strip: "ice floor"; Label if empty
	Kind  Kind
}

// Band is where the machine works. A zero Band is not drawn.
type Band struct {
	FromPa, ToPa float64
	Label        string // may be empty
}

// Mark is a pressure that the page speaks of.
type Mark struct {
	Pa    float64
	Label string
}

// Drawing holds the same ladder upright for wide screens and lying for phones.
type Drawing struct {
	Tall, Strip               string
	TallNumbers, StripNumbers Numbers
}

// Numbers is the part of a drawing that depends on the unit: its lines, the numbers beside them and the unit's name. It stands in
// a group of the class scale, before the axis.
type Numbers struct {
	Key string                          // tells the scale, as a script can read it from the axis: its ends in Pa and in pixels
	In  func(unit quantity.Unit) string // the inside of the group, in another unit
}

// Draw draws a ladder. What lies beyond its ends, or is no pressure, is left out:
// a mark moved to the nearest end would tell an untruth.
func Draw(l Ladder) (Drawing, error) {
	if !(l.Scale.BottomPa > 0 && l.Scale.TopPa > l.Scale.BottomPa) || math.IsInf(l.Scale.TopPa, 0) {
		return Drawing{}, fmt.Errorf("the pressure ladder needs a top above its bottom and both above zero, not %g Pa and %g Pa: give the machine's blank-off pressure and the shop's altitude", l.Scale.TopPa, l.Scale.BottomPa)
	}
	if l.Scale.Unit == (quantity.Unit{}) {
		return Drawing{}, errors.New("the pressure ladder has no unit to be numbered in: give a unit of absolute pressure, such as mTorr")
	}
	if l.Scale.Unit.Kind != quantity.Pressure || l.Scale.Unit.Affine() {
		return Drawing{}, fmt.Errorf("the pressure ladder cannot be numbered in %q: give a unit of absolute pressure, such as mTorr", l.Scale.Unit.Symbol)
	}
	l = l.within()
	l.spoken = l.inWords()
	var d Drawing
	d.Tall, d.TallNumbers = l.tall()
	d.Strip, d.StripNumbers = l.strip()
	return d, nil
}

// Picture is a ladder as a figure of a text.
type Picture struct {
	Width, Height float64
	Body          string   // what stands inside of the SVG
	Words         string   // all of it in one sentence
	Tells         []string // what any text beside it must hold: the rungs' names, by their first words
	Numbers       Numbers
}

// Figure draws a ladder for the column of the text: upright, shorter than in a margin, without a cursor.
func Figure(l Ladder) (Picture, error) {
	if _, err := Draw(l); err != nil {
		return Picture{}, err
	}
	l = l.within()
	p := Picture{Words: l.inWords()}
	for _, rung := range l.Rungs {
		if words := strings.FieldsFunc(strings.ToLower(rung.Label), func(r rune) bool { return r < 'a' || r > 'z' }); len(words) > 0 {
			p.Tells = append(p.Tells, words[0])
		}
	}
	var c canvas
	p.Width, p.Height, p.Numbers = l.upright(&c, figureHeight)
	p.Body = c.String()
	return p, nil
}

// within keeps what the scale can show, each mark once.
func (l Ladder) within() Ladder {
	shown := Ladder{Scale: l.Scale}
	for _, rung := range l.Rungs {
		if l.Scale.holds(rung.Pa) {
			shown.Rungs = append(shown.Rungs, rung)
		}
	}
	seen := map[Mark]bool{}
	for _, mark := range l.Marks {
		if l.Scale.holds(mark.Pa) && !seen[mark] {
			seen[mark] = true
			shown.Marks = append(shown.Marks, mark)
		}
	}
	top, bottom := math.Min(l.Band.FromPa, l.Scale.TopPa), math.Max(l.Band.ToPa, l.Scale.BottomPa)
	if l.Band.ToPa > l.Band.FromPa {
		top, bottom = math.Min(l.Band.ToPa, l.Scale.TopPa), math.Max(l.Band.FromPa, l.Scale.BottomPa)
	}
	if top > bottom && l.Band.FromPa > 0 && l.Band.ToPa > 0 {
		shown.Band = Band{FromPa: top, ToPa: bottom, Label: l.Band.Label}
	}
	return shown
}

// holds allows for the last digit of an end that was itself computed.
func (s Scale) holds(pa float64) bool {
	const slack = 1e-9
	return pa >= s.BottomPa*(1-slack) && pa <= s.TopPa*(1+slack)
}

// share is the way from top (0) to bottom (1).
func (s Scale) share(pa float64) float64 {
	return math.Log(s.TopPa/pa) / math.Log(s.TopPa/s.BottomPa)
}
