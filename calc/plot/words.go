package plot

import (
	"math"

	"blankoff/calc/quantity"
)

// words tells what the plot shows to those who cannot see it.
func (p *Plot) words() string {
	text := p.Title
	for i := range p.Parts {
		part := &p.Parts[i]
		var first, last *Point
		n, low, high := 0, math.Inf(1), math.Inf(-1)
		for j := range part.Points {
			at := &part.Points[j]
			if !p.X.shows(at.X) || !p.Y.shows(at.Y) {
				continue
			}
			n++
			low, high = min(low, at.Y), max(high, at.Y)
			if first == nil || at.X < first.X {
				first = at
			}
			if last == nil || at.X >= last.X {
				last = at
			}
		}
		if n == 0 || part.Name == "" {
			continue
		}
		text += "; " + part.Name + ": "
		if part.Kind >= Left {
			text += quantity.Format(float64(n), -1, quantity.One, 6) + ", "
		}
		switch {
		case part.Kind == Band:
			text += p.Y.show(last.Low) + " to " + p.Y.show(last.High)
		case n > 1:
			text += "from " + p.Y.show(first.Y) + " at " + p.X.show(first.X) + " to " + p.Y.show(last.Y)
		default:
			text += p.Y.show(first.Y)
		}
		text += " at " + p.X.show(last.X)
		if part.Kind >= Left && (low < min(first.Y, last.Y) || high > max(first.Y, last.Y)) {
			text += ", between " + p.Y.show(low) + " and " + p.Y.show(high)
		}
	}
	return text
}

func (a *Axis) show(si float64) string { return quantity.Format(si, -1, a.Unit, 4) }

// longest is how many rows the table behind a plot has at most.
const longest = 60

// Table lists the points of the parts that are to be: X, Y, and the curve there, not a
// number where there is none. Of many it takes every so-manyth and the last, and says so.
func (p *Plot) Table() (rows [][3]float64, every int) {
	n := 0
	for i := range p.Parts {
		if p.Parts[i].Tabled {
			n += len(p.Parts[i].Points)
		}
	}
	every = (n + longest - 1) / longest
	at := 0
	for i := range p.Parts {
		if !p.Parts[i].Tabled {
			continue
		}
		for _, point := range p.Parts[i].Points {
			if at++; (at-1)%every == 0 || at == n {
				rows = append(rows, [3]float64{point.X, point.Y, point.On})
			}
		}
	}
	return rows, every
}
