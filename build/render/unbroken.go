package render

import (
	"bytes"
	"unicode"
	"unicode/utf8"
)

// noBreak is the space that a line may not break at.
const noBreak = "\u00a0"

// unbroken keeps a number and what follows it, and both sides of a ±, on one line, in
// all text of a page but listings. answer.ts does the same with what it writes.
func unbroken(page []byte) []byte {
	out := make([]byte, 0, len(page)+len(page)/20)
	for len(page) > 0 {
		tag := bytes.IndexByte(page, '<')
		if tag < 0 {
			tag = len(page)
		}
		out = glue(out, page[:tag])
		page = page[tag:]
		end := endOfTag(page)
		if end == 0 { // nothing left, or a '<' that opens no tag
			end = len(page)
		}
		out = append(out, page[:end]...)
		page = page[end:]
	}
	return out
}

// whole are the elements whose text stays as it is.
var whole = []struct{ open, end []byte }{
	{[]byte("<pre"), []byte("</pre>")},
	{[]byte("<option"), []byte("</option>")},
	{[]byte("<title"), []byte("</title>")},
}

// endOfTag is the length of what starts with a '<' and must stay as it is: one tag, or
// a whole listing.
func endOfTag(page []byte) int {
	for _, element := range whole {
		if bytes.HasPrefix(page, element.open) {
			if at := bytes.Index(page, element.end); at >= 0 {
				return at + len(element.end)
			}
		}
	}
	return bytes.IndexByte(page, '>') + 1
}

// glue appends text with its spaces between number and word made unbreakable.
func glue(out, text []byte) []byte {
	for {
		at := bytes.IndexByte(text, ' ')
		if at < 0 {
			return append(out, text...)
		}
		out = append(out, text[:at]...)
		if rest := text[at+1:]; binds(out, rest) {
			out = append(out, noBreak...)
		} else {
			out = append(out, ' ')
		}
		text = text[at+1:]
	}
}

// binds tells whether a space between two texts must hold.
func binds(before, after []byte) bool {
	if len(before) == 0 || len(after) == 0 {
		return false
	}
	if bytes.HasSuffix(before, plusMinus) || bytes.HasPrefix(after, plusMinus) {
		return true
	}
	if last := before[len(before)-1]; last < '0' || last > '9' {
		return false
	}
	next, _ := utf8.DecodeRune(after)
	return unicode.IsLetter(next) || next == '%' || next == '°'
}

var plusMinus = []byte("±")
