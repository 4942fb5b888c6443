package render

import (
	"strings"

	"blankoff/calc/declare"
	"blankoff/calc/quantity"
)

// reference makes the page of a calculator, all of it from the declaration.
func (p *page) reference(c *declare.Calculator) error {
	var example []entry
	for _, pair := range c.Example.In {
		example = append(example, entry{name: pair.Name, text: pair.Text})
	}
	view := ReferenceView{
		Heading: c.Title, Decision: c.Decision, Formula: c.Formula, Limits: c.Limits,
		Calculator: p.calculatorView(c, "c1", "", example),
		Terminal:   terminal(c), Used: p.used(c),
	}
	for _, name := range c.Hazards {
		if h, known := p.hazards[name]; known {
			view.Hazards = append(view.Hazards, h)
		}
	}
	for i := range c.Inputs {
		view.Inputs = append(view.Inputs, inputRow(&c.Inputs[i]))
	}
	for _, o := range c.Outputs {
		view.Outputs = append(view.Outputs, OutputRow{Label: o.Label, Symbol: o.Symbol, Units: strings.Join(append([]string{o.Unit}, o.Also...), ", ")})
	}
	for _, s := range c.Sources {
		view.Sources = append(view.Sources, SourceRow(s))
	}
	view.Frame = p.frame(c.Title, c.Decision, "calculators", nil)
	return p.write("reference", view)
}

func inputRow(in *declare.Input) InputRow {
	row := InputRow{Label: in.Label, Symbol: in.Symbol, Blank: in.Default}
	if in.Kinds == nil {
		var names []string
		for _, choice := range in.Choices {
			names = append(names, choice.Label)
		}
		row.Units = strings.Join(names, "; ")
		return row
	}
	if in.Unit != "" {
		row.Units = strings.Join(append([]string{in.Unit}, in.Units...), ", ")
	}
	row.Usual, row.Accepted = rangeText(in.UsualLow, in.UsualHigh), rangeText(in.Min, in.Max)
	switch {
	case row.Blank != "":
	case in.Required:
		row.Blank = "must be given"
	default:
		row.Blank = "left out"
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

// terminal is the example as a command.
func terminal(c *declare.Calculator) string {
	line := "go run ./build calc " + c.ID
	for _, pair := range c.Example.In {
		line += " " + pair.Name + `="` + pair.Text + `"`
	}
	return line
}
