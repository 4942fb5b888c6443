package plot

import "math"

// canvas gathers SVG.
type canvas struct{ out []byte }

func (c *canvas) raw(text string) { c.out = append(c.out, text...) }

// px writes a number of pixels to a tenth. Halves go up, with a hair of room: a native build
// and WebAssembly differ in last bits.
func (c *canvas) px(x float64) {
	tenths := int(math.Floor(x*10 + 0.5 + 1e-6))
	if tenths < 0 {
		c.raw("-")
		tenths = -tenths
	}
	c.whole(tenths / 10)
	if rest := tenths % 10; rest > 0 {
		c.out = append(c.out, '.', byte('0'+rest))
	}
}

func (c *canvas) whole(n int) {
	if n >= 10 {
		c.whole(n / 10)
	}
	c.out = append(c.out, byte('0'+n%10))
}

// at writes a place.
func (c *canvas) at(x, y float64) {
	c.px(x)
	c.raw(" ")
	c.px(y)
}

// to continues a path: a command and a place.
func (c *canvas) to(command string, x, y float64) {
	c.raw(command)
	c.at(x, y)
}

// path opens a path; end closes it.
func (c *canvas) path(class string) {
	c.raw("<path")
	if class != "" {
		c.raw(` class="` + class + `"`)
	}
	c.raw(` d="`)
}

func (c *canvas) end() { c.raw(`"/>`) }

func (c *canvas) text(x, y float64, text string) {
	c.raw(`<text x="`)
	c.px(x)
	c.raw(`" y="`)
	c.px(y)
	c.raw(`">`)
	c.escaped(text)
	c.raw("</text>")
}

// escaped writes a text as XML has it. Names come from whoever runs a shop.
func (c *canvas) escaped(text string) {
	for i := 0; i < len(text); i++ {
		switch b := text[i]; {
		case b == '&':
			c.raw("&amp;")
		case b == '<':
			c.raw("&lt;")
		case b == '>':
			c.raw("&gt;")
		case b == '"':
			c.raw("&#34;")
		case b < ' ':
			c.raw(" ") // no control character may stand in XML
		default:
			c.out = append(c.out, b)
		}
	}
}

// width is the room of a text.
func width(text string) float64 { return letter * float64(count(text)) }

// count counts characters, not bytes.
func count(text string) (n int) {
	for range text {
		n++
	}
	return n
}

// shorten cuts a text to a number of characters.
func shorten(text string, most int) string {
	if count(text) <= most {
		return text
	}
	n := 0
	for i := range text {
		if n++; n == most {
			return text[:i] + "…"
		}
	}
	return text
}
