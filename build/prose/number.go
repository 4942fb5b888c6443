package prose

import (
	"math"
	"strconv"
	"strings"
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

// longest is the length from which figures are no number of a sentence.
const longest = 40

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
	if !n.signed && f.point < 0 && n.readFraction(text, at) {
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

// figures are the digits of a number, without marks.
type figures struct {
	digits string
	point  int // how many digits stand before the point; −1 without one
	to     int
}

func (f figures) places() int {
	if f.point < 0 {
		return 0
	}
	return len(f.digits) - f.point
}

func (f figures) value(power int) float64 {
	if len(f.digits) <= 15 && power == 0 { // two numbers that a float holds exactly
		whole := 0
		for i := range len(f.digits) {
			whole = whole*10 + int(f.digits[i]-'0')
		}
		return float64(whole) / tens[f.places()]
	}
	x, _ := strconv.ParseFloat(f.digits+"e"+strconv.Itoa(power-f.places()), 64)
	return x
}

// step is one of the last place after a point. Of a whole number that ends in zeros it is one of the place of the third
// figure, or of the last figure that is no zero if that is finer: 2,000 is known to 10, 350 and 200 to 1.
func (f figures) step() float64 {
	if f.point >= 0 {
		return math.Pow10(-f.places())
	}
	zeros := 0
	for zeros < len(f.digits) && f.digits[len(f.digits)-1-zeros] == '0' {
		zeros++
	}
	return math.Pow10(max(0, min(zeros, len(f.digits)-3)))
}

var tens = [...]float64{1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15}

// readFigures reads digits as they are written: 2,000 and 2 000 are two thousand, 0,02 is two hundredths. A number never
// starts with a zero before another digit: 012 is a size of a ring, 00473 part of a serial.
func readFigures(text string, at int) (figures, bool) {
	end, plain := at, true
	for {
		size := markAt(text, end)
		if size == 0 && !digitAt(text, end) {
			break
		}
		plain = plain && size == 0
		end += max(1, size)
	}
	f := figures{point: -1, to: end}
	body := text[at:end]
	if end == at || end-at > longest || len(body) > 1 && body[0] == '0' && isDigit(body[1]) {
		return f, false
	}
	if plain {
		if f.digits = body; len(body) <= 3 && body[0] != '0' {
			f.group(text)
		}
		return f, true
	}
	body = strings.ReplaceAll(body, "’", "'")
	if whole, fraction, ok := splitFigures(body); ok {
		f.digits = whole + fraction
		if strings.ContainsAny(body, ".,") && (fraction != "" || !grouped(body, ',')) {
			f.point = len(whole)
		}
		return f, true
	}
	if cut := strings.IndexByte(body, ','); cut > 0 && !strings.ContainsAny(body, ".'") { // 5,10,15 min
		return figures{digits: body[:cut], point: -1, to: at + cut}, true
	}
	return f, false
}

// markAt is the length of a mark inside a number at a place, 0 for none.
func markAt(text string, at int) int {
	if at >= len(text) || isDigit(text[at]) || text[at] == ' ' {
		return 0
	}
	size := 0
	switch {
	case text[at] == '.' || text[at] == ',' || text[at] == '\'':
		size = 1
	case strings.HasPrefix(text[at:], "’"):
		size = len("’")
	}
	if size > 0 && digitAt(text, at+size) {
		return size
	}
	return 0
}

// splitFigures takes the marks out of a number: a comma before three digits groups thousands, any other single comma is
// a decimal comma, as calc/quantity reads them.
func splitFigures(body string) (whole, fraction string, ok bool) {
	whole, fraction, point := strings.Cut(body, ".")
	if !point && strings.Count(body, ",") == 1 && !grouped(body, ',') {
		whole, fraction, _ = strings.Cut(body, ",")
	}
	if strings.ContainsAny(fraction, ".,'") {
		return "", "", false
	}
	for _, mark := range []byte{',', '\''} {
		if strings.IndexByte(whole, mark) >= 0 {
			if !grouped(whole, mark) {
				return "", "", false
			}
			whole = strings.ReplaceAll(whole, string(mark), "")
		}
	}
	return whole, fraction, true
}

// grouped tells whether a mark divides the digits in threes, as in 12,345,678.
func grouped(s string, mark byte) bool {
	first := strings.IndexByte(s, mark)
	if first < 1 || first > 3 || s[0] == '0' || (len(s)-first)%4 != 0 {
		return false
	}
	for i := range len(s) {
		if isMark := i >= first && (i-first)%4 == 0; isMark != (s[i] == mark) || !isMark && !isDigit(s[i]) {
			return false
		}
	}
	return true
}

// group takes in digits in threes behind spaces: 101 325.
func (f *figures) group(text string) {
	for len(f.digits) < 15 {
		from := f.to + spaceAt(text, f.to)
		if from == f.to || text[f.to] == '\n' || text[f.to] == '\t' || text[f.to] == '\r' {
			return
		}
		if !digitAt(text, from) || !digitAt(text, from+1) || !digitAt(text, from+2) || digitAt(text, from+3) || markAt(text, from+3) > 0 || strings.HasPrefix(text[from+3:], "/") {
			return
		}
		f.digits, f.to = f.digits+text[from:from+3], from+3
	}
}

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
	if gap := n.to + max(spaceAt(text, n.to), hyphenAt(text, n.to)); gap > n.to && digitAt(text, gap) && n.value > 0 {
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

func hyphenAt(text string, at int) int {
	if at < len(text) && text[at] == '-' {
		return 1
	}
	return 0
}

var vulgar = map[rune]float64{'½': 0.5, '¼': 0.25, '¾': 0.75, '⅛': 0.125, '⅜': 0.375, '⅝': 0.625, '⅞': 0.875}

// ratio reads two whole numbers with a slash between.
func ratio(text string, at int) (x, bottom float64, end int, ok bool) {
	slash := digitsEnd(text, at)
	if slash == at || slash-at > 4 || slash >= len(text) || text[slash] != '/' {
		return 0, 0, 0, false
	}
	end = digitsEnd(text, slash+1)
	if end == slash+1 || end-slash > 5 || end < len(text) && text[end] == '/' || markAt(text, end) > 0 {
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

func digitsEnd(text string, at int) int {
	for digitAt(text, at) {
		at++
	}
	return at
}

// readPower reads e-5, ×10⁻⁵, x10^-5 behind a number. Plain figures need a sign: 2 x 100 mL are two portions.
func readPower(text string, at int) (power, end int) {
	from, letter := at, false
	if at < len(text) && isDigit(text[at]) {
		return 0, at
	}
	switch {
	case strings.HasPrefix(text[at:], "e") || strings.HasPrefix(text[at:], "E"):
		from, letter = at+1, true
	default:
		from += spaceAt(text, from)
		spaced := from > at
		r, size := utf8.DecodeRuneInString(text[from:])
		if r != '×' && r != 'x' && (spaced || r != '·' && r != '*') {
			return 0, at
		}
		from += size
		gap := spaceAt(text, from)
		if !strings.HasPrefix(text[from+gap:], "10") || spaced != (gap > 0) {
			return 0, at
		}
		from += gap + 2
	}
	return signedPower(text, from, at, letter)
}

// signedPower reads the exponent itself; none leaves the place where the number ended.
func signedPower(text string, from, none int, letter bool) (power, end int) {
	plain := letter
	if !letter && strings.HasPrefix(text[from:], "^") {
		from, plain = from+1, true
	}
	sign, digits := 1, 0
	r, size := utf8.DecodeRuneInString(text[from:])
	switch r {
	case '-', '−', '–':
		sign, from, plain = -1, from+size, true
	case '⁻':
		sign, from = -1, from+size
	case '+':
		from, plain = from+size, true
	}
	for ; digits < 3; digits++ {
		r, size := utf8.DecodeRuneInString(text[from:])
		d := strings.IndexRune(raised, r)
		switch {
		case r >= '0' && r <= '9' && plain:
			power = power*10 + int(r-'0')
		case d >= 0 && size > 1 && r != utf8.RuneError:
			power = power*10 + utf8.RuneCountInString(raised[:d])
		default:
			if digits == 0 || power >= 300 {
				return 0, none
			}
			return sign * power, from
		}
		from += size
	}
	if power >= 300 {
		return 0, none
	}
	return sign * power, from
}

const raised = "⁰¹²³⁴⁵⁶⁷⁸⁹"
