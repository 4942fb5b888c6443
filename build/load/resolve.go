package load

import (
	"slices"

	"blankoff/build/guide"
	"blankoff/build/machine"
	"blankoff/build/source"
)

// resolve gives each card the values of its tube and families, and each page its machines, once for the life of the library.
// It ends on every input: a family that belongs to itself is left when it is met again; verify tells of it.
func (l *Library) resolve() {
	l.families = map[string]*Family{}
	for _, f := range l.Families {
		l.families[f.Name] = f
	}
	for _, t := range l.Tubes {
		t.resolve()
	}
	for _, f := range l.Families {
		l.inherit(&f.Card)
	}
	for _, m := range l.Machines {
		for _, f := range l.inherit(&m.Card) {
			f.Machines = append(f.Machines, m)
		}
	}
	l.covered = make(map[*guide.Guide][]*Machine, len(l.Guides))
	for _, page := range l.Guides {
		l.covered[page] = l.cover(page)
	}
}

// inherit fills in the values of a card: its own, its tube's, then its family's, and so on up. Of several tubes the
// nearest counts, for the limits of one say nothing about another. The families come back in that order.
func (l *Library) inherit(c *Card) []*Family {
	c.Values, c.byName = nil, nil
	c.inherit(c.Own)
	tube := l.Tube(c.Tube.Text)
	if tube != nil {
		c.inherit(tube.Values)
	}
	up := l.Above(c)
	for _, f := range up {
		c.inherit(f.Own)
		if c.Tube.Text == "" && tube == nil {
			if tube = l.Tube(f.Tube.Text); tube != nil {
				c.inherit(tube.Values)
			}
		}
	}
	return up
}

// MostAbove is how many families a card has above it at most; those further up are not looked at. Each family holds the
// values of all above, which in a long chain would be the square of its length.
const MostAbove = 20

// Above lists the families of a card, the nearest first, each once.
func (l *Library) Above(c *Card) []*Family {
	var up []*Family
	seen := map[string]bool{}
	for name := c.Family.Text; name != "" && !seen[name] && len(up) < MostAbove; {
		f := l.Family(name)
		if f == nil {
			break
		}
		seen[name] = true
		up = append(up, f)
		name = f.Family.Text
	}
	return up
}

// TubeOf is the nearest tube of a card, or nil.
func (l *Library) TubeOf(c *Card) *Tube {
	if c.Tube.Text != "" {
		return l.Tube(c.Tube.Text)
	}
	for _, f := range l.Above(c) {
		if f.Tube.Text != "" {
			return l.Tube(f.Tube.Text)
		}
	}
	return nil
}

// resolve adds what follows from the construction and the pin map.
func (t *Tube) resolve() {
	t.Values = nil
	places := map[string]Text{"sensor-tube": t.Title, "sensor-construction": t.Construction}
	for _, name := range machine.Derived {
		said := machine.Derive(name, t.Title.Text, t.Construction.Text, t.PinMap())
		place, has := places[name]
		if !has {
			place.Span = t.PinsSpan
		}
		if said != "" {
			t.Values = append(t.Values, Value{Named: Named{Name: name, NameSpan: place.Span, Text: Text{Text: said, Span: place.Span}}, Mark: t.Mark})
		}
	}
	t.Values = append(t.Values, slices.DeleteFunc(slices.Clone(t.Own), func(v Value) bool { return slices.Contains(machine.Derived, v.Name) })...)
}

// Rewritten is the library with other texts for values, given by their places; pages and all else are shared.
func (l *Library) Rewritten(texts map[source.Span]string) *Library {
	fresh := *l
	fresh.Machines, fresh.Families, fresh.Tubes = nil, nil, nil
	rewrite := func(values []Value) []Value {
		values = slices.Clone(values)
		for i := range values {
			if text, has := texts[values[i].Span]; has {
				values[i].Text.Text = text
			}
		}
		return values
	}
	for _, t := range l.Tubes {
		other := *t
		other.Own = rewrite(t.Own)
		fresh.Tubes = append(fresh.Tubes, &other)
	}
	for _, f := range l.Families {
		other := *f
		other.Own, other.Machines = rewrite(f.Own), nil
		fresh.Families = append(fresh.Families, &other)
	}
	for _, m := range l.Machines {
		other := *m
		other.Own = rewrite(m.Own)
		fresh.Machines = append(fresh.Machines, &other)
	}
	fresh.resolve()
	return &fresh
}
