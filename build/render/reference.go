package render

import (
	"html/template"
	"strings"
	"unicode/utf8"

	"blankoff/build/formula"
	"blankoff/build/load"
	"blankoff/calc/declare"
)

// reference makes the page of a calculator, all of it from the declaration.
func (p *page) reference(c *declare.Calculator) error {
	var example []entry
	for _, pair := range c.Example.In {
		example = append(example, entry{name: pair.Name, text: pair.Text})
	}
	view := ReferenceView{
		Heading: c.Title, Decision: c.Decision, Limits: c.Limits, Performed: performed(c.Performance),
		Calculator: p.calculatorView(c, "c1", "", example),
		Example:    exampleView(c), Terminal: terminal(c), Used: p.used(c),
	}
	for _, word := range load.SignalWords { // the gravest first
		for _, name := range c.Hazards {
			if h, known := p.hazards[name]; known && h.Word == word {
				view.Hazards = append(view.Hazards, h)
			}
		}
	}
	for _, line := range c.Formula {
		view.Formula = append(view.Formula, formulaRow(line))
	}
	for _, influence := range c.Influences {
		view.Counted = append(view.Counted, influence.Text)
	}
	for i := range c.Inputs {
		view.Inputs = append(view.Inputs, inputRow(&c.Inputs[i]))
	}
	for i := range c.Outputs {
		view.Outputs = append(view.Outputs, outputRow(&c.Outputs[i]))
	}
	for _, s := range c.Sources {
		view.Sources = append(view.Sources, SourceRow{Title: s.Title, Where: s.Where, Mark: s.Mark})
	}
	p.atDesk = true
	view.Text = p.digestOfReference(view)
	view.Frame = p.frame(c.Title, c.Decision, "calculators", nil)
	return p.write("reference", view)
}

// phoneLine is about how many characters of a formula the narrowest phone shows.
const phoneLine = 30

// formulaRow sets a line of the formula. One that cannot be set is shown as it is: a test
// of package formula sees to it that none of ours is.
func formulaRow(text string) FormulaRow {
	line, err := formula.Parse(text)
	if err != nil {
		return FormulaRow{Plain: text}
	}
	return FormulaRow{
		Math: template.HTML(line.MathML()), Plain: line.Plain, Words: line.Words,
		Long: utf8.RuneCountInString(line.Plain) > phoneLine,
	}
}

// exampleView is the worked example in words: what goes in, what must come out.
func exampleView(c *declare.Calculator) ExampleView {
	view := ExampleView{From: strings.TrimSuffix(c.Example.From, ".")}
	for _, pair := range c.Example.In {
		in := c.Input(pair.Name)
		if in == nil {
			continue
		}
		row := ExampleRow{Label: in.Label, Text: pair.Text}
		switch {
		case in.Columns != nil:
			row.Text = "the table above"
		case in.Kinds == nil:
			row.Text = choiceLabel(in, pair.Text)
		}
		view.Entries = append(view.Entries, row)
	}
	for _, pair := range c.Example.Want {
		if out := c.Output(pair.Name); out != nil {
			view.Results = append(view.Results, ExampleRow{Label: out.Label, Text: pair.Text})
		}
	}
	return view
}

func choiceLabel(in *declare.Input, value string) string {
	for _, choice := range in.Choices {
		if choice.Value == value {
			return choiceWords(choice)
		}
	}
	return value
}

// terminal is the example as a command. A table comes from a file there.
func terminal(c *declare.Calculator) string {
	line := "go run ./build calc " + c.ID
	for _, pair := range c.Example.In {
		if in := c.Input(pair.Name); in != nil && in.Columns != nil {
			line += " --" + pair.Name + " " + pair.Name + ".csv"
			continue
		}
		line += " " + pair.Name + `="` + strings.ReplaceAll(pair.Text, `"`, `\"`) + `"`
	}
	return line
}

// performed parts the lines of a declaration into sentences and tables, whose rows begin with |.
func performed(lines []string) []PerformedView {
	var views []PerformedView
	for i, line := range lines {
		row, isRow := strings.CutPrefix(line, "| ")
		switch cells := strings.Split(row, " | "); {
		case !isRow:
			views = append(views, PerformedView{Text: line})
		case i > 0 && strings.HasPrefix(lines[i-1], "| "):
			last := &views[len(views)-1]
			last.Rows = append(last.Rows, cells)
		default:
			views = append(views, PerformedView{Head: cells})
		}
	}
	return views
}
