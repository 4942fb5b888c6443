package prose

import (
	"math"
	"strconv"
	"strings"
)

// longest is the length from which figures are no number of a sentence.
const longest = 40

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
