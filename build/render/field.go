package render

import (
	"html/template"

	"blankoff/calc/declare"
	"blankoff/calc/quantity"
)

// fieldKey is what the HTML of an entry depends on, besides its block and the value in it.
type fieldKey struct {
	calculator, input string
	chosen            string // unit or option
	known             bool
}

// field is the HTML of one entry.
func (b *book) field(c *declare.Calculator, in *declare.Input, block string, e entry) template.HTML {
	value, chosen := fill(in, e.text)
	view := inputView(in, chosen, e.known)
	view.Block, view.Value = block, value
	return written(func(out *memory) {
		b.fillIn(out, "input", &view, fieldKey{c.ID, in.ID, chosen, e.known}, &view.Block, &view.Value)
	})
}

// fill parts a text into what stands in the field and what is chosen beside it.
func fill(in *declare.Input, text string) (value, chosen string) {
	if in.Columns != nil {
		if text == "" && in.Required { // the reader goes on below it
			text = in.Header() + "\n"
		}
		return text, ""
	}
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

// inputView is an entry before its block and its value are known.
func inputView(in *declare.Input, chosen string, known bool) InputView {
	view := InputView{
		Name: in.ID, Label: in.Label, Symbol: in.Symbol, Help: help(in),
		Text: in.Negative || in.Gauge, CanOver: in.MayBeOver, Known: known,
	}
	if in.Columns != nil {
		view.Table = true
		return view
	}
	if in.Kinds == nil {
		for _, choice := range in.Choices {
			view.Choices = append(view.Choices, Option{Value: choice.Value, Label: choice.Label, Chosen: choice.Value == chosen})
		}
		return view
	}
	view.Units = unitOptions(in, chosen)
	return view
}
