package quantity

// The tables of package unicode, and what strings does with them, would be a twentieth
// of what a phone loads; of letters only these few questions are asked.

// lower makes the letters A to Z small; no unit or word needs others.
func lower(s string) string {
	for i := range len(s) {
		if s[i] >= 'A' && s[i] <= 'Z' {
			small := []byte(s)
			for j := i; j < len(small); j++ {
				if small[j] >= 'A' && small[j] <= 'Z' {
					small[j] += 'a' - 'A'
				}
			}
			return string(small)
		}
	}
	return s
}

// SameWord compares two words without regard to capitals.
func SameWord(a, b string) bool { return lower(a) == lower(b) }

// isLetter tells what a unit's symbol may hold: a letter, or a sign beyond ASCII that is
// not one of those that join or raise symbols.
func isLetter(r rune) bool {
	switch {
	case r < 0x80:
		return r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z'
	case r == '·' || r == '⋅' || r == '×':
		return false
	}
	return !isExponent(r)
}

// isExponent tells a figure or a sign of an exponent.
func isExponent(r rune) bool {
	return r == '^' || r == '⁻' || superscriptDigit(r) >= 0
}

// plainSign gives the plain character for one that keyboards and word processors put in
// its place.
func plainSign(r rune) rune {
	switch r {
	case '−', '–':
		return '-'
	case '\u00a0', '\u202f', '\u2009', '\t':
		return ' '
	case '’':
		return '\''
	case '\u03bc': // Greek mu for the micro sign
		return 'µ'
	case '\u2126': // the ohm sign for Greek omega
		return 'Ω'
	}
	return r
}
