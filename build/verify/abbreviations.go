package verify

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"blankoff/build/guide"
	"blankoff/build/load"
	"blankoff/build/source"
	"blankoff/calc/quantity"
)

// displayed holds capitals that are no abbreviation here: a word that tells to stop, and what a meter shows.
var displayed = wordSet("STOP OL")

// abbreviations asks for the meaning of each abbreviation: two to six capitals that neither the page nor words.yaml
// explains. The section of sources is left out, since a standard is found by its name, not by its meaning.
func (c *checker) abbreviations(page *guide.Guide) {
	said := explains(page)
	ask := func(text string, words []word, at func(i int) source.Span) {
		for i := range words {
			short := strings.TrimSuffix(text[words[i].from:words[i].to], "s") // several LEDs
			if len(short) < 2 || said[short] || !isAbbreviation(short) || c.words.abbreviations[short] || inDesignation(text, words, i) {
				continue
			}
			said[short] = true
			c.refuse("abbreviation", at(i), "nothing explains the abbreviation "+source.Quote(short),
				fmt.Sprintf("write it out where it first stands, as in “what it means (%s)”, or explain it once for all pages in words.yaml under `abbreviations:`", short))
		}
	}
	for _, item := range append([]load.Text{page.Title}, broughtAlong(page)...) {
		ask(item.Text, wordsOf(item.Text), func(int) source.Span { return item.Span })
	}
	for _, p := range c.text {
		if p.section == nil || p.section.ID != sourcesSection {
			ask(page.File.Text, p.words, func(i int) source.Span { return p.span(page.File, i, i+1) })
		}
	}
}

// sourcesSection is where a page says what it rests on.
const sourcesSection = "where-this-comes-from"

func isAbbreviation(text string) bool {
	if len(text) > 6 || strings.Trim(text, "ABCDEFGHIJKLMNOPQRSTUVWXYZ") != "" {
		return false
	}
	_, unit := quantity.FindUnit(text)
	return !unit && !displayed[text] && !slices.Contains(load.SignalWords, text) && strings.Trim(text, "IVX") != ""
}

// inDesignation tells capitals that are part of a name with a number: ISO 7-1, TQ-4, CN14, 1/8 NPT, ISO/IEC 17043.
func inDesignation(text string, words []word, i int) bool {
	joined := func(a, b word) bool {
		between := text[a.to:b.from]
		return b.gap == beside && strings.Trim(between, " -/\u00a0\u2011") == ""
	}
	if i > 0 && joined(words[i-1], words[i]) && startsWithDigit(text[words[i-1].from:]) {
		return true
	}
	for k := i + 1; k < min(i+4, len(words)) && joined(words[k-1], words[k]); k++ {
		next := text[words[k].from:words[k].to]
		if startsWithDigit(next) {
			return true
		}
		if strings.Trim(next, "ABCDEFGHIJKLMNOPQRSTUVWXYZ") != "" {
			return false
		}
	}
	return false
}

func startsWithDigit(text string) bool {
	r, _ := utf8.DecodeRuneInString(text)
	return unicode.IsDigit(r)
}

// An abbreviation is explained where it stands in brackets behind words, or words in brackets behind it: "electrostatic
// discharge (ESD)", "ESD (electrostatic discharge)".
var explaining = regexp.MustCompile(`\pL[*_"”]* \(([A-Z]{2,6})s?\)|\b([A-Z]{2,6})\s\(\pL+[\s-]\pL`)

// aroundBracket is how far an explanation is looked for before and behind an opening bracket.
const aroundBracket = 80

// explains lists the abbreviations that a page explains. Every explanation has an opening bracket.
func explains(page *guide.Guide) map[string]bool {
	found := map[string]bool{}
	for i, c := range page.Source {
		if c != '(' {
			continue
		}
		around := page.Source[max(0, i-aroundBracket):min(len(page.Source), i+aroundBracket)]
		for _, m := range explaining.FindAllSubmatch(around, -1) {
			found[string(m[1])+string(m[2])] = true
		}
	}
	return found
}
