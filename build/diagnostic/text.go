package diagnostic

import (
	"fmt"
	"strings"

	"blankoff/build/source"
)

// Style says how diagnostics are written for a person. The zero Style is plain and 100 columns wide.
type Style struct {
	Colour bool // ANSI colours; ask for it only when a terminal reads
	Width  int  // of the shown part of a source line, in columns
}

const (
	defaultWidth = 100
	leastWidth   = 20
	bold         = "\x1b[1m"
	dim          = "\x1b[2m"
	red          = "\x1b[31m"
	yellow       = "\x1b[33m"
	plain        = "\x1b[0m"
)

// Text writes one diagnostic:
//
//	content/procedures/rise-test.md:14:12: error: unknown unit "psig" for input "start" [preset]
//	   14 |     start: 30 psig
//	      |               ^~~~
//	      = accepted: Pa, kPa, mbar, Torr, mTorr
func Text(d Diagnostic, style Style) string {
	var b strings.Builder
	style.write(&b, d, d.Span.Position())
	return b.String()
}

// List writes all diagnostics in the order given.
func List(list []Diagnostic, style Style) string {
	var b strings.Builder
	var places ruler
	for _, d := range list {
		style.write(&b, d, places.position(d.Span))
	}
	return b.String()
}

func (s Style) write(b *strings.Builder, d Diagnostic, at source.Position) {
	if d.Span.File != nil {
		fmt.Fprintf(b, "%s:%d:%d: ", Clean(d.Span.File.Name), at.Line, at.Column)
	}
	b.WriteString(s.paint(d.Severity.String()+":", d.Severity.colour()))
	b.WriteString(" " + s.paint(Clean(d.Message), bold))
	if d.Rule != "" {
		b.WriteString(" " + s.paint("["+Clean(d.Rule)+"]", dim))
	}
	b.WriteByte('\n')
	if d.Span.File != nil {
		if line, caret := excerpt(d.Span, s.width()); strings.TrimSpace(line) != "" {
			fmt.Fprintf(b, "%5d | %s\n      | %s\n", at.Line, line, s.paint(caret, d.Severity.colour()))
		}
	}
	for hint := range strings.Lines(d.Hint) {
		b.WriteString("      = " + Clean(strings.TrimRight(hint, "\n")) + "\n")
	}
}

func (s Severity) colour() string {
	if s == Error {
		return bold + red
	}
	return bold + yellow
}

func (s Style) paint(text, colour string) string {
	if !s.Colour {
		return text
	}
	// a caret line starts with spaces; colour only what can be seen
	shown := strings.TrimLeft(text, " ")
	return text[:len(text)-len(shown)] + colour + shown + plain
}

func (s Style) width() int {
	if s.Width == 0 {
		return defaultWidth
	}
	return max(s.Width, leastWidth)
}
