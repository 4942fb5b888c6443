package prose

import (
	"strings"
	"unicode/utf8"
)

// Find lists the quantities of a text, in order and without overlap, and the places in doubt. It takes time in proportion
// to the length of the text, whatever that holds.
//
// A doubt about what was measured, or from where (28 inches of vacuum), leaves its place without a mark, since it must
// not be rewritten. A standard flow without its reference temperature is a mark and a doubt.
func Find(text string) ([]Mark, []Doubt) {
	s := scanner{text: text}
	for at := s.next(0); at < len(text); at = s.next(at) {
		at = max(s.take(at), at+1)
		s.done = at
	}
	return s.marks, s.doubts
}

// scanner is one walk through a text.
type scanner struct {
	text    string
	done    int // how far it is read
	marks   []Mark
	doubts  []Doubt
	numbers []Number // of all marks, in one piece
	items   []item   // of the phrase at hand
	talk    talk     // what the sentence at hand speaks of
	quotes  quotes
}

// next is the place of the next digit or ±, where alone a quantity can begin.
func (s *scanner) next(at int) int {
	for ; at < len(s.text); at++ {
		if c := s.text[at]; isDigit(c) || c == 0xB1 && at > 0 && s.text[at-1] == 0xC2 {
			return at
		}
	}
	return at
}

// take reads what begins at a digit or ±, and gives the place to go on from.
func (s *scanner) take(at int) int {
	if !isDigit(s.text[at]) {
		return s.spread(at-1, at+1)
	}
	if from := withPoint(s.text, at); spreadBefore(s.text, from) >= s.done {
		return s.spread(spreadBefore(s.text, from), from)
	}
	if end := s.powered(at); end > at {
		return end
	}
	if from, to, ok := threadAround(s.text, at); ok && from >= s.done {
		s.marks = append(s.marks, Mark{From: from, To: to, Form: Thread})
		return to
	}
	if end, leave := leftAlone(s.text, at); leave {
		return end
	}
	return s.phrase(max(s.done, withSign(s.text, at)))
}

// spreadBefore is where a +/- or +- in front of a number begins, or −1.
func spreadBefore(text string, at int) int {
	end := at
	for size := spaceBefore(text, end); size > 0 && at-end < widest; size = spaceBefore(text, end) {
		end -= size
	}
	for _, sign := range []string{"+/-", "+-"} {
		if strings.HasSuffix(text[:end], sign) && skipGap(text, end) == at {
			return end - len(sign)
		}
	}
	return -1
}

// spread reads a tolerance that stands by itself: ± 10 %.
func (s *scanner) spread(sign, after int) int {
	it, ok := s.item(skipGap(s.text, after))
	if !ok || it.signed {
		return after
	}
	if it.unit.known() {
		it.joint = around
		s.emit(Spread, sign, []item{it})
	}
	return it.to
}

// withPoint is where a number begins whose first digit is at a place: before a point that no word ends in front of.
func withPoint(text string, at int) int {
	if at > 0 && text[at-1] == '.' && !wordEnds(text, at-1) {
		return at - 1
	}
	return at
}

// withSign is where a number begins whose first digit is at a place: before a point, and before a sign that no word or
// number ends in front of.
func withSign(text string, at int) int {
	at = withPoint(text, at)
	r, size := utf8.DecodeLastRuneInString(text[:at])
	if (r == '-' || r == '−' || r == '–' || r == '+') && !wordEnds(text, at-size) {
		return at - size
	}
	if word, from := wordBefore(text, at); word == minusWord && from+len(minusWord) < at && !digitAt(text, from-2) {
		if before, _ := wordBefore(text, from); before != "or" { // plus or minus 2 °C
			return from
		}
	}
	return at
}
