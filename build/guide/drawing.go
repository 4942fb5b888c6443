package guide

import (
	"strings"

	"github.com/yuin/goldmark/ast"

	"blankoff/build/source"
)

// KindDrawing is the kind of a Drawing.
var KindDrawing = ast.NewNodeKind("Drawing")

// Drawing replaces an image with the scheme drawn: that stands alone in its paragraph: a picture that is drawn from data. No children.
type Drawing struct {
	ast.BaseBlock
	Name     string // pins/tq-4
	NameSpan source.Span
	Said     string // what it shows, for those who do not see it
	SaidSpan source.Span
}

// Kind implements ast.Node.
func (*Drawing) Kind() ast.NodeKind { return KindDrawing }

// Dump implements ast.Node.
func (n *Drawing) Dump(source []byte, level int) {
	ast.DumpHelper(n, source, level, map[string]string{"Name": n.Name}, nil)
}

// Caption is the part of the text that stands under the picture; the rest tells the content.
func (n *Drawing) Caption() (title, words string) {
	title, words, _ = strings.Cut(n.Said, ": ")
	return title, strings.TrimSpace(words)
}

const drawnScheme = "drawn:"

// shapeDrawing replaces a paragraph that holds nothing but an image to be drawn. A line of a step holds none: it is one run of text.
func (s *shaper) shapeDrawing(paragraph ast.Node) {
	image, ok := paragraph.FirstChild().(*ast.Image)
	parent := paragraph.Parent()
	if !ok || image.NextSibling() != nil || parent == nil {
		return
	}
	target := string(resolve(image.Destination))
	name, drawn := strings.CutPrefix(target, drawnScheme)
	if !drawn {
		return
	}
	at := linkPlace(image, image.Destination, s.file, s.body)
	n := &Drawing{Name: name, NameSpan: part(at.target, target, len(drawnScheme), len(target)), Said: plain(image, s.body), SaidSpan: at.text}
	if name == "" || n.NameSpan.Len == 0 {
		n.NameSpan = at.whole
	}
	n.SetPos(image.Pos())
	parent.ReplaceChild(parent, paragraph, n)
	s.guide.Drawings = append(s.guide.Drawings, n)
}

// checkDrawing refuses a drawing where a step has text only.
func (s *shaper) checkDrawing(n *Drawing) {
	switch n.Parent().(type) {
	case *Expect, *IfNot:
		s.refuse("drawn", n.NameSpan, "a picture stands inside an `Expect:` or `If not:`", "put it below them, in a paragraph of its own, indented to the step's text")
	}
}

// Log is a block of readings with the info string `log drawn`: it stays a listing, and a plot is drawn above it.
type Log struct {
	Text string
	Span source.Span // of the info string
}

// IsDrawnLog tells whether a fenced block is one.
func IsDrawnLog(fence *ast.FencedCodeBlock, body []byte) bool {
	return fence.Info != nil && strings.Join(strings.Fields(string(fence.Info.Segment.Value(body))), " ") == "log drawn"
}

// Code is the text of a fenced block.
func Code(fence *ast.FencedCodeBlock, body []byte) string {
	var code strings.Builder
	for i := range fence.Lines().Len() {
		line := fence.Lines().At(i)
		code.Write(line.Value(body))
	}
	return code.String()
}

func (s *shaper) noteLog(fence *ast.FencedCodeBlock) {
	if IsDrawnLog(fence, s.body) {
		info := fence.Info.Segment
		s.guide.Logs = append(s.guide.Logs, Log{Code(fence, s.body), s.file.Span(info.Start, info.Stop)})
	}
}
