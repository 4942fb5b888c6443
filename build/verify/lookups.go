package verify

import (
	"slices"
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
	if len(page.Machines) == 0 && len(page.Families) == 0 && !misread(page, "machines", "families") {
		c.refuse("spec", ref.Span, "the page names no machine, so "+source.Quote(ref.Name)+" has no value", "add `machines: [NAME]` to the header, or write spec:MACHINE/"+ref.Name)
	}
	return machines, len(machines) > 0 // an unknown machine, or a family of none, is the header's own fault
}

func (c *checker) headerMachines(page *guide.Guide) []*load.Machine { return c.library.Covered(page) }

// specValue finds what a reference names in a machine's file, or in the files that it inherits from.
func (c *checker) specValue(m *load.Machine, ref *guide.SpecRef) (load.Value, bool) {
	v, found := m.Value(ref.Name)
	switch {
	case found && c.wrong[v.Span]:
		return v, false // its own file's error
	case !found && !c.incomplete(m):
		c.refuse("unknown-value", ref.Span, m.File.Name+" has no value "+source.Quote(ref.Name)+c.norAbove(m), source.DidYouMean(ref.Name, m.ValueNames()))
	}
	return v, found
}

// incomplete tells whether a machine may lack values because a file could not be read, or because it names a family or a
// tube that is not there: that is said in its place.
func (c *checker) incomplete(m *load.Machine) bool {
	cards := []*load.Card{&m.Card}
	for _, f := range c.library.Above(&m.Card) {
		cards = append(cards, &f.Card)
	}
	if t := c.library.TubeOf(&m.Card); t != nil && t.Title.Text == "" {
		return true
	}
	return slices.ContainsFunc(cards, func(card *load.Card) bool {
		return card.Title.Text == "" || card.Family.Text != "" && c.library.Family(card.Family.Text) == nil ||
			card.Tube.Text != "" && c.library.Tube(card.Tube.Text) == nil
	})
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
