package verify

import (
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
// One table holds the phrases of a whole library, so that each word of each page is looked up once.
type phrases[T any] struct {
	forms map[string]int     // a form of a word, to the number of the word
	first map[int][]entry[T] // the phrases that start with a word
}

type entry[T any] struct {
	words   []wanted
	article bool // counts only behind an article, a number or "with": "a watch", not "watch it"
	deed    bool // tells what is done: hyphens count, and no article stands before it
	of      T
}

// wanted is a word of a phrase.
type wanted struct {
	number int // 0 stands for the gap
	hyphen bool
}

// match is a phrase at words from up to to.
type match[T any] struct {
	from, to int
	of       T
}

func newPhrases[T any]() *phrases[T] {
	return &phrases[T]{forms: map[string]int{}, first: map[int][]entry[T]{}}
}

// add takes a phrase up; a phrase without a word is nothing.
func (p *phrases[T]) add(text string, of T) { p.addEntry(text, entry[T]{of: of}) }

// addBehindArticle takes up a word that is a verb as well.
func (p *phrases[T]) addBehindArticle(text string, of T) {
	p.addEntry(text, entry[T]{of: of, article: true})
}

// addDeed takes up what is done. Written with an article before it, it is the name of a thing: "the oil window".
func (p *phrases[T]) addDeed(text string, of T) {
	words := wordsOf(text)
	p.addEntry(text, entry[T]{of: of, deed: len(words) == 0 || !articles[words[0].text]})
}

func (p *phrases[T]) addEntry(text string, e entry[T]) {
	for i, piece := range strings.Split(strings.ReplaceAll(text, "...", "…"), "…") {
		if i > 0 && len(e.words) > 0 {
			e.words = append(e.words, wanted{})
		}
		for _, w := range wordsOf(piece) {
			if !articles[w.text] {
				e.words = append(e.words, wanted{p.number(w.text), w.hyphen})
			}
		}
	}
	for len(e.words) > 0 && e.words[len(e.words)-1].number == 0 {
		e.words = e.words[:len(e.words)-1]
	}
	if len(e.words) > 0 {
		first := e.words[0].number
		p.first[first] = append(p.first[first], e)
	}
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
		for _, e := range p.first[n] {
			if e.article && !bare && (i == 0 || !countsOne[words[i-1].text]) || e.deed && i > 0 && isThing(words, i) {
				continue
			}
			if to, ok := p.rest(e.words[1:], words, i+1, e.deed); ok {
				found = append(found, match[T]{i, to, e.of})
			}
		}
	}
	return found
}

// isThing tells whether word i is no verb: an article stands before it, or it hangs on a word by a hyphen.
func isThing(words []word, i int) bool {
	return articles[words[i-1].text] && words[i].gap == beside || words[i].hyphen
}

// rest tells where the remaining words of a phrase end, if they follow from word i on.
func (p *phrases[T]) rest(want []wanted, words []word, i int, deed bool) (int, bool) {
	if len(want) == 0 {
		return i, true
	}
	if want[0].number == 0 {
		for skipped := 0; ; skipped++ {
			if to, ok := p.rest(want[1:], words, i, deed); ok {
				return to, true
			}
			if skipped == gapWords || i >= len(words) || words[i].gap != beside {
				return 0, false
			}
			i++
		}
	}
	for i < len(words) && articles[words[i].text] && words[i].gap == beside {
		i++
	}
	if i >= len(words) || words[i].gap != beside || p.forms[words[i].text] != want[0].number || deed && words[i].hyphen != want[0].hyphen {
		return 0, false
	}
	return p.rest(want[1:], words, i+1, deed)
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
