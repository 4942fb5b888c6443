package render

import (
	"html/template"
	"strings"

	"blankoff/calc/declare"
	"blankoff/calc/quantity"
)

// fieldKey is what the HTML of an entry depends on, besides its block and the value in
// it: there are a few such fields for each declared input, and a guide has a dozen of
// them, so each is made once.
type fieldKey struct {
	calculator, input string
	chosen            string // unit or option
	known             bool
}

// What stands in a kept field for its block and its value. No declaration holds them.
const (
	blockMark = "\uE000block"
	valueMark = "\uE000value"
)

// field is the HTML of one entry.
func (b *book) field(c *declare.Calculator, in *declare.Input, block string, e entry) template.HTML {
	value, chosen := fill(in, e.text)
	key := fieldKey{c.ID, in.ID, chosen, e.known}
	kept, found := b.fields.Load(key)
	if !found {
		kept = keep(b.part("input", inputView(in, chosen, e.known)))
		b.fields.Store(key, kept)
	}
	return kept.(keptField).with(block, template.HTMLEscapeString(value))
}

// keptField is the HTML of an entry in pieces: after each piece but the last comes the
// block, or the value where that index says so.
type keptField struct {
	pieces []string
	value  int // index of the piece that the value follows; -1 for a choice
}

func keep(html template.HTML) keptField {
	before, after, hasValue := strings.Cut(string(html), valueMark)
	kept := keptField{pieces: strings.Split(before, blockMark), value: -1}
	if hasValue {
		kept.value = len(kept.pieces) - 1
		kept.pieces = append(kept.pieces, strings.Split(after, blockMark)...)
	}
	return kept
}

func (k keptField) with(block, value string) template.HTML {
	var html strings.Builder
	html.Grow(1024)
	for i, piece := range k.pieces {
		html.WriteString(piece)
		switch {
		case i == k.value:
			html.WriteString(value)
		case i < len(k.pieces)-1:
			html.WriteString(block)
		}
	}
	return template.HTML(html.String())
}

// fill parts a text into what stands in the field and what is chosen beside it.
func fill(in *declare.Input, text string) (value, chosen string) {
	if in.Kinds == nil {
		if text == "" {
			text = in.Default
		}
		return "", text
	}
	value, unit := quantity.SplitText(text)
	if u, ok := quantity.FindUnit(unit); ok && unit != "" {
		unit = u.Symbol
	}
	return value, unit
}

func inputView(in *declare.Input, chosen string, known bool) InputView {
	view := InputView{
		Block: blockMark, Name: in.ID, Label: in.Label, Symbol: in.Symbol, Help: help(in),
		Text: in.Negative || in.Gauge, CanOver: in.MayBeOver, Known: known,
	}
	if in.Kinds == nil {
		for _, choice := range in.Choices {
			view.Choices = append(view.Choices, Option{Value: choice.Value, Label: choice.Label, Chosen: choice.Value == chosen})
		}
		return view
	}
	view.Value, view.Units = valueMark, unitOptions(in, chosen)
	return view
}
