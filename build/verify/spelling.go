package verify

import (
	"strings"
	"unicode/utf8"

	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/util"

	"blankoff/build/guide"
	"blankoff/build/source"
)

// spelling is the text of a fact as a reader sees it, with the bytes of the file that each of its bytes comes from:
// emphasis, entities (&nbsp;), escapes (\.) and line ends stand between the two.
type spelling struct {
	text     strings.Builder
	from, to []int
}

// spell reads the spelling of a fact.
func spell(fact *guide.Fact) *spelling {
	s := &spelling{}
	raw := fact.SaidSpan.File.Text
	_ = ast.Walk(fact, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		text, ok := n.(*ast.Text)
		if !ok || !entering {
			return ast.WalkContinue, nil
		}
		segment := text.Segment
		s.take(raw[:segment.Stop], segment.Start, n.Parent().Kind() == ast.KindCodeSpan)
		if text.SoftLineBreak() || text.HardLineBreak() {
			s.add(" ", segment.Stop, segment.Stop+1)
		}
		return ast.WalkContinue, nil
	})
	return s
}

// take reads the raw text from a place to its end.
func (s *spelling) take(raw string, at int, literal bool) {
	for at < len(raw) {
		size := 1
		if !literal {
			size = unitLength(raw[at:])
		}
		piece := raw[at : at+size]
		if size > 1 {
			piece = string(util.ResolveEntityNames(util.ResolveNumericReferences(util.UnescapePunctuations([]byte(piece)))))
		}
		s.add(piece, at, at+size)
		at += size
	}
}

// unitLength is how many bytes stand for one character: two of \., six of &nbsp;
func unitLength(raw string) int {
	switch {
	case raw[0] == '\\' && len(raw) > 1 && util.IsPunct(raw[1]):
		return 2
	case raw[0] == '&':
		if end := strings.IndexByte(raw[:min(len(raw), 40)], ';'); end > 1 && strings.Trim(raw[1:end], "#0123456789abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ") == "" {
			return end + 1
		}
	}
	return 1
}

// add notes a character: all bytes of it come from the same place.
func (s *spelling) add(piece string, from, to int) {
	s.text.WriteString(piece)
	for i := range len(piece) {
		if to-from == len(piece) {
			s.from, s.to = append(s.from, from+i), append(s.to, from+i+1)
			continue
		}
		s.from, s.to = append(s.from, from), append(s.to, to)
	}
}

// edits carries edits of the text over to the file. It fails where the file has something between the letters.
func (s *spelling) edits(list []edit) ([]edit, bool) {
	text := s.text.String()
	var raw []edit
	for _, whole := range list {
		for _, e := range sparing(text, whole) {
			for i := e.from; i < e.to-1; i++ {
				if s.to[i] != s.from[i+1] && s.from[i] != s.from[i+1] {
					return nil, false
				}
			}
			raw = append(raw, edit{s.from[e.from], s.to[e.to-1], e.text})
		}
	}
	return raw, true
}

// sparing leaves alone what an edit would write as it was, where old and new text have the same length: &#8239; between
// the digits of 1 900 stays so.
func sparing(text string, e edit) []edit {
	old, fresh := []rune(text[e.from:e.to]), []rune(e.text)
	if len(old) != len(fresh) {
		return []edit{e}
	}
	var list []edit
	at := e.from
	for i, r := range old {
		size := utf8.RuneLen(r)
		if r != fresh[i] {
			list = append(list, edit{at, at + size, string(fresh[i])})
		}
		at += size
	}
	return list
}

// isOwnName tells whether a fact's text is also the name of its target: [350 mTorr] with a line [350 mTorr]: spec:…
// below. To change the one is to lose the other.
func isOwnName(said source.Span) bool {
	behind := said.File.Text[min(said.End()+1, len(said.File.Text)):]
	if strings.HasPrefix(behind, "(") {
		return false
	}
	return !strings.HasPrefix(behind, "[") || strings.HasPrefix(behind, "[]")
}
