package source

import (
	"fmt"
	"strings"

	"github.com/goccy/go-yaml/token"
)

// deepest is how many levels of YAML are read. Content needs three; the library's parser
// and ours call themselves once a level, and a stack overflow cannot be caught.
const deepest = 16

// mostYAML is more than any data file needs; a fault model has some 100 kB.
const mostYAML = 256 << 10

// longestLine is more than any value needs on one line. The library looks back to the start of the line for many a token.
const longestLine = 10000

// These are more than any file needs. For each key the library copies all keys below it, and calls
// itself for the next one; for each value that is missing it moves all that follows.
const (
	mostSiblings = 5000
	mostEmpty    = 1000
	mostMarks    = 100 // of documents, which are refused anyway
)

// tooLarge looks for what would cost the library more than it is worth.
func (r *yamlReader) tooLarge() (Fault, bool) {
	if r.part.Len > mostYAML {
		return r.fault(r.file.Span(r.part.Start, r.part.Start+1), fmt.Sprintf("this YAML has %d bytes; %d is the most", r.part.Len, mostYAML), "keep data short, and long texts in pages"), true
	}
	for i, start := range r.starts[:len(r.starts)-1] {
		if n := r.starts[i+1] - start; n > longestLine {
			return r.fault(r.file.Span(r.begin+start, r.begin+start+1), fmt.Sprintf("this line has %d bytes; %d is the most", n, longestLine), "write a list one item a line, a long text below `>`"), true
		}
	}
	return Fault{}, false
}

// tooMany counts the keys of each mapping, as far as columns tell them, and the values that are missing.
func (r *yamlReader) tooMany(tokens token.Tokens) (Fault, bool) {
	var keys siblings
	var open []token.Type // brackets and braces
	empty, documents := 0, 0
	for _, tk := range tokens {
		switch tk.Type {
		case token.MappingStartType, token.SequenceStartType:
			open = append(open, tk.Type)
		case token.MappingEndType, token.SequenceEndType:
			open = open[:max(len(open)-1, 0)]
		case token.DocumentHeaderType, token.DocumentEndType:
			if documents++; documents > mostMarks {
				return r.fault(r.at(tk), "one more YAML document starts here", "keep one document in a file, without --- or % lines inside"), true
			}
		}
		inBraces := len(open) > 0 && open[len(open)-1] == token.MappingStartType
		if lacksValue(tk) || inBraces && standsAlone(tk) {
			empty++
		}
		if empty > mostEmpty {
			return r.fault(r.at(tk), fmt.Sprintf("more than %d values are missing up to here", mostEmpty), "write the values, or take the keys out"), true
		}
		if tk.Type == token.MappingValueType && tk.Prev != nil && keys.add(tk.Prev.Position.Column) > mostSiblings {
			return r.fault(r.at(tk.Prev), fmt.Sprintf("this mapping has more than %d keys", mostSiblings), "keep data short, and split them into several files"), true
		}
	}
	return Fault{}, false
}

// siblings counts keys by their columns, the innermost last.
type siblings []struct{ column, keys int }

// add counts a key and tells which of its mapping it is.
func (s *siblings) add(column int) int {
	for len(*s) > 0 && (*s)[len(*s)-1].column > column {
		*s = (*s)[:len(*s)-1]
	}
	if len(*s) == 0 || (*s)[len(*s)-1].column < column {
		*s = append(*s, struct{ column, keys int }{column: column})
	}
	top := &(*s)[len(*s)-1]
	top.keys++
	return top.keys
}

// lacksValue tells a mark behind which a value is missing.
func lacksValue(tk *token.Token) bool {
	switch tk.Type {
	case token.MappingValueType, token.SequenceEntryType, token.MappingKeyType:
		next := tk.Next
		if next != nil && tk.Type == token.MappingValueType && next.Type == token.SequenceEntryType && next.Position.Column == columnOfEntry(tk) {
			return false // a list may stand as far left as its key
		}
		return next == nil || next.Type == token.CollectEntryType || next.Type == token.MappingEndType ||
			next.Position.Line > tk.Position.Line && next.Position.Column <= columnOfEntry(tk)
	}
	return false
}

// standsAlone tells a key in braces without a colon.
func standsAlone(tk *token.Token) bool {
	switch tk.Type {
	case token.CollectEntryType, token.MappingStartType, token.SequenceStartType, token.MappingValueType:
		return false
	}
	return tk.Prev != nil && (tk.Prev.Type == token.CollectEntryType || tk.Prev.Type == token.MappingStartType) &&
		tk.Next != nil && tk.Next.Type == token.CollectEntryType
}

// columnOfEntry is where the entry of a mark starts: at the key before a colon, or at the mark.
func columnOfEntry(tk *token.Token) int {
	if tk.Type == token.MappingValueType && tk.Prev != nil {
		return tk.Prev.Position.Column
	}
	return tk.Position.Column
}

// tooDeep looks for nesting that would exhaust a recursive parser: brackets, and the
// marks that open a level each at the start of one line.
func (r *yamlReader) tooDeep() (Fault, bool) {
	open := 0
	for at := r.part.Start; at < r.part.End(); at++ {
		switch r.file.Text[at] {
		case '[', '{':
			open++
		case ']', '}':
			open = max(open-1, 0)
		case '\n':
			marks := leadingMarks(r.file.Text[at+1 : r.part.End()])
			if marks > deepest {
				return r.fault(r.file.Span(at+1, at+2), "too many list marks on one line", "start one list item on a line"), true
			}
		}
		if open > 4*deepest {
			return r.fault(r.file.Span(at, at+1), "too many open brackets", "close the brackets; keep to three levels"), true
		}
	}
	marks := leadingMarks(r.file.Text[r.part.Start:r.part.End()])
	return r.fault(r.part, "too many list marks on one line", "start one list item on a line"), marks > deepest
}

// leadingMarks counts the words at the start of a line that open a level each.
func leadingMarks(text string) int {
	line, _, _ := strings.Cut(text, "\n")
	marks := 0
	for word := range strings.FieldsSeq(line) {
		if word != "-" && word != "?" && word != ":" && word[0] != '!' && word[0] != '&' {
			break
		}
		marks++
	}
	return marks
}
