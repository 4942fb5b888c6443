// Package search makes the index with which a reader's phone searches the site without a network. It is pure: finished
// pages go in, one file comes out. What a page shows is what is found: the words of its HTML, by how prominent they
// stand, and its quantities in SI. The text itself is not in it; the script takes a line of it from the page.
//
//	file, err := search.Make(pages, [][]string{{"vacuum pump", "vac pump"}})
//
// All that decides what is found and in which order stands in this package, as data that goes with the index: endings of
// words, words that count for nothing, units, weights. site/find.ts has no table of its own, so that the two cannot
// differ.
//
// The file is gzipped. Inflated, it is one line of JSON, see Head, and after it numbers, seven bits a byte, the lowest
// first, the eighth bit set where more follow: for each term how many pages have it; then for each term and page
// 8 times the pages left out since the one before, plus where the term stands there, see Place.
package search

import (
	"cmp"
	"encoding/json"
	"math"
	"slices"
	"strings"

	"blankoff/build/edition"
	"blankoff/build/parallel"
)

// Head is the first line of the index.
type Head struct {
	Stop    string             `json:"stop"`    // words that count for nothing, between spaces
	Endings [][][2]string      `json:"endings"` // see words.go
	Same    []string           `json:"same"`    // phrases that mean the same, "|" between them, each as stems
	Units   []Unit             `json:"units"`   // the longest spelling first
	Linear  map[string]float64 `json:"linear"`  // kinds whose values are put together by difference: the step
	Called  map[string]string  `json:"called"`  // what counts of a kind where no page has a value near
	Bare    string             `json:"bare"`    // the unit of a number that has none
	Weights Weights            `json:"weights"` // what a match is worth
	Kinds   []KindOfPage       `json:"kinds"`
	Pages   []Page             `json:"pages"`
	Terms   string             `json:"terms"` // in their order, a space between: see frontCoded
}

// Page is a page that can be found.
type Page struct {
	Address string // relative to the root
	Title   string
	Kind    int // of Head.Kinds
	Text    int // what a word of its text is worth, in per cent: see textWorth
}

// MarshalJSON writes a page without names: there are many.
func (p Page) MarshalJSON() ([]byte, error) {
	return json.Marshal([]any{p.Address, p.Title, p.Kind, p.Text})
}

// UnmarshalJSON reads what MarshalJSON writes.
func (p *Page) UnmarshalJSON(text []byte) error {
	return json.Unmarshal(text, &[]any{&p.Address, &p.Title, &p.Kind, &p.Text})
}

// Index is the whole: terms in their order, and for each the pages that have it.
type Index struct {
	Head
	Terms    []string
	Postings [][]Posting // as Terms
}

// Posting says that a page has a term.
type Posting struct {
	Page  int
	Place Place
}

// Place is where a term stands on a page, as one number: 2·field, and 1 more where it stands there more than twice.
type Place int

// places is how many there are.
const places = 8

func placed(f field, often int) Place {
	if often > 2 {
		return Place(2*f + 1)
	}
	return Place(2 * f)
}

func (p Place) field() field { return field(p / 2) }

// field is how prominently a word stands.
type field int

const (
	aside field = iota // hazards, tables of facts, links to other pages: on many pages, and what few are about
	text
	heading // and the summary
	title
)

// Make gives the index of pages. Lists of pages, and pages without a main part, are left out. Each group of same holds
// phrases that mean one thing.
func Make(pages []edition.File, same [][]string) ([]byte, error) {
	return Of(pages, same).bytes()
}

// Of is the index before it is written.
func Of(pages []edition.File, same [][]string) *Index {
	read, known := make([]*document, len(pages)), &cuts{}
	parallel.Each(len(pages), func(i int) { read[i] = readPage(pages[i], known) })
	read = slices.DeleteFunc(read, func(d *document) bool { return d == nil })
	slices.SortStableFunc(read, func(a, b *document) int { return cmp.Compare(a.address, b.address) })

	x := &Index{Head: Head{Stop: " " + stopWords + " ", Endings: endings, Same: phrases(same), Weights: weights, Linear: linear, Bare: bareUnit, Kinds: kindsOfPages}}
	shared := sharedBlocks(read)
	postings := map[string][]Posting{}
	places, lengths := make([]map[string]Place, len(read)), make([]int, len(read))
	parallel.Each(len(read), func(i int) { places[i], lengths[i] = read[i].standings(kindOfPage(read[i].address), shared) })
	for number, d := range read {
		x.Pages = append(x.Pages, Page{Address: d.address, Title: d.title, Kind: kindOfPage(d.address)})
		for term, place := range places[number] {
			postings[term] = append(postings[term], Posting{number, place})
		}
	}
	for number, worth := range textWorth(lengths) {
		x.Pages[number].Text = worth
	}
	// Words that mean the same as others are known, so nobody takes them for misspelt, if no page has them.
	for _, word := range strings.FieldsFunc(strings.Join(x.Same, " "), func(r rune) bool { return r == ' ' || r == '|' }) {
		postings[word] = append(postings[word], nil...)
	}
	for term := range postings {
		x.Terms = append(x.Terms, term)
	}
	slices.Sort(x.Terms)
	for _, term := range x.Terms {
		x.Postings = append(x.Postings, tidied(term, postings[term]))
	}
	x.Units, x.Called = unitsOf(x.Terms), calledBy(x.Terms)
	return x
}

// manyPages is on how many pages a block may stand word for word. One that stands on more tells them not apart: the list of
// what stops all work, a form to fill in.
const manyPages = 3

func sharedBlocks(pages []*document) map[string]int {
	count := map[string]int{}
	for _, d := range pages {
		seen := map[string]bool{}
		for _, b := range d.blocks {
			if !b.fixed && b.said != "" && !seen[b.said] { // a quantity alone in its cell says no words
				seen[b.said] = true
				count[b.said]++
			}
		}
	}
	return count
}

// standings gives the most prominent place of each term, and how often it stands there; and how many words the page has,
// without those aside.
func (d *document) standings(kind int, shared map[string]int) (places map[string]Place, length int) {
	type standing struct {
		field field
		often int
	}
	all := map[string]standing{}
	for _, b := range d.blocks {
		switch {
		case b.field <= text && kindsOfPages[kind].Brief:
			continue
		case !b.fixed && shared[b.said] > manyPages:
			b.field = aside
		}
		if b.field > aside {
			length += len(b.terms)
		}
		for _, term := range b.terms {
			at := all[term]
			if b.field > at.field {
				at = standing{field: b.field}
			}
			if b.field == at.field {
				at.often++
			}
			all[term] = at
		}
	}
	places = make(map[string]Place, len(all))
	for term, at := range all {
		places[term] = placed(at.field, at.often)
	}
	return places, length
}

// textWorth is what a word of each page's text is worth, in per cent: on a long page, which has nearly every word somewhere,
// less than on a short one. Titles and headings are short everywhere.
func textWorth(lengths []int) []int {
	sum := 0
	for _, n := range lengths {
		sum += n
	}
	worth := make([]int, len(lengths))
	for i, n := range lengths {
		share := float64(n*len(lengths)) / float64(max(sum, 1))
		worth[i] = int(math.Round(100 * min(mostOfShort, max(leastOfLong, math.Pow(share, -lengthCounts)))))
	}
	return worth
}

// tidied leaves out the pages that have a word aside only, where others are about it. Quantities stay.
func tidied(term string, pages []Posting) []Posting {
	isAside := func(p Posting) bool { return p.Place.field() == aside }
	if term[0] == '#' || !slices.ContainsFunc(pages, func(p Posting) bool { return !isAside(p) }) {
		return pages
	}
	return slices.DeleteFunc(pages, isAside)
}

// phrases writes groups as stems, without what stands there twice.
func phrases(same [][]string) []string {
	var list []string
	for _, group := range same {
		var stems []string
		for _, phrase := range group {
			var words []string
			for _, word := range Words(phrase) {
				if !stopSet[word] {
					words = append(words, Stem(word))
				}
			}
			if joined := strings.Join(words, " "); joined != "" && !slices.Contains(stems, joined) {
				stems = append(stems, joined)
			}
		}
		if len(stems) > 1 {
			list = append(list, strings.Join(stems, "|"))
		}
	}
	return list
}
