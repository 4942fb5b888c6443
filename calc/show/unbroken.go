package show

import (
	"unicode/utf8"

	"blankoff/calc/letters"
)

const noBreak = "\u00a0"

// binds tells whether a line must not break at the space between two texts: a number and what follows it, and both sides of a ±,
// stay together. build/render/unbroken.go says the same of whole pages.
func binds(before, after string) bool {
	if letters.HasSuffix(before, "±") || letters.HasPrefix(after, "±") {
		return true
	}
	if n := len(before); n == 0 || before[n-1] < '0' || before[n-1] > '9' {
		return false
	}
	next, _ := utf8.DecodeRuneInString(after)
	return next == '%' || next == '°' || isLetter(next)
}

// isLetter knows the letters that stand in units, and in the words of calculators. The tables of all letters would cost a phone
// thirty kilobytes.
func isLetter(r rune) bool {
	if r < 0x80 {
		return r|' ' >= 'a' && r|' ' <= 'z'
	}
	return r == 'µ' || r >= 'À' && r < 0x2000 && r != '×' && r != '÷' || r == 'Ω'
}
