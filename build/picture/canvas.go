package picture

import (
	"html"
	"math"
	"strconv"
	"strings"
	"unicode/utf8"
)

// Measures in pixels of the picture's own size. A phone of 360 px gives a picture 336 px, so letters are never set smaller.
const (
	wide   = 330.0
	size   = 13.0
	lead   = 17.0
	letter = 0.6 // room of a character, in sizes; system fonts differ, this is a wide one
)

// Classes of the style sheet. Lines without a class are plain ones.
const (
	bold   = "bold"   // what the picture is about
	dim    = "dim"    // helping lines, what is not there
	grid   = "grid"   // of a scale
	dashed = "dashed" // limits, what is thought and not seen
	solid  = "solid"  // filled with ink
	face   = "face"   // a filled face behind lines
	hand   = "hand"   // what a hand closes or measures at
)

// box is the room of a line of letters.
type box struct {
	left, top, right, bottom float64
	text                     string
}

type canvas struct {
	strings.Builder
	texts []box
}

// path writes a line; d is SVG path data made by the functions below.
func (c *canvas) path(class, d string) {
	c.WriteString("<path")
	if class != "" {
		c.WriteString(` class="` + class + `"`)
	}
	c.WriteString(` d="` + d + `"/>`)
}

func (c *canvas) circle(class string, x, y, r float64) {
	c.WriteString("<circle")
	if class != "" {
		c.WriteString(` class="` + class + `"`)
	}
	c.WriteString(` cx="` + px(x) + `" cy="` + px(y) + `" r="` + px(r) + `"/>`)
}

// anchors of a text.
const (
	start  = "start"
	middle = "middle"
	end    = "end"
)

// text writes lines whose first stands on the height y.
func (c *canvas) text(class, anchor string, x, y float64, lines ...string) {
	for i, line := range lines {
		c.WriteString("<text")
		if class != "" {
			c.WriteString(` class="` + class + `"`)
		}
		if anchor != start {
			c.WriteString(` text-anchor="` + anchor + `"`)
		}
		at := y + lead*float64(i)
		c.WriteString(` x="` + px(x) + `" y="` + px(at) + `">` + html.EscapeString(line) + "</text>")
		c.texts = append(c.texts, room(anchor, x, at, line))
	}
}

func room(anchor string, x, y float64, line string) box {
	w := textWidth(line)
	b := box{left: x, text: line, top: y - size*0.8, bottom: y + size*0.25}
	switch anchor {
	case middle:
		b.left -= w / 2
	case end:
		b.left -= w
	}
	b.right = b.left + w
	return b
}

func textWidth(line string) float64 {
	return float64(utf8.RuneCountInString(line)) * size * letter
}

// shorten cuts a text that does not fit in a width: the shop may write anything into a value.
func shorten(text string, width float64) string {
	runes := []rune(text)
	most := int(width / (size * letter))
	if len(runes) <= most {
		return text
	}
	return strings.TrimRight(string(runes[:max(most-1, 1)]), " ,;") + "…"
}

// done closes the canvas.
func (c *canvas) done(d *Drawing, height float64) *Drawing {
	d.width, d.height, d.body, d.texts = wide, height, c.String(), c.texts
	return d
}

// px keeps a tenth of a pixel, so that the same picture gives the same bytes everywhere.
func px(value float64) string {
	text := strings.TrimSuffix(strconv.FormatFloat(value, 'f', 1, 64), ".0")
	if text == "-0" {
		return "0"
	}
	return text
}

// m and l are the points of a path.
func m(x, y float64) string { return "M" + px(x) + " " + px(y) }
func l(x, y float64) string { return "L" + px(x) + " " + px(y) }

// polar is a point around a middle; angles run clockwise from above, in degrees.
func polar(x, y, r, degrees float64) (float64, float64) {
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	return x + r*sin, y - r*cos
}
