// Package diagnostic says what is wrong in a text, where, and what to do about it.
//
// A Diagnostic is a value; one pure function writes it for a person (Text) and one for an
// editor (JSON). Collect all of a run, then print Sorted(all).
package diagnostic

import (
	"cmp"
	"slices"

	"blankoff/build/source"
)

// Severity says whether a site may be published with this.
type Severity int

// An Error stops the publishing, a Warning does not.
const (
	Error Severity = iota
	Warning
)

func (s Severity) String() string {
	return [...]string{"error", "warning"}[s]
}

// Diagnostic is one thing that is wrong.
type Diagnostic struct {
	Rule     string // short name of the rule: fact, hazard-missing
	Severity Severity
	Span     source.Span
	Message  string // starts lower case, names the thing, quotes what was written
	Hint     string // what to do; each line of it is printed on its own
}

// NewError makes a diagnostic that stops the publishing.
func NewError(rule string, span source.Span, message, hint string) Diagnostic {
	return Diagnostic{Rule: rule, Severity: Error, Span: span, Message: message, Hint: hint}
}

// NewWarning makes a diagnostic that does not.
func NewWarning(rule string, span source.Span, message, hint string) Diagnostic {
	return Diagnostic{Rule: rule, Severity: Warning, Span: span, Message: message, Hint: hint}
}

// FromFaults makes errors of what was found while reading a text.
func FromFaults(faults []source.Fault) []Diagnostic {
	var list []Diagnostic
	for _, f := range faults {
		list = append(list, NewError(f.Rule, f.Span, f.Message, f.Hint))
	}
	return list
}

// Sorted gives the diagnostics by file and place, each once; errors come before warnings at the same place.
func Sorted(list []Diagnostic) []Diagnostic {
	sorted := slices.Clone(list)
	slices.SortStableFunc(sorted, compare)
	return slices.CompactFunc(sorted, func(a, b Diagnostic) bool {
		return a == b
	})
}

func compare(a, b Diagnostic) int {
	return cmp.Or(
		cmp.Compare(fileName(a), fileName(b)),
		cmp.Compare(a.Span.Start, b.Span.Start),
		cmp.Compare(a.Severity, b.Severity),
		cmp.Compare(a.Message, b.Message),
		cmp.Compare(a.Rule, b.Rule),
		cmp.Compare(a.Span.Len, b.Span.Len),
		cmp.Compare(a.Hint, b.Hint),
	)
}

func fileName(d Diagnostic) string {
	if d.Span.File == nil {
		return ""
	}
	return d.Span.File.Name
}

// Count tells how many errors and warnings there are.
func Count(list []Diagnostic) (faults, warnings int) {
	for _, d := range list {
		if d.Severity == Error {
			faults++
		} else {
			warnings++
		}
	}
	return faults, warnings
}
