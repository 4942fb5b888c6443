package verify

import (
	"fmt"

	"blankoff/build/load"
	"blankoff/build/source"
	"blankoff/calc"
	"blankoff/calc/declare"
)

// computation is a value that names its calculation, with the machines that have it.
type computation struct {
	value    load.Value
	machines []*load.Machine // none for a family or tube that nobody uses
}

// computations lists them, each once, in the order of the machines.
func computations(library *load.Library) []*computation {
	var list []*computation
	at := map[source.Span]*computation{}
	add := func(values []load.Value, m *load.Machine) {
		for _, v := range values {
			if v.Calc == nil {
				continue
			}
			if at[v.Span] == nil {
				at[v.Span] = &computation{value: v}
				list = append(list, at[v.Span])
			}
			if m != nil {
				at[v.Span].machines = append(at[v.Span].machines, m)
			}
		}
	}
	for _, m := range library.Machines {
		add(m.Values, m)
	}
	for _, f := range library.Families {
		add(f.Own, nil)
	}
	for _, t := range library.Tubes {
		add(t.Own, nil)
	}
	return list
}

// computed compares a value with what its calculator gives for each machine that has it. One machine at a time is
// enough to mend. It is false of a value that is stale.
func (c *checker) computed(of *computation) bool {
	rights, ok := c.computedRights(of)
	v := of.value
	if !ok || c.wrong[v.Span] {
		return true
	}
	for i, right := range rights {
		if why := disagreement(read(v.Text.Text), right.measure); why != agrees {
			c.refuse("computed-value", v.Span, fmt.Sprintf("%s is %s, but %s gives %s%s", v.Name, source.Quote(v.Text.Text), right.from, right.Text, forMachine(of.machines[i], v)),
				mendValue(v, right, rights))
			return false
		}
	}
	return true
}

// forMachine says for which machine a value of another file was computed.
func forMachine(m *load.Machine, v load.Value) string {
	if v.Span.File == m.File {
		return ""
	}
	return " for " + m.Name
}

func mendValue(v load.Value, wrong right, all []right) string {
	if fresh, ok := freshValue(v, all); ok {
		return "write " + fresh + ", or let `verify --fix` do it"
	}
	if fresh, ok := figures(v, all); ok {
		return "write it between quotes: \"" + fresh + "\""
	}
	if differ(all) {
		return "it is not the same for all machines that have it; write it into the file of each"
	}
	return "write " + wrong.Text
}

// computedRights asks the calculator for each machine; what stops it is said at the calculation.
func (c *checker) computedRights(of *computation) ([]right, bool) {
	ref := of.value.Calc
	calculator := c.calculator(ref.ID, ref.IDSpan)
	if calculator == nil {
		return nil, false
	}
	inputs, output := c.knownInputs(calculator, ref.Inputs), c.knownOutput(calculator, ref)
	if !inputs || !output {
		return nil, false
	}
	var rights []right
	for _, m := range of.machines {
		right, ok := c.computedRight(calculator, m, of.value)
		if !ok {
			return nil, false
		}
		rights = append(rights, right)
	}
	return rights, true
}

func (c *checker) computedRight(calculator *declare.Calculator, m *load.Machine, v load.Value) (right, bool) {
	ref := v.Calc
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

// longest is how far needs looks; nothing real is computed by way of so many. It bounds what hostile content costs.
const longest = 100

// needs tells whether a value is computed from another, by way of others.
func (c *checker) needs(m *load.Machine, v load.Value, other place, seen map[place]bool) bool {
	if v.Calc == nil || len(seen) > longest {
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
