package source

import (
	"fmt"
	"html"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Invisible finds the first character that nobody sees and that changes what a text is or how it runs: zero-width ones,
// marks of direction, controls, soft hyphens. Two names that look the same must be the same, and a limit must
// not be shown in another order than it was written in.
//
// They are Unicode's Default_Ignorable_Code_Point by the formula of DerivedCoreProperties.txt, line separators and the
// controls of C0 and C1. What ordinary text needs stays: joiners and variation selectors in emoji (UTS #51), joiners between
// letters of scripts that write with them (UAX #31). The formula and the two uses are from memory.
func Invisible(text string) (at int, r rune, found bool) {
	before := utf8.RuneError
	for i, r := range text {
		if r >= 0x7f && isInvisible(r) || r < ' ' && r != '\n' && r != '\t' && r != '\r' {
			after, _ := utf8.DecodeRuneInString(text[i+utf8.RuneLen(r):])
			if !needed(before, r, after) {
				return i, r, true
			}
		}
		before = r
	}
	return 0, 0, false
}

// InvisibleEntity finds the first character reference, such as &#8203;, that stands for an invisible character.
func InvisibleEntity(text string) (at, length int, r rune, found bool) {
	for from := 0; ; {
		i := strings.IndexByte(text[from:], '&')
		if i < 0 {
			return 0, 0, 0, false
		}
		from += i
		reference := text[from:min(from+longestReference, len(text))]
		if end := strings.IndexAny(reference[1:], ";&"); end >= 0 && reference[end+1] == ';' {
			reference = reference[:end+2]
			stands := html.UnescapeString(reference) // of a name that HTML takes without semicolon, the semicolon stays
			if _, r, found := Invisible(stands); found && !strings.HasSuffix(stands, ";") {
				return from, len(reference), r, true
			}
		}
		from++
	}
}

// longestReference is longer than any name of HTML's list of characters.
const longestReference = 40

// NameInvisible says of an invisible character what it is.
func NameInvisible(r rune) string { return fmt.Sprintf("the invisible character U+%04X", r) }

func isInvisible(r rune) bool {
	switch {
	case r <= 0x9f: // from 0x7f
		return true
	case r < 0x300:
		return r == 0xad
	case unicode.Is(unicode.Prepended_Concatenation_Mark, r):
		return false
	}
	return unicode.In(r, unicode.Cf, unicode.Zl, unicode.Zp, unicode.Variation_Selector, unicode.Other_Default_Ignorable_Code_Point)
}

const (
	joinerNot     = '\u200c'
	joiner        = '\u200d'
	textStyle     = '\ufe0e'
	emojiStyle    = '\ufe0f'
	enclosingKeys = "0123456789#*"
)

// needed tells whether an invisible character has its place between its neighbours.
func needed(before, r, after rune) bool {
	switch r {
	case textStyle, emojiStyle:
		return unicode.In(before, unicode.So, unicode.Sm) || strings.ContainsRune(enclosingKeys, before) && after == '\u20e3'
	case joiner:
		return inEmoji(before) && unicode.Is(unicode.So, after) || joins(before, after)
	case joinerNot:
		return joins(before, after)
	}
	return false
}

func inEmoji(r rune) bool {
	return r == emojiStyle || unicode.Is(unicode.So, r) || r >= 0x1f3fb && r <= 0x1f3ff // the last are skin tones
}

func joins(before, after rune) bool {
	letter := func(r rune) bool {
		return unicode.In(r, unicode.L, unicode.M) && unicode.In(r, joiningScripts...)
	}
	return letter(before) && letter(after)
}

var joiningScripts = []*unicode.RangeTable{
	unicode.Arabic, unicode.Syriac, unicode.Devanagari, unicode.Bengali, unicode.Gurmukhi, unicode.Gujarati, unicode.Oriya,
	unicode.Tamil, unicode.Telugu, unicode.Kannada, unicode.Malayalam, unicode.Sinhala,
}
