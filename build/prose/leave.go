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
	case r == '#' || r == '$' || r == '€' || r == '£' || r == '\\' || r == '§':
		return true
	case r == '@':
		return wordEnds(text, at-size)
	case r == '=' || r == '&': // t=3 s, but not https://…?t=3s
		return strings.Contains(lastWord(text, at), "://")
	case r == '-' || r == '/' || r == '.' || r == ':': // TQ-4, and/5, 1.2.3, 14:30; a list's 5/10 never comes here
		before, _ := utf8.DecodeLastRuneInString(text[:at-size])
		return at > size && (isWord(before) && (r != ':' || before < 'A') || before == '/')
	}
	return false
}

// lastWord is the unbroken run of characters before a place, or the end of it.
func lastWord(text string, at int) string {
	before := text[max(0, at-120):at]
	return before[strings.LastIndexAny(before, " \n")+1:]
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
