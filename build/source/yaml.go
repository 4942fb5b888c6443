package source

import (
	"errors"
	"fmt"
	"strings"
	"unicode/utf8"

	"github.com/goccy/go-yaml"
	"github.com/goccy/go-yaml/ast"
	"github.com/goccy/go-yaml/lexer"
	"github.com/goccy/go-yaml/parser"
	"github.com/goccy/go-yaml/token"
)

// ParseMapping reads the YAML mapping in a part of a file. There is always a mapping, empty
// when the text cannot be read. Anchors, aliases, tags and several documents are refused:
// they make a value stand somewhere else than where it is read.
func ParseMapping(file *File, part Span) (mapping *Mapping, faults []Fault) {
	r := newYAMLReader(file, part)
	mapping = &Mapping{Span: part}
	defer func() { // the library is not ours; whatever it trips over is a text that cannot be read
		if trouble := recover(); trouble != nil {
			mapping = &Mapping{Span: part}
			faults = []Fault{r.fault(part, "this YAML cannot be read", "keep to `key: value` lines, lists and indented mappings")}
		}
	}()
	if fault, tooDeep := r.tooDeep(); tooDeep {
		return mapping, []Fault{fault}
	}
	if fault, tooLarge := r.tooLarge(); tooLarge {
		return mapping, []Fault{fault}
	}
	tokens := lexer.Tokenize(string(r.trimmed()))
	if fault, tooMany := r.tooMany(tokens); tooMany {
		return mapping, []Fault{fault}
	}
	tree, err := parser.Parse(tokens, 0, parser.AllowDuplicateMapKey())
	if err != nil {
		return mapping, []Fault{r.syntax(err)}
	}
	if body := r.body(tree); body != nil {
		mapping = r.mapping(body, 0)
	}
	mapping.Span = file.Span(part.Start, part.Start)
	return mapping, r.faults
}

// trimmed is the part's lines, what is not of the part blanked, without space at the ends of lines:
// the library counts columns (and with comments even lines) wrong after carriage returns and trailing spaces.
func (r *yamlReader) trimmed() []byte {
	text := make([]byte, 0, r.part.Len+r.part.Len/4)
	for line := range strings.Lines(string(blank(r.file.Text[r.begin:r.part.End()], r.part.Start-r.begin))) {
		text = append(text, strings.TrimRight(line, " \t\r\n")...)
		text = append(text, '\n')
	}
	return text
}

type yamlReader struct {
	file   *File
	part   Span
	begin  int   // of the line in which the part starts
	starts []int // byte offset of each line of the part, counted from begin
	last   lastPlace
	faults []Fault
}

// lastPlace is a line, from 0, and a column of it, from 1, with its offset in the file.
type lastPlace struct{ line, column, offset int }

func newYAMLReader(file *File, part Span) *yamlReader {
	begin := strings.LastIndexByte(file.Text[:part.Start], '\n') + 1
	lines := file.Text[begin:part.End()]
	// The library may find something missing on a line behind the last one.
	return &yamlReader{file: file, part: part, begin: begin, starts: append(lineStarts(lines), len(lines))}
}

func (r *yamlReader) fault(span Span, message, hint string) Fault {
	return Fault{Rule: "yaml", Span: span, Message: message, Hint: hint}
}

func (r *yamlReader) refuse(span Span, message, hint string) {
	r.faults = append(r.faults, r.fault(span, message, hint))
}

// body is the node of the one document, if there is something in it.
func (r *yamlReader) body(tree *ast.File) ast.Node {
	var body ast.Node
	for _, doc := range tree.Docs {
		if doc.Body == nil {
			continue
		}
		if body != nil || doc.Body.Type() == ast.DirectiveType {
			r.refuse(r.at(doc.Body.GetToken()), "a second YAML document starts here", "keep one document in a file, without --- or % lines inside")
			continue
		}
		body = doc.Body
	}
	return body
}

// mapping reads a node that must be a mapping.
func (r *yamlReader) mapping(node ast.Node, depth int) *Mapping {
	var pairs []*ast.MappingValueNode
	switch n := node.(type) {
	case *ast.MappingNode:
		pairs = n.Values
	case *ast.MappingValueNode:
		pairs = []*ast.MappingValueNode{n}
	case *ast.NullNode, *ast.CommentGroupNode:
	default:
		r.refuse(r.at(node.GetToken()), "a list of `key: value` lines is expected here", "write `key: value`, one a line")
	}
	result := &Mapping{Span: r.at(node.GetToken())}
	known := make(map[string]Span, len(pairs))
	for _, pair := range pairs {
		r.add(result, known, pair, depth)
	}
	return result
}

// add puts a pair into a mapping; known holds the keys that are in it.
func (r *yamlReader) add(m *Mapping, known map[string]Span, pair *ast.MappingValueNode, depth int) {
	key := r.value(pair.Key, depth+1)
	if key.Shape != Text {
		r.refuse(key.Span, "a key must be a plain word", "write `key: value`")
		return
	}
	entry := Entry{Key: key.Text, KeySpan: key.Span}
	if entry.Key == "" {
		r.refuse(key.Span, "a key is missing before the colon", "write `key: value`")
		return
	}
	entry.Value = r.value(pair.Value, depth+1)
	switch entry.Value.Shape {
	case Empty:
		entry.Value.Span = key.Span
	case Nested: // what is missing in it is missed at its key
		entry.Value.Map.Span = key.Span
	}
	if earlier, found := known[entry.Key]; found {
		r.faults = append(r.faults, Fault{
			Rule: "duplicate-key", Span: entry.KeySpan,
			Message: "the key " + Quote(entry.Key) + " is written twice",
			Hint:    fmt.Sprintf("the first is in line %d; keep one", earlier.Position().Line),
		})
		return
	}
	known[entry.Key] = entry.KeySpan
	m.Entries = append(m.Entries, entry)
}

func (r *yamlReader) value(node ast.Node, depth int) Value {
	if node == nil {
		return Value{Span: r.part}
	}
	place := r.at(node.GetToken())
	if depth > deepest {
		r.refuse(place, "the values are nested too deeply", "keep to three levels")
		return Value{Span: place}
	}
	switch n := node.(type) {
	case *ast.NullNode:
		return Value{Span: place}
	case *ast.MappingNode, *ast.MappingValueNode:
		m := r.mapping(n, depth)
		return Value{Shape: Nested, Span: m.Span, Map: m}
	case *ast.SequenceNode:
		return r.list(n, place, depth)
	case *ast.LiteralNode:
		return r.text(place, strings.TrimRight(n.Value.Value, "\n "))
	case *ast.MappingKeyNode:
		return r.value(n.Value, depth+1)
	case *ast.AnchorNode, *ast.AliasNode, *ast.MergeKeyNode:
		r.refuse(place, "a value cannot be shared by & and *", "write the value where it belongs")
		return Value{Shape: Text, Span: place}
	case *ast.TagNode:
		r.refuse(place, "a value cannot have a ! tag", "write the value alone; quote it when it must stay a text")
		return Value{Shape: Text, Span: place}
	case ast.ScalarNode:
		return r.text(place, n.GetToken().Value)
	}
	r.refuse(place, "this value cannot be read", "write a text, a list or a mapping")
	return Value{Span: place}
}

// text is a plain value. A quoted one can name a character, as in "\u200b", that nobody would see; one that stands in
// the file as it is has been told when the file was read.
func (r *yamlReader) text(place Span, text string) Value {
	_, hidden, found := Invisible(text)
	if _, _, told := Invisible(place.Text()); found && !told {
		r.faults = append(r.faults, Fault{Rule: "invisible", Span: place, Message: NameInvisible(hidden) + " stands in this text",
			Hint: "take it out; such characters change how a text is shown or found, and nobody sees them"})
	}
	return Value{Shape: Text, Span: place, Text: text}
}

func (r *yamlReader) list(n *ast.SequenceNode, place Span, depth int) Value {
	list := Value{Shape: List, Span: place}
	for _, item := range n.Values {
		list.Items = append(list.Items, r.value(item, depth+1))
	}
	return list
}

// at turns a token's line and column (in characters) into a place. The library's own offset
// counts characters too, and is not kept right across every kind of line end.
func (r *yamlReader) at(tk *token.Token) Span {
	if tk == nil || tk.Position == nil {
		return r.part
	}
	line := min(max(tk.Position.Line-1, 0), len(r.starts)-1)
	start := min(max(r.column(line, tk.Position.Column), r.part.Start), r.part.End())
	end := r.part.End()
	if line+1 < len(r.starts) {
		end = max(start, min(end, r.begin+r.starts[line+1]))
	}
	return r.file.Span(start, start+tokenLength(tk, strings.TrimRight(r.file.Text[start:end], "\r\n")))
}

// column is the offset of a column, counted on, or back, from the place asked for before: a line may hold thousands of tokens.
func (r *yamlReader) column(line, column int) int {
	if line != r.last.line || r.last.column == 0 || column < r.last.column/2 {
		r.last = lastPlace{line: line, column: 1, offset: r.begin + r.starts[line]}
	}
	for ; r.last.column < column && r.last.offset < r.part.End(); r.last.column++ {
		_, size := utf8.DecodeRuneInString(r.file.Text[r.last.offset:])
		r.last.offset += size
	}
	for ; r.last.column > max(column, 1); r.last.column-- {
		_, size := utf8.DecodeLastRuneInString(r.file.Text[:r.last.offset])
		r.last.offset -= size
	}
	return r.last.offset
}

// tokenLength is how many bytes of a text in one line a token covers.
func tokenLength(tk *token.Token, text string) int {
	switch tk.Type {
	case token.DoubleQuoteType:
		return quoted(text, '"')
	case token.SingleQuoteType:
		return quoted(text, '\'')
	}
	if strings.HasPrefix(text, tk.Value) {
		return len(tk.Value)
	}
	return len(strings.TrimRight(text, " \t")) // a text folded over lines: its first line
}

// quoted is the length of a quoted text with its quotes.
func quoted(text string, mark byte) int {
	for i := 1; i < len(text); i++ {
		switch {
		case text[i] == '\\' && mark == '"':
			i++
		case text[i] == mark && mark == '\'' && i+1 < len(text) && text[i+1] == mark:
			i++
		case text[i] == mark:
			return i + 1
		}
	}
	return len(text)
}

// syntax turns the library's error into a fault that says what to do.
func (r *yamlReader) syntax(err error) Fault {
	var known yaml.Error
	if !errors.As(err, &known) {
		return r.fault(r.part, "this YAML cannot be read: "+err.Error(), "keep to `key: value` lines")
	}
	message := strings.Map(visible, known.GetMessage())
	return r.fault(r.at(known.GetToken()), "this YAML cannot be read: "+message, syntaxHint(message))
}

func visible(r rune) rune {
	if r < ' ' || r == 0x7f {
		return '·'
	}
	return r
}

func syntaxHint(message string) string {
	for _, known := range syntaxHints {
		if strings.Contains(message, known.part) {
			return known.hint
		}
	}
	return "keep to `key: value` lines, lists and indented mappings"
}

// syntaxHints: what people do wrong, by a part of the library's message.
var syntaxHints = []struct{ part, hint string }{
	{"mapping value is not allowed", "put the text in quotes when it holds a colon and a space"},
	{"cannot start any token", "indent with spaces, not tabs"},
	{"reserved character", "put the text in quotes"},
	{"quoted text", "close the quote on the same line"},
	{"']'", "close the list with ]"},
	{"'}'", "close the mapping with }"},
	{"unexpected key name", "write `key: value`, one a line"},
	{"value is not allowed", "check the indent of this line against the line above"},
}
