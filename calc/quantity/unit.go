package quantity

import (
	"unicode/utf8"

	"blankoff/calc/letters"
)

// Unit is one unit of measure: SI value = zero + factor × number. It points at what is
// known of it, so that passing one about costs a phone little; its parts must not be
// changed.
type Unit struct{ *measure }

type measure struct {
	_      [0]func() // never compared: saves the code for it
	Symbol string    // as we print it
	Kind   Kind
	Dim    Dim
	factor float64
	zero   float64
}

// To gives the SI value of x of the unit.
func (u Unit) To(x float64) float64 { return u.zero + u.factor*x }

// From gives the number of units in an SI value.
func (u Unit) From(si float64) float64 { return (si - u.zero) / u.factor }

// Span gives the SI size of a difference of x units; for most units it is To.
func (u Unit) Span(x float64) float64 { return u.factor * x }

// Affine tells whether the scale has a zero of its own (°C, °F).
func (u Unit) Affine() bool { return u.zero != 0 }

// Difference is the unit for a difference of two values: a kelvin, or a degree of the
// scale whose zero no longer counts.
func (u Unit) Difference() Unit {
	if u.Kind != Temperature {
		return u
	}
	m := *u.measure
	m.Kind, m.zero = TemperatureDifference, 0
	return Unit{&m}
}

// pairs are the units that people use side by side: the smaller one and the larger.
var pairs = [...]string{"mm", "m", "in", "ft", "mL", "L", "in³", "gal"}

// Beside is the unit of a pair that is about as large as another: who chose millimetres reads of
// altitudes in metres. A unit of no pair is given as it is.
func (u Unit) Beside(other Unit) Unit {
	for i, symbol := range pairs {
		if u.Symbol != symbol {
			continue
		}
		small, large := MustUnit(pairs[i&^1]), MustUnit(pairs[i|1])
		if other.factor < large.factor/5 {
			return small
		}
		return large
	}
	return u
}

// One is the unit of a plain number.
var One = Unit{&measure{Kind: Ratio, factor: 1}}

// FindUnit looks a unit or a unit expression up: "mTorr", "mbar·L/s", "g/h".
// Spelling is forgiving (case, µ or u, `l` for litre, `.`/`*`/space for ·) as
// long as only one unit can be meant.
func FindUnit(text string) (Unit, bool) {
	u, problem := parseUnit(text)
	return u, problem == ""
}

// MustUnit is FindUnit for symbols written in our own declarations.
func MustUnit(symbol string) Unit {
	u, problem := parseUnit(symbol)
	if problem != "" {
		panic("quantity: unit " + symbol + ": " + problem)
	}
	return u
}

// Symbols lists every named unit with its prefixed forms, in table order.
func Symbols() []string {
	var list []string
	for _, e := range table {
		list = append(list, e.symbol)
		for _, p := range e.prefixes {
			list = append(list, string(p)+e.symbol)
		}
	}
	return list
}

// parseUnit reads a unit expression. The problem is "" when it is understood,
// "unknown" when no unit is recognised, else a sentence.
func parseUnit(text string) (Unit, string) {
	if u, at := written.find(text, 0); at > 0 {
		return u, ""
	}
	text = letters.Tidy(text)
	if text == "" || text == "1" {
		return One, ""
	}
	if u, problem := named(text); problem != "unknown" {
		return u, problem
	}
	low := lower(text)
	for i := range compounds {
		if compounds[i].spelling == low {
			text = compounds[i].symbol
		}
	}
	return parseExpression(text)
}

// parseExpression reads factors joined by · * . - space or /; a slash divides by
// the next factor only, as in "Pa·m³/s".
func parseExpression(text string) (Unit, string) {
	result := Unit{&measure{factor: 1}}
	hasPressure, sign, rest, parts := false, int8(1), text, 0
	alone, lone := One, false
	if letters.HasPrefix(text, "1/") {
		rest = text[1:] // as we print it: 1/s
	}
	for rest != "" {
		r, size := utf8.DecodeRuneInString(rest)
		switch {
		case r == '/' && sign > 0:
			sign, rest = -1, rest[size:]
			continue
		case letters.ContainsRune(" ·*.⋅×-", r):
			rest = rest[size:]
			continue
		}
		var symbol string
		symbol, rest = factorText(rest)
		u, power, problem := factor(symbol)
		if problem != "" {
			return One, problem
		}
		if parts++; parts > 6 || power < -4 || power > 4 || power == 0 {
			return One, "unknown"
		}
		hasPressure = hasPressure || u.Kind == Pressure
		result.Dim = result.Dim.Times(u.Dim, power*sign)
		for range abs8(power) {
			if power*sign > 0 {
				result.factor *= u.factor
			} else {
				result.factor /= u.factor
			}
		}
		result.Symbol += joint(result.Symbol, sign) + u.Symbol + powerText(power)
		alone, sign = u, 1
		lone = parts == 1 && result.Symbol == u.Symbol
	}
	if lone && sign > 0 { // "·sccm" is still sccm, and "°C." still has the zero of °C
		return alone, ""
	}
	if parts == 0 || sign < 0 { // nothing, or nothing after the last slash
		return One, "unknown"
	}
	result.Kind = kindOf(result.Dim, hasPressure)
	return result, ""
}

// factorText cuts the next symbol with its exponent from an expression.
func factorText(text string) (symbol, rest string) {
	for i, r := range text {
		exponent := isExponent(r) ||
			r == '-' && i > 0 && (text[i-1] == '^' || i+1 < len(text) && text[i+1] >= '0' && text[i+1] <= '9')
		if !exponent && !isLetter(r) && !letters.ContainsRune(`%"'`, r) {
			if i == 0 { // a sign that no unit starts with: take it, so that the loop ends
				_, size := utf8.DecodeRuneInString(text)
				return text[:size], text[size:]
			}
			return text[:i], text[i:]
		}
	}
	return text, ""
}

// factor reads a symbol with an optional exponent: "m3", "cm^3", "s⁻¹".
func factor(text string) (Unit, int8, string) {
	if u, problem := named(text); problem != "unknown" {
		return u, 1, problem
	}
	cut := exponentAt(text)
	if cut <= 0 {
		return One, 0, "unknown"
	}
	u, problem := named(text[:cut])
	if problem != "" {
		return One, 0, problem
	}
	power, ok := exponentValue(letters.TrimPrefix(text[cut:], "^"))
	if !ok || u.Affine() {
		return One, 0, "unknown"
	}
	return u, power, ""
}

// exponentAt is where the exponent of a factor begins, or −1.
func exponentAt(text string) int {
	for i, r := range text {
		if r == '-' || isExponent(r) {
			return i
		}
	}
	return -1
}

func exponentValue(text string) (int8, bool) {
	value, negative, digits := int8(0), false, 0
	for _, r := range text {
		switch {
		case r == '-' || r == '⁻':
			negative = true
			continue
		case r >= '0' && r <= '9':
			r -= '0'
		default:
			at := letters.IndexRune("⁰¹²³⁴⁵⁶⁷⁸⁹", r)
			if at < 0 {
				return 0, false
			}
			r = rune(utf8.RuneCountInString("⁰¹²³⁴⁵⁶⁷⁸⁹"[:at]))
		}
		if digits++; digits > 1 {
			return 0, false
		}
		value = int8(r)
	}
	if negative {
		value = -value
	}
	return value, digits == 1
}

func joint(before string, sign int8) string {
	switch {
	case sign < 0 && before == "":
		return "1/"
	case sign < 0:
		return "/"
	case before == "":
		return ""
	}
	return "·"
}

func powerText(power int8) string {
	if power == 1 {
		return ""
	}
	return superscript(int(power))
}

func abs8(n int8) int8 {
	if n < 0 {
		return -n
	}
	return n
}

// kindOf gives the kind that a compound unit means. A product with a pressure in
// it is a leak rate, not a power; a lone kelvin in a quotient is a difference.
func kindOf(d Dim, hasPressure bool) Kind {
	for k := Ratio; k < lastKind; k++ {
		if kinds[k].dim == d && k != Temperature && (k != Throughput || hasPressure) {
			return k
		}
	}
	return None
}
