package search

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// endings cut words to a stem that their forms share: leak, leaks, leaking, leaked. Of each group the first ending that a
// word has is replaced, in the order of the groups; three letters stay, or the word is left alone. An ending that
// is replaced by itself protects the words that have it. Common practice for English, no source.
var endings = [][][2]string{
	{{"sses", "ss"}, {"ies", "y"}, {"ss", "ss"}, {"us", "us"}, {"is", "is"}, {"ches", "ch"}, {"shes", "sh"}, {"xes", "x"}, {"s", ""}},
	{{"ness", ""}, {"ied", "y"}, {"eed", "eed"}, {"ation", "ate"}, {"ing", ""}, {"ed", ""}},
	{{"bb", "b"}, {"dd", "d"}, {"gg", "g"}, {"ll", "l"}, {"mm", "m"}, {"nn", "n"}, {"pp", "p"}, {"rr", "r"}, {"ss", "s"}, {"tt", "t"}},
	{{"ready", "ready"}, {"steady", "steady"}, {"ly", ""}, {"e", ""}, {"y", ""}},
}

// leastStem is in letters.
const leastStem = 3

// Stem gives the stem of a word in small letters. site/find.ts does the same with the same table.
func Stem(word string) string {
	for i := range len(word) {
		if word[i] >= '0' && word[i] <= '9' {
			return word
		}
	}
	for _, group := range endings {
		for _, e := range group {
			if begin, has := strings.CutSuffix(word, e[0]); has {
				if len(begin)+len(e[1]) >= leastStem && utf8.RuneCountInString(begin)+len(e[1]) >= leastStem {
					word = begin + e[1]
				}
				break
			}
		}
	}
	return word
}

// stopWords are on every page, and typed without being meant.
const stopWords = "a about after all also always am an and another any anything are as at be because been but by can cannot cant could did didnt do does doesnt doing dont each every everything for from get gets getting give gives go goes going got had happen happening happens has have having he help her here his how i if im in into is isnt it its itself ive just keep keeps kept like look looking looks make makes maybe me more most much must my need needs no not nothing now of on once one only or other our please really said say saying says see seem seems she should since so some something still such than that the their them then there these they thing things this those to too try trying up us use used uses using very want wants was way we well went were what whats when where whether which while who whose why will with wont working works would yet you your"

var stopSet = setOf(stopWords)

// Words gives the words of a text in small letters: runs of letters and digits, and fractions such as 1/8.
func Words(text string) []string {
	var list []string
	eachWord(text, func(word string, _ bool) { list = append(list, word) })
	return list
}

// eachWord tells each word as the script cuts them, save letters whose small form hangs on their place (a final sigma) or is
// two (a dotted İ), and whether a hyphen alone joins it to the one before.
func eachWord(text string, tell func(word string, joined bool)) {
	text = strings.ToLower(text)
	if strings.Contains(text, "'") || strings.Contains(text, "’") {
		text = withoutApostrophes.Replace(text)
	}
	end := -1 // of the word before
	for i := 0; i < len(text); {
		from := i
		if i = wordEnd(text, from); i == from {
			_, size := utf8.DecodeRuneInString(text[i:])
			i += size
			continue
		}
		if i < len(text) && text[i] == '/' && digits(text[from:i]) {
			if to := wordEnd(text, i+1); digits(text[i+1 : to]) {
				i = to
			}
		}
		tell(text[from:i], end >= 0 && hyphens[text[end:from]])
		end = i
	}
}

var (
	withoutApostrophes = strings.NewReplacer("'", "", "’", "")
	hyphens            = map[string]bool{"-": true, "‐": true, "‑": true}
)

// wordEnd gives where the word that begins at a place ends: there, if none does.
func wordEnd(text string, at int) int {
	for at < len(text) {
		c := text[at]
		if 'a' <= c && c <= 'z' || '0' <= c && c <= '9' {
			at++
			continue
		}
		r, size := utf8.DecodeRuneInString(text[at:])
		if c < utf8.RuneSelf || !unicode.IsLetter(r) {
			return at
		}
		at += size
	}
	return at
}

func digits(text string) bool {
	for i := range len(text) {
		if text[i] < '0' || text[i] > '9' {
			return false
		}
	}
	return text != ""
}
