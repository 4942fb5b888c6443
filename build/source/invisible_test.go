package source

import "testing"

// The characters are those of the Unicode standard; the names and uses are from memory.
func TestInvisible(t *testing.T) {
	for _, c := range []struct {
		name, text string
		at         int // -1: nothing is invisible
	}{
		{"plain", "hold 350 mTorr ± 5 %", -1},
		{"line ends and tabulators", "a\tb\r\nc\n", -1},
		{"no-break and thin spaces", "1\u00a0mTorr, 2\u2009000", -1},
		{"accents that combine", "e\u0301", -1},
		{"an emoji with its style", "⚠\ufe0f", -1},
		{"a sign in text style", "↔\ufe0e", -1},
		{"a key cap", "1\ufe0f\u20e3", -1},
		{"a joined emoji", "👩\u200d🔧", -1},
		{"a joined emoji with skin tone", "👩🏽\u200d🔧", -1},
		{"a joined emoji with style", "⚕\ufe0f\u200d♀", -1},
		{"Persian with a non-joiner", "می\u200cخواهم", -1},
		{"Hindi with a joiner", "क्\u200dष", -1},
		{"Arabic number sign", "\u0600١", -1},
		{"zero-width space", "ab\u200bc", 2},
		{"joiner between Latin letters", "a\u200db", 1},
		{"non-joiner at the end of a Persian word", "می\u200c", 4},
		{"a style behind a letter", "a\ufe0f", 1},
		{"a style behind a digit", "1\ufe0f0", 1},
		{"two styles", "⚠\ufe0f\ufe0f", 6},
		{"word joiner", "a\u2060b", 1},
		{"byte order mark inside", "a\ufeffb", 1},
		{"soft hyphen", "rise\u00adtest", 4},
		{"right to left override", "\u202e001", 0},
		{"isolate", "a\u2066b\u2069", 1},
		{"marks of direction", "a\u200e", 1},
		{"Arabic letter mark", "\u061c", 0},
		{"line separator", "a\u2028b", 1},
		{"control of C1", "a\u0085b", 1},
		{"control of C0", "a\x1b[31m", 1},
		{"delete", "a\x7f", 1},
		{"tag characters", "a\U000e0041", 1},
		{"ideographic variation", "葛\U000e0100", 3},
		{"Hangul filler", "a\u3164b", 1},
		{"invisible times", "2\u2062x", 1},
	} {
		at, _, found := Invisible(c.text)
		if !found {
			at = -1
		}
		if at != c.at {
			t.Errorf("%s: found at %d, want %d", c.name, at, c.at)
		}
	}
}

func TestInvisibleEntity(t *testing.T) {
	for _, c := range []struct {
		text, want string // "": none
	}{
		{"a &amp; b &mu; &#181; &nbsp;", ""},
		{"a & b; c", ""},
		{"&#8203", ""}, // no reference in Markdown without its semicolon
		{"a &#8203; b", "&#8203;"},
		{"&amp;&#x202E;", "&#x202E;"},
		{"&shyness;", ""},
		{"&rlm;", "&rlm;"},
		{"&shy;", "&shy;"},
		{"&ZeroWidthSpace;", "&ZeroWidthSpace;"},
		{"&&#8206;", "&#8206;"},
		{"&#xFEFF;", "&#xFEFF;"},
		{"&#00000008203;", "&#00000008203;"},
	} {
		at, length, _, found := InvisibleEntity(c.text)
		if got := c.text[at : at+length]; got != c.want || found != (c.want != "") {
			t.Errorf("%s: found %q, want %q", c.text, got, c.want)
		}
	}
}
