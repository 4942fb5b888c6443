// Package picture draws what a technician would sketch on a scrap of paper: the pins of a sensor tube, the way of the gas
// from chamber to pump, the profile of a pipe thread, the shapes of a pressure rise. Every line follows from data, so a
// picture cannot say anything else than the card.
//
// It is pure: data in, SVG out. It knows no page, machine or file.
//
//	drawing, err := picture.Pins(picture.Base{Name: "TQ-4", Positions: 8, Pins: []picture.Pin{{Number: 1, Role: "heater"}, …}})
//	html := drawing.SVG("Pins of the TQ-4", "heater on 1 and 4, couple on 6 and 7")
//
// Colours are left to the style sheet, through the classes of canvas.go. What a colour says, a pattern and a word say too.
package picture

import (
	"html"
	"math"
	"strings"

	"blankoff/calc/quantity"
)

// Drawing is a finished picture without its text for those who cannot see it.
type Drawing struct {
	Title string   // what it is: "Pins of the TQ-4, seen from the pin side"
	Words string   // its content, for those who cannot see it
	Tells []string // words and numbers that any text beside it must hold, in small letters
	Scale Scale

	class         string // of the SVG, beside drawn; may be empty
	width, height float64
	body          string
	texts         []box // where letters stand
}

// Scale is what a picture has whose numbers may be shown in another unit.
type Scale struct {
	Key  string                          // of a ladder, whose numbers alone are drawn anew, see ladder.Numbers; empty where all of it is
	Kind quantity.Kind                   // what is numbered
	In   func(unit quantity.Unit) string // the inside of the group, or of the picture without its words; nil where there is no scale
}

// Frame is a picture whose inside was drawn elsewhere.
type Frame struct {
	Title, Words  string
	Tells         []string
	Class         string
	Width, Height float64
	Body          string // SVG that is well formed and holds no style
	Scale         Scale
}

// Framed makes a drawing of it.
func Framed(f Frame) *Drawing {
	return &Drawing{Title: f.Title, Words: f.Words, Tells: f.Tells, Scale: f.Scale, class: f.Class, width: f.Width, height: f.Height, body: f.Body}
}

// SVG gives the picture with its text. It holds no style, no id and no reference, so any number fit on a page.
func (d *Drawing) SVG(title, words string) string {
	return `<svg class="` + strings.TrimSpace("drawn "+d.class) + `" viewBox="0 0 ` + px(d.width) + " " + px(d.height) + `" width="` + px(d.width) + `" height="` + px(d.height) + `" font-size="` + px(size) + `" role="img">` + inWords(title, words) + d.body + `</svg>`
}

// Inside gives what stands in the picture when its scale is in another unit.
func (d *Drawing) Inside(title, words string, unit quantity.Unit) string {
	if d.Scale.Key != "" {
		return d.Scale.In(unit)
	}
	return inWords(title, words) + d.Scale.In(unit)
}

func inWords(title, words string) string {
	text := `<title>` + html.EscapeString(title) + `</title>`
	if words != "" {
		text += `<desc>` + html.EscapeString(words) + `</desc>`
	}
	return text
}

// Size is the picture's width and height, in whole px as HTML wants them.
func (d *Drawing) Size() (width, height int) {
	return int(math.Round(d.width)), int(math.Round(d.height))
}

// Untold lists what a text beside the picture leaves out. Numbers and short words count as whole words only.
func (d *Drawing) Untold(text string) []string {
	said := strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return !strings.ContainsRune("0123456789abcdefghijklmnopqrstuvwxyz.", r) })
	var missing []string
	for _, want := range d.Tells {
		found := false
		for _, word := range said {
			word = strings.TrimRight(word, ".")
			found = found || word == want || len(want) > 3 && strings.HasPrefix(word, want)
		}
		if !found {
			missing = append(missing, want)
		}
	}
	return missing
}
