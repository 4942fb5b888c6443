package guide

import (
	"bytes"
	"slices"

	"github.com/yuin/goldmark/ast"
	east "github.com/yuin/goldmark/extension/ast"
	"github.com/yuin/goldmark/text"
	"github.com/yuin/goldmark/util"

	"blankoff/build/prose"
	"blankoff/build/source"
)

// KindQuantity is the node around the text of a quantity.
var KindQuantity = ast.NewNodeKind("Quantity")

// Quantity stands around the pieces of text that a quantity of the running text covers.
type Quantity struct {
	ast.BaseInline
	Said string     // as a reader sees it: escapes resolved, a line break as a space
	Mark prose.Mark // its places are those in Said
	Span source.Span
	Step *Step // nil outside steps
}

// Doubt is a place in the running text that could be read in two ways.
type Doubt struct {
	Span          source.Span
	Message, Hint string
}

// Kind implements ast.Node.
func (*Quantity) Kind() ast.NodeKind { return KindQuantity }

// Dump implements ast.Node.
func (n *Quantity) Dump(source []byte, level int) {
	ast.DumpHelper(n, source, level, map[string]string{"Said": n.Said}, nil)
}

// find is what knows quantities; only tests put another in its place.
var find = prose.Find

// searchText looks for quantities in the text that a node holds itself.
func (s *shaper) searchText(n ast.Node) {
	if !holdsProse(n) {
		return
	}
	for child := n.FirstChild(); child != nil; {
		pieces := s.pieces[:0]
		for piece, ok := child.(*ast.Text); ok; piece, ok = child.(*ast.Text) {
			pieces = append(pieces, piece)
			if child = child.NextSibling(); piece.HardLineBreak() {
				break
			}
		}
		s.pieces = pieces
		if len(pieces) == 0 {
			child = child.NextSibling()
		} else if slices.ContainsFunc(pieces, s.mayHold) {
			s.searchRun(n, s.run(pieces))
		}
	}
}

// holdsProse tells running text from code, pictures and checked facts, whose children are text too.
func holdsProse(n ast.Node) bool {
	switch n.(type) {
	case *ast.Paragraph, *ast.TextBlock, *ast.Heading, *east.TableCell:
		return true
	case *ast.Emphasis, *ast.Link:
		return holdsProse(n.Parent())
	}
	return false
}

// mayHold tells whether there is a digit: most pieces have none, and cost no more than this look.
func (s *shaper) mayHold(piece *ast.Text) bool {
	return bytes.ContainsAny(piece.Value(s.body), "0123456789")
}

func (s *shaper) searchRun(parent ast.Node, r *run) {
	said := string(r.said)
	marks, doubts := find(said)
	for _, d := range doubts {
		span := s.file.Span(r.start(d.From), r.end(d.To))
		s.guide.Doubts = append(s.guide.Doubts, Doubt{Span: span, Message: d.Message, Hint: d.Hint})
	}
	for _, m := range marks {
		from, to := r.start(m.From), r.end(m.To)
		q := &Quantity{Said: said[m.From:m.To], Mark: Alone(m), Span: s.file.Span(from, to)}
		q.SetPos(from)
		r.pieces = wrap(parent, r.pieces, q, from, to)
	}
}

// Alone gives a mark as that of a text which is the quantity and nothing else.
func Alone(m prose.Mark) prose.Mark {
	numbers := slices.Clone(m.Numbers)
	for i := range numbers {
		n := &numbers[i]
		n.From, n.To = n.From-m.From, n.To-m.From
		if n.UnitTo > 0 {
			n.UnitFrom, n.UnitTo = n.UnitFrom-m.From, n.UnitTo-m.From
		}
	}
	m.From, m.To, m.Numbers = 0, m.To-m.From, numbers
	return m
}

// wrap moves what stands from one byte of the file up to another out of the pieces into the quantity, and gives the
// pieces that come after it. A line break stays outside, unless it is within the quantity.
func wrap(parent ast.Node, pieces []*ast.Text, q *Quantity, from, to int) []*ast.Text {
	for len(pieces) > 0 && pieces[0].Segment.Stop <= from {
		pieces = pieces[1:]
	}
	if len(pieces) == 0 {
		return nil
	}
	if first := pieces[0]; first.Segment.Start < from {
		parent.InsertBefore(parent, first, cut(first, from))
	}
	parent.InsertBefore(parent, pieces[0], q)
	for len(pieces) > 0 && pieces[0].Segment.Start < to {
		piece := pieces[0]
		breaks := piece.SoftLineBreak() || piece.HardLineBreak()
		if piece.Segment.Stop > to || piece.Segment.Stop == to && breaks {
			q.AppendChild(q, cut(piece, to))
			break
		}
		q.AppendChild(q, piece) // which takes it from its parent
		pieces = pieces[1:]
	}
	return pieces
}

// cut takes the beginning of a piece off, up to a byte of the file.
func cut(piece *ast.Text, at int) *ast.Text {
	head := ast.NewTextSegment(text.NewSegmentPadding(piece.Segment.Start, at, piece.Segment.Padding))
	head.SetRaw(piece.IsRaw())
	piece.Segment = text.NewSegment(at, piece.Segment.Stop)
	return head
}

// run is the text of pieces that stand side by side, as a reader sees it, and where it stands in the file.
type run struct {
	pieces []*ast.Text
	said   []byte
	parts  []runPart
	first  [4]runPart // most runs need no more
}

// runPart is a part of the text that stands in the file as it is, or one character that is written in another way there.
type runPart struct {
	at, length   int // in the text
	from, to     int // bytes of the file
	otherWritten bool
}

func (s *shaper) run(pieces []*ast.Text) *run {
	r := &run{pieces: pieces, said: make([]byte, 0, pieces[len(pieces)-1].Segment.Stop-pieces[0].Segment.Start)}
	r.parts = r.first[:0]
	for i, piece := range pieces {
		r.addPiece(s.body, piece)
		if piece.SoftLineBreak() && i+1 < len(pieces) {
			r.add([]byte(" "), piece.Segment.Stop, pieces[i+1].Segment.Start, true)
		}
	}
	return r
}

func (r *run) add(said []byte, from, to int, otherWritten bool) {
	if len(said) > 0 {
		r.parts = append(r.parts, runPart{len(r.said), len(said), from, to, otherWritten})
		r.said = append(r.said, said...)
	}
}

// longestEntity is longer than any name of a character in HTML.
const longestEntity = 40

// addPiece resolves what stands for a character: \- and &deg;.
func (r *run) addPiece(body []byte, piece *ast.Text) {
	done, stop := piece.Segment.Start, piece.Segment.Stop
	for i := done; i < stop && !piece.IsRaw(); {
		next := bytes.IndexAny(body[i:stop], `\&`)
		if next < 0 {
			break
		}
		i += next
		end := i + written(body[i:stop])
		if said := resolve(body[i:end]); end > i+1 && !bytes.Equal(said, body[i:end]) {
			r.add(body[done:i], done, i, false)
			r.add(said, i, end, true)
			done = end
		} else {
			end = i + 1
		}
		i = end
	}
	r.add(body[done:stop], done, stop, false)
}

// written is how many bytes may stand for one character at the beginning of a text.
func written(text []byte) int {
	if text[0] == '\\' {
		if len(text) > 1 && util.IsPunct(text[1]) {
			return 2
		}
		return 1
	}
	return 1 + bytes.IndexByte(text[:min(len(text), longestEntity)], ';')
}

// part finds the part that a byte of the text belongs to.
func (r *run) part(at int) runPart {
	i, exact := slices.BinarySearchFunc(r.parts, at, func(p runPart, at int) int { return p.at - at })
	if !exact {
		i--
	}
	return r.parts[i]
}

// start is where something that begins at a byte of the text begins in the file.
func (r *run) start(at int) int {
	p := r.part(at)
	if p.otherWritten {
		return p.from
	}
	return p.from + at - p.at
}

// end is where something that ends before a byte of the text ends in the file.
func (r *run) end(at int) int {
	p := r.part(at - 1)
	if p.otherWritten {
		return p.to
	}
	return p.from + at - p.at
}
