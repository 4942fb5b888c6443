package plot

import (
	"math"

	"blankoff/calc/quantity"
)

// The field of the curves; its left and right ends make room for the numbers.
const (
	top, bottom = 30.0, 198.0
	edge        = 4.0  // left of everything
	swatch      = 24.0 // of the legend
)

// field is a plot being drawn.
type field struct {
	canvas
	*Plot
}

// Draw draws the plot. What is no finite number, or has no logarithm on an axis that wants
// one, is left out.
func (p *Plot) Draw() *Drawing {
	f := field{Plot: p}
	f.measure()
	f.axes()
	for kind := Band; kind < kinds; kind++ {
		for _, part := range p.Parts {
			if part.Kind == kind {
				f.part(part)
			}
		}
	}
	d := new(Drawing)
	d.Height = f.legend()
	d.Body = string(f.out)
	d.table(p)
	d.Words = p.words()
	return d
}

// measure leaves out what cannot be shown, and finds the ends of both axes.
func (f *field) measure() {
	x, y := &f.X, &f.Y
	x.low, x.high = math.MaxFloat64, -math.MaxFloat64
	y.low, y.high = x.low, x.high
	for _, part := range f.Parts {
		kept := part.Points[:0]
		for i := range part.Points {
			at := &part.Points[i]
			if !x.shows(at.X) || !y.shows(at.Y) {
				continue
			}
			kept = append(kept, *at)
			if !part.Free {
				x.take(at.X)
				y.take(at.Y)
				y.take(at.Low)
				y.take(at.High)
			}
		}
		part.Points = kept
	}
	y.from, y.to = bottom, top
	y.settle()
	x.lying = true
	x.from, x.to = 36, Width-38 // at least
	for i := range y.ticks {
		x.from = max(x.from, width(y.ticks[i].label)+edge+10)
	}
	x.settle()
	right := Width - 12 // as far as the numbers under the axis allow
	for i := range x.ticks {
		if t := &x.ticks[i]; t.label != "" {
			share := (x.place(t.at) - x.from) / (x.to - x.from)
			right = min(right, x.from+(Width-2-width(t.label)/2-x.from)/max(share, 0.01))
		}
	}
	x.to = right
}

// axes draws a line through the field for each number, a short one at the axis for each tick
// without, and the numbers.
func (f *field) axes() {
	numbers := canvas{}
	from, to := f.X.from, f.X.to
	f.path("grid")
	for _, a := range [2]*Axis{&f.Y, &f.X} {
		for i := range a.ticks {
			label, at := a.ticks[i].label, a.place(a.ticks[i].at)
			x, y, short, long := from, at, "h4", to
			if a.lying {
				x, y, short, long = at, bottom, "v-4", top
			}
			f.to("M", x, y)
			switch {
			case label == "":
				f.raw(short)
				continue
			case a.lying:
				f.raw("V")
				numbers.text("middle", x, bottom+18, label)
			default:
				f.raw("H")
				numbers.text("end", x-6, y+4.5, label)
			}
			f.px(long)
		}
	}
	f.end()
	f.path("")
	f.to("M", from, top)
	f.raw("V198H")
	f.px(to)
	f.end()
	f.text("", edge, top-15, f.Y.head())
	f.raw(string(numbers.out))
	f.text("middle", (from+to)/2, bottom+18+lead, f.X.head())
}

// head is what stands beside the axis, and above its column.
func (a *Axis) head() string {
	if a.Unit.Symbol == "" {
		return a.Label
	}
	return a.Label + ", " + a.Unit.Symbol
}

func (f *field) part(part *Part) {
	points := f.placed(part)
	if len(points) == 0 {
		return
	}
	marks := part.Kind >= Left
	if marks {
		f.bars(points)
	}
	f.path(classes[part.Kind])
	switch {
	case marks:
		f.marks(points)
	case part.Kind == Band:
		f.area(points)
	default:
		f.line(points)
	}
	f.end()
}

// most is how many points are drawn one by one; a step is what stands for the lot of more.
const most, step = 240, 2.0

// placed are the points in pixels. Of very many it keeps the lowest and the highest on each
// step of the way, so that no peak is lost.
func (f *field) placed(part *Part) []Point {
	list := make([]Point, len(part.Points))
	var ends [2][int(Width/step) + 1]int // by step, the places of the lowest and the highest in the list, from 1
	for i := range list {
		from, at := &part.Points[i], &list[i]
		at.X, at.Y, at.Low, at.High = f.X.of(from.X), f.Y.of(from.Y), f.Y.of(from.Low), f.Y.of(from.High)
		n := stepOf(at.X)
		for j := range ends {
			if k := ends[j][n]; k == 0 || (at.Y < list[k-1].Y) == (j == 1) {
				ends[j][n] = i + 1
			}
		}
	}
	if len(list) <= most {
		return list
	}
	kept := list[:0]
	for i := range list {
		n := stepOf(list[i].X)
		if ends[0][n] == i+1 || ends[1][n] == i+1 {
			kept = append(kept, list[i])
		}
	}
	return kept
}

func stepOf(x float64) int { return int(max(0, min(Width, x)) / step) }

// bars draws how far each reading may be off; one that hides behind its square is left out.
func (f *field) bars(points []Point) {
	before := len(f.out)
	f.path("")
	none := len(f.out)
	for i := range points {
		at := &points[i]
		if low, high := clamp(at.Low), clamp(at.High); low-high > 7 && f.holds(at.X) {
			f.to("M", at.X-3, low)
			f.raw("h6m-3 0V")
			f.px(high)
			f.raw("m-3 0h6")
		}
	}
	if len(f.out) == none {
		f.out = f.out[:before]
		return
	}
	f.end()
}

// marks draws readings; one beyond the end of the axis is an arrow at it.
func (f *field) marks(points []Point) {
	for i := range points {
		x, y := points[i].X, points[i].Y
		switch {
		case !f.holds(x):
		case y < top-0.1:
			f.to("M", x-4, top+8)
			f.raw("l4-7l4 7z")
		case y > bottom+0.1:
			f.to("M", x-4, bottom-8)
			f.raw("l4 7l4-7z")
		default:
			f.square(x, y)
		}
	}
}

func (f *field) square(x, y float64) {
	f.to("M", x-2.5, y-2.5)
	f.raw("h5v5h-5z")
}

func (f *field) holds(x float64) bool { return x > f.X.from-0.1 && x < f.X.to+0.1 }

func clamp(y float64) float64 { return max(top, min(bottom, y)) }

// area fills what lies between the two ends of a band: there along the upper one, back along the
// lower, and along the wall of the field where an end lies beyond it.
func (f *field) area(points []Point) {
	n, command := len(points), "M"
	var lastX, lastY float64
	for i := range 2 * n {
		at := &points[min(i, 2*n-1-i)]
		if !f.holds(at.X) {
			continue
		}
		y, near, far := at.High, top, bottom
		if i >= n {
			y = at.Low
		}
		if y < lastY {
			near, far = far, near
		}
		for _, wall := range [2]float64{near, far} {
			if command == "L" && at.X != lastX && (wall-lastY)*(wall-y) < 0 {
				f.to("L", lastX+(at.X-lastX)*(wall-lastY)/(y-lastY), wall)
			}
		}
		f.to(command, at.X, clamp(y))
		command, lastX, lastY = "L", at.X, y
	}
}

// line joins the points by straight pieces, cut at the field.
func (f *field) line(points []Point) {
	drawn := false
	for i := 1; i < len(points); i++ {
		a, b := &points[i-1], &points[i]
		dx, dy := b.X-a.X, b.Y-a.Y
		start, end := cut(0, 1, f.X.from-a.X, f.X.to-a.X, dx)
		start, end = cut(start, end, top-a.Y, bottom-a.Y, dy)
		if start < end {
			if !drawn || start > 0 {
				f.to("M", a.X+start*dx, a.Y+start*dy)
			}
			f.to("L", a.X+end*dx, a.Y+end*dy)
		}
		drawn = start < end && end == 1
	}
}

// cut keeps the share of a piece that lies between two walls (Liang and Barsky, ACM Trans.
// Graphics 3 (1984) 1; from memory). A tenth of a pixel outside is inside.
func cut(start, end, low, high, way float64) (float64, float64) {
	const slack = 0.1
	low, high = low-slack, high+slack
	switch {
	case way == 0 && (low > 0 || high < 0):
		return 1, 0
	case way == 0:
		return start, end
	case way < 0:
		low, high = high, low
	}
	return max(start, low/way), min(end, high/way)
}

// legend names the parts below the axis, and gives the height of the whole.
func (f *field) legend() float64 {
	x, y := edge, bottom+20+2*lead+6
	for _, part := range f.Parts {
		if part.Name == "" || len(part.Points) == 0 {
			continue
		}
		name := part.Name
		if part.Kind >= Left && len(part.Points) > most {
			name += ", highs and lows"
		}
		need := swatch + 18 + width(name)
		if x > edge && x+need > Width+8 {
			x, y = edge, y+lead
		}
		f.path(classes[part.Kind])
		switch part.Kind {
		case Left, Readings:
			f.square(x+swatch/2, y-4.5)
		case Band:
			f.to("M", x, y-9)
			f.raw("h24v9h-24z")
		default:
			f.to("M", x, y-4.5)
			f.raw("h24")
		}
		f.end()
		f.text("", x+swatch+6, y, name)
		x += need
	}
	return y + 8
}

// words tells what the plot shows to those who cannot see it.
func (p *Plot) words() string {
	c := canvas{}
	c.raw(p.Title)
	for _, part := range p.Parts {
		n := len(part.Points)
		if part.Name == "" || n == 0 || part.Kind == Band { // how wide a band is, the results say
			continue
		}
		c.raw("; " + part.Name + ": ")
		first, last := &part.Points[0], &part.Points[n-1]
		if part.Kind >= Left {
			c.raw(number(float64(n)) + ", ")
		}
		if n > 1 {
			c.raw(p.place(first) + " to ")
		}
		c.raw(p.place(last))
		if part.Kind < Left {
			continue
		}
		for i := range part.Points {
			at := &part.Points[i]
			if at.Y < first.Y {
				first = at
			}
			if at.Y > last.Y {
				last = at
			}
		}
		if first != &part.Points[0] || last != &part.Points[n-1] {
			c.raw(", lowest " + p.place(first) + ", highest " + p.place(last))
		}
	}
	return string(c.out)
}

func (p *Plot) place(at *Point) string { return p.Y.show(at.Y) + " at " + p.X.show(at.X) }

// longest is about how many readings of a part the table has.
const longest = 60

// table sets the readings in columns, each with the curve beside it. Of very many it takes
// one of so many.
func (d *Drawing) table(p *Plot) {
	d.Head = []string{p.X.head(), p.Y.head(), "on the curve"}
	if p.On == nil {
		d.Head = d.Head[:2]
	}
	d.Every = 1
	for _, part := range p.Parts {
		if part.Kind >= Left {
			d.Every = max(d.Every, len(part.Points)/longest+1)
		}
	}
	for _, part := range p.Parts {
		for i := 0; part.Kind >= Left && i < len(part.Points); i += d.Every {
			at := &part.Points[i]
			row := make([]string, len(d.Head))
			row[0], row[1] = p.X.bare(at.X), p.Y.bare(at.Y)
			if p.On != nil {
				row[2] = p.Y.bare(p.On(at.X))
			}
			d.Rows = append(d.Rows, row)
		}
	}
}

// bare is an SI value without its unit.
func (a *Axis) bare(si float64) string { return quantity.Number(si, -1, a.Unit, 4) }
