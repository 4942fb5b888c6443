package declare

import "blankoff/calc/quantity"

// bound is an end of a range; without a kind it bounds nothing.
type bound struct {
	_     [0]func() // never compared: saves the code for it
	kind  quantity.Kind
	value float64
}

func (b bound) above(q *quantity.Quantity) bool { return b.bounds(q) && q.Value < b.value }
func (b bound) below(q *quantity.Quantity) bool { return b.bounds(q) && q.Value > b.value }

// bounds tells whether the two can be compared. Nought is nought in every kind that an
// input accepts.
func (b bound) bounds(q *quantity.Quantity) bool {
	return b.kind != quantity.None && (b.kind == q.Kind || b.value == 0)
}

// Prepare gives a copy of the declaration with its ranges read, so that a call need
// not read them. A declaration that cannot be read panics: the generic tests meet it
// first.
func (declared *Calculator) Prepare() *Calculator {
	c := *declared
	c.Inputs = append([]Input(nil), c.Inputs...)
	for i := range c.Inputs {
		in := &c.Inputs[i]
		in.least, in.most = readBound(in.ID, in.Min, in.Kinds), readBound(in.ID, in.Max, in.Kinds)
		in.usualLeast, in.usualMost = readBound(in.ID, in.UsualLow, in.Kinds), readBound(in.ID, in.UsualHigh, in.Kinds)
		if in.Kinds != nil && in.Default != "" {
			q, problem := quantity.Parse(in.Default, in.Kinds...)
			if problem != nil {
				panic("declaration of input " + in.ID + ": " + problem.Text)
			}
			in.fallback = q
		}
		in.Columns = append([]Column(nil), in.Columns...)
		for j := range in.Columns {
			column := &in.Columns[j]
			column.least, column.most = readBound(in.ID, column.Min, column.Kinds), readBound(in.ID, column.Max, column.Kinds)
		}
	}
	return &c
}

func readBound(id, text string, kinds []quantity.Kind) bound {
	if text == "" {
		return bound{}
	}
	q, problem := quantity.Parse(text, kinds...)
	if problem != nil {
		panic("declaration of input " + id + ": " + problem.Text)
	}
	return bound{kind: q.Kind, value: q.Value}
}
