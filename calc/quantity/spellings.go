package quantity

// spellings finds units by how they are spelt. Go's own maps would cost a phone four kilobytes.
type spellings struct {
	first [1 << slotBits]int16 // of the spellings that share a slot, the place of the first one in the list; 0 is none
	list  []spelt
}

// spelt is one spelling, with the place of the next one of its slot.
type spelt struct {
	_        [0]func() // never compared: saves the code for it
	spelling string
	unit     Unit
	next     int16
}

const slotBits = 10

// slot is FNV-1a (Fowler, Noll, Vo; from memory), whose last bits are as good as its first.
func slot(spelling string) uint32 {
	h := uint32(2166136261)
	for i := 0; i < len(spelling); i++ {
		h = (h ^ uint32(spelling[i])) * 16777619
	}
	return h >> (32 - slotBits)
}

// add puts a spelling behind those that are there, also behind its equals.
func (s *spellings) add(spelling string, u Unit) {
	if s.list == nil {
		s.list = make([]spelt, 1, 1<<slotBits)
	}
	at := &s.first[slot(spelling)]
	for *at > 0 {
		at = &s.list[*at].next
	}
	*at = int16(len(s.list))
	s.list = append(s.list, spelt{spelling: spelling, unit: u})
}

// set gives a spelling one meaning.
func (s *spellings) set(spelling string, u Unit) {
	if _, at := s.find(spelling, 0); at > 0 {
		s.list[at].unit = u
		return
	}
	s.add(spelling, u)
}

// find gives the first unit of a spelling, or the one after another, and its place; 0 if there is none.
func (s *spellings) find(spelling string, after int16) (Unit, int16) {
	if s.list == nil {
		return One, 0
	}
	at := s.first[slot(spelling)]
	if after > 0 {
		at = s.list[after].next
	}
	for ; at > 0; at = s.list[at].next {
		if one := &s.list[at]; one.spelling == spelling {
			return one.unit, at
		}
	}
	return One, 0
}
