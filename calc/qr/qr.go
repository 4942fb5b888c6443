// Package qr writes a text as a QR code, the square of dark and light modules that a phone's
// camera reads: Model 2 of ISO/IEC 18004, versions 1 to 40, all four levels of correction. It
// is for handing an address from one phone to another, and for paper.
//
//	code, err := qr.Encode("https://example.org/calculators/rise-test/", qr.M)
//	svg := code.SVG("QR code of this page")
//
// The text becomes one segment, in the densest of the modes that can hold all of it, or two
// where it ends in many digits; what is no ASCII is marked as UTF-8 (ECI 26). It is not for Micro QR, Kanji mode, structured append
// or FNC1.
//
// The standard is not free to read. Its rules and tables are written down here from memory;
// the tests put them to a reader that others wrote (zbar) and to another writer (rsc.io/qr).
package qr

import "strconv"

// Level is how much of a code may be lost: about 7, 15, 25 and 30 per cent of its codewords.
type Level int

// The levels, the weakest first.
const (
	L Level = iota
	M
	Q
	H
	levels
)

func (l Level) String() string { return "LMQH"[l : l+1] }

// Code is a finished code of Size times Size modules, without its quiet zone.
type Code struct {
	Version, Mask, Size int
	Level               Level
	dark, fixed         []bool // row by row; fixed: belongs to a pattern, and is not masked
}

// Dark tells the colour of a module; what lies outside is light.
func (c *Code) Dark(x, y int) bool {
	return x >= 0 && y >= 0 && x < c.Size && y < c.Size && c.dark[y*c.Size+x]
}

const versions = 40

// TooLong says that a text has no room, by how much.
type TooLong struct{ Has, Most int }

func (e *TooLong) Error() string {
	return "the text is too long for a QR code: it needs " + strconv.Itoa(e.Has) + " bytes, and " + strconv.Itoa(e.Most) +
		" is the most; hand it on in another way"
}

// Encode gives the smallest code that holds the text at a level.
func Encode(text string, level Level) (*Code, error) { return encode(text, level, level) }

// Strongest gives the smallest code that holds the text at all, at the highest level at which
// it is no larger.
func Strongest(text string) (*Code, error) { return encode(text, L, H) }

// encode finds the size at the least level, and takes what that leaves to rise to the most.
func encode(text string, least, most Level) (*Code, error) {
	s := segmentsOf(text)
	version := 1
	for s.bits(version) > 8*dataWords(version, least) {
		if version++; version > versions {
			return nil, &TooLong{(s.bits(versions) + 7) / 8, dataWords(versions, least)}
		}
	}
	for least < most && s.bits(version) <= 8*dataWords(version, least+1) {
		least++
	}
	return best(s, version, least), nil
}

// best tries all masks and keeps the first of those with the least penalty.
func best(s *segment, version int, level Level) *Code {
	c := blank(version, level)
	c.place(protect(s.words(version, dataWords(version, level)), version, level))
	least, at := -1, 0
	for mask := range masks {
		c.mask(mask)
		if p := c.penalty(); least < 0 || p < least {
			least, at = p, mask
		}
		c.mask(mask) // twice is none
	}
	c.mask(at)
	return c
}
