package load

import (
	"path"
	"strconv"
	"strings"

	"blankoff/build/guide"
	"blankoff/build/machine"
	"blankoff/build/source"
)

// The keys of each kind of file, from which package schema writes what an editor can check.
var (
	ShopFields = []source.Field{
		{Key: "name", Shape: source.Text, Required: true, Means: "What the shop is called."},
		{Key: "town", Shape: source.Text, Means: "Where it is."},
		{Key: "altitude", Shape: source.Text, Required: true, Means: "Height above the sea, such as 430 m: the air pressure follows from it."},
		{Key: "summary", Shape: source.Text, Required: true, Means: "What the shop does, one sentence."},
		{Key: "units", Shape: source.Nested, Means: "The unit in which pages show each kind of quantity."},
		{Key: "authoring", Shape: source.Text, Means: "yes: the site has a page for each rule of verify, for those who write it."},
	}
	MachineFields = append([]source.Field{
		{Key: "code", Shape: source.Text, Means: "Short name, as serial numbers begin."},
	}, FamilyFields...)
	FamilyFields = []source.Field{
		{Key: "title", Shape: source.Text, Required: true, Means: "What people call it."},
		{Key: "summary", Shape: source.Text, Required: true, Means: "What it is, one or two sentences."},
		{Key: "family", Shape: source.Text, Means: "A file of families/, without .yaml, whose values hold where this file has none."},
		{Key: "tube", Shape: source.Text, Means: "A file of tubes/, without .yaml: the vacuum sensor."},
		{Key: "mark", Shape: source.Text, Means: "How the values of this file are known, where they do not say it themselves."},
		{Key: "values", Shape: source.Nested, Means: "Every limit and size that pages state, each once."},
	}
	TubeFields = []source.Field{
		{Key: "title", Shape: source.Text, Required: true, Means: "The type, as printed on the tube."},
		{Key: "summary", Shape: source.Text, Means: "What it is, one or two sentences."},
		{Key: "construction", Shape: source.Text, Required: true, Means: "Whether the couple touches the heater."},
		{Key: "base", Shape: source.Text, Means: "How many positions the base has; 8 if left out."},
		{Key: "pins", Shape: source.Nested, Required: true, Means: "What each pin is for, seen from the pin side, counted clockwise from the key."},
		{Key: "mark", Shape: source.Text, Means: "How the values of this file are known, where they do not say it themselves."},
		{Key: "values", Shape: source.Nested, Means: "Limits of the tube."},
	}
	ValueFields = []source.Field{
		{Key: "is", Shape: source.Text, Required: true, Means: "The value."},
		{Key: "calc", Shape: source.Text, Means: "The calculation that gives it: CALCULATOR?input=text&input=text."},
		{Key: "mark", Shape: source.Text, Means: "How it is known."},
		{Key: "source", Shape: source.Text, Means: "Who says so."},
		{Key: "note", Shape: source.Text, Means: "What belongs beside it: under which condition, as measured where."},
	}
)

func (l *loader) shop(file *source.File, m *source.Mapping) {
	l.check(m, "the shop", ShopFields)
	l.library.Shop = Shop{
		File: file, Name: text(m, "name"), Town: text(m, "town"), Altitude: text(m, "altitude"), Summary: text(m, "summary"),
		Units: l.named(m.Text("units").Map, "a unit"), Authoring: text(m, "authoring"),
	}
}

func (l *loader) machine(at string) error {
	return l.mapping(at, func(l *loader, file *source.File, m *source.Mapping) {
		l.check(m, "a machine", MachineFields)
		l.library.Machines = append(l.library.Machines, &Machine{Card: l.card(file, m, "a machine"), Code: text(m, "code")})
	})
}

func (l *loader) family(at string) error {
	return l.mapping(at, func(l *loader, file *source.File, m *source.Mapping) {
		l.check(m, "a family", FamilyFields)
		l.library.Families = append(l.library.Families, &Family{Card: l.card(file, m, "a family")})
	})
}

// card reads what machines and families have in common.
func (l *loader) card(file *source.File, m *source.Mapping, what string) Card {
	c := Card{
		Name: stem(file), File: file, Title: text(m, "title"), Summary: text(m, "summary"),
		Family: text(m, "family"), Tube: text(m, "tube"), Mark: text(m, "mark"),
	}
	if entry, _ := m.Find("values"); m != nil && entry.Value.Shape == source.Empty && c.Family.Text == "" && c.Tube.Text == "" {
		l.add(source.Fault{Rule: "missing-key", Span: m.Span, Message: what + " needs the key values", Hint: "add a line `values:` with indented `name: value` lines, or say `family: NAME`"})
	}
	c.Own = l.values(m.Text("values").Map, c.Mark)
	return c
}

func (l *loader) tube(at string) error {
	return l.mapping(at, func(l *loader, file *source.File, m *source.Mapping) {
		l.check(m, "a tube", TubeFields)
		t := &Tube{
			Name: stem(file), File: file, Title: text(m, "title"), Summary: text(m, "summary"),
			Construction: text(m, "construction"), Base: text(m, "base"), Mark: text(m, "mark"),
		}
		t.Own = l.values(m.Text("values").Map, t.Mark)
		l.pins(t, m)
		l.library.Tubes = append(l.library.Tubes, t)
	})
}

func stem(file *source.File) string { return strings.TrimSuffix(path.Base(file.Path), ".yaml") }

func (l *loader) pins(t *Tube, m *source.Mapping) {
	entry, _ := m.Find("pins")
	t.PinsSpan = entry.KeySpan
	if entry.Value.Map == nil {
		return
	}
	for _, e := range entry.Value.Map.Entries {
		if e.Value.Shape != source.Text {
			l.refuse("shape", e.KeySpan, "pin "+source.Quote(e.Key)+" holds "+e.Value.Shape.String()+", not a text", "write it as `"+e.Key+": heater`")
			continue
		}
		t.Pins = append(t.Pins, Pin{Number: Text{Text: e.Key, Span: e.KeySpan}, Role: Text{Text: e.Value.Text, Span: e.Value.Span}})
	}
}

func pinNumber(text string) (int, bool) {
	n, err := strconv.Atoi(text)
	return n, err == nil && strconv.Itoa(n) == text && n >= 1 && n <= machine.MostPins
}

// values reads the values of a card: a text each, or a mapping that also says where it comes from.
func (l *loader) values(m *source.Mapping, mark Text) []Value {
	var list []Value
	if m == nil {
		return nil
	}
	for _, e := range m.Entries {
		v := Value{Named: Named{Name: e.Key, NameSpan: e.KeySpan, Text: Text{Text: e.Value.Text, Span: e.Value.Span}}, Mark: mark}
		switch {
		case !source.PlainName(e.Key):
			l.refuse("name", e.KeySpan, "the name "+source.Quote(e.Key)+" of a value cannot be used in links", "use lower-case words with hyphens: "+source.SuggestName(e.Key))
		case e.Value.Shape == source.Nested:
			if l.marked(&v, e.Value.Map) {
				list = append(list, v)
			}
		case e.Value.Shape != source.Text:
			l.refuse("shape", e.Value.Span, e.Key+" holds "+e.Value.Shape.String()+", not a text", "write it as `"+e.Key+": "+example(e.Key)+"`")
		default:
			v.Place = written(v.Text)
			list = append(list, v)
		}
	}
	return list
}

// example is how a value of a name can look.
func example(name string) string {
	if entry, known := machine.Find(name); known {
		return entry.Example
	}
	return "24.0 L"
}

// marked reads a value that is written as a mapping.
func (l *loader) marked(v *Value, m *source.Mapping) bool {
	l.check(m, "a value", ValueFields)
	v.Text, v.Source, v.Note = text(m, "is"), text(m, "source"), text(m, "note")
	if calc := text(m, "calc"); calc.Text != "" {
		v.Calc = guide.ReadCalc(calc.Text, inner(calc))
		v.Mark = Text{Text: machine.Computed, Span: calc.Span}
	}
	if own := text(m, "mark"); own.Text != "" {
		v.Mark = own
	}
	v.Place = written(v.Text)
	return v.Text.Text != ""
}

// inner is the place of a text without the quotes around it.
func inner(t Text) source.Span {
	if s := t.Span; s.Len == len(t.Text)+2 && s.File.Span(s.Start+1, s.End()-1).Text() == t.Text {
		return s.File.Span(s.Start+1, s.End()-1)
	}
	return t.Span
}

// written is the place of a text's own characters, if they are written as they are read.
func written(t Text) source.Span {
	if place := inner(t); place.Text() == t.Text {
		return place
	}
	return source.Span{}
}
