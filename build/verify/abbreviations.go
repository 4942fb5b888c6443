package verify

import (
	"bytes"
	"fmt"
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
	var said map[string]bool // looked for when it is needed, which is seldom
	ask := func(text string, words []word, at func(i int) source.Span) {
		for i := range words {
			short := strings.TrimSuffix(text[words[i].from:words[i].to], "s") // several LEDs
			if len(short) < 2 || short[1] > 'Z' || !isAbbreviation(short) || c.words.abbreviations[short] || inDesignation(text, words, i) {
				continue
			}
			if said == nil {
				said = explains(page)
			}
			if said[short] {
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
	if len(text) > longestAbbreviation || strings.Trim(text, "ABCDEFGHIJKLMNOPQRSTUVWXYZ") != "" {
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

// explains lists the abbreviations that a page explains: one stands in brackets behind words, or words stand in brackets
// behind it, as in "electrostatic discharge (ESD)" and "ESD (electrostatic discharge)".
func explains(page *guide.Guide) map[string]bool {
	found := map[string]bool{}
	text := page.Source
	for at := bytes.IndexByte(text, '('); at >= 0; {
		before, inside := text[:at], text[at+1:]
		if short := leadingCapitals(inside); short != "" && bytes.HasPrefix(bytes.TrimPrefix(inside[len(short):], []byte("s")), []byte(")")) && endsWithWord(before) {
			found[short] = true
		}
		if short := trailingCapitals(before); short != "" && startsWithWords(inside) {
			found[short] = true
		}
		next := bytes.IndexByte(inside, '(')
		if next < 0 {
			break
		}
		at += 1 + next
	}
	return found
}

// longestAbbreviation is in letters; more are a word in capitals.
const longestAbbreviation = 6

// leadingCapitals gives the capitals that a text starts with, if they can be an abbreviation.
func leadingCapitals(text []byte) string {
	n := 0
	for n < len(text) && n <= longestAbbreviation && 'A' <= text[n] && text[n] <= 'Z' {
		n++
	}
	if n < 2 || n > longestAbbreviation {
		return ""
	}
	return string(text[:n])
}

// trailingCapitals gives the capitals that a text ends with, one white space after them.
func trailingCapitals(text []byte) string {
	if len(text) == 0 || text[len(text)-1] != ' ' && text[len(text)-1] != '\n' {
		return ""
	}
	text = text[:len(text)-1]
	n := len(text)
	for n > 0 && len(text)-n <= longestAbbreviation && 'A' <= text[n-1] && text[n-1] <= 'Z' {
		n--
	}
	if r, _ := utf8.DecodeLastRune(text[:n]); len(text)-n < 2 || len(text)-n > longestAbbreviation || unicode.IsLetter(r) || unicode.IsDigit(r) {
		return ""
	}
	return string(text[n:])
}

// endsWithWord tells whether a text ends with a word and a space, emphasised or not.
func endsWithWord(text []byte) bool {
	text, ok := bytes.CutSuffix(text, []byte(" "))
	r, _ := utf8.DecodeLastRune(bytes.TrimRight(text, `*_"”`))
	return ok && unicode.IsLetter(r)
}

// startsWithWords tells whether a text starts with two words.
func startsWithWords(text []byte) bool {
	rest := bytes.TrimLeftFunc(text, unicode.IsLetter)
	if len(rest) == len(text) || len(rest) == 0 || !strings.ContainsRune(" \n-", rune(rest[0])) {
		return false
	}
	r, _ := utf8.DecodeRune(rest[1:])
	return unicode.IsLetter(r)
}
