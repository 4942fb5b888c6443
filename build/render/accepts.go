package render

import (
	"strings"

	"blankoff/calc/declare"
	"blankoff/calc/quantity"
)

// inputRow tells on a calculator's page what an entry accepts.
func inputRow(in *declare.Input) InputRow {
	row := InputRow{
		Label: in.Label, Symbol: symbol(in.Symbol), Units: accepts(in), Blank: blank(in), Accuracy: in.Accuracy,
		Usual: rangeText(in.UsualLow, in.UsualHigh), Possible: rangeText(in.Min, in.Max),
	}
	return row
}

// accepts lists the units of a quantity, the options of a choice, the columns of a table.
func accepts(in *declare.Input) string {
	var names []string
	switch {
	case in.Columns != nil:
		for i := range in.Columns {
			names = append(names, columnText(&in.Columns[i]))
		}
		return "table: " + strings.Join(names, "; ")
	case in.Kinds == nil:
		for _, choice := range in.Choices {
			names = append(names, choiceWords(choice))
		}
		return strings.Join(names, "; ")
	case in.Unit == "":
		return ""
	}
	return strings.Join(append([]string{in.Unit}, in.Units...), ", ")
}

// columnText tells what a column of a table holds.
func columnText(c *declare.Column) string {
	text := c.ID
	if c.Unit != "" {
		text += " (" + c.Unit + ")"
	}
	if r := rangeText(c.Min, c.Max); r != "" {
		text += " " + r
	}
	if !c.Required {
		text += ", may be left out"
	}
	return text
}

// blank says what is taken for an empty entry.
func blank(in *declare.Input) string {
	switch {
	case in.Default != "" && in.Because != "":
		return defaultText(in) + ", " + in.Because
	case in.Default != "":
		return defaultText(in)
	case in.Required:
		return "must be given"
	}
	return "may stay blank"
}

// defaultText is the default as a reader sees it.
func defaultText(in *declare.Input) string {
	if in.Kinds == nil {
		return choiceLabel(in, in.Default)
	}
	return pretty(in.Default)
}

// outputRow tells what a result is.
func outputRow(o *declare.Output) OutputRow {
	row := OutputRow{Label: o.Label, Symbol: symbol(o.Symbol)}
	if o.Columns != nil {
		var heads []string
		for i := range o.Columns {
			heads = append(heads, o.Columns[i].Head())
		}
		row.Units = "a table of " + strings.Join(heads, "; ")
	} else if o.Unit != "" {
		row.Units = "in " + strings.Join(append([]string{o.Unit}, o.Also...), ", ")
	}
	return row
}

func rangeText(low, high string) string {
	switch {
	case low != "" && high != "":
		return pretty(low) + " to " + pretty(high)
	case low != "":
		return "from " + pretty(low)
	case high != "":
		return "up to " + pretty(high)
	}
	return ""
}

// pretty writes a declared bound as every other quantity of the site.
func pretty(text string) string {
	q, problem := quantity.Parse(text)
	if problem != nil || q.Unit.Symbol == "" {
		return text
	}
	return quantity.Format(q.Value, -1, q.Unit, 4)
}
