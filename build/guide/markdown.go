package guide

import (
	"strings"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/extension"
	"github.com/yuin/goldmark/text"

	"blankoff/build/source"
)

// Markdown is the one configured reader of our pages: CommonMark with tables. Raw HTML is
// not passed through: without goldmark's "unsafe" option its renderer leaves a comment in its place,
// and verification reports it. Options add node renderers.
func Markdown(options ...goldmark.Option) goldmark.Markdown {
	return goldmark.New(append([]goldmark.Option{goldmark.WithExtensions(extension.Table)}, options...)...)
}

func parseMarkdown(body []byte) ast.Node {
	return Markdown().Parser().Parse(text.NewReader(body))
}

// deepest is how many quotes and lists may start on one line. goldmark calls itself once a level,
// and a stack overflow cannot be caught.
const deepest = 20

// tooDeep finds a line that nests quotes and lists beyond all use.
func tooDeep(file *source.File, body []byte) (source.Span, bool) {
	start := 0
	for line := range strings.Lines(string(body)) {
		marks := 0
		for word := range strings.FieldsSeq(line) {
			if !opensBlock(word) {
				break
			}
			marks += max(strings.Count(word, ">"), 1)
		}
		if marks > deepest && strings.Trim(line, "*-_ \t\r\n") != "" || marks > 50*deepest {
			return file.Span(start, start+1), true
		}
		start += len(line)
	}
	return source.Span{}, false
}

func opensBlock(word string) bool {
	return word == "-" || word == "*" || word == "+" || word[0] == '>' ||
		len(word) < 11 && strings.Trim(word, "0123456789") == "." || strings.Trim(word, "0123456789") == ")"
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
