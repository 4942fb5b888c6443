package load

import (
	"blankoff/build/guide"
	"blankoff/build/machine"
	"blankoff/build/source"
)

// Card is what the files of machines/ and families/ have in common.
type Card struct {
	Name    string // of the file, without .yaml
	File    *source.File
	Title   Text
	Summary Text
	Family  Text    // whose values stand in where the card has none; may be empty
	Tube    Text    // its vacuum sensor; may be empty
	Mark    Text    // of the values that have none of their own; may be empty
	Own     []Value // in the order of the file
	Values  []Value // own ones, then those of tube and families; each name once

	byName map[string]int // places in Values
}

// Machine is one file of machines/.
type Machine struct {
	Card
	Code Text
}

// Family is one file of families/: what several machines share.
type Family struct {
	Card
	Machines []*Machine // those that belong to it, through other families too
}

// Tube is one file of tubes/: a type of sensor tube.
type Tube struct {
	Name         string
	File         *source.File
	Title        Text
	Summary      Text
	Construction Text
	Base         Text  // number of positions; may be empty
	Pins         []Pin // in the order of the file
	PinsSpan     source.Span
	Mark         Text
	Own          []Value // in the order of the file
	Values       []Value // with what follows from construction and pins
}

// Pin is a line of a tube's pin map, as written.
type Pin struct {
	Number Text
	Role   Text
}

// Value is one value of a card. Its Span tells the file in which it stands, which may be another card's.
type Value struct {
	Named
	Place  source.Span    // its own characters, without quotes; no File where they are written otherwise than read: escaped, folded
	Calc   *guide.CalcRef // the calculation that gives it; nil for most
	Mark   Text           // how it is known: its own mark, or the one of its file
	Source Text           // who says so
	Note   Text
	Table  bool // the lines of a log, see series.go
}

// Value finds a value of the card by its name, its own or an inherited one. A name with N for a number is a table.
func (c *Card) Value(name string) (Value, bool) {
	at, found := c.byName[name]
	if !found {
		return c.series(name)
	}
	return c.Values[at], true
}

// ValueNames lists what the card knows: its own first, in the order of the file.
func (c *Card) ValueNames() []string {
	var names []string
	for _, v := range c.Values {
		names = append(names, v.Name)
	}
	return names
}

// inherit adds values of names that the card does not have.
func (c *Card) inherit(values []Value) {
	if c.byName == nil {
		c.byName = make(map[string]int, len(values))
	}
	for _, v := range values {
		if _, has := c.byName[v.Name]; !has {
			c.byName[v.Name] = len(c.Values)
			c.Values = append(c.Values, v)
		}
	}
}

// PinMap is the tube's map, as far as its lines can be understood.
func (t *Tube) PinMap() []machine.Pin {
	var pins []machine.Pin
	for _, pin := range t.Pins {
		if n, ok := pinNumber(pin.Number.Text); ok {
			pins = append(pins, machine.Pin{Number: n, Role: pin.Role.Text})
		}
	}
	return pins
}

// Machine finds a machine by name, or gives nil.
func (l *Library) Machine(name string) *Machine {
	return find(l.Machines, name, func(m *Machine) string { return m.Name })
}

// Family finds a family by name, or gives nil.
func (l *Library) Family(name string) *Family { return l.families[name] }

// Tube finds a tube by name, or gives nil.
func (l *Library) Tube(name string) *Tube {
	return find(l.Tubes, name, func(t *Tube) string { return t.Name })
}

func find[T any](list []*T, name string, of func(*T) string) *T {
	for _, item := range list {
		if of(item) == name {
			return item
		}
	}
	return nil
}

// MachineNames lists the machines.
func (l *Library) MachineNames() []string {
	var names []string
	for _, m := range l.Machines {
		names = append(names, m.Name)
	}
	return names
}

// FamilyNames lists the families.
func (l *Library) FamilyNames() []string {
	var names []string
	for _, f := range l.Families {
		names = append(names, f.Name)
	}
	return names
}

// TubeNames lists the tubes.
func (l *Library) TubeNames() []string {
	var names []string
	for _, t := range l.Tubes {
		names = append(names, t.Name)
	}
	return names
}

// Covered lists the machines that a page is about: those that its header names, then those of its families, each once.
func (l *Library) Covered(page *guide.Guide) []*Machine {
	if list, known := l.covered[page]; known {
		return list
	}
	return l.cover(page)
}

func (l *Library) cover(page *guide.Guide) []*Machine {
	var list []*Machine
	seen := map[*Machine]bool{}
	add := func(m *Machine) {
		if m != nil && !seen[m] {
			seen[m] = true
			list = append(list, m)
		}
	}
	for _, name := range page.Machines {
		add(l.Machine(name.Text))
	}
	for _, name := range page.Families {
		if f := l.Family(name.Text); f != nil {
			for _, m := range f.Machines {
				add(m)
			}
		}
	}
	return list
}
