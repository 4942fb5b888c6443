package render

import (
	"html/template"

	"blankoff/calc/declare"
)

// Entries is what guides leave folded: of each calculator the entries that may stay blank. They are the same on all pages, and
// a phone needs them only when somebody opens them, so they are a file of their own (whole.ts reads it).
func Entries() []byte {
	b := &book{templates: templates()}
	return []byte(written(func(out *memory) {
		for _, c := range calculators() {
			var fields template.HTML
			for i := range c.Inputs {
				if in := &c.Inputs[i]; !in.Required {
					fields += b.field(c, in, "c", entry{})
				}
			}
			if fields != "" {
				_, _ = out.WriteString(string(b.part("entries-of", entriesView{c, fields})))
			}
		}
	}))
}

// entriesView is what one calculator has in the file.
type entriesView struct {
	Of     *declare.Calculator
	Fields template.HTML
}
