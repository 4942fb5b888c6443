package prose

import (
	"strings"
	"unicode/utf8"
)

// refers tells whether the word before a number makes it a reference or part of a name: step 3, pins 1 and 4, ISO 7-1,
// the Cindle 14. Such a number lends no unit to itself from what follows by chance (step 5 turns the pump off).
func refers(text string, at int) bool {
	word, from := wordBefore(text, at)
	if word == "" || from == at {
		return false
	}
	if standards[word] || isName(text, word, from) || seasons[strings.ToLower(word)] && isYear(text, at) || word == "B" { // B 3740, the constant of a probe
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
	"appendix annex part parts serial model type class grade item items issue question case " +
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
