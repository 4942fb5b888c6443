package guide

import (
	"fmt"
	"strings"
	"sync"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/extension"
	"github.com/yuin/goldmark/parser"
	"github.com/yuin/goldmark/text"

	"blankoff/build/source"
)

// Markdown is the one configured reader of our pages: CommonMark with tables. Raw HTML is
// not passed through: without goldmark's "unsafe" option its renderer leaves a comment in its place,
// and verification reports it. Options add node renderers.
func Markdown(options ...goldmark.Option) goldmark.Markdown {
	return goldmark.New(append([]goldmark.Option{goldmark.WithExtensions(tables)}, options...)...)
}

// tables align by attribute: the pages' Content-Security-Policy takes no style attributes.
var tables = extension.NewTable(extension.WithTableCellAlignMethod(extension.TableCellAlignAttribute))

// reader is made once: setting it up costs as much as reading a short page. It keeps nothing between pages.
var reader = sync.OnceValue(func() parser.Parser { return Markdown().Parser() })

func parseMarkdown(body []byte) ast.Node {
	return reader().Parse(text.NewReader(body))
}

// deepest is how many quotes and lists may start on one line. goldmark calls itself once a level,
// and a stack overflow cannot be caught.
const deepest = 20

// longest is more than any paragraph needs. Some faulty links cost goldmark the square of the line's length.
const longest = 10000

// unreadable finds a line that is beyond all use: too long, or nesting too many quotes and lists.
func unreadable(file *source.File, body []byte) (source.Fault, bool) {
	start := 0
	for line := range strings.Lines(string(body)) {
		if len(line) > longest {
			return source.Fault{
				Rule: "long-line", Span: file.Span(start, start+1), Message: fmt.Sprintf("this line has %d bytes; %d is the most", len(line), longest),
				Hint: "break it into paragraphs",
			}, true
		}
		marks := 0
		for word := range strings.FieldsSeq(line) {
			if !opensBlock(word) {
				break
			}
			marks += max(strings.Count(word, ">"), 1)
		}
		if marks > deepest && strings.Trim(line, "*-_ \t\r\n") != "" || marks > 50*deepest {
			return source.Fault{
				Rule: "depth", Span: file.Span(start, start+1), Message: "this line opens too many lists or quotes inside each other",
				Hint: "start one list item on a line",
			}, true
		}
		start += len(line)
	}
	return openBrackets(file, body)
}

func opensBlock(word string) bool {
	number := strings.Trim(word, "0123456789")
	return word == "-" || word == "*" || word == "+" || word[0] == '>' || number == "." || number == ")"
}

// plain is the text of inline content without its marks, line breaks as spaces.
func plain(n ast.Node, body []byte) string {
	var b strings.Builder
	_ = ast.Walk(n, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering {
			return ast.WalkContinue, nil
		}
		switch n := n.(type) {
		case *ast.Text:
			b.Write(resolve(n.Value(body)))
			if n.SoftLineBreak() || n.HardLineBreak() {
				b.WriteByte(' ')
			}
		case *ast.String:
			b.Write(n.Value)
		case *ast.AutoLink:
			b.Write(n.Label(body))
		}
		return ast.WalkContinue, nil
	})
	return strings.Join(strings.Fields(b.String()), " ")
}
