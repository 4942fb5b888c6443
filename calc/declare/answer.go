package declare

import (
	"math"

	"blankoff/calc/letters"
	"blankoff/calc/plot"
	"blankoff/calc/quantity"
	"blankoff/calc/uncertainty"
)

// Answer runs the calculator on what was typed. It never panics and never gives a
// number that is not finite: what cannot be answered comes back as a Fault.
func (c *Calculator) Answer(request Request) (answer Answer) {
	defer func() {
		if recover() != nil {
			answer = Answer{ID: c.ID, Fault: &Fault{Text: "this combination of entries cannot be computed; please report it"}}
		}
	}()
	n := &Numbers{c: c, kinds: request.Units}
	for i := range n.kinds {
		if _, fault := chosen(&n.kinds[i], "units"); fault != nil {
			return Answer{ID: c.ID, Fault: fault}
		}
	}
	if fault := n.read(request.In); fault != nil {
		return Answer{ID: c.ID, Fault: fault}
	}
	if c.Study != nil {
		if n.studied = c.Study(n); n.fault != nil {
			return Answer{ID: c.ID, Fault: n.fault}
		}
	}
	r := &Result{Numbers: n}
	if fault := r.chooseUnits(request.Out); fault != nil {
		return Answer{ID: c.ID, Fault: fault}
	}
	if fault := r.evaluate(); fault != nil {
		return Answer{ID: c.ID, Fault: fault}
	}
	c.Judge(r)
	if n.fault == nil {
		n.fault = r.endless()
	}
	var drawn *plot.Drawing
	if request.Plot && c.Plot != nil && n.fault == nil {
		drawn = r.plotted(append(request.Units, request.Axes...))
	}
	if n.fault != nil {
		return Answer{ID: c.ID, Fault: n.fault}
	}
	answer = r.answer()
	answer.Plot = drawn
	return answer
}

// evaluate computes the results and their uncertainties.
func (r *Result) evaluate() *Fault {
	c := r.c
	r.out, r.set = make([]float64, len(c.Outputs)), make([]bool, len(c.Outputs))
	c.Eval(r.Numbers)
	if r.fault != nil {
		return r.fault
	}
	r.u = make([]float64, len(c.Outputs))
	if fault := r.endless(); fault != nil {
		return fault
	}
	r.propagate()
	return r.endless()
}

// endless finds a result or an uncertainty that is no finite number, or is none in
// the unit in which it is to be shown.
func (r *Result) endless() *Fault {
	for i := range r.c.Outputs {
		o := &r.c.Outputs[i]
		if o.Kind == quantity.None || !r.set[i] {
			continue
		}
		value, u := r.units[i].From(r.out[i]), r.u[i]/r.units[i].Span(1)
		if size := math.Abs(value) + math.Abs(u); !(size < endless) {
			return &Fault{Field: o.ID, Text: "the entries give no finite result for “" + o.Label + "”; check their sizes and accuracies"}
		}
	}
	return nil
}

// endless is far above any number that an instrument gives and far below what a
// float can hold, so that the units beside it can be shown as well.
const endless = 1e250

// propagate finds the uncertainty of every output from those of entries and
// influences. The nominal results are put back afterwards.
func (r *Result) propagate() {
	c := r.c
	u := r.uncertainties()
	out, set := append([]float64(nil), r.out...), append([]bool(nil), r.set...)
	nominal := r.x
	r.u = uncertainty.Propagate(func(x, results []float64) bool {
		r.x, r.out, r.fault = x, results, nil
		c.Eval(r.Numbers)
		ok := r.fault == nil
		for _, value := range results {
			ok = ok && !math.IsNaN(value) && !math.IsInf(value, 0)
		}
		return ok
	}, nominal, u, len(c.Outputs))
	r.x, r.out, r.set, r.fault = nominal, out, set, nil
}

// uncertainties lists u of all inputs and influences, in the order of Numbers.x.
func (r *Result) uncertainties() []float64 {
	c := r.c
	u := make([]float64, len(r.x))
	for i := range c.Inputs {
		if r.typed[i].HasU {
			u[i] = r.typed[i].U
		}
	}
	for i := range c.Influences {
		u[len(c.Inputs)+i] = c.Influences[i].U(r.Numbers)
	}
	for _, x := range u {
		r.anyU = r.anyU || x > 0
	}
	return u
}

func (r *Result) chooseUnits(asked []Pair) *Fault {
	c := r.c
	r.units, r.texts, r.rows = make([]quantity.Unit, len(c.Outputs)), make([]string, len(c.Outputs)), make([][][]Cell, len(c.Outputs))
	for i := range c.Outputs {
		o := &c.Outputs[i]
		if o.Kind != quantity.None {
			r.units[i] = quantity.MustUnit(o.Unit)
		}
		if o.UnitOf != "" && r.Written(o.UnitOf) && r.Kind(o.UnitOf) == o.Kind && !r.Typed(o.UnitOf).Over {
			r.units[i] = r.Typed(o.UnitOf).Unit
		}
		if !o.Fixed {
			r.units[i] = r.inChoice(o.Kind, r.units[i])
		}
	}
	for i := range asked {
		pair := &asked[i]
		at := c.outputAt(pair.Name)
		if at < 0 || c.Outputs[at].Kind == quantity.None {
			return &Fault{Field: pair.Name, Text: c.ID + " has no output " + quantity.Quote(pair.Name) + " with a unit; it has " + c.outputNames()}
		}
		o := &c.Outputs[at]
		u, ok := quantity.FindUnit(pair.Text)
		if !ok {
			return &Fault{Field: pair.Name, Text: quantity.Quote(pair.Text) + " is not a unit known here; " + o.Unit + " would do"}
		}
		if u.Dim != o.Kind.Dim() || (u.Kind != o.Kind && u.Kind.Dim() == o.Kind.Dim() && o.Kind != quantity.TemperatureDifference) {
			return &Fault{Field: pair.Name, Text: quantity.Quote(pair.Text) + " is a unit of " + u.Kind.Describe() + "; " + o.Label + " is " + o.Kind.Describe()}
		}
		if o.Kind == quantity.TemperatureDifference {
			u = u.Difference()
		}
		r.units[at] = u
	}
	return nil
}

// chosen is the unit that a pair of a kind's name and a unit names; field is where a bad one stands.
func chosen(pair *Pair, field string) (quantity.Unit, *Fault) {
	unit, ok := quantity.FindUnit(pair.Text)
	if !ok || unit.Kind == quantity.None || unit.Kind.Name() != pair.Name {
		return unit, &Fault{Field: field, Text: quantity.Quote(pair.Text) + " is no unit of " + pair.Name + " that is known here"}
	}
	return unit, nil
}

// inChoice is the unit that was asked for in place of one of a kind. A difference of
// temperatures follows the temperature: 10 K are 18 °F. A kelvin and a degree of °C are one
// difference, so either stays. Lengths and volumes are told in a unit about as large as before.
func (n *Numbers) inChoice(kind quantity.Kind, unit quantity.Unit) quantity.Unit {
	for i := range n.kinds {
		other, _ := quantity.FindUnit(n.kinds[i].Text)
		switch {
		case other.Kind == kind:
			return other.Beside(unit)
		case kind == quantity.TemperatureDifference && other.Kind == quantity.Temperature && other.Span(1) != unit.Span(1):
			return other.Difference()
		}
	}
	return unit
}

func (c *Calculator) outputNames() string {
	names := make([]string, len(c.Outputs))
	for i := range c.Outputs {
		names[i] = c.Outputs[i].ID
	}
	return letters.Join(names, ", ")
}

func (r *Result) answer() Answer {
	a := Answer{ID: r.c.ID, Verdict: r.verdict, Working: r.working}
	for i := range r.c.Outputs {
		if r.set[i] {
			a.Out = append(a.Out, r.give(i))
		}
	}
	a.Cautions = r.remarks(r.cautions)
	for _, caution := range r.c.Cautions {
		a.Cautions = append(a.Cautions, r.amounts(caution))
	}
	return a
}

func (r *Result) give(i int) Given {
	o := &r.c.Outputs[i]
	g := Given{ID: o.ID, Label: o.Label, Kind: o.Kind}
	switch {
	case o.Columns != nil:
		g.Columns = append([]Column(nil), o.Columns...)
		for j := range g.Columns {
			if column := &g.Columns[j]; column.Kinds != nil {
				column.Unit = r.inChoice(column.Kinds[0], quantity.MustUnit(column.Unit)).Symbol
			}
		}
		g.Rows = shownRows(g.Columns, r.rows[i])
		return g
	case o.Kind == quantity.None:
		g.Text = r.texts[i]
		return g
	}
	unit := r.units[i]
	g.SI, g.Value, g.Unit, g.HasValue = r.out[i], unit.From(r.out[i]), unit.Symbol, true
	g.Text = r.show(i)
	if r.u[i] > 0 {
		g.U, g.HasU = math.Abs(r.u[i]/unit.Span(1)), true
	}
	for _, symbol := range o.Also {
		other := quantity.MustUnit(symbol)
		// Who chose a unit wants no others, except where they are what was asked for.
		if other.Symbol != unit.Symbol && (r.c.Converts || r.inChoice(o.Kind, other).Symbol == other.Symbol) {
			g.Also = append(g.Also, quantity.Format(r.out[i], r.u[i], other, r.figures()))
		}
	}
	return g
}
