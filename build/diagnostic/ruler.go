package diagnostic

import (
	"strings"
	"unicode/utf8"

	"blankoff/build/source"
)

// ruler tells line and column of places that come in their order without counting each file from its start every time:
// a thousand things can be wrong in one file.
type ruler struct {
	file        *source.File
	at          int // offset of the last place
	line, begin int // the line it stands in, from 1, and where that line begins
}

func (r *ruler) position(span source.Span) source.Position {
	if span.File == nil {
		return span.Position()
	}
	start := min(max(span.Start, 0), len(span.File.Text))
	if span.File != r.file || start < r.at {
		*r = ruler{file: span.File, line: 1}
	}
	passed := span.File.Text[r.at:start]
	if last := strings.LastIndexByte(passed, '\n'); last >= 0 {
		r.line += strings.Count(passed, "\n")
		r.begin = r.at + last + 1
	}
	r.at = start
	return source.Position{Line: r.line, Column: utf8.RuneCountInString(span.File.Text[r.begin:start]) + 1}
}

// end is the place behind a span; the ruler itself stays at its start.
func (r ruler) end(span source.Span) source.Position {
	return r.position(source.Span{File: span.File, Start: span.End()})
}
