package search

import (
	"bytes"
	"html"
	"path"
	"strings"
	"sync"

	"github.com/tdewolff/parse/v2"
	lex "github.com/tdewolff/parse/v2/html"

	"blankoff/build/edition"
)

// document is what one page gives to the index.
type document struct {
	address, title string
	blocks         []block
}

// block is a paragraph, a cell, a heading: what a reader takes in at once.
type block struct {
	field field
	fixed bool // counts as it stands, however many pages say the same
	said  string
	terms []string
}

// reader goes through a page from its start to its end.
type reader struct {
	document
	open  []element
	cuts  *cuts
	block block
	said  strings.Builder
	list  bool // a page that only leads to others
}

// element is an open one, and what holds within it.
type element struct {
	name        string
	field       field
	skip, fixed bool
}

// readPage gives what can be found on a page; nil where nothing can.
func readPage(file edition.File, known *cuts) *document {
	address, isPage := strings.CutSuffix(file.Path, "index.html")
	if !isPage {
		return nil
	}
	from, to := bytes.Index(file.Bytes, []byte("<main")), bytes.LastIndex(file.Bytes, []byte("</main>"))
	if from < 0 || to < from {
		return nil
	}
	r := &reader{document: document{address: address}, cuts: known}
	for l := lex.NewLexer(parse.NewInputBytes(bytes.Clone(file.Bytes[from:to]))); ; {
		kind, data := l.Next()
		switch kind {
		case lex.ErrorToken:
			return r.finished()
		case lex.StartTagToken:
			t := tagOf(l)
			r.start(t)
			if t.closed || void[t.name] {
				r.end(t.name)
			}
		case lex.EndTagToken:
			r.end(nameOf(l.Text()))
		case lex.TextToken:
			r.text(unescaped(data))
		}
	}
}

func (r *reader) finished() *document {
	r.title = strings.Join(strings.Fields(r.title), " ")
	if r.title == "" || r.list {
		return nil
	}
	// The author's name for the page tells what it is about: stuck-high.
	r.block = block{field: heading, fixed: true}
	r.said.WriteString(path.Base(r.address))
	r.flush()
	return &r.document
}

// tag is a start tag with the attributes that count here.
type tag struct {
	name, class, kind, value, alt string
	closed                        bool
}

func tagOf(l *lex.Lexer) tag {
	t := tag{name: nameOf(l.Text())}
	for {
		switch kind, _ := l.Next(); kind {
		case lex.AttributeToken:
			switch string(l.AttrKey()) {
			case "class":
				t.class = attribute(l)
			case "data-kind":
				t.kind = attribute(l)
			case "value":
				t.value = attribute(l)
			case "alt":
				t.alt = attribute(l)
			}
		case lex.StartTagVoidToken:
			t.closed = true
			return t
		case lex.ErrorToken, lex.StartTagCloseToken:
			return t
		}
	}
}

func attribute(l *lex.Lexer) string { return unescaped(bytes.Trim(l.AttrVal(), `"'`)) }

func unescaped(text []byte) string {
	if bytes.IndexByte(text, '&') < 0 {
		return string(text)
	}
	return html.UnescapeString(string(text))
}

// nameOf gives the name of an element, without new memory for those that pages are full of.
func nameOf(name []byte) string {
	if known, found := names[string(name)]; found {
		return known
	}
	return string(name)
}

var names = func() map[string]string {
	all := map[string]string{}
	for _, name := range strings.Fields("a b br code data dd div dl dt em h1 h2 h3 i input label li main ol option p section select small span strong sub sup table tbody td th tr ul") {
		all[name] = name
	}
	return all
}()

var (
	void   = setOf("input br img hr wbr meta link source col")
	inline = setOf("a abbr b cite code data em i img kbd label mark s small span strong sub sup svg var")
	// skipped elements say nothing of the page, nor do parts of the classes in unread.
	skipped = setOf("nav select option textarea button script style template title pre")
	unread  = setOf("foot sign reader keys tools report number tick")
	// besides are classes of parts that many pages share, or that tell of other pages.
	besides = setOf("hazard hazards stop facts entries cautions working more plan")
	lists   = setOf("index home missing search")
)

func setOf(words string) map[string]bool {
	set := map[string]bool{}
	for _, word := range strings.Fields(words) {
		set[word] = true
	}
	return set
}

func (r *reader) start(t tag) {
	name := t.name
	if !inline[name] {
		r.flush()
	}
	at := element{name: name, field: text}
	if n := len(r.open); n > 0 {
		at = r.open[n-1]
		at.name = name
	}
	at.skip = at.skip || skipped[name]
	for _, class := range strings.Fields(t.class) {
		switch {
		case name == "main" && lists[class]:
			r.list = true
		case besides[class]:
			at.field = aside
		case unread[class]:
			at.skip = true
		case class == "summary":
			at.field = heading
		case class == "values": // a machine's card says what other pages repeat
			at.fixed = true
		}
	}
	switch name {
	case "h1":
		at.field, at.fixed = title, true
	case "h2", "h3":
		at.field = max(at.field, heading)
	case "data":
		if terms := dataTerms(t.kind, t.value); !at.skip && at.fixed {
			r.blocks = append(r.blocks, block{field: heading, fixed: true, terms: terms})
		} else if !at.skip {
			r.block.terms = append(r.block.terms, terms...)
		}
		at.skip = at.skip || t.kind != "thread"
	}
	if len(r.block.terms) == 0 && r.said.Len() == 0 || !inline[name] {
		r.block.field, r.block.fixed = at.field, at.fixed
	}
	r.open = append(r.open, at)
	if name == "span" { // is often on a line of its own
		r.said.WriteByte(' ')
	}
	r.text(t.alt)
}

func (r *reader) end(name string) {
	if !inline[name] {
		r.flush()
	}
	for n := len(r.open) - 1; n >= 0; n-- {
		if r.open[n].name == name {
			r.open = r.open[:n]
			break
		}
	}
	if n := len(r.open); n > 0 && !inline[name] {
		r.block.field, r.block.fixed = r.open[n-1].field, r.open[n-1].fixed
	}
}

func (r *reader) text(words string) {
	if len(r.open) == 0 || r.open[len(r.open)-1].skip {
		return
	}
	r.said.WriteString(words)
}

// longestJoined is in bytes: blankoff and tq4 are words, the parts of a serial number are none.
const longestJoined = 12

// flush ends a block.
func (r *reader) flush() {
	b := r.block
	b.said = r.said.String()
	r.block.terms = nil
	r.said.Reset()
	if b.field == title {
		r.title += " " + b.said
	}
	if terms := r.cuts.of(b.said, b.field); len(b.terms) == 0 {
		b.terms = terms[:len(terms):len(terms)] // shared: whoever adds to it takes a copy
	} else {
		b.terms = append(b.terms, terms...)
	}
	if len(b.terms) > 0 {
		r.blocks = append(r.blocks, b)
	}
}

// cuts keeps what texts were cut into: hazards and much else stand on many pages.
type cuts struct{ sync.Map }

func (c *cuts) of(said string, f field) []string {
	type key struct {
		said    string
		heading bool
	}
	k := key{said, f >= heading}
	if kept, found := c.Load(k); found {
		return kept.([]string)
	}
	terms := cut(said, k.heading)
	c.Store(k, terms)
	return terms
}

// cut gives the terms of a text. What a hyphen joins is one word as well, since people type it so, or with a space: TQ-4 is tq4.
func cut(said string, isHeading bool) []string {
	terms := make([]string, 0, len(said)/6) // about as many as there are
	before := ""
	eachWord(said, func(word string, joined bool) {
		number := digits(word)
		if joined && len(before)+len(word) <= longestJoined && !digits(before) {
			terms = append(terms, Stem(before+word))
		}
		before = word
		// A number alone is a quantity without its unit, or counts something; only a heading is known by one.
		if !stopSet[word] && (isHeading || !number) {
			terms = append(terms, Stem(word))
		}
	})
	return terms
}
