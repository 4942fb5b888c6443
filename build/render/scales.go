package render

import (
	"encoding/json"
	"html/template"
	"strings"

	"blankoff/build/edition"
	"blankoff/build/ladder"
	"blankoff/build/picture"
	"blankoff/calc/quantity"
)

// scales are the file of what stands in pictures with a scale, by the picture and by the choice of units: what a reader's page shows
// in place of what was published (scales.ts). Nobody needs it who has chosen no units.
type scales map[string]map[string]string

// inUnits keeps a picture's inside for every choice that there is for what it is numbered in.
func (b *book) inUnits(key string, kind quantity.Kind, inside func(unit quantity.Unit) string) {
	if b.assets.Choices == nil {
		return
	}
	if _, done := b.scales.Load(key); done {
		return
	}
	drawn := map[string]string{}
	for choice, unit := range b.assets.Choices(kind) {
		drawn[choice] = inside(unit)
	}
	b.scales.Store(key, drawn)
}

// scaleFile is made when all pages are.
func (b *book) scaleFile() (File, error) {
	all := scales{}
	b.scales.Range(func(key, drawn any) bool {
		all[key.(string)] = drawn.(map[string]string)
		return true
	})
	content, err := json.Marshal(all)
	return File{Path: ScalesName + "." + edition.Short(content) + ".txt", Bytes: content}, err
}

// ScalesName begins the name of the file of scales. What ends it follows from the pages, so they have a place for the whole name.
const ScalesName = "scales"

func (b *book) ladderInUnits(drawing ladder.Drawing) {
	for _, numbers := range []ladder.Numbers{drawing.TallNumbers, drawing.StripNumbers} {
		b.inUnits(numbers.Key, quantity.Pressure, numbers.In)
	}
}

// scaled gives the SVG of a picture the key by which its scale is found, if it has one. A ladder is known by its axis.
func (b *book) scaled(svg, name string, scale picture.Scale, inside func(unit quantity.Unit) string) string {
	if scale.In == nil {
		return svg
	}
	if scale.Key != "" {
		b.inUnits(scale.Key, scale.Kind, inside)
		return svg
	}
	b.inUnits(name, scale.Kind, inside)
	return strings.Replace(svg, ">", ` data-scale="`+template.HTMLEscapeString(name)+`">`, 1)
}
