package quantity

import (
	"math"

	"blankoff/calc/letters"
)

// number is what scanNumber read.
type number struct {
	value   float64
	figures int    // significant figures as written
	length  int    // bytes used
	note    string // a reading that the writer should know of
}

// scanNumber reads a number at the start of s as people type it: decimal point or
// comma, thousands marks, exponent ("1e-5", "4.1×10⁻⁵"), fraction ("11/16", "1 1/8").
// The text must already have plain minus signs and spaces (see tidy).
func scanNumber(s string) (number, bool) {
	n, ok := scanDecimal(s)
	if !ok {
		return n, false
	}
	if f, ok := scanFraction(s, n); ok {
		return f, true
	}
	scanExponent(s, &n)
	return n, !math.IsInf(n.value, 0)
}

func scanDecimal(s string) (number, bool) {
	i := 0
	if i < len(s) && (s[i] == '-' || s[i] == '+') {
		i++
		for i < len(s) && s[i] == ' ' {
			i++
		}
	}
	start := i
	for i < len(s) && (isDigit(s[i]) || (isMark(s[i]) && i+1 < len(s) && isDigit(s[i+1]))) {
		i++
	}
	body := s[start:i]
	plain, note, ok := plainDigits(body)
	if !ok {
		// A space may end the number rather than group its digits ("1 1/8 in").
		if cut := letters.IndexByte(body, ' '); cut > 0 {
			body = body[:cut]
			i = start + cut
			plain, note, ok = plainDigits(body)
		}
		if !ok {
			return number{}, false
		}
	}
	value, ok := letters.Float(plain)
	if !ok {
		return number{}, false
	}
	if s[0] == '-' {
		value = -value
	}
	return number{value: value, figures: countFigures(plain), length: i, note: note}, true
}

// plainDigits removes thousands marks and turns a decimal comma into a point.
//
// A comma (or an apostrophe or space) before exactly three digits groups
// thousands, as this site prints them: "2,000" is two thousand. Any other single
// comma is a decimal comma: "0,02", "1,5". A number such as "2,000" gets a note,
// since part of the world writes two that way.
func plainDigits(body string) (plain, note string, ok bool) {
	if body == "" || letters.Count(body, '.') > 1 || letters.Trim(body, ".,' ") == "" {
		return "", "", false
	}
	whole, fraction, hasPoint := letters.Cut(body, ".")
	if !hasPoint && letters.Count(body, ',') == 1 && !grouped(body, ',') {
		whole, fraction, hasPoint = letters.Cut(body, ",")
	}
	if letters.HasAny(fraction, ",' ") {
		return "", "", false
	}
	for _, mark := range []byte{',', '\'', ' '} {
		if letters.IndexByte(whole, mark) < 0 {
			continue
		}
		if !grouped(whole, mark) {
			return "", "", false
		}
		if mark == ',' && !hasPoint && letters.Count(whole, ',') == 1 {
			note = body + " is read as a number of thousands; write " + letters.Replace(body, ",", ".") + " if the comma is a decimal comma"
		}
		whole = letters.Replace(whole, string(mark), "")
	}
	if hasPoint {
		return whole + "." + fraction, note, true
	}
	return whole, note, true
}

// grouped tells whether mark divides the digits in threes, as in 12,345,678.
func grouped(s string, mark byte) bool {
	first := letters.IndexByte(s, mark)
	if first < 1 || first > 3 || s[0] == '0' || (len(s)-first)%4 != 0 {
		return false
	}
	for i := 0; i < len(s); i++ {
		if isMarked := i >= first && (i-first)%4 == 0; isMarked != (s[i] == mark) || !isMarked && !isDigit(s[i]) {
			return false
		}
	}
	return true
}

// scanFraction reads "11/16" and "1 1/8" or "1-1/8", where n is the first number.
func scanFraction(s string, n number) (number, bool) {
	if n.value != math.Trunc(n.value) || n.value < 0 {
		return n, false
	}
	whole, rest := 0.0, s[n.length:]
	top, used := n.value, n.length
	if len(rest) > 1 && (rest[0] == ' ' || rest[0] == '-') {
		m, digits := leadingInt(rest[1:])
		if digits == 0 {
			return n, false
		}
		whole, top, used = n.value, m, n.length+1+digits
		rest = s[used:]
	}
	if len(rest) < 2 || rest[0] != '/' {
		return n, false
	}
	bottom, digits := leadingInt(rest[1:])
	if digits == 0 || bottom == 0 || (whole > 0 && top >= bottom) {
		return n, false
	}
	return number{value: whole + top/bottom, figures: 15, length: used + 1 + digits}, true
}

func leadingInt(s string) (value float64, digits int) {
	for digits < len(s) && digits < 6 && isDigit(s[digits]) {
		value = value*10 + float64(s[digits]-'0')
		digits++
	}
	return value, digits
}

// scanExponent extends n by "e-5", "E3", "×10^-5", "x10-5" or "·10⁻⁵".
func scanExponent(s string, n *number) {
	rest := s[n.length:]
	power, used, ok := 0, 0, false
	if len(rest) > 1 && (rest[0] == 'e' || rest[0] == 'E') {
		power, used, ok = signedInt(rest[1:])
		used++
	} else {
		for _, mark := range []string{"×10", " × 10", "x10", " x 10", "·10", "*10"} {
			if tail, found := letters.CutPrefix(rest, mark); found {
				power, used, ok = signedInt(letters.TrimPrefix(tail, "^"))
				used += len(rest) - len(letters.TrimPrefix(tail, "^"))
				break
			}
		}
	}
	if ok && power >= 300 {
		n.value = math.Inf(1) // refused by scanNumber: no quantity of the trade is that large
		return
	}
	if ok && power > -300 {
		n.value = letters.Scale(n.value, power)
		n.length += used
	}
}

// signedInt reads an integer in plain or superscript figures.
func signedInt(s string) (value, used int, ok bool) {
	sign, digits := 1, 0
	for i, r := range s {
		switch {
		case digits == 0 && i == 0 && (r == '-' || r == '⁻'):
			sign = -1
			used = i + len(string(r))
			continue
		case digits == 0 && i == 0 && r == '+':
			used = 1
			continue
		}
		d := superscriptDigit(r)
		if d < 0 || digits >= 3 {
			return sign * value, used, digits > 0
		}
		value, digits, used = value*10+d, digits+1, i+len(string(r))
	}
	return sign * value, used, digits > 0
}

func superscriptDigit(r rune) int {
	if r >= '0' && r <= '9' {
		return int(r - '0')
	}
	for i, c := range []rune("⁰¹²³⁴⁵⁶⁷⁸⁹") {
		if c == r {
			return i
		}
	}
	return -1
}

func countFigures(plain string) int {
	digits := letters.TrimLeft(letters.Replace(plain, ".", ""), "0")
	if !letters.Contains(plain, ".") {
		digits = letters.TrimRight(digits, "0")
	}
	return max(1, len(digits))
}

func isDigit(c byte) bool { return c >= '0' && c <= '9' }
func isMark(c byte) bool  { return c == '.' || c == ',' || c == '\'' || c == ' ' }
