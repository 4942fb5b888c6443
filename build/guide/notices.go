package guide

import (
	"strings"

	"github.com/yuin/goldmark/ast"

	"blankoff/build/source"
)

// shapeNotices replaces a paragraph that holds only hazard: or stop: links by a block for each.
func (s *shaper) shapeNotices(paragraph ast.Node) {
	var blocks []ast.Node
	for _, inline := range children(paragraph) {
		if s.isBlank(inline) {
			continue
		}
		block := s.notice(inline)
		if block == nil {
			return
		}
		blocks = append(blocks, block)
	}
	parent := paragraph.Parent()
	for _, block := range blocks {
		parent.InsertBefore(parent, paragraph, block)
	}
	if len(blocks) > 0 {
		parent.RemoveChild(parent, paragraph)
	}
}

func (s *shaper) isBlank(n ast.Node) bool {
	t, ok := n.(*ast.Text)
	return ok && strings.TrimSpace(string(t.Value(s.body))) == ""
}

// notice makes the block for a hazard: or stop: link, or nil.
func (s *shaper) notice(n ast.Node) ast.Node {
	link, ok := n.(*ast.Link)
	if !ok {
		return nil
	}
	scheme, name, found := strings.Cut(string(link.Destination), ":")
	if !found || scheme != "hazard" && scheme != "stop" {
		return nil
	}
	at := linkPlace(link, link.Destination, s.file, s.body)
	span := part(at.target, string(link.Destination), len(scheme)+1, len(link.Destination))
	if name == "" {
		span = at.whole
	}
	if scheme == "hazard" {
		ref := &HazardRef{Name: name, NameSpan: span, Said: plain(link, s.body), SaidSpan: at.text}
		ref.SetPos(link.Pos())
		return ref
	}
	ref := &StopRef{Name: name, NameSpan: span, Said: plain(link, s.body), SaidSpan: at.text}
	ref.SetPos(link.Pos())
	return ref
}

// endingStop moves a stop: link from the end of an "If not" line into a block below the line.
func (s *shaper) endingStop(part *IfNot, line ast.Node) {
	last := line.LastChild()
	if last != nil && last.Kind() == ast.KindText && strings.Trim(string(last.(*ast.Text).Value(s.body)), ". ") == "" {
		last = last.PreviousSibling() // the full stop behind the link
	}
	if last == nil {
		return
	}
	ref, ok := s.notice(last).(*StopRef)
	if !ok {
		return
	}
	if behind := last.NextSibling(); behind != nil {
		line.RemoveChild(line, behind)
	}
	line.RemoveChild(line, last)
	part.InsertAfter(part, line, ref)
	if plain(line, s.body) == "" {
		part.RemoveChild(part, line)
	}
}

// cutWord takes a leading word such as "expect:" off a line of text.
func (s *shaper) cutWord(line ast.Node, word string) bool {
	first, ok := line.FirstChild().(*ast.Text)
	if !ok {
		return false
	}
	value := first.Value(s.body)
	if len(value) < len(word) || !strings.EqualFold(string(value[:len(word)]), word) {
		return false
	}
	first.Segment.Start += len(word)
	for first.Segment.Start < first.Segment.Stop && s.body[first.Segment.Start] == ' ' {
		first.Segment.Start++
	}
	return true
}

// shapeCalculator replaces a fenced block with the info string `calculator ID`.
func (s *shaper) shapeCalculator(fence *ast.FencedCodeBlock) {
	if string(fence.Language(s.body)) != "calculator" {
		return
	}
	info := fence.Info.Segment
	text := string(info.Value(s.body))
	id := strings.TrimSpace(strings.TrimPrefix(text, "calculator"))
	from := info.Start + strings.Index(text, id)
	block := &CalculatorBlock{ID: id, IDSpan: s.file.Span(from, from+len(id))}
	block.SetPos(fence.Pos())
	if id == "" || strings.ContainsAny(id, " \t") {
		block.IDSpan = s.file.Span(info.Start, info.Stop)
		s.refuse("calculator-block", block.IDSpan, "a calculator block needs the name of one calculator", "write ```calculator rise-test")
	}
	s.readPresets(block, fence)
	fence.Parent().ReplaceChild(fence.Parent(), fence, block)
}

func (s *shaper) readPresets(block *CalculatorBlock, fence *ast.FencedCodeBlock) {
	if fence.Lines().Len() == 0 {
		return
	}
	mapping, faults := source.ParseMapping(s.file, blockPlace(fence, s.file))
	s.faults = append(s.faults, faults...)
	for _, entry := range mapping.Entries {
		v := entry.Value
		if v.Shape != source.Text {
			s.refuse("calculator-block", v.Span, "the input "+source.Quote(entry.Key)+" holds "+v.Shape.String()+", not a text",
				"write `"+entry.Key+": 28 L`, or leave the line out")
			continue
		}
		block.Presets = append(block.Presets, Preset{
			Name: entry.Key, NameSpan: entry.KeySpan, Text: v.Text, Span: v.Span, Spec: specRef(v.Text, v.Span),
		})
	}
}
