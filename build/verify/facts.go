package verify

import (
	"fmt"
	"slices"
	"strings"

	"blankoff/build/guide"
	"blankoff/build/load"
	"blankoff/build/source"
)

// facts checks that the text of each spec: and calc: link is true.
func (c *checker) facts(page *guide.Guide) {
	for _, fact := range page.Facts {
		if fact.Said == "" {
			c.refuse("fact", fact.Span, "the fact has no text", "write the value between the brackets")
			continue
		}
		rights, ok := c.rights(page, fact)
		if !ok {
			continue
		}
		for _, right := range rights {
			if sameText(fact.Said, right.Text) {
				continue // most facts; saves reading them as quantities
			}
			if why := disagreement(read(fact.Said), right.measure); why != agrees {
				c.stale(fact, right, c.mend(fact, right, rights, why))
				break // one machine at a time is enough to mend
			}
		}
	}
}

// right is what a fact should say, and who says so.
type right struct {
	measure
	from string // "content/machines/cindle-14.yaml" or "rise-test"
}

// rights finds what a fact should say: one value, or one for each machine.
func (c *checker) rights(page *guide.Guide, fact *guide.Fact) ([]right, bool) {
	if fact.Spec != nil {
		return c.specRights(page, fact)
	}
	return c.calcRights(page, fact)
}

func (c *checker) stale(fact *guide.Fact, right right, hint string) {
	verb := "has"
	if fact.Calc != nil {
		verb = "gives"
	}
	c.refuse("fact", fact.SaidSpan, fmt.Sprintf("the text %s is not true: %s %s %s", source.Quote(fact.Said), right.from, verb, right.Text), hint)
}

// mend says how a stale fact can be made true.
func (c *checker) mend(fact *guide.Fact, right right, all []right, why string) string {
	said := read(fact.Said)
	if _, ok := freshFact(fact, all); ok {
		fresh, _ := restate(fact.SaidSpan.Text(), right.measure)
		return "write " + strings.Join(strings.Fields(fresh), " ") + ", or let `verify --fix` do it"
	}
	switch {
	case differ(all):
		return "the machines of this page differ; say of which you speak, as in spec:MACHINE/NAME, or take one out of the header"
	case why == otherKind && said.Low.Unit.Symbol == "":
		return "write the unit too: " + right.Text
	case why == otherKind:
		return "the text is " + said.Low.Kind.Describe() + "; " + right.Text + " is " + right.Low.Kind.Describe()
	case why == noAccuracy:
		return "leave the ± out: " + right.from + " states no accuracy"
	case why == otherForm && right.Form == span:
		return "write both ends: " + right.Text
	}
	return "write " + right.Text
}

// differ tells whether a fact should say one thing for one machine and another for the next.
func differ(all []right) bool {
	return slices.ContainsFunc(all, func(r right) bool { return r.Text != all[0].Text })
}

// specRights looks the value up in every machine that the fact is about.
func (c *checker) specRights(page *guide.Guide, fact *guide.Fact) ([]right, bool) {
	machines, ok := c.machinesOf(page, fact.Spec)
	var list []right
	for _, m := range machines {
		v, found := c.specValue(m, fact.Spec)
		ok = ok && found
		value := measure{Text: v}
		if !sameText(fact.Said, v) {
			value = read(v)
		}
		list = append(list, right{value, m.File.Name})
	}
	return list, ok
}

// machinesOf lists the machines that a reference is about: the one it names, or all of the header.
func (c *checker) machinesOf(page *guide.Guide, ref *guide.SpecRef) ([]*load.Machine, bool) {
	if ref.Machine != "" {
		m := c.library.Machine(ref.Machine)
		if m == nil {
			c.refuse("unknown-machine", ref.Span, "there is no machine "+source.Quote(ref.Machine), source.DidYouMean(ref.Machine, c.library.MachineNames()))
			return nil, false
		}
		return []*load.Machine{m}, true
	}
	machines := c.headerMachines(page)
	if len(page.Machines) == 0 {
		c.refuse("spec", ref.Span, "the page names no machine, so "+source.Quote(ref.Name)+" has no value", "add `machines: [NAME]` to the header, or write spec:MACHINE/"+ref.Name)
	}
	return machines, len(machines) > 0 // an unknown machine is the header's own error
}

func (c *checker) headerMachines(page *guide.Guide) []*load.Machine {
	var list []*load.Machine
	for _, name := range page.Machines {
		if m := c.library.Machine(name.Text); m != nil {
			list = append(list, m)
		}
	}
	return list
}

func (c *checker) specValue(m *load.Machine, ref *guide.SpecRef) (string, bool) {
	v, found := m.Value(ref.Name)
	if !found {
		c.refuse("unknown-value", ref.Span, m.File.Name+" has no value "+source.Quote(ref.Name), source.DidYouMean(ref.Name, m.ValueNames()))
	}
	return v.Text.Text, found
}
