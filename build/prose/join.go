package prose

import (
	"strings"
	"unicode/utf8"
)

// joint is what stands between two numbers of one phrase.
type joint uint8

const (
	apart   joint = iota
	upTo          // 6.9 to 9.3, 8–11, 8 … 11
	both          // 200 and 300
	either        // 200 or 300
	comma         // 100, 200
	slash         // 5/15/30
	around        // 24 ± 1
	times         // 10 × 20
	unclear       // 5 -8: a range, or a number below zero?
)

// ranges tells whether a joint makes two numbers the ends of a range.
func (j joint) ranges() bool { return j == upTo }

// lists tells whether a joint makes two numbers parts of a list.
func (j joint) lists() bool { return j == both || j == either || j == comma || j == slash }

// readJoint finds the joint behind a number or its unit, and where the next number begins.
func readJoint(text string, at int) (joint, int) {
	gap := skipGap(text, at)
	j, next := joinWord(text, gap, gap > at)
	if j == apart {
		j, next = joinMark(text, at, gap)
	}
	if j == apart || !numberBegins(text, next) {
		return apart, at
	}
	return j, next
}

// joinWord reads to, and, or, by; a comma before and belongs to it. A hyphen may be left hanging: 10- to 15-minute.
func joinWord(text string, at int, spaced bool) (joint, int) {
	if at < len(text) && (text[at] == '-' || text[at] == ',') && !spaced {
		next := skipGap(text, at+1)
		if next == at+1 {
			return apart, at
		}
		j, end := joinWord(text, next, true)
		if j == apart && text[at] == ',' {
			return comma, next
		}
		return j, end
	}
	if !spaced {
		return apart, at
	}
	j := apart
	word := wordAt(text, at)
	switch word {
	case "to":
		j = upTo
	case "and":
		j = both
	case "or":
		j = either
	case "by", "x":
		j = times
	}
	next := skipGap(text, at+len(word))
	if next == at+len(word) {
		return apart, at
	}
	return j, next
}

// joinMark reads dashes and other signs. A dash with a space before and none behind could be a minus sign.
func joinMark(text string, at, gap int) (joint, int) {
	rest := text[gap:]
	r, size := utf8.DecodeRuneInString(rest)
	next := skipGap(text, gap+size)
	switch r {
	case '-', '–':
		switch {
		case gap > at && next == gap+size:
			return unclear, next
		case gap == at || next > gap+size:
			return upTo, next
		}
	case '−':
		if gap == at || next > gap+size {
			return upTo, next
		}
	case '…':
		return upTo, next
	case '±':
		return around, next
	case '×':
		return times, next
	case 'x':
		if gap == at && digitAt(text, next) {
			return times, next
		}
	case '/':
		if gap == at && digitAt(text, gap+1) {
			return slash, gap + 1
		}
	case ',':
		if gap == at && digitAt(text, gap+1) {
			return comma, gap + 1
		}
	}
	switch {
	case strings.HasPrefix(rest, ".."):
		return upTo, skipGap(text, gap+2+len(rest[2:])-len(strings.TrimPrefix(rest[2:], ".")))
	case strings.HasPrefix(rest, "+/-"):
		return around, skipGap(text, gap+3)
	case strings.HasPrefix(rest, "+-"):
		return around, skipGap(text, gap+2)
	}
	return apart, at
}

// numberBegins tells whether a number, with its sign, begins at a place.
func numberBegins(text string, at int) bool {
	if at >= len(text) {
		return false
	}
	r, size := utf8.DecodeRuneInString(text[at:])
	if r == '-' || r == '−' || r == '–' || r == '+' {
		at += size
	}
	return digitAt(text, at) || at < len(text) && text[at] == '.' && digitAt(text, at+1)
}
