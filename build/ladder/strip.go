package ladder

import (
	"cmp"
	"math"
	"slices"
)

// Measures of the lying ladder: as wide as the text column of a phone, and slim.
const (
	stripWidth  = 336.0
	stripHeight = 48.0
	stripText   = 11.0
	stripAxis   = 25.0
	stripEdge   = 6.0
)

// strip draws the ladder for a phone: rungs named above the axis, numbers below it.
func (l Ladder) strip() (string, Numbers) {
	from, to := stripEdge, stripWidth-stripEdge
	place := func(pa float64) float64 { return from + (to-from)*l.Scale.share(pa) }

	c := canvas{size: stripText}
	c.open("strip", stripWidth, stripHeight, l)
	if l.Band.FromPa > 0 {
		x := place(l.Band.FromPa)
		c.put(`<rect class="band" x="%v" y="%v" width="%v" height="8"/>`, x, stripAxis, place(l.Band.ToPa)-x)
	}
	numbers := c.scale(l.Scale, from, to, func(c *canvas, s Scale) { c.size = stripText; s.strip(c, place) })
	c.axis(l.Scale, from, to, "M"+px(from)+" "+px(stripAxis)+"H"+px(to))
	for _, mark := range l.Marks {
		c.put(`<path class="pointer" d="M%v %vl-4 8h8z"><title>%v</title></path>`, place(mark.Pa), stripAxis+1, mark.Label)
	}
	names := l.names(place)
	for i, middle := range spread(nameWants(names), 0, stripWidth) {
		names[i].strip(&c, math.Round(middle))
	}
	c.put(`<g class="cursor"><path d="M0 %vv18"/><path d="M0 %vl-6 10h12z"/></g></svg>`, stripAxis-8, stripAxis)
	return c.String(), numbers
}

// strip writes the ticks, the unit at the left, and those numbers that have room.
func (s Scale) strip(c *canvas, place func(pa float64) float64) {
	ticks := s.ticks()
	line := func(long bool) string {
		if long {
			return "v8"
		}
		return "v4"
	}
	c.lines(ticks, place, func(at float64, long bool) string {
		return "M" + px(at) + " " + px(stripAxis) + line(long)
	}, func(way float64) string {
		return "m" + px(way) + "-4" + line(false)
	})
	unit := width(s.Unit.Symbol, stripText, letter) + 4
	c.text("unit", "start", stripText, 0, stripHeight-7, []string{s.Unit.Symbol})
	for _, number := range numbersBetween(ticks, place, unit, stripWidth) {
		c.text("number", "middle", stripText, number.at, stripHeight-7, number.lines)
	}
}

// numbersBetween gives the numbers of the scale that fit beside one another between low and high, the lowest pressure first.
func numbersBetween(ticks []tick, place func(pa float64) float64, low, high float64) []label {
	var numbers []label
	for _, line := range slices.Backward(ticks) {
		if line.number == "" {
			continue
		}
		half := width(line.number, stripText, digit) / 2
		at := max(low+half, min(place(line.pa), high-half))
		// Moved further than half its own room, a number would no longer stand at its tick.
		if at+half > high || math.Abs(at-place(line.pa)) > half {
			continue
		}
		numbers = append(numbers, label{lines: []string{line.number}, at: at})
		high = at - half - 4
	}
	return numbers
}

// farthest is how far a name may stand from its rung before it misleads.
const farthest = 32.0

// firstLeftOut orders the kinds of rungs whose names a crowded strip can do without; of one kind, the lowest pressure goes first and the highest stays longest.
var firstLeftOut = []Kind{TriplePoint, Limit, Floor, IceFloor, Air}

// names gives the rungs with the names that the strip has room for, in the axis' order.
func (l Ladder) names(place func(pa float64) float64) []label {
	var names []label
	for _, rung := range l.Rungs {
		name := rung.Short
		if name == "" {
			name = rung.Label
		}
		names = append(names, label{lines: []string{name}, class: "rung " + string(rung.Kind), at: place(rung.Pa), kind: rung.Kind})
	}
	slices.SortStableFunc(names, func(a, b label) int { return cmp.Compare(a.at, b.at) })
	for _, spareHighest := range []bool{true, false} {
		for _, kind := range firstLeftOut {
			if !crowded(names) {
				return names
			}
			leaveOut(names, kind, spareHighest)
		}
	}
	return names
}

// leaveOut takes names of one kind away until the rest has room.
func leaveOut(names []label, kind Kind, spareHighest bool) {
	highest := slices.IndexFunc(names, func(name label) bool { return name.kind == kind })
	for i := len(names) - 1; i >= 0; i-- {
		if names[i].kind == kind && !(spareHighest && i == highest) && crowded(names) {
			names[i].lines = nil
		}
	}
}

// nameWants gives the room of each name along the strip; a rung without a name takes none.
func nameWants(names []label) []want {
	wants := make([]want, 0, len(names))
	for _, name := range names {
		size := 0.0
		if len(name.lines) > 0 {
			size = width(name.lines[0], stripText, letter) + 5
		}
		wants = append(wants, want{at: name.at, size: size})
	}
	return wants
}

// crowded says whether a name would have to stand too far from its rung.
func crowded(names []label) bool {
	wants := nameWants(names)
	for i, middle := range spread(wants, 0, stripWidth) {
		half := wants[i].size / 2
		home := max(half, min(wants[i].at, stripWidth-half))
		if half > 0 && (math.Abs(middle-home) > farthest || middle+half > stripWidth+0.01) {
			return true
		}
	}
	return false
}

func (l label) strip(c *canvas, middle float64) {
	c.put(`<path class="%v" d="M%v %vv-6`, l.class, l.at, stripAxis+4)
	if len(l.lines) == 0 {
		c.WriteString(`"/>`)
		return
	}
	c.put(`L%v %v"/>`, middle, 14.0)
	c.text(l.class, "middle", stripText, middle, 7, l.lines)
}
