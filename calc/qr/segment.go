package qr

// mode is a way to write letters: how many bits its name and its count take, by size of code.
type mode struct {
	_      [0]func() // never compared: saves the code for it
	name   int
	counts string
}

var (
	numeric      = mode{name: 1, counts: "\x0a\x0c\x0e"}
	alphanumeric = mode{name: 2, counts: "\x09\x0b\x0d"}
	bytes        = mode{name: 4, counts: "\x08\x10\x10"}
)

// alphabet of the alphanumeric mode: a letter's place is its number.
const alphabet = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:"

// utf8 is the designator of UTF-8 among the extended channel interpretations, with its mode.
const utf8, utf8Bits = 7<<8 | 26, 12

type segment struct {
	_    [0]func() // never compared: saves the code for it
	text string
	mode *mode
	utf8 bool
	then *segment
}

// segmentsOf sets the digits at the end of a text apart where that takes less room: a packed job is an address and then digits.
func segmentsOf(text string) *segment {
	from := len(text)
	for from > 0 && text[from-1]-'0' <= 9 {
		from--
	}
	whole, apart := segmentOf(text), segmentOf(text[:from])
	apart.then = segmentOf(text[from:])
	if from > 0 && apart.bits(versions) < whole.bits(versions) {
		return apart
	}
	return whole
}

func segmentOf(text string) *segment {
	s := &segment{text: text, mode: &numeric}
	for i := range len(text) {
		switch at := alphanumber(text[i]); {
		case at < 0:
			s.mode = &bytes
			s.utf8 = s.utf8 || text[i] >= 0x80
		case at > 9 && s.mode == &numeric:
			s.mode = &alphanumeric
		}
	}
	return s
}

func alphanumber(letter byte) int {
	for i := range len(alphabet) {
		if alphabet[i] == letter {
			return i
		}
	}
	return -1
}

func (s *segment) countBits(version int) int { return int(s.mode.counts[(version+7)/17]) }

// bits is the room that the segment takes, with what follows it.
func (s *segment) bits(version int) int {
	n := len(s.text)
	head := 4 + s.countBits(version)
	if s.then != nil {
		head += s.then.bits(version)
	}
	if s.utf8 {
		head += utf8Bits
	}
	switch s.mode {
	case &numeric:
		return head + n/3*10 + int("\x00\x04\x07"[n%3])
	case &alphanumeric:
		return head + n/2*11 + n%2*6
	}
	return head + 8*n
}

// words writes the segment, with what follows it, and fills up to n words.
func (s *segment) words(version, n int) []byte {
	w := writer{words: make([]byte, n)}
	for ; s != nil; s = s.then {
		w.segment(s, s.countBits(version))
	}
	// Four zeros end it, if they find room; then whole words, the same two in turn.
	w.at = min(w.at+4, 8*n)
	w.at = (w.at + 7) &^ 7
	for fill := 0xEC; w.at < 8*n; fill ^= 0xEC ^ 0x11 {
		w.put(fill, 8)
	}
	return w.words
}

// writer puts bits into words, the highest first.
type writer struct {
	words []byte
	at    int
}

func (w *writer) put(value, bits int) {
	for bits--; bits >= 0; bits-- {
		w.words[w.at>>3] |= byte(value>>bits&1) << (7 - w.at&7)
		w.at++
	}
}

func (w *writer) segment(s *segment, countBits int) {
	if s.utf8 {
		w.put(utf8, utf8Bits)
	}
	w.put(s.mode.name, 4)
	w.put(len(s.text), countBits)
	switch s.mode {
	case &numeric:
		w.grouped(s.text, 10, "\x00\x04\x07\x0a")
	case &alphanumeric:
		w.grouped(s.text, 45, "\x00\x06\x0b")
	default:
		for i := range len(s.text) {
			w.put(int(s.text[i]), 8)
		}
	}
}

// grouped writes letters by groups, as numbers to a base; sizes: bits of a group of so many.
func (w *writer) grouped(text string, base int, sizes string) {
	most := len(sizes) - 1
	for i := 0; i < len(text); i += most {
		value, n := 0, 0
		for ; n < most && i+n < len(text); n++ {
			value = value*base + alphanumber(text[i+n])
		}
		w.put(value, int(sizes[n]))
	}
}
