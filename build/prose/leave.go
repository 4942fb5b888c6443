package prose

import (
	"strings"
	"unicode/utf8"
)

// leftAlone tells whether a digit is part of something that is no number: a part's number, a serial, a date, a time of
// day, a ratio, a price, an address. The end is where the walk goes on.
func leftAlone(text string, at int) (end int, leave bool) {
	if inWord(text, at) || isCode(text, at) {
		return wordEnd(text, at), true
	}
	return at, false
}

// inWord looks at what stands before a digit.
func inWord(text string, at int) bool {
	r, size := utf8.DecodeLastRuneInString(text[:at])
	switch {
	case at == 0:
		return false
	case r == 'x' || r == '×': // 2x30 min, but not TX4
		return r == 'x' && !digitAt(text, at-2)
	case isWord(r): // CN14, B9
		return true
	case r == '#' || r == '$' || r == '€' || r == '£' || r == '@' || r == '\\' || r == '§':
		return true
	case r == '-' || r == '/' || r == '.' || r == ':': // TQ-4, and/5, 1.2.3, 14:30; a list's 5/10 never comes here
		before, _ := utf8.DecodeLastRuneInString(text[:at-size])
		return at > size && (isWord(before) && (r != ':' || before < 'A') || before == '/')
	}
	return false
}

// isCode looks at what the digits are joined to.
func isCode(text string, at int) bool {
	first := digitsEnd(text, at)
	if first >= len(text) || first-at > longest {
		return false
	}
	second := digitsEnd(text, first+1)
	if second == first+1 {
		return isDecade(text, at, first)
	}
	switch third := digitsEnd(text, min(len(text), second+1)); text[first] {
	case ':': // 14:30, 10:1
		return true
	case '-': // 2027-06-01, 555-01-42
		return second < len(text) && text[second] == '-' && third > second+1
	case '/': // 12/11/2026
		return second < len(text) && text[second] == '/' && third-second == 5
	}
	return false
}

// isDecade knows the 1990s.
func isDecade(text string, from, to int) bool {
	return to-from == 4 && text[to] == 's' && text[to-1] == '0' && (text[from:from+2] == "19" || text[from:from+2] == "20")
}

// wordEnd is where the unbroken run of letters, digits and the marks inside it ends.
func wordEnd(text string, at int) int {
	for at < len(text) {
		r, size := utf8.DecodeRuneInString(text[at:])
		if !isWord(r) && (r == utf8.RuneError || !strings.ContainsRune("-./:_+#=", r)) {
			return at
		}
		at += size
	}
	return at
}

// refers tells whether the word before a number makes it a reference or part of a name: step 3, pins 1 and 4, ISO 7-1,
// the Cindle 14. Such a number lends no unit to itself from what follows by chance (step 5 turns the pump off).
func refers(text string, at int) bool {
	word, from := wordBefore(text, at)
	if word == "" || from == at {
		return false
	}
	if standards[word] || isName(text, word, from) || seasons[strings.ToLower(word)] && isYear(text, at) || len(word) == 1 && word[0] >= 'B' && word[0] <= 'Z' && word != "I" { // B 3740, the constant of a probe
		return true
	}
	low := strings.ToLower(word)
	if text[from+len(word)] == '.' {
		return abbreviated[low]
	}
	return references[low]
}

// references are the words after which a number counts, and measures nothing.
var references = setOf("step steps page pages section sections chapter chapters clause clauses equation equations eq " +
	"figure figures fig table tables pin pins terminal terminals version firmware software revision rev release edition " +
	"appendix annex part parts serial model type class grade item items note notes issue question check case " +
	"number numbers row rows column columns position positions point points lot batch form port ports channel group " +
	"shelf bin drawer rack january february march april june july august september october november december year job")

// abbreviated are those that count only with their point: No. 5, Fig. 2, p. 4.
var abbreviated = setOf("no nos p pp fig figs eq sec ch rev ver vol art nr pt")

// standards are bodies and collections whose numbers name a document.
var standards = setOf("ISO IEC EN DIN BS ANSI ASME ASTM NIST NBS SP CFR EPA OSHA NFPA UL CSA IEEE JIS JCGM ESD TR TS FDA USDA AS")

// opening words begin with a capital letter in headings and table cells, and make no name.
var opening = setOf("for at to of in from after within with about and or than under over by wait hold every below above up until each pump " +
	"between is was the a torr pa volt heater limit max min reading pressure time expect hose room trap")

// isName tells a name such as Cindle in `the Cindle 14`: a capital letter, small ones, in the middle of a sentence.
func isName(text, word string, from int) bool {
	if len(word) < 2 || word[0] >= 'a' || word[1] < 'a' || opening[strings.ToLower(word)] {
		return false
	}
	before := strings.TrimRight(text[max(0, from-6):from], " \n\u00a0")
	r, _ := utf8.DecodeLastRuneInString(before)
	return before != "" && (isWord(r) || r == ',')
}

// seasons are words before a year.
var seasons = setOf("in since until during spring summer autumn winter")

// isYear tells a number of four figures that can be a year.
func isYear(text string, at int) bool {
	return digitsEnd(text, at) == at+4 && (text[at:at+2] == "19" || text[at:at+2] == "20") && markAt(text, at+4) == 0 && !wordBegins(text, at+4)
}

func setOf(words string) map[string]bool {
	set := map[string]bool{}
	for _, word := range strings.Fields(words) {
		set[word] = true
	}
	return set
}
