// Package machine is the vocabulary of machine data: which values a small freeze dryer's file can have,
// what each means, and what cannot be true of them. It knows no file and no page; whoever reads the files
// asks it. A shop may use names of its own beside these.
//
//	entry, known := machine.Find("chamber-volume")
//	if known {
//		problem := entry.Check("28 m³") // value-size: 28 m³ is impossible, 0.5 L to 500 L is possible
//	}
//
// From the one table in vocabulary.go come the checks, the hints, the groups and labels of a machine's page, and the
// JSON Schema that package schema writes.
package machine

import (
	"slices"
	"strconv"
	"strings"

	"blankoff/calc/quantity"
)

// Form is how a value is written.
type Form int

// The forms of values.
const (
	Exact   Form = iota // one value without ±: a limit, a setting
	Measure             // one value, ± allowed: something that was measured, or that a maker promises
	Range               // 8 to 32 °C
	Words               // any text
	Choice              // one of a few texts
	Pins                // 1 and 4
	Thread              // a pipe thread that the thread calculator knows
)

// Entry is a value that the trade needs.
type Entry struct {
	Name        string // a part N stands for a whole number: dry-curve-N-min
	Group       string // heading on the card
	Label       string // on the card; empty for the name's own words
	Form        Form
	Kind        quantity.Kind // for Exact, Measure, Range
	Least, Most string        // what is physically possible, as text
	Choices     []string      // for Choice
	Example     string        // as a file says it
	Means       string        // one sentence
}

// Find gives the entry of a name, under that name. One such as dry-curve-5-min is found by its pattern.
func Find(name string) (Entry, bool) {
	at, ok := place(name)
	if !ok {
		return Entry{}, false
	}
	e := Entries[at]
	e.Name = name
	return e, true
}

// place is the row of a name.
func place(name string) (int, bool) {
	at, ok := rows[pattern(name)]
	return at, ok
}

// rows finds a row of Entries by its name.
var rows = func() map[string]int {
	index := map[string]int{}
	for i, e := range Entries {
		index[e.Name] = i
	}
	return index
}()

// pattern puts N in place of each whole number of a name.
func pattern(name string) string {
	if !strings.ContainsAny(name, "0123456789") {
		return name
	}
	parts := strings.Split(name, "-")
	for i, part := range parts {
		if _, err := strconv.Atoi(part); err == nil {
			parts[i] = "N"
		}
	}
	return strings.Join(parts, "-")
}

// numbers are the whole numbers in a name, in their order.
func numbers(name string) []int {
	var list []int
	for part := range strings.SplitSeq(name, "-") {
		if n, err := strconv.Atoi(part); err == nil {
			list = append(list, n)
		}
	}
	return list
}

// InSeries tells the number that a name has where a pattern with one N has that letter: 5 for dry-curve-5-min in dry-curve-N-min.
func InSeries(name, of string) (n int, is bool) {
	if list := numbers(name); len(list) == 1 && pattern(name) == of {
		return list[0], true
	}
	return 0, false
}

// Names lists the names of the vocabulary, patterns with their N.
func Names() []string {
	var list []string
	for _, e := range Entries {
		list = append(list, e.Name)
	}
	return list
}

// Label is what a card calls a value: a known one by its label, any other by its name's words.
func Label(name string) string {
	if e, known := Find(name); known && e.Label != "" {
		label := e.Label
		for _, n := range numbers(name) {
			label = strings.Replace(label, "N", strconv.Itoa(n), 1)
		}
		return label
	}
	words := strings.ReplaceAll(name, "-", " ")
	return strings.ToUpper(words[:1]) + words[1:]
}

// OwnGroup heads the values of names that the vocabulary does not have.
const OwnGroup = "Also on this card"

// Group is the heading under which a card shows a value.
func Group(name string) string {
	if e, known := Find(name); known {
		return e.Group
	}
	return OwnGroup
}

// Compare orders names as a card shows them: by the rows of the vocabulary, then by the numbers in them;
// names that it does not have are equal and come last.
func Compare(a, b string) int {
	at, known := place(a)
	other, alsoKnown := place(b)
	switch {
	case known && alsoKnown && at != other:
		return at - other
	case known && alsoKnown:
		return slices.Compare(numbers(a), numbers(b))
	case known:
		return -1
	case alsoKnown:
		return 1
	}
	return 0
}

// KindKey is the name of a kind of quantity as files write it: leak rates are throughput there.
func KindKey(k quantity.Kind) string {
	if k == quantity.Throughput {
		return "throughput"
	}
	return strings.ReplaceAll(k.Name(), " ", "-")
}
