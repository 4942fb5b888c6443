package diagnostic

import (
	"bytes"
	"encoding/json"
	"fmt"
	"unicode"
	"unicode/utf16"

	"blankoff/build/source"
)

// record is the form for editors: 1-based lines and columns (in characters), the end exclusive.
type record struct {
	File      string `json:"file"`
	Line      int    `json:"line"`
	Column    int    `json:"column"`
	EndLine   int    `json:"endLine"`
	EndColumn int    `json:"endColumn"`
	Severity  string `json:"severity"`
	Rule      string `json:"rule"`
	Message   string `json:"message"`
	Hint      string `json:"hint,omitempty"`
}

// JSON writes the diagnostics as one JSON array, one element a line.
func JSON(list []Diagnostic) []byte {
	out := bytes.NewBufferString("[")
	var places ruler
	for i, d := range list {
		if i > 0 {
			out.WriteByte(',')
		}
		out.WriteByte('\n')
		out.Write(element(d, &places))
	}
	if len(list) > 0 {
		out.WriteByte('\n')
	}
	out.WriteString("]\n")
	return out.Bytes()
}

func element(d Diagnostic, places *ruler) []byte {
	start := places.position(d.Span)
	end := places.end(d.Span)
	var out bytes.Buffer
	encoder := json.NewEncoder(&out)
	encoder.SetEscapeHTML(false) // a message with < or & stays readable
	err := encoder.Encode(record{
		File: fileName(d), Line: start.Line, Column: start.Column, EndLine: end.Line, EndColumn: end.Column,
		Severity: d.Severity.String(), Rule: d.Rule, Message: d.Message, Hint: d.Hint,
	})
	if err != nil { // strings and ints always encode
		panic(err)
	}
	return seen(bytes.TrimSpace(out.Bytes()))
}

// seen writes by their numbers the characters that nobody sees, as JSON allows: some people read it on a terminal, where such
// a character in the name of a file would change the order of the line.
func seen(text []byte) []byte {
	if _, _, found := source.Invisible(string(text)); !found {
		return text
	}
	var out bytes.Buffer
	for _, r := range string(text) {
		if unicode.IsGraphic(r) {
			out.WriteRune(r)
			continue
		}
		for _, half := range utf16.Encode([]rune{r}) {
			fmt.Fprintf(&out, `\u%04x`, half)
		}
	}
	return out.Bytes()
}
