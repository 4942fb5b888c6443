package declare

import (
	"blankoff/calc/quantity"
	"blankoff/calc/uncertainty"
)

// Numbers is what Eval works on: the entries in SI units, the influences, and the
// results as they are set. Asking for an undeclared name is a mistake in the
// declaration and panics; the generic tests call every calculator to find it.
type Numbers struct {
	c       *Calculator
	typed   []quantity.Quantity // as written, or the default
	given   []bool              // written by the reader
	has     []bool              // written or by default
	assumed []bool              // an accuracy was taken that the reader did not write
	pick    []string            // choices
	tables  []*table            // what was entered as a table
	studied any                 // what Study made of the entries
	kinds   []Pair              // units asked for by kind
	x       []float64           // values of inputs, then of influences
	out     []float64
	set     []bool
	fault   *Fault
}

// inputAt finds an input, or −1.
func (c *Calculator) inputAt(id string) int {
	for i := range c.Inputs {
		if c.Inputs[i].ID == id {
			return i
		}
	}
	return -1
}

// outputAt finds an output, or −1.
func (c *Calculator) outputAt(id string) int {
	for i := range c.Outputs {
		if c.Outputs[i].ID == id {
			return i
		}
	}
	return -1
}

func (n *Numbers) inputIndex(id string) int {
	i := n.c.inputAt(id)
	if i < 0 {
		panic(n.c.ID + " has no input " + id)
	}
	return i
}

func (n *Numbers) outputIndex(id string) int {
	i := n.c.outputAt(id)
	if i < 0 {
		panic(n.c.ID + " has no output " + id)
	}
	return i
}

// In is the value of an entry, in SI units.
func (n *Numbers) In(id string) float64 { return n.x[n.inputIndex(id)] }

// Has tells whether an entry has a value, written or by default.
func (n *Numbers) Has(id string) bool { return n.has[n.inputIndex(id)] }

// Or is the value of an entry, or what stands for it where it is blank.
func (n *Numbers) Or(id string, blank float64) float64 {
	if n.Has(id) {
		return n.In(id)
	}
	return blank
}

// Written tells whether the reader wrote the entry.
func (n *Numbers) Written(id string) bool { return n.given[n.inputIndex(id)] }

// Typed is the entry as written. It must not be changed.
func (n *Numbers) Typed(id string) *quantity.Quantity { return &n.typed[n.inputIndex(id)] }

// Studied is what Study gave.
func (n *Numbers) Studied() any { return n.studied }

// Kind is the kind of the entry, where several are accepted.
func (n *Numbers) Kind(id string) quantity.Kind { return n.Typed(id).Kind }

// Choice is the option chosen.
func (n *Numbers) Choice(id string) string { return n.pick[n.inputIndex(id)] }

// Influence is the present value of an influence, zero unless it is being varied.
func (n *Numbers) Influence(id string) float64 {
	for i := range n.c.Influences {
		if n.c.Influences[i].ID == id {
			return n.x[len(n.c.Inputs)+i]
		}
	}
	panic(n.c.ID + " has no influence " + id)
}

// Set gives an output its value, in SI units.
func (n *Numbers) Set(id string, value float64) {
	i := n.outputIndex(id)
	n.out[i], n.set[i] = value, true
}

// Value reads an output that was set.
func (n *Numbers) Value(id string) (float64, bool) {
	i := n.outputIndex(id)
	return n.out[i], n.set[i]
}

// Refuse says why an entry cannot be used; the first refusal stands. Quantities in braces are
// shown in the units of choice.
func (n *Numbers) Refuse(field, text string) {
	if n.fault == nil {
		n.fault = &Fault{Field: field, Text: n.amounts(text)}
	}
}

// Result is what Judge works on: the numbers with their uncertainties, and what is
// to be said of them.
type Result struct {
	*Numbers
	u        []float64  // standard uncertainty of each output, SI
	anyU     bool       // some entry or influence carries one
	texts    []string   // outputs that are texts
	rows     [][][]Cell // of outputs that are tables
	units    []quantity.Unit
	verdict  Verdict
	working  []string
	cautions []string
}

// Out is an output with its standard uncertainty, in SI units.
func (r *Result) Out(id string) (value, u float64) {
	i := r.outputIndex(id)
	return r.out[i], r.u[i]
}

// show writes an output as the page shows it.
func (r *Result) show(i int) string {
	figures := r.figures()
	if r.c.Outputs[i].Derived {
		figures = 2
	}
	return quantity.Format(r.out[i], r.u[i], r.units[i], figures)
}

// ShowIn writes an output in the unit of another.
func (r *Result) ShowIn(id, unitOf string) string {
	i := r.outputIndex(id)
	return quantity.Format(r.out[i], r.u[i], r.units[r.outputIndex(unitOf)], r.figures())
}

// figures shown without an uncertainty: as many as the most precise entry has, at
// least the usual four and at most seven.
func (r *Result) figures() int {
	most := quantity.DefaultFigures
	for i, q := range r.typed {
		if r.given[i] && q.Figures < 15 {
			most = max(most, q.Figures)
		}
	}
	return min(most, 7)
}

// Entry writes an input as the reader wrote it, without its accuracy; a default is in the unit
// of choice.
func (r *Result) Entry(id string) string { return r.entry(id, false) }

// entry does so; one that is its own stays in its unit even as a default.
func (r *Result) entry(id string, own bool) string {
	q := r.Typed(id)
	if q.Over {
		return "OL"
	}
	unit := q.Unit
	if !own && !r.Written(id) {
		unit = r.inChoice(q.Kind, unit)
	}
	text := quantity.Format(q.Value, -1, unit, max(quantity.DefaultFigures, min(q.Figures, 9)))
	if q.Gauge {
		text += " gauge"
	}
	return text
}

// Text sets an output that is a text.
func (r *Result) Text(id, text string) {
	i := r.outputIndex(id)
	r.texts[i], r.set[i] = r.Fill(text), true
}

// Row adds a row to an output that is a table.
func (r *Result) Row(id string, cells ...Cell) {
	i := r.outputIndex(id)
	r.rows[i], r.set[i] = append(r.rows[i], cells), true
}

// Cells are the rows of an output that is a table, in SI units. They must not be changed.
func (r *Result) Cells(id string) [][]Cell { return r.rows[r.outputIndex(id)] }

// Verdict sets the verdict.
func (r *Result) Verdict(is, text string) { r.verdict = Verdict{Is: is, Text: r.Fill(text)} }

// Decide sets the verdict of a decision with its text; an empty text leaves the verdict
// as it is.
func (r *Result) Decide(is uncertainty.Decision, pass, fail, cannotTell string) {
	word, text := CannotTell, cannotTell
	switch is {
	case uncertainty.Pass:
		word, text = Pass, pass
	case uncertainty.Fail:
		word, text = Fail, fail
	}
	if text != "" {
		r.Verdict(word, text)
	}
}

// Work adds a line of working.
func (r *Result) Work(line string) { r.working = append(r.working, r.Fill(line)) }

// Caution adds a caution to those of the declaration.
func (r *Result) Caution(text string) { r.cautions = append(r.cautions, r.Fill(text)) }
