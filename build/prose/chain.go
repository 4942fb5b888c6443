package prose

import (
	"math"
	"unicode/utf8"

	"blankoff/calc/quantity"
)

// chain is a value in units that grow smaller: 1h30, 1 min 30 s, 5 ft 3 in.
type chain struct{ si, step float64 }

// readChain reads on behind the first number and unit of a chain and moves the end of the item.
func readChain(text string, it *item) *chain {
	u := it.unit.Unit
	if it.unit.worry != 0 || it.unit.count || it.unit.joined || !it.unit.isWord(text) || u.Kind != quantity.Time && u.Kind != quantity.Length {
		return nil
	}
	c := chain{u.To(math.Abs(it.value)), 0}
	for {
		at := skipGap(text, it.to)
		if !digitAt(text, at) {
			break
		}
		n, ok := readNumber(text, at)
		if !ok {
			break
		}
		next, end, ok := chainUnit(text, n, u, at == it.to)
		if !ok || next.Kind != u.Kind || next.Span(1) >= u.Span(1) {
			break
		}
		c.si, c.step, u, it.to = c.si+next.To(n.value), next.Span(n.step), next, end
	}
	if c.step == 0 {
		return nil
	}
	if math.Signbit(it.value) {
		c.si = -c.si
	}
	return &c
}

// isWord tells a unit of letters from an expression, which may come to a time as well: bar L/W.
func (u unit) isWord(text string) bool { return len(wordAt(text, u.from)) == u.to-u.from }

// mixesMinutes finds what is a time if m is the minute, and nothing if it is the metre: 1h30m, 10 m 30 s.
func mixesMinutes(text string, it *item) bool {
	isHour := it.unit.Kind == quantity.Time && it.unit.Span(1) == 3600
	if !isHour && text[it.unit.from:it.unit.to] != "m" {
		return false
	}
	n, ok := readNumber(text, skipGap(text, it.unit.to))
	if !ok || n.signed {
		return false
	}
	u := readUnit(text, n, false)
	if !u.known() || isHour && text[u.from:u.to] != "m" || !isHour && text[u.from:u.to] != "s" && text[u.from:u.to] != "sec" {
		return false
	}
	it.to, it.unit.worry = u.to, minuteOr
	return true
}

// chainUnit is the unit of a further number of a chain. The 30 of 1h30 is minutes.
func chainUnit(text string, n number, before quantity.Unit, tight bool) (quantity.Unit, int, bool) {
	if u := readUnit(text, n, false); u.known() && u.worry == 0 && !u.count && !u.joined && u.isWord(text) {
		return u.Unit, u.to, true
	}
	r, _ := utf8.DecodeRuneInString(text[n.to:])
	if !tight || !n.whole || n.to < len(text) && isWord(r) || hyphenAt(text, n.to) == 1 {
		return quantity.Unit{}, 0, false
	}
	for _, smaller := range []struct {
		than float64
		unit quantity.Unit
	}{{86400, hour}, {3600, minute}, {60, second}} {
		if before.Span(1) == smaller.than && before.Kind == quantity.Time {
			return smaller.unit, n.to, true
		}
	}
	return quantity.Unit{}, 0, false
}

var hour, minute, second = quantity.MustUnit("h"), quantity.MustUnit("min"), quantity.MustUnit("s")
