package prose

import (
	"math"
	"strings"
	"unicode/utf8"
)

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

// barePower reads the power of a ten that stands alone: 10⁻³ mbar, 10^-3 mbar.
func barePower(text string, f figures) (power, end int) {
	r, _ := utf8.DecodeRuneInString(text[f.to:])
	if f.digits != "10" || f.point >= 0 || r == utf8.RuneError || !strings.ContainsRune("^⁻"+raised, r) {
		return 0, f.to
	}
	return signedPower(text, f.to, f.to, false)
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

// powered reads a value and its tolerance that share a power of ten, as the calculators print them:
// (2.24 ± 0.12)×10⁻⁵ mbar·L/s. The brackets and the power belong to the two numbers.
func (s *scanner) powered(at int) (end int) {
	if at == 0 || s.text[at-1] != '(' {
		return at
	}
	value, ok := readNumber(s.text, at)
	j, next := readJoint(s.text, value.to)
	if !ok || j != around {
		return at
	}
	spread, ok := readNumber(s.text, next)
	if !ok || spread.signed || !strings.HasPrefix(s.text[spread.to:], ")") {
		return at
	}
	power, to := readPower(s.text, spread.to+1)
	last := item{number: spread, joint: around}
	if last.number.to = to; to == spread.to+1 {
		return at
	}
	if last.unit = readUnit(s.text, last.number, false); !last.unit.known() {
		return at
	}
	last.to = last.unit.to
	first := item{number: value}
	first.from = at - 1
	for _, n := range []*number{&first.number, &last.number} {
		n.value, n.step = n.value*math.Pow10(power), n.step*math.Pow10(power)
	}
	s.emit(Value, first.from, []item{first, last})
	return last.to
}
