package formula

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// token is a piece of the line. Words keep their accents; lowered and raised runs come
// in normal letters.
type token struct {
	kind  tokenKind
	text  string
	at    int
	apart bool // a blank stood before it
}

type tokenKind int

const (
	tokenEnd tokenKind = iota
	tokenNumber
	tokenWord    // letters
	tokenLowered // an index: ₁, _eff
	tokenRaised  // an exponent: ², ⁻¹
	tokenSign    // one character
)

// longest bounds a line, so that none takes the page with it.
const longest = 1000

// scan cuts the line into tokens.
func scan(text string) ([]token, *Problem) {
	if len(text) > longest {
		return nil, &Problem{longest, "this formula is too long to be read by anybody; split it into several lines"}
	}
	if !utf8.ValidString(text) {
		return nil, &Problem{0, "the line is not valid UTF-8; save it as UTF-8"}
	}
	var tokens []token
	apart := false
	for at := 0; at < len(text); {
		r, size := first(text[at:])
		if r == ' ' {
			apart, at = true, at+size
			continue
		}
		t, length := next(text[at:])
		if t.text == "" {
			return nil, &Problem{at, quote(text[at:]) + " does not belong into a formula; words and units stand after a semicolon: V p / t; V in litres"}
		}
		t.at, t.apart = at, apart
		tokens = append(tokens, t)
		at, apart = at+length, false
	}
	return tokens, nil
}

// first is the first character, as what it means.
func first(text string) (rune, int) {
	r, size := utf8.DecodeRuneInString(text)
	if same, ok := alike[r]; ok {
		r = same
	}
	return r, size
}

// next reads one token and tells how many bytes it took; an empty text means that
// nothing here is known.
func next(text string) (token, int) {
	r, size := first(text)
	switch {
	case digit(r) || r == '.' && len(text) > 1 && digit(rune(text[1])):
		n := numberLength(text)
		return token{kind: tokenNumber, text: text[:n]}, n
	case strings.ContainsRune(fractions, r) || r == '∞':
		return token{kind: tokenNumber, text: string(r)}, size
	case lowered[r] != 0:
		run, n := translate(text, lowered)
		return token{kind: tokenLowered, text: run}, n
	case raised[r] != 0:
		run, n := translate(text, raised)
		return token{kind: tokenRaised, text: run}, n
	case r == '_':
		n := wordLength(text[1:], true)
		if n == 0 && strings.HasPrefix(text, "_(") {
			return token{kind: tokenSign, text: "_"}, 1
		}
		return token{kind: tokenLowered, text: text[1 : 1+n]}, 1 + n
	case sums[r] != "":
		return token{kind: tokenSign, text: sums[r]}, size
	case letter(r):
		n := wordLength(text, false)
		return token{kind: tokenWord, text: strings.ReplaceAll(text[:n], "∆", "Δ")}, n
	case strings.ContainsRune(relations+additions+multiplications+"/√|^,%…′*()[]⌈⌉⌊⌋", r):
		return token{kind: tokenSign, text: string(r)}, size
	}
	return token{}, 0
}

func digit(r rune) bool { return r >= '0' && r <= '9' }

// letter tells whether a symbol may begin with r. Sums are not letters here, though
// Σ is one in Greek.
func letter(r rune) bool {
	return (unicode.IsLetter(r) || r == '∂') && lowered[r] == 0 && raised[r] == 0 && sums[r] == "" && r != 'º' && r != 'ª'
}

// numberLength counts the bytes of a number: digits, thousands after commas, and what
// follows the point.
func numberLength(text string) int {
	n := digits(text)
	for n+3 < len(text) && text[n] == ',' && digits(text[n+1:]) == 3 {
		n += 4
	}
	if n+1 < len(text) && text[n] == '.' && digit(rune(text[n+1])) {
		n += 1 + digits(text[n+1:])
	}
	return n
}

func digits(text string) int {
	n := 0
	for n < len(text) && digit(rune(text[n])) {
		n++
	}
	return n
}

// wordLength counts the bytes of a word; accents (combining marks) belong to their letter.
func wordLength(text string, digits bool) int {
	n, afterLetter := 0, false
	for n < len(text) {
		r, size := first(text[n:])
		if !letter(r) && !(unicode.Is(unicode.Mn, r) && afterLetter) && !(digits && digit(r)) {
			break
		}
		afterLetter = !digit(r)
		n += size
	}
	return n
}

// translate gives the run of characters that the table knows, set normally.
func translate(text string, table map[rune]rune) (string, int) {
	var run strings.Builder
	n := 0
	for n < len(text) {
		r, size := utf8.DecodeRuneInString(text[n:])
		normal := table[r]
		if normal == 0 {
			break
		}
		run.WriteRune(normal)
		n += size
	}
	return run.String(), n
}

// quote shows where in the line something is wrong: the word or sign that stands there.
func quote(text string) string {
	end := strings.IndexFunc(text, unicode.IsSpace)
	if end < 0 {
		end = len(text)
	}
	_, size := utf8.DecodeRuneInString(text)
	return "“" + text[:max(end, min(size, len(text)))] + "”"
}
