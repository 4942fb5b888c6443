package verify

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/yuin/goldmark/ast"
	east "github.com/yuin/goldmark/extension/ast"

	"blankoff/build/guide"
	"blankoff/build/source"
)

// passage is a run of text that is read in one go: a paragraph, a bullet, a heading, a cell of a table. Code, the
// targets of links, and hazards (whose words are the catalogue's) are not in it.
type passage struct {
	words   []word
	links   []*guide.Link
	step    *guide.Step // nil outside steps
	part    part
	in      ast.Node       // the Action, Expect or IfNot, for a step with several of them
	section *guide.Section // nil above the first heading
	heading bool
	cell    bool // of a table
}

// part is where in a step a passage stands.
type part uint8

const (
	noPart part = iota
	actionPart
	expectPart
	ifNotPart
	restPart
)

// word is a word or a number with its place in the file.
type word struct {
	text     string // in lower case, without a possessive 's
	from, to int
	gap      gap  // what stands before it
	hyphen   bool // it hangs on the word before: plug-in
}

// gap is what parts two words, the stronger the larger.
type gap uint8

const (
	beside   gap = iota // a space, a hyphen, a stroke, a quotation mark
	comma               // ,
	clause              // ; : ( ) or a dash
	sentence            // . ! ? or the beginning of the passage
)

// passages reads the words of a page, once for all rules.
func passages(page *guide.Guide) []*passage {
	r := &passageReader{page: page, links: map[ast.Node]*guide.Link{}}
	for _, link := range page.Links {
		r.links[link.Node] = link
	}
	sections := map[ast.Node]*guide.Section{}
	for _, s := range page.Sections {
		sections[s.Heading.Node] = s
	}
	for n := page.Doc.FirstChild(); n != nil; n = n.NextSibling() {
		if s := sections[n]; s != nil {
			r.section = s
		}
		r.read(n)
	}
	return r.list
}

type passageReader struct {
	page    *guide.Guide
	links   map[ast.Node]*guide.Link
	section *guide.Section
	step    *guide.Step
	part    part
	in      ast.Node
	list    []*passage
}

func (r *passageReader) read(root ast.Node) {
	_ = ast.Walk(root, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		r.enter(n, entering)
		if !entering || n.Type() != ast.TypeBlock || n.FirstChild() == nil || n.FirstChild().Type() != ast.TypeInline {
			return ast.WalkContinue, nil
		}
		r.list = append(r.list, r.passage(n))
		return ast.WalkSkipChildren, nil
	})
}

// enter keeps track of the step and its part.
func (r *passageReader) enter(n ast.Node, entering bool) {
	switch n := n.(type) {
	case *guide.Step:
		if r.step = nil; entering {
			r.step = n
		}
	case *guide.Action:
		r.place(n, actionPart, entering)
	case *guide.Expect:
		r.place(n, expectPart, entering)
	case *guide.IfNot:
		r.place(n, ifNotPart, entering)
	case *guide.Rest:
		r.place(n, restPart, entering)
	}
}

func (r *passageReader) place(n ast.Node, p part, entering bool) {
	if r.part, r.in = noPart, nil; entering {
		r.part, r.in = p, n
	}
}

func (r *passageReader) passage(block ast.Node) *passage {
	p := &passage{step: r.step, part: r.part, in: r.in, section: r.section, heading: block.Kind() == ast.KindHeading, cell: block.Kind() == east.KindTableCell}
	var runs []run
	_ = ast.Walk(block, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering {
			return ast.WalkContinue, nil
		}
		if link := r.links[n]; link != nil {
			p.links = append(p.links, link)
		}
		switch n := n.(type) {
		case *ast.CodeSpan, *ast.AutoLink:
			return ast.WalkSkipChildren, nil
		case *ast.Text:
			runs = addRun(runs, n.Segment.Start, n.Segment.Stop)
		}
		return ast.WalkContinue, nil
	})
	before := sentence
	for _, at := range runs {
		p.words, before = cutWords(p.words, r.page.File.Text, at, before)
	}
	return p
}

// run is a stretch of plain text in the file.
type run struct{ from, to int }

// addRun joins what goldmark cuts where a mark might have started.
func addRun(runs []run, from, to int) []run {
	if last := len(runs) - 1; last >= 0 && runs[last].to == from {
		runs[last].to = to
		return runs
	}
	return append(runs, run{from, to})
}

// cutWords cuts a run into words; the gap before its first word goes on from the run before.
func cutWords(words []word, whole string, at run, before gap) ([]word, gap) {
	text := whole[at.from:at.to]
	words = slices.Grow(words, len(text)/5) // an English word and its space have more letters
	for i := 0; i < len(text); {
		r, size := utf8.DecodeRuneInString(text[i:])
		if !isWordRune(r) {
			before = max(before, gapOf(text, i, size))
			i += size
			continue
		}
		end := wordEnd(text, i)
		words = append(words, word{text: folded(text[i:end]), from: at.from + i, to: at.from + end, gap: before, hyphen: i > 0 && text[i-1] == '-'})
		before, i = beside, end
	}
	return words, before
}

func isWordRune(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) }

// wordEnd is where a word ends: an apostrophe between letters belongs to it, as does the mark inside 1,500 and 0.5.
func wordEnd(text string, from int) int {
	last := rune(0)
	start := plainEnd(text, from)
	if start > from {
		last = rune(text[start-1])
	}
	for i := start; i < len(text); {
		r, size := utf8.DecodeRuneInString(text[i:])
		if !isWordRune(r) {
			next, _ := utf8.DecodeRuneInString(text[i+size:])
			inside := strings.ContainsRune("'’", r) && unicode.IsLetter(last) && unicode.IsLetter(next) ||
				strings.ContainsRune(".,", r) && unicode.IsDigit(last) && unicode.IsDigit(next)
			if !inside {
				return i
			}
		}
		last, i = r, i+size
	}
	return len(text)
}

// plainEnd is where a run of small letters and digits ends, which most words are wholly.
func plainEnd(text string, at int) int {
	for at < len(text) && (text[at] >= 'a' && text[at] <= 'z' || text[at] >= '0' && text[at] <= '9') {
		at++
	}
	return at
}

// gapOf tells how strongly a mark parts the words around it. A full stop or comma counts only before a space.
func gapOf(text string, at, size int) gap {
	mark, after := text[at:at+size], text[at+size:]
	if mark == " " {
		return beside
	}
	spaced := after == "" || strings.ContainsAny(after[:1], " \n\r\t)\"'*_]")
	switch mark {
	case ".", "!", "?", "…":
		if spaced {
			return sentence
		}
	case ";", ":", "(", ")", "—", "–":
		return clause
	case ",":
		if spaced {
			return comma
		}
	}
	return beside
}

// folded is how words are compared: lower case, one kind of apostrophe, no possessive.
func folded(text string) string {
	if plainEnd(text, 0) == len(text) {
		return text // most words
	}
	text = strings.ReplaceAll(strings.ToLower(text), "’", "'")
	return strings.TrimSuffix(text, "'s")
}

// span is the place of words i up to j.
func (p *passage) span(file *source.File, i, j int) source.Span {
	return file.Span(p.words[i].from, p.words[j-1].to)
}
