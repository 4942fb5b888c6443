package verify

import (
	"strings"

	"blankoff/build/guide"
	"blankoff/build/load"
	"blankoff/build/source"
)

// machinesOf lists the machines that a reference is about: the one it names, or all that the page covers.
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
	if len(page.Machines) == 0 && len(page.Families) == 0 {
		c.refuse("spec", ref.Span, "the page names no machine, so "+source.Quote(ref.Name)+" has no value", "add `machines: [NAME]` to the header, or write spec:MACHINE/"+ref.Name)
	}
	return machines, len(machines) > 0 // an unknown machine, or a family of none, is the header's own fault
}

func (c *checker) headerMachines(page *guide.Guide) []*load.Machine { return c.library.Covered(page) }

// specValue finds what a reference names in a machine's file, or in the files that it inherits from.
func (c *checker) specValue(m *load.Machine, ref *guide.SpecRef) (load.Value, bool) {
	v, found := m.Value(ref.Name)
	if !found {
		c.refuse("unknown-value", ref.Span, m.File.Name+" has no value "+source.Quote(ref.Name)+c.norAbove(m), source.DidYouMean(ref.Name, m.ValueNames()))
	}
	return v, found
}

// norAbove names the other files in which a value was looked for.
func (c *checker) norAbove(m *load.Machine) string {
	var others []string
	if tube := c.library.TubeOf(&m.Card); tube != nil {
		others = append(others, tube.File.Name)
	}
	for _, f := range c.library.Above(&m.Card) {
		others = append(others, f.File.Name)
	}
	if len(others) == 0 {
		return ""
	}
	return ", nor has " + strings.Join(others, " or ")
}
