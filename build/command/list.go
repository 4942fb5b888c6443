package command

import (
	"encoding/json"
	"fmt"
	"strings"

	"blankoff/calc"
	"blankoff/calc/declare"
)

// The list as JSON.
type (
	listedCalculator struct {
		ID       string         `json:"id"`
		Title    string         `json:"title"`
		Group    string         `json:"group"`
		Decision string         `json:"decision"`
		Inputs   []listedInput  `json:"inputs"`
		Outputs  []listedOutput `json:"outputs"`
	}
	listedInput struct {
		ID       string         `json:"id"`
		Label    string         `json:"label"`
		Required bool           `json:"required"`
		Unit     string         `json:"unit,omitempty"`
		Units    []string       `json:"units,omitempty"`
		Min      string         `json:"min,omitempty"`
		Max      string         `json:"max,omitempty"`
		Default  string         `json:"default,omitempty"`
		Choices  []string       `json:"choices,omitempty"`
		Columns  []listedColumn `json:"columns,omitempty"` // of a table
		Help     string         `json:"help,omitempty"`
	}
	listedOutput struct {
		ID      string         `json:"id"`
		Label   string         `json:"label"`
		Unit    string         `json:"unit,omitempty"` // none: a text or a table
		Columns []listedColumn `json:"columns,omitempty"`
	}
	listedColumn struct {
		ID       string `json:"id"`
		Label    string `json:"label"`
		Unit     string `json:"unit,omitempty"`
		Required bool   `json:"required,omitempty"`
	}
)

func (o calcOptions) listing(t terminal, args []string) error {
	chosen := calc.All()
	if len(args) > 0 {
		chosen = nil
	}
	for _, id := range args {
		calculator := calc.Find(id)
		if calculator == nil {
			return fmt.Errorf("there is no calculator %q; there are %s", id, strings.Join(ids(), ", "))
		}
		chosen = append(chosen, calculator)
	}
	if o.json {
		return listJSON(t, chosen)
	}
	for i, calculator := range chosen {
		if i > 0 {
			fmt.Fprintln(t.out)
		}
		listText(t, calculator)
	}
	return nil
}

func listText(t terminal, c *declare.Calculator) {
	fmt.Fprintf(t.out, "%s: %s\n  %s\n", c.ID, c.Title, c.Decision)
	for _, input := range c.Inputs {
		fmt.Fprintf(t.out, "  in   %-16s %s%s\n", input.ID, input.Label, remark(input))
	}
	for _, output := range c.Outputs {
		unit := output.Unit
		switch {
		case output.Columns != nil:
			unit = "table"
		case unit == "":
			unit = "text"
		}
		fmt.Fprintf(t.out, "  out  %-16s %s, %s\n", output.ID, output.Label, unit)
	}
}

// remark tells what may be entered.
func remark(input declare.Input) string {
	var parts []string
	switch {
	case len(input.Choices) > 0:
		parts = append(parts, strings.Join(choices(input), " or "))
	case input.Columns != nil:
		parts = append(parts, "table: "+input.Header())
	case input.Unit != "":
		parts = append(parts, "in "+strings.Join(append([]string{input.Unit}, input.Units...), ", "))
	}
	switch {
	case input.Required:
		parts = append(parts, "required")
	case input.Default != "":
		parts = append(parts, input.Default+" if left out")
	}
	if len(parts) == 0 {
		return ""
	}
	return " (" + strings.Join(parts, "; ") + ")"
}

func choices(input declare.Input) []string {
	var all []string
	for _, choice := range input.Choices {
		all = append(all, choice.Value)
	}
	return all
}

func listedColumns(columns []declare.Column) []listedColumn {
	var all []listedColumn
	for _, c := range columns {
		all = append(all, listedColumn{c.ID, c.Label, c.Unit, c.Required})
	}
	return all
}

func listJSON(t terminal, chosen []*declare.Calculator) error {
	list := make([]listedCalculator, 0, len(chosen))
	for _, c := range chosen {
		one := listedCalculator{ID: c.ID, Title: c.Title, Group: c.Group, Decision: c.Decision}
		for _, in := range c.Inputs {
			one.Inputs = append(one.Inputs, listedInput{in.ID, in.Label, in.Required, in.Unit, in.Units, in.Min, in.Max, in.Default, choices(in), listedColumns(in.Columns), in.Help})
		}
		for _, out := range c.Outputs {
			one.Outputs = append(one.Outputs, listedOutput{out.ID, out.Label, out.Unit, listedColumns(out.Columns)})
		}
		list = append(list, one)
	}
	encoder := json.NewEncoder(t.out)
	encoder.SetEscapeHTML(false)
	encoder.SetIndent("", "  ")
	return encoder.Encode(list)
}
