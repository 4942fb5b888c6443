package source

// Mapping is a YAML mapping in which every key and value knows its place.
type Mapping struct {
	Span    Span
	Entries []Entry // in the order of the file; of duplicate keys the first
}

// Entry is one key with its value.
type Entry struct {
	Key     string
	KeySpan Span
	Value   Value
}

// Shape says which of the four forms a value has.
type Shape int

// The shapes: nothing written, a text (numbers and dates too), a list, a mapping.
const (
	Empty Shape = iota
	Text
	List
	Nested
)

func (s Shape) String() string {
	return [...]string{"nothing", "a text", "a list", "a mapping"}[s]
}

// Value is what a key holds. A number stays the text that was written: 0.50 keeps its zero.
type Value struct {
	Shape Shape
	Span  Span // of a quoted text with its quotes
	Text  string
	Items []Value
	Map   *Mapping
}

// Find gives the entry of a key. A nil mapping has none.
func (m *Mapping) Find(key string) (Entry, bool) {
	if m != nil {
		for _, entry := range m.Entries {
			if entry.Key == key {
				return entry, true
			}
		}
	}
	return Entry{}, false
}

// Text gives the text value of a key, or an empty one.
func (m *Mapping) Text(key string) Value {
	entry, _ := m.Find(key)
	return entry.Value
}

// Keys lists the keys in the order of the file.
func (m *Mapping) Keys() []string {
	var keys []string
	for _, entry := range m.Entries {
		keys = append(keys, entry.Key)
	}
	return keys
}

// Field says what one key of a mapping may hold.
type Field struct {
	Key      string
	Shape    Shape
	Required bool
	Means    string // one sentence for authors; may be empty
}

// Faults compares a mapping with what it may hold: unknown keys, missing ones, wrong shapes.
// what names the mapping in messages: "the header", "a hazard".
func (m *Mapping) Faults(what string, fields []Field) []Fault {
	var faults []Fault
	for _, entry := range m.Entries {
		if fault, bad := entry.fault(what, fields); bad {
			faults = append(faults, fault)
		}
	}
	for _, field := range fields {
		if entry, found := m.Find(field.Key); field.Required && (!found || entry.Value.Shape == Empty) {
			faults = append(faults, m.missing(what, field.Key, entry))
		}
	}
	return faults
}

func (e Entry) fault(what string, fields []Field) (Fault, bool) {
	var known []string
	for _, field := range fields {
		if field.Key != e.Key {
			known = append(known, field.Key)
			continue
		}
		if e.Value.Shape == field.Shape || e.Value.Shape == Empty {
			return Fault{}, false
		}
		return Fault{
			Rule: "shape", Span: e.Value.Span,
			Message: e.Key + " of " + what + " holds " + e.Value.Shape.String() + ", not " + field.Shape.String(),
			Hint:    "write it as " + example(e.Key, field.Shape),
		}, true
	}
	return Fault{
		Rule: "unknown-key", Span: e.KeySpan,
		Message: what + " has no key " + Quote(e.Key),
		Hint:    DidYouMean(e.Key, known),
	}, true
}

func (m *Mapping) missing(what, key string, entry Entry) Fault {
	if entry.Key != "" {
		return Fault{
			Rule: "missing-key", Span: entry.KeySpan,
			Message: what + " has the key " + key + ", but nothing behind it",
			Hint:    "write what it holds behind the colon: `" + key + ": …`",
		}
	}
	return Fault{
		Rule: "missing-key", Span: m.Span,
		Message: what + " needs the key " + key,
		Hint:    "add a line `" + key + ": …`",
	}
}

func example(key string, shape Shape) string {
	switch shape {
	case List:
		return "`" + key + ": [one, two]`"
	case Nested:
		return "`" + key + ":` with indented `name: value` lines below it"
	}
	return "`" + key + ": text`"
}
