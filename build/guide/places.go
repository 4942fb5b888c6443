package guide

import (
	"bytes"

	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/util"

	"blankoff/build/source"
)

// place is where a link and its parts stand. goldmark keeps only the start of a link.
type place struct {
	whole, text, target source.Span
}

// linkPlace finds the parts of an inline link or picture: [text](target "title").
// The target of a link by reference stands elsewhere; it gets the place of the link.
func linkPlace(n ast.Node, target []byte, file *source.File, body []byte) place {
	start := max(n.Pos(), 0)
	open := start + 1
	if _, picture := n.(*ast.Image); picture {
		open++
	}
	textEnd := seek(body, max(inlineEnd(n, file, body), open), "]")
	p := place{whole: file.Span(start, textEnd+1), text: file.Span(open, textEnd)}
	p.target = p.whole
	if textEnd+1 < len(body) && body[textEnd+1] == '(' {
		from := textEnd + 2
		if at := bytes.Index(body[from:], target); at >= 0 {
			from += at
		}
		p.target = file.Span(from, from+len(target))
		p.whole = file.Span(start, seek(body, from+len(target), ")")+1)
	}
	return p
}

// inlineEnd is the offset behind the last thing inside an inline node.
func inlineEnd(n ast.Node, file *source.File, body []byte) int {
	last := n.LastChild()
	if last == nil {
		return 0
	}
	switch last := last.(type) {
	case *ast.Text:
		return last.Segment.Stop
	case *ast.Link:
		return linkPlace(last, last.Destination, file, body).whole.End()
	case *ast.Image:
		return linkPlace(last, last.Destination, file, body).whole.End()
	case *ast.AutoLink:
		return last.Pos() + len(last.Label(body)) + 2
	case *ast.RawHTML:
		if k := last.Segments.Len(); k > 0 {
			return last.Segments.At(k - 1).Stop
		}
	}
	return inlineEnd(last, file, body)
}

// seek is the offset of the first mark at or after an offset, or the end of the text.
func seek(body []byte, from int, mark string) int {
	from = min(from, len(body))
	if i := bytes.Index(body[from:], []byte(mark)); i >= 0 {
		return from + i
	}
	return len(body)
}

// blockPlace is the text that a block's lines cover.
func blockPlace(n ast.Node, file *source.File) source.Span {
	if n.Type() == ast.TypeBlock && n.Lines() != nil && n.Lines().Len() > 0 {
		lines := n.Lines()
		return file.Span(lines.At(0).Start, lines.At(lines.Len()-1).Stop)
	}
	start := max(n.Pos(), 0)
	for child := n.FirstChild(); child != nil; child = child.NextSibling() {
		if child.Type() == ast.TypeBlock {
			inner := blockPlace(child, file)
			return file.Span(inner.Start, inner.End())
		}
	}
	return file.Span(start, start)
}

// resolve undoes Markdown's ways of writing a character: \* and &amp;.
func resolve(raw []byte) []byte {
	return util.ResolveEntityNames(util.ResolveNumericReferences(util.UnescapePunctuations(raw)))
}
