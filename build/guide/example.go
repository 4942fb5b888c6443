package guide

import (
	"strings"

	"github.com/yuin/goldmark/ast"

	"blankoff/build/source"
)

// KindExampleBlock is the kind of an ExampleBlock.
var KindExampleBlock = ast.NewNodeKind("ExampleBlock")

// ExampleBlock replaces a fenced block with the info string `example RULE`: here the page shows what breaks that rule of
// verify, what is said of it, and what keeps it. No children.
type ExampleBlock struct {
	ast.BaseBlock
	RuleName string
	Span     source.Span // of the rule's name
}

// Kind implements ast.Node.
func (*ExampleBlock) Kind() ast.NodeKind { return KindExampleBlock }

// Dump implements ast.Node.
func (n *ExampleBlock) Dump(source []byte, level int) {
	ast.DumpHelper(n, source, level, map[string]string{"Rule": n.RuleName}, nil)
}

// shapeExample replaces a fenced block that asks for the example of a rule.
func (s *shaper) shapeExample(fence *ast.FencedCodeBlock) {
	if fence.Parent() == nil || string(fence.Language(s.body)) != "example" {
		return
	}
	info := fence.Info.Segment
	rest := strings.TrimPrefix(string(info.Value(s.body)), "example")
	name := strings.TrimSpace(rest)
	from := info.Stop - len(strings.TrimLeft(rest, " \t"))
	block := &ExampleBlock{RuleName: name, Span: s.file.Span(from, from+len(name))}
	if name == "" {
		block.Span = s.file.Span(info.Start, info.Stop)
	}
	block.SetPos(fence.Pos())
	if fence.Lines().Len() > 0 {
		s.refuse("example-block", block.Span, "the lines of an example block are not shown", "leave it empty: the example stands with the rule")
	}
	fence.Parent().ReplaceChild(fence.Parent(), fence, block)
	s.guide.Examples = append(s.guide.Examples, block)
}
