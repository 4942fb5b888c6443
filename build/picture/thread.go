package picture

import (
	"math"
	"strconv"
	"strings"

	"blankoff/calc/fitting"
)

// Measures of a profile in the picture.
const (
	turn    = 62.0 // one pitch
	turns   = 4
	crestY  = 62.0 // of the first crest
	threadX = 36.0
)

// tooth is a thread of the list in pixels: its depth, the way of a flank along the axis, a flat, and what a taper rises in a turn.
type tooth struct{ depth, run, flat, rise float64 }

func toothOf(p fitting.Profile) tooth {
	t := tooth{depth: turn * p.Depth / p.Pitch}
	t.run = t.depth * math.Tan(p.Angle/2*math.Pi/180)
	t.flat = turn/2 - t.run
	if p.Tapered {
		t.rise = turn / 32 // 1 in 16 on the diameter, half of it on each side
	}
	return t
}

// Thread draws the profile of a pipe thread on a fitting, its end at the left, true in pitch, depth, angle and taper. Crests and
// roots are drawn flat, though those of 55° are round.
func Thread(p fitting.Profile) *Drawing {
	var c canvas
	t := toothOf(p)
	c.path(face, t.outline())
	c.path(bold, t.crests())
	c.pitchLine(t, strconv.FormatFloat(p.Pitch, 'f', 3, 64)+" mm, "+count(p.Count)+" in an inch")
	angle := count(p.Angle) + "°"
	c.text("", middle, threadX+t.flat+t.run+t.flat/2, crestY+t.depth*0.5, angle)
	diameter, shape := "diameter "+strconv.FormatFloat(p.Major, 'f', 2, 64)+" mm", "parallel: seals on its face"
	if p.Tapered {
		c.path(dashed, m(threadX, crestY)+"h"+px(turn*turns+t.flat))
		shape = "taper 1 : 16 on the diameter"
	}
	y := crestY + t.depth + 46
	c.text("", middle, wide/2, y, diameter+", flanks "+angle, shape)
	d := &Drawing{
		Title: "Thread " + p.Name,
		Words: count(p.Count) + " threads in an inch, crest to crest " + strconv.FormatFloat(p.Pitch, 'f', 3, 64) + " mm, " + diameter + ", flanks of " + angle + "; " + shape,
		Tells: []string{count(p.Count), count(p.Angle)},
	}
	return c.done(d, y+lead+8)
}

func count(n float64) string { return strconv.FormatFloat(n, 'g', 6, 64) }

// crests runs along the flanks from the thread's end.
func (t tooth) crests() string {
	var b strings.Builder
	b.WriteString(m(threadX, crestY))
	for i := range turns {
		x, y := threadX+turn*float64(i), crestY-t.rise*float64(i)
		root := y + t.depth - t.rise/2
		b.WriteString(l(x+t.flat, y) + l(x+t.flat+t.run, root) + l(x+2*t.flat+t.run, root) + l(x+turn, y-t.rise))
	}
	b.WriteString("h" + px(t.flat))
	return b.String()
}

// outline is the metal below them.
func (t tooth) outline() string {
	bottom := px(crestY + t.depth + 24)
	return t.crests() + "V" + bottom + "H" + px(threadX) + "z"
}

// pitchLine measures from the middle of a crest to that of the next.
func (c *canvas) pitchLine(t tooth, text string) {
	from, to, y := threadX+turn+t.flat/2, threadX+2*turn+t.flat/2, crestY-26
	c.path(dim, m(from, y-6)+"V"+px(crestY-t.rise-3)+m(to, y-6)+"V"+px(crestY-2*t.rise-3))
	c.path("", m(from+6, y-4)+l(from, y)+l(from+6, y+4)+m(from, y)+"H"+px(to)+m(to-6, y-4)+l(to, y)+l(to-6, y+4))
	c.text("", middle, (from+to)/2, y-14, text)
}
