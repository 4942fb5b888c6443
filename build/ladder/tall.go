package ladder

import "math"

// Measures of the upright ladder.
const (
	tallHeight = 640.0 // the axis grows beyond it if the labels need the room
	tallText   = 13.0
	tallNumber = 12.0
	tallEdge   = 16.0 // above and below the axis: half a label
	bandWidth  = 12.0
)

// figureHeight is that of the axis in a figure.
const figureHeight = 400.0

// tall draws the ladder for the margin of a wide screen: numbers left of the axis, labels right.
func (l Ladder) tall() (string, Numbers) {
	var body canvas
	width, height, numbers := l.upright(&body, tallHeight)
	c := canvas{size: tallText}
	c.open("tall", width, height, l)
	c.WriteString(body.String())
	c.put(`<g class="cursor"><path d="M%v 0h%v"/><path d="M%v 0l-11 -6v12z"/></g></svg>`, l.numberRoom()-2, 34.0, l.numberRoom()-1)
	return c.String(), numbers
}

// tallFrom is where the axis begins, below the unit.
const tallFrom = tallEdge + tallText*lead

// upright draws the axis with all that stands beside it, and gives the room that it took.
func (l Ladder) upright(c *canvas, height float64) (right, bottom float64, numbers Numbers) {
	from := tallFrom
	to := from + height
	axis := l.numberRoom()
	place := func(pa float64) float64 { return from + (to-from)*l.Scale.share(pa) }
	if need := labelRoom(l.labels(place)) - 2*tallEdge; need > to-from {
		to = from + need
	}
	labels := l.labels(place)
	c.size = tallText
	if l.Band.FromPa > 0 {
		y := place(l.Band.FromPa)
		c.put(`<rect class="band" x="%v" y="%v" width="%v" height="%v"/>`, axis, y, bandWidth, place(l.Band.ToPa)-y)
	}
	numbers = c.scale(l.Scale, from, to, func(c *canvas, s Scale) { c.size = tallText; s.tall(c, axis, place) })
	c.axis(l.Scale, from, to, "M"+px(axis)+" "+px(from)+"V"+px(to))
	for i, middle := range spread(tallWants(labels), from-tallEdge, to+tallEdge) {
		labels[i].tall(c, axis, math.Round(middle))
	}
	return axis + 44 + widest(labels), to + tallEdge, numbers
}

// tallWants gives the room that each label wants.
func tallWants(labels []label) []want {
	var wants []want
	for _, label := range labels {
		size := tallText*lead*float64(len(label.lines)) + 3
		wants = append(wants, want{at: label.at, size: size})
	}
	return wants
}

func labelRoom(labels []label) float64 {
	sum := 0.0
	for _, want := range tallWants(labels) {
		sum += want.size
	}
	return sum
}

// numberRoom is where the axis stands: right of the longest number of the scale.
func (l Ladder) numberRoom() float64 {
	room := width(l.Scale.Unit.Symbol, tallNumber, digit)
	for _, line := range l.Scale.ticks() {
		room = max(room, width(line.number, tallNumber, digit))
	}
	return room + 18
}

func widest(labels []label) float64 {
	room := 0.0
	for _, label := range labels {
		for _, line := range label.lines {
			room = max(room, width(line, tallText, letter))
		}
	}
	return room
}

func (s Scale) tall(c *canvas, axis float64, place func(pa float64) float64) {
	c.text("unit", "end", tallNumber, axis-17, tallNumber*lead/2, []string{s.Unit.Symbol})
	ticks := s.ticks()
	line := func(long bool) string {
		if long {
			return "h-10"
		}
		return "h-5"
	}
	c.lines(ticks, place, func(at float64, long bool) string {
		return "M" + px(axis) + " " + px(at) + line(long)
	}, func(way float64) string {
		return "m5 " + px(way) + line(false)
	})
	for _, t := range ticks {
		if t.number != "" {
			c.text("number", "end", tallNumber, axis-17, place(t.pa), []string{t.number})
		}
	}
}

// tall draws a label at its middle, with a line back to the place it speaks of.
func (l label) tall(c *canvas, axis, middle float64) {
	const out, back = 18.0, 34.0
	switch {
	case l.mark:
		c.put(`<path class="pointer" d="M%v %vl9 -5v10z"/>`, axis+1, l.at)
		c.put(`<path class="leader" d="M%v %vH%vL%v %vh4"/>`, axis+10, l.at, axis+out, axis+back, middle)
	case !l.tick:
		c.put(`<path class="leader" d="M%v %vH%vL%v %vh4"/>`, axis+bandWidth, l.at, axis+out, axis+back, middle)
	default:
		c.put(`<path class="%v" d="M%v %vH%vL%v %vh4"/>`, l.class, axis, l.at, axis+out, axis+back, middle)
	}
	c.text(l.class, "start", tallText, axis+back+8, middle, l.lines)
}
