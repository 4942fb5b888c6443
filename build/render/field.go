package render

import (
	"encoding/json"
	"html/template"
	"strings"
	"unicode/utf8"

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
	view.Block, view.Value, view.Cards = block, value, e.cardsHTML
	return written(func(out *memory) {
		b.fillIn(out, "input", &view, fieldKey{c.ID, in.ID, chosen, e.known}, &view.Block, &view.Value, &view.Cards)
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
	value, unit := parted(text)
	if u, ok := quantity.FindUnit(unit); ok && unit != "" {
		unit = u.Symbol
	}
	return value, unit
}

// parted splits a quantity into its number and its unit. In "60 L ± 2 %" the accuracy has a unit of its own; the form
// takes it as "60 ± 2 %" with L beside it, so that no other unit stands there.
func parted(text string) (value, unit string) {
	value, unit = quantity.SplitText(text)
	number, accuracy, has := strings.Cut(value, "±")
	if unit != "" || !has || !strings.HasSuffix(accuracy, "%") {
		return value, unit
	}
	if number, unit := quantity.SplitText(strings.TrimSpace(number)); unit != "" {
		return number + " ± " + strings.TrimSpace(accuracy), unit
	}
	return value, ""
}

// inputView is an entry before its block and its value are known.
func inputView(in *declare.Input, chosen string, known bool) InputView {
	view := InputView{
		Name: in.ID, Label: in.Label, Symbol: symbol(in.Symbol), Help: help(in),
		Text: in.Negative || in.Gauge, CanOver: in.MayBeOver, Known: known,
	}
	if in.Columns != nil {
		view.Table, view.Broad, view.Taps = true, true, taps(in)
		return view
	}
	if in.Kinds == nil {
		view.Choices = choiceOptions(in, chosen)
		for _, choice := range in.Choices {
			view.Broad = view.Broad || utf8.RuneCountInString(choiceWords(choice)) > phoneChoice
		}
		return view
	}
	view.Units = unitOptions(in, chosen)
	return view
}

// taps is what log.ts needs to know of a table whose readings can be taken by tap, as JSON: of each column its name, its label and
// the units that the reader may take. It is empty for other tables: those hold what was known before.
func taps(in *declare.Input) string {
	if !in.Required {
		return ""
	}
	columns := [][3]any{}
	for i, column := range in.Columns {
		switch {
		case i == 0 && len(column.Kinds) > 0 && column.Kinds[0] == quantity.Time:
			columns = append(columns, [3]any{column.ID, column.Label, []string{"s"}})
		case len(column.Kinds) > 0 && column.Kinds[0] == quantity.Pressure:
			columns = append(columns, [3]any{column.ID, column.Label, tapUnits})
		default:
			return ""
		}
	}
	text, _ := json.Marshal(columns) // texts always have a JSON form
	return string(text)
}

var tapUnits = []string{"mTorr", "micron", "Pa", "mbar", "Torr"}

// phoneChoice is about how many characters of a choice the narrowest phone shows beside its label.
const phoneChoice = 15

// choiceOptions offers the choices. Where none is taken by itself, the first one must not be either: nobody has looked.
func choiceOptions(in *declare.Input, chosen string) []Option {
	var options []Option
	if in.Default == "" && (!in.Required || chosen == "") {
		options = append(options, Option{Label: "not given", Chosen: chosen == ""})
	}
	for _, choice := range in.Choices {
		options = append(options, Option{Value: choice.Value, Label: choiceWords(choice), Chosen: choice.Value == chosen})
	}
	return options
}

// choiceWords is a choice as a reader sees it.
func choiceWords(choice declare.Choice) string {
	if choice.Label == "" {
		return choice.Value
	}
	return choice.Label
}

// symbol sets what follows a low line as a subscript: R_AB.
func symbol(text string) template.HTML {
	letter, index, has := strings.Cut(text, "_")
	if !has {
		return template.HTML(esc(text))
	}
	return template.HTML(esc(letter) + "<sub>" + esc(index) + "</sub>")
}
