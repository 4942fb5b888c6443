package bundle

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"math"
	"strings"
)

// The sign of the site on a phone's screen and in a browser's tab: a pressure ladder with its decades, on the ground of a pump,
// and the mark at a pressure. It is drawn for this project on a grid of 512, as data, so that the SVG and the pictures in pixels
// are the same drawing. All of it lies within the circle, four fifths of the width across, that no phone cuts off: so the
// W3C's Web App Manifest describes the safe zone of a maskable icon.
const signGrid = 512

type bar struct{ x, y, width, height float64 }

// signBars are the rule, its three decades with the lines of 2, 3 and 5 between them, and the ground.
var signBars = func() []bar {
	bars := []bar{{216, 112, 9, 288}, {144, 386, 224, 24}}
	for i := range 3 {
		top := 112 + 96*float64(i)
		bars = append(bars, bar{160, top, 60, 9})
		for _, times := range []float64{2, 3, 5} {
			bars = append(bars, bar{192, top + 96*(1-math.Log10(times)), 28, 7})
		}
	}
	return bars
}()

// signMark points at the rule from the right.
var signMark = [3][2]float64{{232, 304}, {310, 256}, {310, 352}}

const (
	signGround = "#16242C"
	signLine   = "#FAF8F3"
	signBrass  = "#E0B85A"
)

func signSVG() []byte {
	var d strings.Builder
	for _, b := range signBars {
		fmt.Fprintf(&d, "M%.4g %.4gh%.4gv%.4gh-%.4gz", b.x, b.y, b.width, b.height, b.width)
	}
	m := signMark
	return fmt.Appendf(nil, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %d %d"><path fill="%s" d="M0 0h512v512H0z"/><path fill="%s" d="%s"/><path fill="%s" d="M%g %gL%g %gV%gz"/></svg>`,
		signGrid, signGrid, signGround, signLine, d.String(), signBrass, m[0][0], m[0][1], m[1][0], m[1][1], m[2][1])
}

// signSteps is how finely an edge is drawn: shares of a pixel that are told apart, along and across.
const signSteps = 8

// signPNG draws the sign with so many pixels to a side. Edges are shades between two colours, of which there are few, so the
// picture has a palette and stays small.
func signPNG(side int) ([]byte, error) {
	ground, line, brass := rgb(signGround), rgb(signLine), rgb(signBrass)
	palette := color.Palette{}
	for _, front := range []color.RGBA{line, brass} {
		for i := range signShades + 1 {
			palette = append(palette, between(ground, front, float64(i)/signShades))
		}
	}
	picture := image.NewPaletted(image.Rect(0, 0, side, side), palette)
	for y := range side {
		for x := range side {
			onLine, onMark := covered(x, y, float64(signGrid)/float64(side))
			shade := uint8(math.Round(onLine * signShades))
			if onMark > 0 {
				shade = signShades + 1 + uint8(math.Round(onMark*signShades))
			}
			picture.SetColorIndex(x, y, shade)
		}
	}
	var out bytes.Buffer
	encoder := png.Encoder{CompressionLevel: png.BestCompression}
	err := encoder.Encode(&out, picture)
	return out.Bytes(), err
}

const signShades = 15

// covered tells how much of a pixel the lines take, and the mark; unit is its width on the grid.
func covered(x, y int, unit float64) (line, mark float64) {
	left, top := float64(x)*unit, float64(y)*unit
	for _, b := range signBars {
		line += shared(left, unit, b.x, b.width) * shared(top, unit, b.y, b.height)
	}
	line = min(line, 1) // where two cross
	tip, right := signMark[0], signMark[1]
	if shared(left, unit, tip[0], right[0]-tip[0]) == 0 || shared(top, unit, right[1], 2*(tip[1]-right[1])) == 0 {
		return line, 0
	}
	const share = 1.0 / (signSteps * signSteps)
	for i := range signSteps {
		for j := range signSteps {
			at := func(from float64, step int) float64 { return from + (float64(step)+.5)/signSteps*unit }
			px, py := at(left, i), at(top, j)
			if px >= tip[0] && px < right[0] && math.Abs(py-tip[1]) < (px-tip[0])*48/78 {
				mark += share
			}
		}
	}
	return line, mark
}

// shared is the share of a stretch that another one covers.
func shared(from, length, other, size float64) float64 {
	return max(0, min(from+length, other+size)-max(from, other)) / length
}

func between(a, b color.RGBA, share float64) color.RGBA {
	mix := func(a, b uint8) uint8 { return uint8(math.Round(float64(a) + (float64(b)-float64(a))*share)) }
	return color.RGBA{mix(a.R, b.R), mix(a.G, b.G), mix(a.B, b.B), 255}
}

func rgb(hex string) (c color.RGBA) {
	c.A = 255
	_, _ = fmt.Sscanf(hex, "#%02X%02X%02X", &c.R, &c.G, &c.B) // the three above
	return c
}
