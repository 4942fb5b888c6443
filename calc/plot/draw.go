package plot

import "math"

// The field of the curves; its left and right ends make room for the numbers.
const (
	top, bottom = 30.0, 198.0
	edge        = 4.0  // left of everything
	swatch      = 24.0 // of the legend
)

// Draw draws the plot. What is no finite number, or has no logarithm on an axis that wants
// one, is left out.
func (p *Plot) Draw() Drawing {
	f := field{plot: p}
	f.y = scale{from: bottom, to: top, unit: p.Y.Unit, log: p.Y.Log}
	f.fit(&f.y, &p.Y, false)
	room := 0.0
	for _, t := range f.y.ticks {
		room = max(room, width(t.label))
	}
	f.x = scale{from: room + edge + 10, to: wide - 12, unit: p.X.Unit, log: p.X.Log}
	for range 2 { // the last number stands under the right end, so the end follows from it
		f.fit(&f.x, &p.X, true)
		last := f.x.ticks[len(f.x.ticks)-1].label
		f.x.to = min(f.x.to, wide-2-width(last)/2)
	}
	f.axes()
	for kind := Band; kind < kinds; kind++ {
		for i := range p.Parts {
			if part := &p.Parts[i]; part.Kind == kind {
				f.part(part)
			}
		}
	}
	height := f.legend()
	return Drawing{wide, height, string(f.out), p.words()}
}

// field is a plot being drawn.
type field struct {
	canvas
	plot *Plot
	x, y scale
}

// fit finds the ends of an axis and its lines.
func (f *field) fit(s *scale, a *Axis, lying bool) {
	low, high := math.Inf(1), math.Inf(-1)
	take := func(si float64) {
		if a.shows(si) {
			low, high = min(low, a.Unit.From(si)), max(high, a.Unit.From(si))
		}
	}
	for i := range f.plot.Parts {
		part := &f.plot.Parts[i]
		for j := range part.Points {
			at := &part.Points[j]
			switch {
			case part.Free || !f.plot.X.shows(at.X) || !f.plot.Y.shows(at.Y):
			case lying:
				take(at.X)
			default:
				take(at.Y)
				take(at.Low)
				take(at.High)
			}
		}
	}
	if a.Most != 0 {
		high = min(high, a.Unit.From(a.Most))
	}
	if a.Least != 0 {
		low = max(low, a.Unit.From(a.Least))
	}
	low, high = settle(low, high, a.Log)
	s.ticks = nil
	if a.Log {
		s.logarithmic(low, high, lying)
	} else {
		s.straight(low, high, lying)
	}
}

func (f *field) axes() {
	f.path("grid")
	for _, t := range f.y.ticks {
		if t.label != "" {
			f.to("M", f.x.from, f.y.place(t.at))
			f.raw("H")
			f.px(f.x.to)
		}
	}
	f.end()
	f.path("")
	f.to("M", f.x.from, top)
	f.raw("V")
	f.px(bottom)
	f.raw("H")
	f.px(f.x.to)
	for _, t := range f.y.ticks {
		if t.label == "" {
			f.to("M", f.x.from, f.y.place(t.at))
			f.raw("h4")
		}
	}
	for _, t := range f.x.ticks {
		f.to("M", f.x.place(t.at), bottom)
		if t.label == "" {
			f.raw("v3")
		} else {
			f.raw("v6")
		}
	}
	f.end()
	f.text(edge, top-15, f.plot.Y.inWords())
	f.raw(`<g text-anchor="end">`)
	for _, t := range f.y.ticks {
		if t.label != "" {
			f.text(f.x.from-6, f.y.place(t.at)+4.5, t.label)
		}
	}
	f.raw(`</g><g text-anchor="middle">`)
	for _, t := range f.x.ticks {
		if t.label != "" {
			f.text(f.x.place(t.at), bottom+20, t.label)
		}
	}
	f.text((f.x.from+f.x.to)/2, bottom+20+lead, f.plot.X.inWords())
	f.raw("</g>")
}

// inWords is what stands beside the axis.
func (a *Axis) inWords() string {
	if a.Unit.Symbol == "" {
		return a.Label
	}
	return a.Label + ", " + a.Unit.Symbol
}

func (f *field) part(part *Part) {
	points := f.placed(part)
	switch part.Kind {
	case Left, Readings:
		f.marks(points, part.Kind)
	case Band:
		f.area(points)
	default:
		f.path(classes[part.Kind])
		f.line(points)
		f.end()
	}
}

// classes of the style sheet, by kind.
var classes = [kinds]string{"band", "dashed", "dots", "dim", "bold", "", "solid"}

// spot is a point in pixels.
type spot struct{ x, y, low, high float64 }

// placed are the points that can be shown, thinned.
func (f *field) placed(part *Part) []spot {
	list := make([]spot, 0, len(part.Points))
	for i := range part.Points {
		at := &part.Points[i]
		if !f.plot.X.shows(at.X) || !f.plot.Y.shows(at.Y) {
			continue
		}
		s := spot{f.x.of(at.X), f.y.of(at.Y), bottom, top}
		if f.plot.Y.shows(at.Low) {
			s.low = f.y.of(at.Low)
		}
		if f.plot.Y.shows(at.High) {
			s.high = f.y.of(at.High)
		}
		list = append(list, s)
	}
	return thinned(list)
}

// most is how many points are drawn one by one; a step is what stands for the lot of more.
const most, step = 240, 2.0

// thinned keeps of many points the lowest and the highest on each step of the way, so that
// no peak is lost.
func thinned(list []spot) []spot {
	if len(list) <= most {
		return list
	}
	var low, high [int(wide/step) + 2]int // of each step, the places in the list from 1
	for i := range list {
		at := int(max(0, min(wide, list[i].x)) / step)
		if n := low[at]; n == 0 || list[i].y > list[n-1].y {
			low[at] = i + 1
		}
		if n := high[at]; n == 0 || list[i].y < list[n-1].y {
			high[at] = i + 1
		}
	}
	kept := list[:0]
	for i, s := range list {
		if at := int(max(0, min(wide, s.x)) / step); low[at] == i+1 || high[at] == i+1 {
			kept = append(kept, s)
		}
	}
	return kept
}

// marks draws readings; one beyond the end of the axis is an arrow at it.
func (f *field) marks(points []spot, kind Kind) {
	bars := false
	for i := range points {
		low, high := clamp(points[i].low), clamp(points[i].high)
		if kind != Readings || low-high < 7 || !f.within(points[i].x) { // a shorter one hides behind its square
			continue
		}
		if !bars {
			f.path("")
			bars = true
		}
		f.to("M", points[i].x-3, low)
		f.raw("h6m-3 0V")
		f.px(high)
		f.raw("m-3 0h6")
	}
	if bars {
		f.end()
	}
	f.path(classes[kind])
	for i := range points {
		at := &points[i]
		switch {
		case !f.within(at.x):
		case at.y < top-0.1:
			f.to("M", at.x-4, top+8)
			f.raw("l4-7l4 7z")
		case at.y > bottom+0.1:
			f.to("M", at.x-4, bottom-8)
			f.raw("l4 7l4-7z")
		default:
			f.square(at.x, at.y)
		}
	}
	f.end()
}

func (f *field) square(x, y float64) {
	f.to("M", x-2.5, y-2.5)
	f.raw("h5v5h-5z")
}

func (f *field) within(x float64) bool { return x > f.x.from-0.1 && x < f.x.to+0.1 }

func clamp(y float64) float64 { return max(top, min(bottom, y)) }

// area fills what lies between the two ends of a band, cut at the field.
func (f *field) area(points []spot) {
	f.path("band")
	command := "M"
	for i := range points {
		if f.within(points[i].x) {
			f.to(command, points[i].x, clamp(points[i].high))
			command = "L"
		}
	}
	for i := len(points) - 1; i >= 0; i-- {
		if f.within(points[i].x) {
			f.to(command, points[i].x, clamp(points[i].low))
		}
	}
	if command == "L" {
		f.raw("z")
	}
	f.end()
}

// line joins the points by straight pieces, cut at the field.
func (f *field) line(points []spot) {
	drawn := false
	for i := 1; i < len(points); i++ {
		a, b := &points[i-1], &points[i]
		x, y := a.x, a.y
		dx, dy := b.x-x, b.y-y
		start, end := 0.0, 1.0
		ok := cut(f.x.from-x, f.x.to-x, dx, &start, &end) && cut(top-y, bottom-y, dy, &start, &end)
		if !ok {
			drawn = false
			continue
		}
		if !drawn || start > 0 {
			f.to("M", x+start*dx, y+start*dy)
		}
		f.to("L", x+end*dx, y+end*dy)
		drawn = end == 1
	}
}

// cut keeps the share of a piece that lies between two walls (Liang and Barsky, ACM Trans.
// Graphics 3 (1984) 1; from memory). A tenth of a pixel outside is inside.
func cut(low, high, way float64, start, end *float64) bool {
	const slack = 0.1
	low, high = low-slack, high+slack
	if way == 0 {
		return low <= 0 && high >= 0
	}
	a, b := low/way, high/way
	if a > b {
		a, b = b, a
	}
	*start, *end = max(*start, a), min(*end, b)
	return *start < *end
}

// legend names the parts below the axis, and gives the height of the whole.
func (f *field) legend() float64 {
	x, y := edge, bottom+20+2*lead+6
	for i := range f.plot.Parts {
		part := &f.plot.Parts[i]
		if part.Name == "" {
			continue
		}
		name := part.Name
		if part.Kind >= Left && len(part.Points) > most {
			name += ", lowest and highest"
		}
		name = shorten(name, 36)
		need := swatch + 6 + width(name)
		if x > edge && x+need > wide-edge {
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
		f.text(x+swatch+6, y, name)
		x += need + 12
	}
	return y + 8
}
