package prose

import (
	"math"
	"strings"
	"unicode/utf8"

	"blankoff/calc/quantity"
)

// emit makes a mark of items that belong together, or a doubt, or both. The last but tolerances has the unit.
func (s *scanner) emit(form Form, from int, items []item) {
	lender := lender(items)
	u := lender.unit
	if s.isQuote(u) || len(items) > 1 && items[1].joint == unclear {
		if !s.isQuote(u) {
			s.doubt(from, items[len(items)-1].to, dash, "")
		}
		return
	}
	m := Mark{From: from, To: items[len(items)-1].to, Form: form}
	why := s.concern(from, u, least(items))
	if u.name == "k" && !s.about(from).kilohms { // 10k of anything
		return
	}
	if why != 0 {
		s.doubt(m.From, m.To, why, s.figures(items))
	}
	if u.Unit == (quantity.Unit{}) || why != 0 && why != reference {
		return
	}
	m.Kind = s.kindOf(form, from, m.To, lender)
	if u.count {
		m.Form, m.Kind = Count, quantity.None
	}
	start := len(s.numbers)
	for i := range items {
		n, ok := s.number(items[i], u, m.Kind, form == Spread)
		if !ok {
			s.numbers = s.numbers[:start]
			return
		}
		s.numbers = append(s.numbers, n)
	}
	m.Numbers = s.numbers[start:len(s.numbers):len(s.numbers)]
	s.marks = append(s.marks, m)
}

// lender is the item whose unit the others take.
func lender(items []item) item {
	last := items[len(items)-1]
	if len(items) == 2 && last.joint == around && items[0].unit.known() {
		return items[0]
	}
	return last
}

func least(items []item) float64 {
	low := math.Inf(1)
	for _, it := range items {
		if it.joint != around {
			low = min(low, it.value)
		}
	}
	return low
}

// figures are the numbers of a doubt as written, for its hint.
func (s *scanner) figures(items []item) string {
	last := items[len(items)-1]
	return strings.TrimLeft(s.text[items[0].from:last.number.to], "-−–+")
}

// isQuote tells whether the sign that would be inches or feet closes a quotation.
func (s *scanner) isQuote(u unit) bool {
	switch s.text[u.from] {
	case '"':
		if s.quoted(u.from) {
			return true
		}
		s.quotes.to = u.to
	case '\'':
		return apostrophe(s.text, u.from)
	}
	return false
}

// number gives one number of a mark its unit and its value.
func (s *scanner) number(it item, lent unit, kind quantity.Kind, spread bool) (Number, bool) {
	u := it.unit
	n := Number{From: it.from, To: it.number.to, UnitFrom: u.from, UnitTo: u.to, Gauge: lent.gauge && it.joint != around}
	n.Unit = u.Unit
	if !u.known() || u.Unit == (quantity.Unit{}) {
		n.Unit = lent.Unit
	}
	n.Difference = it.joint == around
	n.Percent = n.Difference && n.Unit.Symbol == "%" && (spread || lent.Symbol != "%")
	if kind == quantity.TemperatureDifference || n.Difference {
		n.Unit = n.Unit.Difference()
	}
	n.SI, n.Step = n.Unit.To(it.value), n.Unit.Span(it.step)
	if it.chain != nil {
		n.SI, n.Step = it.chain.si, it.chain.step
		n.To, n.UnitFrom, n.UnitTo = it.to, 0, 0
	}
	return n, !math.IsInf(n.SI, 0) && !math.IsNaN(n.SI) && n.Step > 0 && !math.IsInf(n.Step, 0)
}

// kindOf is the kind of a mark: that of its unit, but a tolerance of a temperature is a difference, and so is what the
// words around call one. Below 100 kelvin nothing in this trade is cold, so few kelvins are a difference too.
func (s *scanner) kindOf(form Form, from, end int, it item) quantity.Kind {
	if it.unit.Kind != quantity.Temperature {
		return it.unit.Kind
	}
	if form == Spread || it.unit.Symbol == "K" && math.Abs(it.value) < 100 {
		return quantity.TemperatureDifference
	}
	before, at := wordBefore(s.text, from)
	low := strings.ToLower(before)
	if before != "" && low == "of" {
		noun, _ := wordBefore(s.text, at)
		if changes[strings.ToLower(noun)] {
			return quantity.TemperatureDifference
		}
	}
	if low == "minus" {
		word, _ := wordBefore(s.text, at)
		if strings.ToLower(word) == "or" { // plus or minus 2 °C
			return quantity.TemperatureDifference
		}
	}
	if low == "by" || low == "within" && form == Value {
		return quantity.TemperatureDifference
	}
	next := wordAt(s.text, skipGap(s.text, end))
	if it.value >= 0 && (warmer[next] || beyond[next] && low != "at" && low != "to") {
		return quantity.TemperatureDifference
	}
	return quantity.Temperature
}

var changes = setOf("change rise drop fall difference step error offset gap spread drift")

// Words behind a temperature that make it a difference: 3 °C colder, 5 °C above the trap.
var (
	warmer = setOf("warmer colder cooler hotter apart")
	beyond = setOf("higher lower above below more less")
)

// tolerates tells whether the second item is the tolerance of the first.
func (s *scanner) tolerates(a, b item) bool {
	if b.joint != around || b.signed || b.chain != nil || b.unit.worry != 0 || a.unit.worry != 0 || a.unit.count || b.unit.count || b.unit.gauge {
		return false
	}
	switch {
	case !b.unit.known():
		return true
	case b.unit.Symbol == "%":
		return a.unit.Kind != quantity.Temperature
	case a.unit.Kind == quantity.Temperature:
		return b.unit.Kind == quantity.Temperature
	}
	return a.unit.Kind == b.unit.Kind
}

// signBetween is where the ± behind a place begins.
func signBetween(text string, at int) int {
	at = skipGap(text, at)
	for _, sign := range []string{"±", "+/-", "+-"} {
		if strings.HasPrefix(text[at:], sign) {
			return at
		}
	}
	return -1
}

// chain is a value in units that grow smaller: 1h30, 1 min 30 s, 5 ft 3 in.
type chain struct{ si, step float64 }

// readChain reads on behind the first number and unit of a chain and moves the end of the item.
func readChain(text string, it *item) *chain {
	u := it.unit.Unit
	if it.unit.worry != 0 || it.unit.count || it.unit.joined || u.Kind != quantity.Time && u.Kind != quantity.Length {
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
	if it.value < 0 {
		c.si = -c.si
	}
	return &c
}

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
	if u := readUnit(text, n, false); u.known() && u.worry == 0 && !u.count && !u.joined {
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
