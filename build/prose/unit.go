package prose

import (
	"strings"
	"unicode/utf8"

	"blankoff/calc/quantity"
)

// unit is what stands behind a number: a unit, a counted noun, or a sign that could be one of two units.
type unit struct {
	quantity.Unit
	from, to int // of the text, the words gauge and absolute included
	count    bool
	gauge    bool
	settled  bool  // a pressure whose zero is told: gauge or absolute
	worry    worry // in doubt by itself
	name     string
	joined   bool // by a hyphen: 30-minute
}

// known tells whether anything that makes a quantity was found.
func (u unit) known() bool { return u.to > 0 }

// counted are the nouns whose number is a quantity of the trade.
var counted = setOf("wrap wraps turn turns drop drops rinse rinses stroke strokes coat coats reading readings cycle cycles hole holes thread threads")

// readUnit reads what stands behind a number. After a reference only a unit that nobody writes by chance is taken.
func readUnit(text string, n number, refers bool) unit {
	from := skipGap(text, n.to)
	joined := hyphenAt(text, n.to) == 1
	if joined {
		from = n.to + 1
	}
	u := unit{}
	if from >= len(text) {
		return u
	}
	for _, read := range []func(string, int, number) unit{phraseUnit, primeUnit, wordUnit} {
		if u = read(text, from, n); u.known() {
			break
		}
	}
	u.joined = joined
	if u.known() && u.refused(text, n, refers) {
		return unit{}
	}
	if u.known() && u.Unit != (quantity.Unit{}) && u.Kind == quantity.Pressure && !joined && !u.settled {
		u.takeReference(text)
	}
	return u
}

// refused holds what looks like a unit and is none where it stands.
func (u unit) refused(text string, n number, refers bool) bool {
	word := text[u.from:u.to]
	short := len(word) == 1 && word != "%" || word == "in"
	next := text[u.to:]
	switch {
	case u.count:
		return refers || u.joined || n.fraction && n.value < 1
	case short && refers:
		return true
	case u.joined && short && n.value >= 1000: // 2617-A
		return true
	case short && (strings.HasPrefix(next, "'") || strings.HasPrefix(next, "’") || strings.HasPrefix(next, "-") && wordBegins(next, 1)): // two A's, 3-in-one
		return true
	case word == "d" && u.from == n.to, word == "k" && u.from > n.to: // a 3d drawing, but 10k of a resistor
		return true
	case word == "L" && n.value == 0 && (u.joined || u.from == n.to): // how some meters write OL
		return true
	case word == "digit" || word == "digits": // of a display only as an accuracy, as in 1 % + 3 digits
		before := strings.TrimRight(text[max(0, n.from-4):n.from], " \u00a0\u202f")
		return !strings.HasSuffix(before, "+") && !strings.HasSuffix(before, "±")
	case word == "in":
		return !isInch(text, u.to, n, u.joined)
	}
	not, has := follows[word]
	return has && not[strings.ToLower(wordAt(text, skipGap(text, u.to)))]
}

// follows are words behind which a word is no unit.
var follows = map[string]map[string]bool{
	"A":       setOf("battery batteries cell cells"),
	"meter":   setOf("reading readings lead leads probe probes tip tips display displays fuse range ranges"),
	"meters":  setOf("agree disagree differ with that show read and or in on at were are"),
	"feet":    setOf("of level under"),
	"seconds": setOf("hand"),
}

// wordUnit reads a unit written as one word or expression: mTorr, mbar·L/s, %, h of 1h30.
func wordUnit(text string, from int, n number) unit {
	if text[from] == '%' {
		return found(text, from, from+1)
	}
	end := unitEnd(text, from)
	if end == from || end-from > longestUnit {
		return unit{}
	}
	if counted[text[from:end]] {
		return unit{Unit: quantity.One, from: from, to: end, count: true}
	}
	if cut := from + lettersLength(text[from:end]); cut < end && isDigit(text[cut]) { // 1h30
		if u := found(text, from, cut); u.known() && u.worry == 0 && u.Kind == quantity.Time {
			return u
		}
	}
	for end > from {
		u := found(text, from, end)
		if u.known() || u.name != "" {
			if u.known() && u.worry == 0 {
				u = longer(text, u)
			}
			return u
		}
		end = from + max(0, strings.LastIndexAny(text[from:end], "/.*·⋅"))
	}
	return unit{}
}

// unitEnd is where a run of what unit expressions hold ends.
func unitEnd(text string, at int) int {
	afterLetter := false
	for at < len(text) {
		r, size := utf8.DecodeRuneInString(text[at:])
		switch {
		case strings.ContainsRune("/.*·⋅", r):
			if !afterLetter || at+size >= len(text) || !letterAt(text, at+size) {
				return at
			}
			afterLetter = false
		case r >= '0' && r <= '9' || strings.ContainsRune("⁻"+raised+"₂", r):
			if !afterLetter {
				return at
			}
		case isWord(r) || r == '°' || r == 'µ' || r == 'Ω':
			afterLetter = true
		default:
			return at
		}
		at += size
	}
	return at
}
