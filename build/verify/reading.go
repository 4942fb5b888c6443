package verify

import (
	"fmt"

	"blankoff/build/guide"
)

// mostGrade is the school year up to which a page for customers may ask its reader to have read: common practice, no
// source. fewestWords is what a page must have before a mean says anything of it.
const mostGrade, fewestWords = 8.0, 100

// reading is what the grade of a text follows from.
type reading struct {
	words, sentences, syllables int
	longest                     int // words of the longest sentence
	at                          *passage
	from                        int // the longest sentence begins with this word of the passage
}

// readingGrade warns of a page for customers that is hard to read.
func (c *checker) readingGrade(page *guide.Guide) {
	if page.Reader.Text != "customer" {
		return
	}
	r := readingOf(c.text)
	if r.words < fewestWords || r.grade() <= mostGrade {
		return
	}
	line := r.at.span(page.File, r.from, r.from+1).Position().Line
	c.warn("reading-grade", page.Reader.Span, fmt.Sprintf("the page reads at grade %.1f, and for customers %.0f is the most", r.grade(), mostGrade),
		fmt.Sprintf("write shorter sentences and shorter words; the longest sentence, of %d words, begins in line %d", r.longest, line))
}

// grade is the Flesch–Kincaid grade level: Kincaid, Fishburne, Rogers and Chissom, Derivation of new readability
// formulas, 1975; the formula is written from memory.
func (r reading) grade() float64 {
	return 0.39*float64(r.words)/float64(r.sentences) + 11.8*float64(r.syllables)/float64(r.words) - 15.59
}

// readingOf counts what is read in one go: paragraphs and bullets. Headings and cells are no sentences, and names in the
// list of sources are not the reader's business. A bullet ends a sentence, a colon does not.
func readingOf(text []*passage) reading {
	var r reading
	for _, p := range text {
		if !p.heading && !p.cell && (p.section == nil || p.section.ID != sourcesSection) {
			r.add(p)
		}
	}
	return r
}

func (r *reading) add(p *passage) {
	start, length := 0, 0
	for i, w := range p.words {
		r.syllables += syllables(w.text)
		if w.hyphen && w.gap == beside { // plug-in is one word
			continue
		}
		r.words++
		if w.gap == sentence {
			r.sentences++
			start, length = i, 0
		}
		if length++; length > r.longest {
			r.longest, r.at, r.from = length, p, start
		}
	}
}
