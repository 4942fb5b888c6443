package verify

import (
	"fmt"

	"blankoff/build/load"
	"blankoff/build/source"
	"blankoff/calc"
	"blankoff/calc/declare"
)

// computed compares each value of a machine that names its calculation with what the calculator gives for that machine.
func (c *checker) computed(m *load.Machine, said map[source.Span]bool) {
	for _, v := range m.Values {
		if v.Calc == nil || said[v.Span] {
			continue
		}
		before := len(c.found)
		right, ok := c.computedRight(m, v)
		if why := disagreement(read(v.Text.Text), right.measure); ok && why != agrees {
			c.refuse("computed-value", v.Span, fmt.Sprintf("%s is %s, but %s gives %s%s", v.Name, source.Quote(v.Text.Text), right.from, right.Text, forMachine(m, v)),
				mendValue(v, right))
		}
		said[v.Span] = len(c.found) > before // of several machines one is enough to mend
	}
}

// forMachine says for which machine a value of another file was computed.
func forMachine(m *load.Machine, v load.Value) string {
	if v.Span.File == m.File {
		return ""
	}
	return " for " + m.Name
}

func mendValue(v load.Value, wanted right) string {
	if fresh, ok := freshValue(v, []right{wanted}); ok {
		return "write " + fresh + ", or let `verify --fix` do it"
	}
	return "write " + wanted.Text
}

// computedRight asks the calculator; what stops it is said at the calculation.
func (c *checker) computedRight(m *load.Machine, v load.Value) (right, bool) {
	ref := v.Calc
	calculator := c.calculator(ref.ID, ref.IDSpan)
	if calculator == nil || !c.knownInputs(calculator, ref.Inputs) || !c.knownOutput(calculator, ref) {
		return right{}, false
	}
	if c.needs(m, v, place{m.Name, v.Name}, map[place]bool{}) {
		c.refuse("computed-value", ref.IDSpan, v.Name+" is computed from itself, by way of the values that it names", "write a figure in place of one `spec:`")
		return right{}, false
	}
	in, ok := c.filled(nil, m, ref.Inputs)
	if !ok {
		return right{}, false
	}
	answer := calc.Answer(declare.Request{ID: ref.ID, In: in})
	if answer.Fault != nil {
		c.refuse("computed-value", faultPlace(answer.Fault, ref.Inputs, ref.IDSpan), faultText(calculator, answer.Fault)+forMachine(m, v), "change the input so that the calculator takes it")
		return right{}, false
	}
	given, found := pick(answer, ref.Out)
	if !found {
		c.refuse("computed-value", ref.IDSpan, ref.ID+" gives no "+ref.Out+" for these inputs", "choose another output with &out=, or give more inputs")
	}
	return right{measureOf(given), ref.ID}, found
}

// place names a value of a machine.
type place struct{ machine, name string }

// needs tells whether a value is computed from another, by way of as many as there are.
func (c *checker) needs(m *load.Machine, v load.Value, other place, seen map[place]bool) bool {
	if v.Calc == nil {
		return false
	}
	for _, p := range v.Calc.Inputs {
		if p.Spec == nil {
			continue
		}
		of := m
		if p.Spec.Machine != "" {
			of = c.library.Machine(p.Spec.Machine)
		}
		if of == nil {
			continue
		}
		from := place{of.Name, p.Spec.Name}
		if from == other {
			return true
		}
		if next, has := of.Value(p.Spec.Name); has && !seen[from] {
			seen[from] = true
			if c.needs(of, next, other, seen) {
				return true
			}
		}
	}
	return false
}
