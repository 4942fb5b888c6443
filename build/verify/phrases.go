package verify

import (
	"slices"
	"strings"
	"unicode/utf8"
)

// phrases finds phrases in passages: whole words, in the singular and the plural, whatever the case. "…" in a phrase
// stands for up to three words: "take … cover off" is in "take the upper cover off". Articles do not count.
//
//	p := newPhrases[string]()
//	p.add("two spanners", "spanner")
//	p.find(passage.words) // each place with what was added for it
//
// Phrases that tell what is done are stricter: "plug in" is not in "a plug-in meter", nor "pump for" in "the pump for oil".
//
// One tree holds the phrases of a whole library, so that each word of each page is looked up once, however many phrases
// begin alike.
type phrases[T any] struct {
	forms map[string]int // a form of a word, to the number of the word
	root  node[T]
	count int
}

// node is where some phrases have come to after the same words.
type node[T any] struct {
	next map[wanted]*node[T]
	ends []ending[T]
}

// ending is a phrase that is complete.
type ending[T any] struct {
	order   int  // in which it was added
	article bool // counts only behind an article, a number or "with": "a watch", not "watch it"
	of      T
}

// wanted is a word of a phrase. The zero value is a gap.
type wanted struct {
	number int
	hyphen bool // of a deed
	deed   bool // tells what is done: hyphens count, and no article stands before it
}

// match is a phrase at words from up to to.
type match[T any] struct {
	from, to int
	of       T
}

func newPhrases[T any]() *phrases[T] {
	return &phrases[T]{forms: map[string]int{}}
}

// add takes a phrase up; a phrase without a word is nothing.
func (p *phrases[T]) add(text string, of T) { p.addEnding(p.wanted(text, false), ending[T]{of: of}) }

// addBehindArticle takes up a word that is a verb as well.
func (p *phrases[T]) addBehindArticle(text string, of T) {
	p.addEnding(p.wanted(text, false), ending[T]{of: of, article: true})
}

// addDeed takes up what is done. Written with an article before it, it is the name of a thing: "the oil window".
func (p *phrases[T]) addDeed(text string, of T) {
	words := wordsOf(text)
	p.addEnding(p.wanted(text, len(words) == 0 || !articles[words[0].text]), ending[T]{of: of})
}

// wanted cuts a phrase into words and gaps, a word first and last.
func (p *phrases[T]) wanted(text string, deed bool) []wanted {
	var list []wanted
	for i, piece := range strings.Split(strings.ReplaceAll(text, "...", "…"), "…") {
		if i > 0 && len(list) > 0 {
			list = append(list, wanted{})
		}
		for _, w := range wordsOf(piece) {
			if !articles[w.text] {
				hyphen := deed && w.hyphen && len(list) > 0 // before the first word it is looked at with its neighbour
				list = append(list, wanted{p.number(w.text), hyphen, deed})
			}
		}
	}
	for len(list) > 0 && list[len(list)-1].number == 0 {
		list = list[:len(list)-1]
	}
	return list
}

func (p *phrases[T]) addEnding(words []wanted, e ending[T]) {
	if len(words) == 0 {
		return
	}
	at := &p.root
	for _, w := range words {
		next := at.next[w]
		if next == nil {
			if at.next == nil {
				at.next = map[wanted]*node[T]{}
			}
			next = &node[T]{}
			at.next[w] = next
		}
		at = next
	}
	p.count++
	e.order = p.count
	at.ends = append(at.ends, e)
}

// wordsOf cuts a text that stands in no page.
func wordsOf(text string) []word {
	words, _ := cutWords(nil, text, run{0, len(text)}, sentence)
	return words
}

// number is the same for all forms of a word.
func (p *phrases[T]) number(text string) int {
	if n := p.forms[text]; n > 0 {
		return n
	}
	n := len(p.forms) + 1
	for _, form := range append(formsOf(text), text) {
		if p.forms[form] == 0 {
			p.forms[form] = n
		}
	}
	return n
}

// formsOf gives what the plural or the singular of a word may be, for the rules of English; others are added as phrases.
func formsOf(text string) []string {
	if utf8.RuneCountInString(text) < 3 {
		return []string{text + "s"}
	}
	var forms []string
	cut := func(ending, other string) {
		if stem, found := strings.CutSuffix(text, ending); found {
			forms = append(forms, stem+other)
		}
	}
	cut("f", "ves")
	cut("ves", "f")
	if n := len(text); text[n-1] == 'y' && !strings.ContainsRune("aeiou", rune(text[n-2])) {
		cut("y", "ies")
	} else {
		forms = append(forms, text+"s")
	}
	cut("ies", "y")
	for _, hiss := range []string{"s", "x", "z", "ch", "sh"} {
		cut(hiss, hiss+"es")
		cut(hiss+"es", hiss)
	}
	if !strings.HasSuffix(text, "ss") && !strings.HasSuffix(text, "us") && !strings.HasSuffix(text, "is") {
		cut("s", "")
	}
	return forms
}

var articles = map[string]bool{"the": true, "a": true, "an": true}

// countsOne holds words before a noun; with and by lead to one without an article.
var countsOne = map[string]bool{
	"the": true, "a": true, "an": true, "your": true, "its": true, "their": true, "one": true, "two": true, "three": true, "another": true, "second": true,
	"with": true, "by": true,
}

// gapWords is how many words may stand in a gap.
const gapWords = 3

// find gives every place of every phrase. A phrase does not go over a comma or a full stop.
func (p *phrases[T]) find(words []word) []match[T] { return p.search(words, false) }

// search finds; in a bare list, such as the tools of a header, words need no article.
func (p *phrases[T]) search(words []word, bare bool) []match[T] {
	var found []match[T]
	for i := range words {
		n := p.forms[words[i].text]
		if n == 0 {
			continue
		}
		w := walk[T]{forms: p.forms, words: words}
		w.from(p.root.next[wanted{number: n}], i+1)
		if i == 0 || !isThing(words, i) {
			w.deed = true
			w.from(p.root.next[wanted{number: n, deed: true}], i+1)
		}
		behind := bare || i > 0 && countsOne[words[i-1].text]
		for _, r := range w.inOrder() {
			if behind || !r.article {
				found = append(found, match[T]{i, r.to, r.of})
			}
		}
	}
	return found
}

// isThing tells whether word i is no verb: an article stands before it, or it hangs on a word by a hyphen.
func isThing(words []word, i int) bool {
	return articles[words[i-1].text] && words[i].gap == beside || words[i].hyphen
}

// walk follows the words of a page through the tree.
type walk[T any] struct {
	forms   map[string]int
	words   []word
	deed    bool
	reached []reached[T]
	been    map[visit[T]]bool // only behind gaps, where many ways lead to one place
}

// reached is a phrase that ends before a word.
type reached[T any] struct {
	ending[T]
	to int
}

type visit[T any] struct {
	at *node[T]
	i  int
}

// from collects the phrases that are complete at a node, or become so by the words from i on.
func (w *walk[T]) from(at *node[T], i int) {
	if at == nil {
		return
	}
	for _, e := range at.ends {
		w.reached = append(w.reached, reached[T]{e, i})
	}
	if gap := at.next[wanted{}]; gap != nil {
		w.over(gap, i)
	}
	for i < len(w.words) && articles[w.words[i].text] && w.words[i].gap == beside {
		i++
	}
	if i < len(w.words) && w.words[i].gap == beside {
		if n := w.forms[w.words[i].text]; n > 0 {
			w.from(at.next[wanted{n, w.deed && w.words[i].hyphen, w.deed}], i+1)
		}
	}
}

// over goes on behind a gap of no words, of one, and so on.
func (w *walk[T]) over(gap *node[T], i int) {
	if w.been == nil {
		w.been = map[visit[T]]bool{}
	}
	for skipped := 0; ; skipped++ {
		if here := (visit[T]{gap, i}); !w.been[here] {
			w.been[here] = true
			w.from(gap, i)
		}
		if skipped == gapWords || i >= len(w.words) || w.words[i].gap != beside {
			return
		}
		i++
	}
}

// inOrder gives each phrase once, where it ends first, in the order in which they were added.
func (w *walk[T]) inOrder() []reached[T] {
	if len(w.reached) > 1 {
		slices.SortStableFunc(w.reached, func(a, b reached[T]) int { return a.order - b.order })
	}
	return slices.CompactFunc(w.reached, func(a, b reached[T]) bool { return a.order == b.order })
}

// mentions gives the places that say it: those that are not negated.
func (p *phrases[T]) mentions(words []word) []match[T] {
	var said []match[T]
	for _, m := range p.find(words) {
		if !negated(words, m.from, m.to) {
			said = append(said, m)
		}
	}
	return said
}
