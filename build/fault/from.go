package fault

import (
	"strings"

	"blankoff/build/source"
	"blankoff/calc"
	"blankoff/calc/declare"
	"blankoff/calc/quantity"
)

// Calculator gives the calculator that a finding comes from, nil of none, and the name of the result that is its value, ""
// where the reader draws it from the results himself.
func (f *Finding) Calculator() (*declare.Calculator, string) {
	id, output, _ := strings.Cut(f.From.Text, "/")
	return calc.Find(id), output
}

// from asks that the calculator of a finding is there, and that its result is what the finding wants.
func (r *reader) from(f *Finding) {
	if f.From.Text == "" {
		return
	}
	calculator, output := f.Calculator()
	if calculator == nil {
		id, _, _ := strings.Cut(f.From.Text, "/")
		var known []string
		for _, c := range calc.All() {
			known = append(known, c.ID)
		}
		r.refuse("unknown-calculator", f.From.Span, "there is no calculator "+source.Quote(id), r.meant(id, known))
		return
	}
	if output == "" && !strings.Contains(f.From.Text, "/") {
		return
	}
	var known []string
	for i := range calculator.Outputs {
		out := &calculator.Outputs[i]
		known = append(known, out.ID)
		if out.ID != output {
			continue
		}
		if out.Columns != nil || out.Kind != f.Kind {
			r.refuse("triage-unit", f.From.Span, output+" of "+calculator.ID+" is "+what(out)+"; the finding "+source.Quote(f.Name)+" is "+wanted(f), suggest(calculator, f.Kind))
		}
		return
	}
	r.refuse("unknown-output", f.From.Span, calculator.ID+" has no output "+source.Quote(output), r.meant(output, known))
}

// suggest names the results of a calculator that would fit.
func suggest(c *declare.Calculator, kind quantity.Kind) string {
	var fit []string
	for _, out := range c.Outputs {
		if out.Columns == nil && out.Kind == kind {
			fit = append(fit, out.ID)
		}
	}
	if len(fit) == 0 {
		return "write `from: " + c.ID + "` alone: the page leads there, and the reader draws the answer from what it says"
	}
	return "of its results these would fit: " + strings.Join(fit, ", ")
}

func what(out *declare.Output) string {
	switch {
	case out.Columns != nil:
		return "a table"
	case out.Kind == quantity.None:
		return "a text"
	}
	return out.Kind.Describe()
}

func wanted(f *Finding) string {
	if f.Measured() {
		return f.Kind.Describe()
	}
	return "answered in words"
}
