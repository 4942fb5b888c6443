package ladder

import (
	"cmp"
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
func (l Ladder) strip() string {
	from, to := stripEdge, stripWidth-stripEdge
	place := func(pa float64) float64 { return from + (to-from)*l.Scale.share(pa) }

	var c canvas
	c.open("strip", stripWidth, stripHeight, l, from, to)
	if l.Band.FromPa > 0 {
		x := place(l.Band.FromPa)
		c.put(`<rect class="band" x="%v" y="%v" width="%v" height="8"/>`, x, stripAxis, place(l.Band.ToPa)-x)
	}
	l.stripScale(&c, place)
	c.put(`<path class="axis" d="M%v %vH%v"/>`, from, stripAxis, to)
	for _, mark := range l.Marks {
		c.put(`<path class="pointer" d="M%v %vl-4 8h8z"><title>%v</title></path>`, place(mark.Pa), stripAxis+1, mark.Label)
	}
	names := l.names(place)
	for i, middle := range spread(nameWants(names), 0, stripWidth) {
		names[i].strip(&c, middle)
	}
	c.put(`<g class="cursor"><path d="M0 %vv18"/><path d="M0 %vl-6 10h12z"/></g></svg>`, stripAxis-8, stripAxis)
	return c.String()
}

// stripScale writes the ticks, and those numbers that have room. The unit stands at the left, the lowest number comes first.
func (l Ladder) stripScale(c *canvas, place func(pa float64) float64) {
	free := stripWidth
	ticks := l.Scale.ticks()
	slices.Reverse(ticks)
	unit := width(l.Scale.Unit.Symbol, stripText, letter) + 3
	c.text("unit", "start", stripText, 0, stripHeight-7, []string{l.Scale.Unit.Symbol})
	for _, line := range ticks {
		x := place(line.pa)
		if line.number == "" {
			c.put(`<path class="tick" d="M%v %vv4"/>`, x, stripAxis)
			continue
		}
		c.put(`<path class="decade" d="M%v %vv8"/>`, x, stripAxis)
		room := width(line.number, stripText, digit)
		middle := max(room/2, min(x, stripWidth-room/2))
		if middle+room/2 > free || middle-room/2 < unit {
			continue
		}
		c.text("number", "middle", stripText, middle, stripHeight-7, []string{line.number})
		free = middle - room/2 - 4
	}
}

// keptLast orders the kinds of rungs by how soon a strip without room leaves out their names.
var keptLast = []Kind{TriplePoint, Limit, Floor, IceFloor, Air}

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
	for _, kind := range keptLast {
		for i := len(names) - 1; i >= 0 && room(names) > stripWidth; i-- {
			if names[i].kind == kind {
				names[i].lines = nil
			}
		}
	}
	return names
}

// nameWants gives the room of each name along the strip; a rung without a name takes none.
func nameWants(names []label) []want {
	var wants []want
	for _, name := range names {
		size := 0.0
		if len(name.lines) > 0 {
			size = width(name.lines[0], stripText, letter) + 5
		}
		wants = append(wants, want{at: name.at, size: size})
	}
	return wants
}

func room(names []label) float64 {
	sum := 0.0
	for _, want := range nameWants(names) {
		sum += want.size
	}
	return sum
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
