package guide

import (
	"strings"

	"github.com/yuin/goldmark/ast"

	"blankoff/build/source"
)

// shapeFact replaces a link whose scheme is spec: or calc:.
func (s *shaper) shapeFact(n *ast.Link) {
	scheme, _, found := strings.Cut(string(n.Destination), ":")
	if !found || scheme != "spec" && scheme != "calc" {
		return
	}
	at := linkPlace(n, n.Destination, s.file, s.body)
	fact := &Fact{Said: plain(n, s.body), SaidSpan: at.text, Target: string(n.Destination), Span: at.target}
	fact.SetPos(n.Pos())
	if scheme == "spec" {
		fact.Spec = specRef(fact.Target, at.target)
	} else {
		fact.Calc = calcRef(fact.Target, at.target)
	}
	adopt(fact, n)
	n.Parent().ReplaceChild(n.Parent(), n, fact)
}

// part is a piece of a longer text; a place stays right when its text is the file's own.
func part(span source.Span, text string, from, to int) source.Span {
	if span.Text() != text { // a link by reference: the target stands elsewhere
		return span
	}
	return span.File.Span(span.Start+from, span.Start+to)
}

// specRef reads spec:NAME or spec:MACHINE/NAME; nil when the text is nothing of the kind.
func specRef(text string, span source.Span) *SpecRef {
	rest, found := strings.CutPrefix(text, "spec:")
	if !found {
		return nil
	}
	ref := &SpecRef{Name: rest, Span: part(span, text, len("spec:"), len(text))}
	if machine, name, both := strings.Cut(rest, "/"); both {
		ref.Machine, ref.Name = machine, name
	}
	return ref
}

// ReadCalc reads a calculation that stands elsewhere than in a link: ID?name=text&name=text, with or without calc: before it.
func ReadCalc(text string, span source.Span) *CalcRef { return calcRef(text, span) }

// calcRef reads calc:ID?name=text&name=text. The texts are taken as they stand, without
// percent signs meaning anything: `gauge=20 %` is an accuracy.
func calcRef(text string, span source.Span) *CalcRef {
	at := len(text) - len(strings.TrimPrefix(text, "calc:"))
	id, query, _ := strings.Cut(text[at:], "?")
	ref := &CalcRef{ID: id, IDSpan: part(span, text, at, at+len(id))}
	at += len(id) + 1
	for pair := range strings.SplitSeq(query, "&") {
		name, value, _ := strings.Cut(pair, "=")
		from := min(at+len(name)+1, len(text))
		preset := Preset{
			Name: name, NameSpan: part(span, text, min(at, len(text)), min(at+len(name), len(text))),
			Text: strings.TrimSpace(value), Span: part(span, text, from, min(from+len(value), len(text))),
		}
		at += len(pair) + 1
		if name == "out" {
			ref.Out, ref.OutSpan = preset.Text, preset.Span
			continue
		}
		preset.Spec = specRef(preset.Text, preset.Span)
		if pair != "" {
			ref.Inputs = append(ref.Inputs, preset)
		}
	}
	return ref
}

// takeLink lists a link or picture that is none of our own nodes.
func (s *shaper) takeLink(n ast.Node) {
	switch n := n.(type) {
	case *ast.Link:
		s.addLink(n, n.Destination, false)
	case *ast.Image:
		s.addLink(n, n.Destination, true)
	case *ast.AutoLink:
		start := max(n.Pos(), 0)
		span := s.file.Span(start, start+len(n.Label(s.body))+2)
		target := string(n.URL(s.body))
		if n.AutoLinkType == ast.AutoLinkEmail && !strings.HasPrefix(strings.ToLower(target), "mailto:") {
			target = "mailto:" + target
		}
		s.guide.Links = append(s.guide.Links, &Link{Node: n, Target: target, Span: span, Text: target, TextSpan: span, Auto: true})
	}
}

func (s *shaper) addLink(n ast.Node, target []byte, picture bool) {
	at := linkPlace(n, target, s.file, s.body)
	link := &Link{Node: n, Target: string(resolve(target)), Span: at.target, Text: plain(n, s.body), TextSpan: at.text, Picture: picture}
	if link.Span.Len == 0 {
		link.Span = at.whole
	}
	s.guide.Links = append(s.guide.Links, link)
	switch scheme, _, found := strings.Cut(link.Target, ":"); {
	case !found || picture:
	case scheme == "hazard":
		s.refuse("hazard-place", at.whole, "a hazard link must stand alone in its paragraph",
			"put it into a paragraph of its own, before the action of the step it concerns")
	case scheme == "stop":
		s.refuse("stop-place", at.whole, "a stop link must stand alone in its paragraph or end an `If not:` line",
			"move it to the end of the line, or into a paragraph of its own")
	}
}
