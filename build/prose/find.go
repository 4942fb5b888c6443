package prose

import (
	"strings"
	"unicode"
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
	}
	return s.marks, s.doubts
}

// scanner is one walk through a text.
type scanner struct {
	text    string
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
	if sign := spreadBefore(s.text, at); sign >= 0 {
		return s.spread(sign, at)
	}
	if end := s.powered(at); end > at {
		return end
	}
	if from, to, ok := threadAround(s.text, at); ok {
		s.marks = append(s.marks, Mark{From: from, To: to, Form: Thread})
		return to
	}
	if end, leave := leftAlone(s.text, at); leave {
		return end
	}
	return s.phrase(withSign(s.text, at))
}

// spreadBefore is where a +/- or +- in front of a number begins, or −1.
func spreadBefore(text string, at int) int {
	before := strings.TrimSuffix(text[max(0, at-4):at], " ")
	for _, sign := range []string{"+/-", "+-"} {
		if strings.HasSuffix(before, sign) {
			return max(0, at-4) + len(before) - len(sign)
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

// withSign is where a number begins whose first digit is at a place: before a point, and before a sign that no word or
// number ends in front of.
func withSign(text string, at int) int {
	if at > 0 && text[at-1] == '.' && !wordEnds(text, at-1) {
		at--
	}
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

// wordEnds tells whether a letter, a digit or a closing bracket stands before a place.
func wordEnds(text string, at int) bool {
	r, _ := utf8.DecodeLastRuneInString(text[:at])
	return at > 0 && (isWord(r) || r == ')' || r == ']' || r == '%' || r == '°')
}

// wordBegins tells whether a letter or a digit stands at a place.
func wordBegins(text string, at int) bool {
	r, _ := utf8.DecodeRuneInString(text[at:])
	return at < len(text) && isWord(r)
}

func isWord(r rune) bool {
	if r < utf8.RuneSelf {
		return r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' || r == '_'
	}
	return unicode.IsLetter(r) || unicode.IsDigit(r)
}

func isDigit(c byte) bool { return c >= '0' && c <= '9' }

// digitAt tells whether a digit stands at a place.
func digitAt(text string, at int) bool { return at >= 0 && at < len(text) && isDigit(text[at]) }

// widest is how many bytes of spaces may stand between the parts of a quantity: a line break and the indent after it.
const widest = 12

// skipGap is where the spaces at a place end; at most one line break is among them.
func skipGap(text string, at int) int {
	end, broken := at, false
	for end < len(text) && end-at < widest {
		size := spaceAt(text, end)
		if size == 0 || broken && text[end] == '\n' {
			break
		}
		broken = broken || text[end] == '\n'
		end += size
	}
	if broken && end < len(text) && text[end] == '\n' {
		return at
	}
	return end
}

// spaceAt is the length of the space at a place, 0 for none.
func spaceAt(text string, at int) int {
	if at >= len(text) {
		return 0
	}
	switch c := text[at]; {
	case c == ' ' || c == '\n' || c == '\t' || c == '\r':
		return 1
	case c < utf8.RuneSelf:
		return 0
	}
	switch r, size := utf8.DecodeRuneInString(text[at:]); r {
	case '\u00a0', '\u202f', '\u2009': // no-break, narrow no-break, thin
		return size
	}
	return 0
}

// wordAt is the word of plain letters at a place.
func wordAt(text string, at int) string {
	end := at
	for end < len(text) && end-at < 24 && (text[end]|0x20) >= 'a' && (text[end]|0x20) <= 'z' {
		end++
	}
	return text[at:end]
}

// wordBefore is the word of plain letters that ends before a place, past spaces and the point of an abbreviation, and
// where it begins.
func wordBefore(text string, at int) (string, int) {
	for range 2 {
		if r, size := utf8.DecodeLastRuneInString(text[:at]); r == ' ' || r == '\n' || r == '\u00a0' || r == '\u202f' {
			at -= size
		}
	}
	end := at
	if at > 1 && text[at-1] == '.' {
		end--
	}
	from := end
	for from > 0 && end-from < 24 && (text[from-1]|0x20) >= 'a' && (text[from-1]|0x20) <= 'z' {
		from--
	}
	return text[from:end], from
}
