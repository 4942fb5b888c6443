package plot

import "math"

// canvas gathers SVG, or words.
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
		c.raw(".")
		c.whole(rest)
	}
}

func (c *canvas) whole(n int) {
	if n >= 10 {
		c.whole(n / 10)
	}
	c.raw("0123456789"[n%10 : n%10+1])
}

// to continues a path: a command and a place.
func (c *canvas) to(command string, x, y float64) {
	c.raw(command)
	c.px(x)
	c.raw(" ")
	c.px(y)
}

// path opens a path of a class; end closes it.
func (c *canvas) path(class string) {
	c.raw("<path")
	if class != "" {
		c.raw(` class="` + class + `"`)
	}
	c.raw(` d="`)
}

func (c *canvas) end() { c.raw(`"/>`) }

func (c *canvas) text(anchor string, x, y float64, text string) {
	c.raw("<text")
	if anchor != "" {
		c.raw(` text-anchor="` + anchor + `"`)
	}
	c.raw(` x="`)
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
		piece := text[i : i+1]
		switch b := text[i]; {
		case b == '&':
			piece = "&amp;"
		case b == '<':
			piece = "&lt;"
		case b == '>':
			piece = "&gt;"
		case b == '"':
			piece = "&#34;"
		case b < ' ':
			piece = " " // no control character may stand in XML
		}
		c.raw(piece)
	}
}

// width is the room of a text.
func width(text string) float64 {
	n := 0.0
	for range text {
		n++
	}
	return letter * n
}
