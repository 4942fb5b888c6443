package render

import (
	"bytes"
	"unicode"
	"unicode/utf8"
)

// noBreak is the space that a line may not break at.
const noBreak = "\u00a0"

// unbroken keeps a number and what follows it, and both sides of a ±, on one line, in
// all text of a page but listings. calc/show and make.ts do the same with what they write.
func unbroken(page []byte) []byte {
	u := unbreaker{page: page, out: make([]byte, 0, len(page)+len(page)/20)}
	for at := 0; at < len(page); {
		tag := bytes.IndexByte(page[at:], '<')
		if tag < 0 {
			tag = len(page) - at
		}
		u.glue(at, at+tag)
		at += tag
		end := endOfTag(page[at:])
		if end == 0 { // nothing left, or a '<' that opens no tag
			break
		}
		at += end
	}
	return append(u.out, page[u.done:]...)
}

// unbreaker copies a page; between two spaces that must hold it does so in one piece.
type unbreaker struct {
	page, out []byte
	done      int // how much of the page is copied
}

// whole are the elements whose text stays as it is.
var whole = []struct{ open, end []byte }{
	{[]byte("<pre"), []byte("</pre>")},
	{[]byte("<option"), []byte("</option>")},
	{[]byte("<title"), []byte("</title>")},
	{[]byte("<textarea"), []byte("</textarea>")},
}

// endOfTag is the length of what starts with a '<' and must stay as it is: one tag, or
// a whole listing.
func endOfTag(page []byte) int {
	if len(page) > 1 && (page[1] == 'p' || page[1] == 'o' || page[1] == 't') {
		for _, element := range whole {
			if bytes.HasPrefix(page, element.open) {
				if at := bytes.Index(page, element.end); at >= 0 {
					return at + len(element.end)
				}
			}
		}
	}
	return bytes.IndexByte(page, '>') + 1
}

// glue makes the spaces between number and word unbreakable in a piece of text. Most spaces are told apart by the bytes
// beside them.
func (u *unbreaker) glue(from, to int) {
	text := u.page[from:to]
	for i, c := range text {
		if c != ' ' || i == 0 || i+1 == len(text) {
			continue
		}
		before, after := text[i-1], text[i+1]
		if (before >= '0' && before <= '9' || before == plusMinus[1] || after == plusMinus[0]) && binds(text[:i], text[i+1:]) {
			u.out = append(append(u.out, u.page[u.done:from+i]...), noBreak...)
			u.done = from + i + 1
		}
	}
}

// binds tells whether a space between two texts must hold.
func binds(before, after []byte) bool {
	if bytes.HasSuffix(before, plusMinus) || bytes.HasPrefix(after, plusMinus) {
		return true
	}
	if last := before[len(before)-1]; last < '0' || last > '9' {
		return false
	}
	next, _ := utf8.DecodeRune(after)
	return unicode.IsLetter(next) || next == '%' || next == '°'
}

var plusMinus = []byte("±") // two bytes
