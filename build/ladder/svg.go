package ladder

import (
	"html"
	"math"
	"strconv"
	"strings"

	"blankoff/calc/quantity"
)

// canvas gathers the elements of one SVG text. Attributes only: the pages' policy allows no style in them.
type canvas struct {
	strings.Builder
	size float64 // of most texts
}

// put writes a format in which each %v stands for the next value: a number in pixels, or a text.
func (c *canvas) put(format string, values ...any) {
	for _, value := range values {
		before, after, _ := strings.Cut(format, "%v")
		c.WriteString(before)
		switch value := value.(type) {
		case float64:
			c.WriteString(px(value))
		case string:
			c.WriteString(html.EscapeString(value))
		}
		format = after
	}
	c.WriteString(format)
}

// text writes lines that share their middle height. What the drawing says of itself is not said again: these texts are
// a good part of what a phone waits for.
func (c *canvas) text(class, anchor string, size, x, y float64, lines []string) {
	c.put(`<text class="%v"`, class)
	if size != c.size {
		c.put(` font-size="%v"`, size)
	}
	if anchor != "start" {
		c.put(` text-anchor="%v"`, anchor)
	}
	// Letters need no tenths of a pixel, and digits are what a page can least compress.
	x, first := math.Round(x), math.Round(y+size*0.35-size*lead*float64(len(lines)-1)/2)
	if len(lines) == 1 {
		c.put(` x="%v" y="%v">%v</text>`, x, first, lines[0])
		return
	}
	c.WriteByte('>')
	for i, line := range lines {
		c.put(`<tspan x="%v" y="%v">%v</tspan>`, x, math.Round(first+size*lead*float64(i)), line)
	}
	c.WriteString(`</text>`)
}

// lead is the distance of two lines of a label, in font sizes.
const lead = 1.2

// px keeps a tenth of a pixel, so that the same ladder gives the same bytes everywhere.
func px(value float64) string {
	text := strconv.FormatFloat(value, 'f', 1, 64)
	text = strings.TrimSuffix(text, ".0")
	if text == "-0" {
		return "0"
	}
	return text
}

// open starts a drawing.
func (c *canvas) open(class string, width, height float64, l Ladder) {
	c.Grow(4 << 10) // what most drawings take
	c.put(`<svg class="%v" viewBox="0 0 %v %v" width="%v" height="%v" font-size="%v" role="img" aria-label="%v">`, class, width, height, width, height, c.size, l.spoken)
}

// scale draws what depends on the unit, as a group that a script may fill anew.
func (c *canvas) scale(s Scale, from, to float64, draw func(c *canvas, s Scale)) Numbers {
	in := func(unit quantity.Unit) string {
		numbered := s
		numbered.Unit = unit
		var inside canvas
		draw(&inside, numbered)
		return inside.String()
	}
	c.WriteString(`<g class="scale">` + in(s.Unit) + `</g>`)
	return Numbers{Key: strings.Join([]string{pa(s.TopPa), pa(s.BottomPa), px(from), px(to)}, " "), In: in}
}

func pa(pressure float64) string { return strconv.FormatFloat(pressure, 'g', 8, 64) }

// axis draws the axis. Scripts that move the cursor, or set other numbers beside it, read the scale from it: pressures in Pa,
// and from where to where it goes.
func (c *canvas) axis(s Scale, from, to float64, path string) {
	c.put(`<path class="axis" data-top="%v" data-bottom="%v" data-from="%v" data-to="%v" d="%v"/>`, pa(s.TopPa), pa(s.BottomPa), from, to, path)
}
