package prose

import (
	"math"
	"strconv"
	"unicode/utf8"
)

// number is one number of a text: where its figures are, what they say and how finely.
type number struct {
	from, to int
	value    float64
	step     float64 // worth of one step of the last digit that means something
	whole    bool    // figures alone: no sign, point, fraction or power
	signed   bool
	fraction bool
}

// readNumber reads the number at a place, with the sign there. Where there is none, the end of the figures is still told.
func readNumber(text string, at int) (number, bool) {
	n := number{from: at, to: at}
	r, size := utf8.DecodeRuneInString(text[at:])
	if r == 'm' { // minus 18 °C
		r, size = '-', skipGap(text, at+len(minusWord))-at
	}
	if r == '-' || r == '−' || r == '–' || r == '+' {
		at, n.signed = at+size, true
	}
	if !digitAt(text, at) && !(at < len(text) && text[at] == '.' && digitAt(text, at+1)) {
		return n, false
	}
	f, ok := readFigures(text, at)
	n.to = f.to
	if !ok {
		return n, false
	}
	n.value, n.step, n.whole = f.value(0), f.step(), f.point < 0 && !n.signed
	if power, end := barePower(text, f); end > n.to {
		n.value, n.step, n.to, n.whole = math.Pow10(power), math.Pow10(power), end, false
	}
	if n.whole && n.readFraction(text, at) {
		return n, true
	}
	if power, end := readPower(text, n.to); end > n.to {
		n.value, n.to, n.whole = f.value(power), end, false
		n.step = math.Pow10(power - f.places())
	}
	if r == '-' || r == '−' || r == '–' {
		n.value = -n.value
	}
	return n, !math.IsInf(n.value, 0)
}

const minusWord = "minus"

// readFraction reads 11/16, 1-1/8 and 1½, where n is the first number and began at a place. Fractions are those that
// rulers and drills have, and one of anything: 598/250 are two readings.
func (n *number) readFraction(text string, at int) bool {
	r, size := utf8.DecodeRuneInString(text[n.to:])
	if part, ok := vulgar[r]; ok {
		n.value, n.step, n.to = n.value+part, 1.0/64, n.to+size
		n.whole, n.fraction = false, true
		return true
	}
	top, from := at, 0.0
	if gap := n.to + max(spaceAt(text, n.to), hyphenAt(text, n.to)); gap > n.to && digitAt(text, gap) && n.value > 0 && digitsEnd(text, at) == n.to { // no whole of 1 000
		if end := digitsEnd(text, gap); end < len(text) && text[end] == '/' {
			top, from = gap, n.value
		}
	}
	x, bottom, end, ok := ratio(text, top)
	if !ok || from > 0 && x >= 1 {
		return false
	}
	n.value, n.to, n.whole, n.fraction = from+x, end, false, true
	n.step = 1 / max(64, bottom)
	return true
}

var vulgar = map[rune]float64{'½': 0.5, '¼': 0.25, '¾': 0.75, '⅛': 0.125, '⅜': 0.375, '⅝': 0.625, '⅞': 0.875}

// ratio reads two whole numbers with a slash between.
func ratio(text string, at int) (x, bottom float64, end int, ok bool) {
	slash := digitsEnd(text, at)
	if slash == at || text[at] == '0' || slash-at > 4 || slash >= len(text) || text[slash] != '/' {
		return 0, 0, 0, false
	}
	end = digitsEnd(text, slash+1)
	if end == slash+1 || text[slash+1] == '0' || end-slash > 5 || end < len(text) && text[end] == '/' || markAt(text, end) > 0 {
		return 0, 0, 0, false
	}
	top, _ := strconv.ParseFloat(text[at:slash], 64)
	bottom, _ = strconv.ParseFloat(text[slash+1:end], 64)
	switch bottom {
	case 2, 3, 4, 5, 6, 8, 16, 32, 64:
	default:
		if top != 1 || bottom < 2 {
			return 0, 0, 0, false
		}
	}
	return top / bottom, bottom, end, true
}
