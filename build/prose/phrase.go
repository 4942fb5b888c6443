package prose

import "blankoff/calc/quantity"

// item is a number with its unit, if one stands there, and what joins it to the item before.
type item struct {
	number
	unit  unit
	joint joint
	to    int
	refs  bool   // counts or names something, so no unit behind it by chance is its own
	chain *chain // 1h30
}

// most is how many numbers are read as one phrase; a longer list is read in parts.
const most = 64

// phrase reads numbers that are joined to one another, tells which belong together, and gives the place behind them.
func (s *scanner) phrase(at int) int {
	s.items = s.items[:0]
	it, ok := s.item(at)
	if !ok {
		return max(it.to, at+1)
	}
	for {
		s.items = append(s.items, it)
		j, next := readJoint(s.text, it.to)
		if j == apart || j == unclear && (it.refs || it.unit.known()) || len(s.items) == most || s.begins(next) {
			break
		}
		refs := it.refs && j != comma && !it.unit.known()
		if it, ok = s.joined(next, j, refs); !ok {
			break
		}
	}
	s.settle()
	return s.items[len(s.items)-1].to
}

// begins tells whether something at a place is no plain number: a thread, a date, a time of day.
func (s *scanner) begins(at int) bool {
	for at < len(s.text) && !isDigit(s.text[at]) {
		at++ // its sign or point
	}
	if _, _, thread := threadAround(s.text, at); thread {
		return true
	}
	return isCode(s.text, at)
}

// item reads a number with its unit at the start of a phrase.
func (s *scanner) item(at int) (item, bool) {
	return s.joined(at, apart, at < len(s.text) && refers(s.text, at))
}

func (s *scanner) joined(at int, j joint, refs bool) (item, bool) {
	it := item{joint: j, to: at, refs: refs}
	if at >= len(s.text) {
		return it, false
	}
	n, ok := readNumber(s.text, at)
	it.number, it.to = n, n.to
	if !ok {
		return it, false
	}
	it.unit = readUnit(s.text, n, refs)
	if it.unit.joined && j == upTo && it.unit.to == it.unit.from+1 { // 40-118-A
		it.unit = unit{}
	}
	if it.unit.known() {
		it.to = it.unit.to
		if it.unit.worry != 0 || it.unit.count || !mixesMinutes(s.text, &it) {
			it.chain = readChain(s.text, &it)
		}
	}
	return it, true
}

// settle parts the items of a phrase into marks: each number with a unit takes the bare ones before it that share it.
func (s *scanner) settle() {
	for from := 0; from < len(s.items); {
		last := from
		for last < len(s.items) && !s.items[last].unit.known() {
			last++
		}
		if last == len(s.items) {
			return
		}
		from = s.group(s.sharing(from, last), last)
	}
}

// sharing is the first of the bare items before one with a unit that share this unit.
func (s *scanner) sharing(from, last int) int {
	j := s.items[last].joint
	if last == from || s.items[last-1].refs && j != around {
		return last
	}
	switch {
	case j == around && (s.items[last-1].joint == around || s.items[last].chain != nil || s.items[last].signed || s.items[last].unit.settled || s.items[last].unit.Unit == percent):
		return last // of 14.1 ± 15 % nobody knows the unit
	case j.ranges() || j == around || j == unclear:
		return last - 1
	case !j.lists():
		return last
	}
	first := last - 1
	for first > from && s.items[first].joint == sameAs(j) && !s.items[first-1].refs {
		first--
	}
	if j == comma && last-first < 2 { // two numbers and a comma are no list
		return last
	}
	return first
}

// sameAs is what joins the earlier parts of a list whose last joint is known: commas, but slashes all through.
func sameAs(last joint) joint {
	if last == slash {
		return slash
	}
	return comma
}

// group emits the items from first to last, of which the last has the unit, with what follows them in the same breath,
// and gives the first item that is left.
func (s *scanner) group(first, last int) int {
	items := s.items
	if first == last && items[last].joint == around {
		if !items[last].signed {
			s.tolerance(last)
			return last + 1
		}
		items[last].joint = apart // ± +5 is no accuracy
	}
	if first == last && s.isProduct(last) {
		return last + 1
	}
	form := s.formOf(first, last)
	end := last + 1
	switch {
	case first == last && end < len(items) && s.pair(items[last], items[end]):
		form, end = Range, end+1
	case first == last && end < len(items) && s.tolerates(items[last], items[end]):
		end++
	}
	s.emit(form, items[first].from, items[first:end])
	return end
}

// isProduct tells 10 × 20 cm, which looks like 2 × 12 mm bolts, so that nobody can tell how to rewrite it.
func (s *scanner) isProduct(i int) bool {
	u := s.items[i].unit
	return s.items[i].joint == times && !s.items[i-1].unit.known() && u.worry == 0 && !u.count && u.Kind == quantity.Length
}

// tolerance emits an item that stands behind ± and belongs to no single value: 8 to 11 mV ± 10 %.
func (s *scanner) tolerance(i int) {
	sign := signBetween(s.text, s.items[i-1].to)
	if sign >= 0 && !s.items[i].unit.settled && !s.items[i].unit.count {
		s.emit(Spread, sign, s.items[i:i+1])
	}
}

// formOf names how bare items and the one with the unit belong together.
func (s *scanner) formOf(first, last int) Form {
	j := s.items[last].joint
	switch {
	case first == last || j == around:
		return Value
	case j.ranges() || j == unclear:
		return Range
	case j == both && last == first+1 && s.between(s.items[first].from):
		return Range
	}
	return List
}

// pair tells whether two items with units of one kind are the ends of a range: 6.9 Ω to 9.3 Ω.
func (s *scanner) pair(a, b item) bool {
	if !b.unit.known() || a.unit.count != b.unit.count || a.unit.worry != b.unit.worry || a.chain != nil || b.chain != nil {
		return false
	}
	if a.unit.worry == 0 && a.unit.Kind != b.unit.Kind {
		return false
	}
	if a.unit.Unit != b.unit.Unit && a.unit.worry == 0 && (a.unit.Affine() || b.unit.Affine()) || s.afterBy(a.from) {
		return false
	}
	return b.joint.ranges() || b.joint == both && s.between(a.from)
}

// afterBy tells a change that is followed by where it led: rose by 5 °C to 20 °C.
func (s *scanner) afterBy(at int) bool {
	word, _ := wordBefore(s.text, at)
	return word == "by"
}

// between tells whether the word between stands before a place.
func (s *scanner) between(at int) bool {
	word, _ := wordBefore(s.text, at)
	return word == "between" || word == "Between"
}

var percent = quantity.MustUnit("%")
