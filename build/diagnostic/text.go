package diagnostic

import (
	"fmt"
	"strings"
	"unicode"

	"blankoff/build/source"
)

// Style says how diagnostics are written for a person. The zero Style is plain and 100 columns wide.
type Style struct {
	Colour bool // ANSI colours; ask for it only when a terminal reads
	Width  int  // of the shown part of a source line, in characters
}

const (
	tabWidth     = 4
	defaultWidth = 100
	leastWidth   = 20
	bold         = "\x1b[1m"
	red          = "\x1b[31m"
	yellow       = "\x1b[33m"
	plain        = "\x1b[0m"
)

// Text writes one diagnostic:
//
//	content/procedures/rise-test.md:14:12: error: unknown unit "psig" for input "start"
//	   14 |     start: 30 psig
//	      |               ^~~~
//	      = accepted: Pa, kPa, mbar, Torr, mTorr
func Text(d Diagnostic, style Style) string {
	var b strings.Builder
	at := d.Span.Position()
	if d.Span.File != nil {
		fmt.Fprintf(&b, "%s:%d:%d: ", clean(d.Span.File.Name), at.Line, at.Column)
	}
	b.WriteString(style.paint(d.Severity.String()+":", d.Severity.colour()))
	b.WriteString(" " + style.paint(clean(d.Message), bold) + "\n")
	if d.Span.File != nil {
		line, caret := excerpt(d.Span, style.width())
		if strings.TrimSpace(line) != "" {
			fmt.Fprintf(&b, "%5d | %s\n      | %s\n", at.Line, line, style.paint(caret, d.Severity.colour()))
		}
	}
	for hint := range strings.Lines(d.Hint) {
		b.WriteString("      = " + clean(strings.TrimRight(hint, "\n")) + "\n")
	}
	return b.String()
}

// List writes all diagnostics in the order given.
func List(list []Diagnostic, style Style) string {
	var b strings.Builder
	for _, d := range list {
		b.WriteString(Text(d, style))
	}
	return b.String()
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

// excerpt gives the source line of a span and the line with the caret below it:
// tabs expanded, a long line cut around the span.
func excerpt(span source.Span, width int) (line, caret string) {
	whole, at := span.Line()
	end := min(at+span.Len, len(whole))
	before, marked := expand(whole[:at], 0), ""
	if end > at {
		marked = string(expand(whole[at:end], len(before)))
	}
	shown := append(append(before, []rune(marked)...), expand(whole[max(end, at):], len(before)+len([]rune(marked)))...)
	from, length := len(before), max(len([]rune(marked)), 1)
	left, right := window(len(shown), from, length, width)
	text := string(shown[left:right])
	if left > 0 {
		text = "…" + string(shown[left+1:right])
	}
	if right < len(shown) {
		text = string([]rune(text)[:right-left-1]) + "…"
	}
	length = max(min(length, right-from), 1)
	return strings.TrimRight(text, " "), strings.Repeat(" ", from-left) + "^" + strings.Repeat("~", length-1)
}

// window chooses which columns of a long line to show: the marked part, with some of what is before it.
func window(total, from, length, width int) (left, right int) {
	if total <= width {
		return 0, total
	}
	left = max(from-max((width-length)/2, width/4), 0)
	right = min(left+width, total)
	return max(min(left, right-width), 0), right
}

// expand turns tabs into spaces and what cannot be seen into dots.
func expand(text string, column int) []rune {
	var out []rune
	for _, r := range text {
		if r != '\t' {
			out = append(out, visible(r))
			continue
		}
		for {
			out = append(out, ' ')
			if (column+len(out))%tabWidth == 0 {
				break
			}
		}
	}
	return out
}

func visible(r rune) rune {
	if unicode.IsGraphic(r) {
		return r
	}
	return '·'
}

// clean keeps a text from the content from steering the terminal.
func clean(text string) string {
	return strings.Map(visible, text)
}
