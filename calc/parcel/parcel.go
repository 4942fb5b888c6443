// Package parcel packs the text of a job, a few kilobytes of JSON, into so few digits that a
// phone's camera reads them from a QR code on another phone: there, three digits take 10 bits.
//
//	digits, ok := parcel.Pack(text)
//	text, ok = parcel.Unpack(digits)
//
// A model foretells each bit from what came before, and a coder spends room only on what was
// not foreseen. Ahead of the text the model reads the primer, which has the form of every such
// text and common words of the trade; in so short a text that saves a quarter. It is not for
// archives, nor for texts beyond Most, and does not look at what the JSON says.
//
// Who changes the model, the coder or the primer makes addresses unreadable that are on their
// way, or on paper: a new form needs a name of its own beside this one. What
// testdata/packed.txt holds must be read for ever.
package parcel

import "blankoff/calc/letters"

const (
	// Most is the longest text, in bytes. Few digits can stand for a long one, which takes time to unpack.
	Most = 1<<sizeBits - 1
	// Longest is how many digits there are at most: some programs cut longer addresses on their way.
	Longest = 8000

	// How long a text is stands before it; behind it a sum, since digits that were lost or changed would else give another text.
	sizeBits, sumBits = 17, 16
)

// Pack gives a text as digits, unless it is too long.
func Pack(text string) (digits string, ok bool) {
	if len(text) > Most {
		return "", false
	}
	c := ready()
	_, ok = c.whole([]byte(text))
	// Any number of the range that is left would do.
	return string(c.out) + letters.Whole(first*10 + int(c.high))[1:], ok
}

// Unpack gives the text again. Anybody can send digits: those that stand for no whole text are refused.
func Unpack(digits string) (text string, ok bool) {
	c := ready()
	c.reading, c.digits, c.at, c.value = true, digits, 0, 0
	for range places {
		c.take()
	}
	whole, ok := c.whole(nil)
	return string(whole), ok
}

// whole codes a text between its size and its sum, or decodes one.
func (c *coder) whole(text []byte) (whole []byte, ok bool) {
	size := c.number(len(text), sizeBits, false)
	if c.reading {
		text = make([]byte, size)
	}
	for i := range text {
		// Too long, or cut off: all digits are used up.
		if len(c.out) > Longest || c.reading && c.at > len(c.digits)+places {
			return nil, false
		}
		text[i] = byte(c.number(int(text[i]), 8, true))
	}
	sum := int(c.before(len(c.read)) >> (64 - sumBits))
	return text, c.number(sum, sumBits, false) == sum
}
