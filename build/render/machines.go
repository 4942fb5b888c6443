package render

import (
	"slices"
	"strings"

	"blankoff/build/guide"
	"blankoff/build/load"
	"blankoff/build/machine"
)

// machine makes the page of a machine: its card.
func (p *page) machine(m *load.Machine) error {
	view := MachineView{
		Heading: m.Title.Text, Code: m.Code.Text, Summary: withQuantities(m.Summary.Text), Mark: m.Mark.Text,
		From: p.givers(m), Groups: p.valueGroups(m), Pictures: p.picturesOf(m), Guides: p.guidesOf(m),
	}
	view.Frame = p.listFrame(m.Title.Text, m.Summary.Text, "machines", m)
	return p.write("machine", view)
}

// givers names the tube and the families that values of a machine come from.
func (p *page) givers(m *load.Machine) []string {
	var from []string
	if tube := p.library.TubeOf(&m.Card); tube != nil {
		from = append(from, "tube "+tube.Title.Text)
	}
	for _, f := range p.library.Above(&m.Card) {
		from = append(from, "family “"+f.Title.Text+"”")
	}
	return from
}

// valueGroups sorts all values of a machine, inherited ones too, as the vocabulary has them.
func (p *page) valueGroups(m *load.Machine) []ValueGroup {
	values := slices.Clone(m.Values)
	slices.SortStableFunc(values, func(a, b load.Value) int { return machine.Compare(a.Name, b.Name) })
	var groups []ValueGroup
	for _, title := range machine.Groups {
		group := ValueGroup{ID: "of-" + guide.Slug(title), Title: title}
		for _, v := range values {
			if machine.Group(v.Name) == title {
				group.Rows = append(group.Rows, ValueRow{ID: v.Name, Label: machine.Label(v.Name), Value: p.checked(v.Text.Text).html(), Said: beside(m, v)})
			}
		}
		if len(group.Rows) > 0 {
			groups = append(groups, group)
		}
	}
	return groups
}

// beside is what a card says beside a value: how it is known, where that differs from most of them, on which
// condition, and who says so.
func beside(m *load.Machine, v load.Value) string {
	var parts []string
	if v.Mark.Text != m.Mark.Text {
		parts = append(parts, v.Mark.Text)
	}
	for _, part := range []string{v.Note.Text, v.Source.Text} {
		if part != "" {
			parts = append(parts, part)
		}
	}
	return strings.Join(parts, "; ")
}

// guidesOf lists the guides that cover a machine.
func (p *page) guidesOf(m *load.Machine) []Entry {
	var entries []Entry
	for _, g := range p.library.Guides {
		if g.Kind != guide.Page && slices.Contains(p.machines(g), m) {
			entries = append(entries, p.entry(g))
		}
	}
	return entries
}

// missing answers a wrong address. Nobody knows at which depth it will be shown, and
// the site may lie below any path, so it has links that work from the root of the site
// as served by `view`; the service worker sends readers home in its own words.
func (p *page) missing() error {
	p.root = "/"
	return p.write("missing", MissingView{Frame: p.frame("No such page", "", "", nil)})
}
