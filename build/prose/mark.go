package prose

import (
	"math"
	"strings"

	"blankoff/calc/quantity"
)

// emit makes a mark of items that belong together, or a doubt, or both. The last that is no tolerance has the unit.
func (s *scanner) emit(form Form, from int, items []item) {
	lender := lender(items)
	u := lender.unit
	if s.isQuote(u) || u.name == "k" && !s.about(from).kilohms { // "30", 10k of anything
		return
	}
	m := Mark{From: from, To: items[len(items)-1].to, Form: form}
	why := s.concern(from, u, least(items))
	if len(items) > 1 && items[1].joint == unclear {
		why = dash
	}
	if why != 0 {
		s.doubt(m.From, m.To, why, items)
	}
	if u.Unit == (quantity.Unit{}) || why != 0 && why != reference {
		return
	}
	m.Kind = s.kindOf(form, from, m.To, lender)
	if u.count {
		m.Form, m.Kind = Count, quantity.None
	}
	if numbers, ok := s.numbersOf(items, u, m.Kind, form == Spread); ok {
		m.Numbers = numbers
		s.marks = append(s.marks, m)
	}
}

// numbersOf are the numbers of a mark; none if one is beyond what a float holds.
func (s *scanner) numbersOf(items []item, lent unit, kind quantity.Kind, spread bool) ([]Number, bool) {
	start := len(s.numbers)
	for i := range items {
		n := measured(items[i], lent, kind, spread)
		if math.IsInf(n.SI, 0) || math.IsNaN(n.SI) || !(n.Step > 0) || math.IsInf(n.Step, 0) {
			s.numbers = s.numbers[:start]
			return nil, false
		}
		s.numbers = append(s.numbers, n)
	}
	return s.numbers[start:len(s.numbers):len(s.numbers)], true
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

// measured gives one number of a mark its unit and its value.
func measured(it item, lent unit, kind quantity.Kind, spread bool) Number {
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
	return n
}

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
