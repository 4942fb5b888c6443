// Package letters holds the few operations on text that the calculators need. They give
// what those of the standard library give; that library's strings and number parsing
// bring 40 kB to a phone for them (measured, gzipped), this package three.
package letters

import "unicode/utf8"

// HasPrefix tells whether s begins with prefix.
func HasPrefix(s, prefix string) bool {
	return len(s) >= len(prefix) && s[:len(prefix)] == prefix
}

// HasSuffix tells whether s ends with suffix.
func HasSuffix(s, suffix string) bool {
	return len(s) >= len(suffix) && s[len(s)-len(suffix):] == suffix
}

// CutPrefix gives s without a prefix, and whether it had it.
func CutPrefix(s, prefix string) (string, bool) {
	if HasPrefix(s, prefix) {
		return s[len(prefix):], true
	}
	return s, false
}

// TrimPrefix gives s without a prefix.
func TrimPrefix(s, prefix string) string {
	s, _ = CutPrefix(s, prefix)
	return s
}

// TrimSuffix gives s without a suffix.
func TrimSuffix(s, suffix string) string {
	if HasSuffix(s, suffix) {
		return s[:len(s)-len(suffix)]
	}
	return s
}

// IndexByte is the first place of a byte, or −1.
func IndexByte(s string, c byte) int {
	for i := 0; i < len(s); i++ {
		if s[i] == c {
			return i
		}
	}
	return -1
}

// Index is the first place of a text in another, or −1.
func Index(s, part string) int {
	for i := 0; i+len(part) <= len(s); i++ {
		if s[i:i+len(part)] == part {
			return i
		}
	}
	return -1
}

// Contains tells whether part stands in s.
func Contains(s, part string) bool { return Index(s, part) >= 0 }

// IndexRune is the first place of a character, or −1.
func IndexRune(s string, r rune) int {
	for i, c := range s {
		if c == r {
			return i
		}
	}
	return -1
}

// ContainsRune tells whether a character stands in s.
func ContainsRune(s string, r rune) bool { return IndexRune(s, r) >= 0 }

// IndexAny is the first place of any of some characters, or −1.
func IndexAny(s, chars string) int {
	for i, c := range s {
		if ContainsRune(chars, c) {
			return i
		}
	}
	return -1
}

// HasAny tells whether any of some characters stands in s.
func HasAny(s, chars string) bool { return IndexAny(s, chars) >= 0 }

// Count is how often a byte stands in s.
func Count(s string, c byte) int {
	n := 0
	for i := 0; i < len(s); i++ {
		if s[i] == c {
			n++
		}
	}
	return n
}

// Cut parts s at the first separator.
func Cut(s, separator string) (before, after string, found bool) {
	if i := Index(s, separator); i >= 0 {
		return s[:i], s[i+len(separator):], true
	}
	return s, "", false
}

// TrimLeft takes away leading bytes that are in a set of ASCII characters.
func TrimLeft(s, set string) string {
	for s != "" && IndexByte(set, s[0]) >= 0 {
		s = s[1:]
	}
	return s
}

// TrimRight does so at the end.
func TrimRight(s, set string) string {
	for s != "" && IndexByte(set, s[len(s)-1]) >= 0 {
		s = s[:len(s)-1]
	}
	return s
}

// Trim does so on both sides.
func Trim(s, set string) string { return TrimRight(TrimLeft(s, set), set) }

// isSpace knows the spaces of Unicode, which word processors put between a number and
// its unit.
func isSpace(r rune) bool {
	switch r {
	case ' ', '\t', '\n', '\v', '\f', '\r', 0x85, 0xA0, 0x1680, 0x2028, 0x2029, 0x202f, 0x205f, 0x3000:
		return true
	}
	return r >= 0x2000 && r <= 0x200a
}

// TrimSpace takes spaces away on both sides.
func TrimSpace(s string) string {
	for s != "" {
		r, size := utf8.DecodeRuneInString(s)
		if !isSpace(r) {
			break
		}
		s = s[size:]
	}
	for s != "" {
		r, size := utf8.DecodeLastRuneInString(s)
		if !isSpace(r) {
			break
		}
		s = s[:len(s)-size]
	}
	return s
}

// Tidy trims s and leaves one blank where there were several spaces.
func Tidy(s string) string {
	if tidy(s) {
		return s
	}
	var kept []byte
	for s = TrimSpace(s); s != ""; {
		r, size := utf8.DecodeRuneInString(s)
		if isSpace(r) {
			kept = append(kept, ' ')
			s = TrimSpace(s)
			continue
		}
		kept = append(kept, s[:size]...)
		s = s[size:]
	}
	return string(kept)
}

// tidy tells whether Tidy has nothing to do, as far as plain letters go.
func tidy(s string) bool {
	before := byte(' ')
	for i := 0; i < len(s); i++ {
		c := s[i]
		if c >= utf8.RuneSelf || c < ' ' || c == ' ' && before == ' ' {
			return false
		}
		before = c
	}
	return s == "" || before != ' '
}

// Map gives s with each character changed; a negative one is left out.
func Map(change func(rune) rune, s string) string {
	for i, r := range s {
		if change(r) == r && r != utf8.RuneError {
			continue
		}
		kept := append(make([]byte, 0, len(s)+utf8.UTFMax), s[:i]...)
		for _, r := range s[i:] {
			if r = change(r); r >= 0 {
				kept = utf8.AppendRune(kept, r)
			}
		}
		return string(kept)
	}
	return s
}

// Replace gives s with every old in it replaced.
func Replace(s, old, by string) string {
	i := Index(s, old)
	if i < 0 || old == "" {
		return s
	}
	var kept []byte
	for ; i >= 0; i = Index(s, old) {
		kept = append(append(kept, s[:i]...), by...)
		s = s[i+len(old):]
	}
	return string(append(kept, s...))
}

// Join puts a separator between texts.
func Join(list []string, separator string) string {
	var all []byte
	for i, s := range list {
		if i > 0 {
			all = append(all, separator...)
		}
		all = append(all, s...)
	}
	return string(all)
}

// Valid gives s with each byte that is part of no character replaced by U+FFFD.
func Valid(s string) string {
	if utf8.ValidString(s) {
		return s
	}
	return string([]rune(s))
}
