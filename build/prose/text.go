package prose

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

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

// hyphenAt is the length of the hyphen at a place, 0 for none.
func hyphenAt(text string, at int) int {
	if at < len(text) && text[at] == '-' {
		return 1
	}
	return 0
}

// digitsEnd is where the digits at a place end.
func digitsEnd(text string, at int) int {
	for digitAt(text, at) {
		at++
	}
	return at
}

// letterAt tells whether a unit's letter stands at a place.
func letterAt(text string, at int) bool {
	r, _ := utf8.DecodeRuneInString(text[at:])
	return isWord(r) && (r < '0' || r > '9') && r != '_' || r == '°' || r == 'µ'
}

// lettersLength is how much of a word stands before its first digit.
func lettersLength(word string) int {
	if cut := strings.IndexAny(word, "0123456789"); cut >= 0 {
		return cut
	}
	return len(word)
}

// spaceBefore is the length of the space that ends at a place, 0 for none.
func spaceBefore(text string, at int) int {
	_, size := utf8.DecodeLastRuneInString(text[:at])
	return spaceAt(text[:at], at-size)
}

// setOf is a set of the words of a text.
func setOf(words string) map[string]bool {
	set := map[string]bool{}
	for _, word := range strings.Fields(words) {
		set[word] = true
	}
	return set
}
