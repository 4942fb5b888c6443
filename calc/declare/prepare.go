package declare

import "blankoff/calc/quantity"

// bound is an end of a range; without a kind it bounds nothing.
type bound struct {
	kind  *quantity.Kind
	value float64
}

func (b bound) above(q quantity.Quantity) bool { return b.bounds(q) && q.Value < b.value }
func (b bound) below(q quantity.Quantity) bool { return b.bounds(q) && q.Value > b.value }

// bounds tells whether the two can be compared. Nought is nought in every kind that an
// input accepts.
func (b bound) bounds(q quantity.Quantity) bool {
	return b.kind != nil && (b.kind == q.Kind || b.value == 0)
}

// Prepare gives a copy of the declaration with its ranges read, so that a call need
// not read them. A declaration that cannot be read panics: the generic tests meet it
// first.
func (c Calculator) Prepare() *Calculator {
	c.Inputs = append([]Input(nil), c.Inputs...)
	for i := range c.Inputs {
		in := &c.Inputs[i]
		in.least, in.most = in.bound(in.Min), in.bound(in.Max)
		in.usualLeast, in.usualMost = in.bound(in.UsualLow), in.bound(in.UsualHigh)
	}
	return &c
}

func (in *Input) bound(text string) bound {
	if text == "" {
		return bound{}
	}
	q, problem := quantity.Parse(text, in.Kinds...)
	if problem != nil {
		panic("declaration of input " + in.ID + ": " + problem.Text)
	}
	return bound{q.Kind, q.Value}
}
