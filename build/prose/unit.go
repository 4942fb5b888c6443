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
	if u.known() && u.Unit != (quantity.Unit{}) && u.Kind == quantity.Pressure && !joined {
		u.takeReference(text)
	}
	return u
}

// refused holds what looks like a unit and is none where it stands.
func (u unit) refused(text string, n number, refers bool) bool {
	word := text[u.from:u.to]
	short := len(word) == 1 || word == "in"
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
	"digit":   setOf("code number serial"),
	"seconds": setOf("hand"),
}

// longestUnit is the longest spelling that is looked up.
const longestUnit = 24

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

// found looks a spelling up. A unit that is known but measures nothing here is told by its name alone, so that 5 W/m² is
// not taken for 5 W.
func found(text string, from, to int) unit {
	word := text[from:to]
	u := unit{from: from, to: to, name: word}
	if u.worry = worries[word]; u.worry != 0 {
		return u
	}
	if word == "k" {
		return unit{Unit: kilohm, from: from, to: to, name: word}
	}
	if len(word) == 1 && strings.IndexByte("AVWKLlmshdgJ%", word[0]) < 0 || word == "us" || word == "US" || word == "As" {
		return unit{}
	}
	spelled := word
	switch strings.ToLower(word) {
	case "psig", "barg", "kpag":
		spelled, u.gauge, u.settled = word[:len(word)-1], true, true
	case "psia", "bara", "kpaa":
		spelled, u.settled = word[:len(word)-1], true
	}
	known, ok := quantity.FindUnit(spelled)
	if !ok {
		return unit{}
	}
	if known.Kind == quantity.None {
		return unit{name: word}
	}
	u.Unit = known
	if isMega(word, known) {
		u.worry = mega
	}
	return u
}

var kilohm = quantity.MustUnit("kΩ")

// isMega tells a capital M where a milli unit would be understood: Mtorr. All capitals are a display's way of writing.
func isMega(word string, known quantity.Unit) bool {
	if word[0] != 'M' || !strings.HasPrefix(known.Symbol, "m") || len(word) > 2 && word == strings.ToUpper(word) {
		return false
	}
	base, ok := quantity.FindUnit(word[1:])
	return ok && base.Kind == known.Kind
}

// longer tries the words behind a pressure as the rest of a leak rate (mbar L/s) and a spaced slash (mTorr / min).
func longer(text string, u unit) unit {
	next := skipGap(text, u.to)
	if next == u.to || next >= len(text) {
		return u
	}
	end := next
	if word := wordAt(text, next); word == "per" {
		return perUnit(text, u, skipGap(text, next+len(word)))
	}
	switch {
	case text[next] == '/':
		end = unitEnd(text, skipGap(text, next+1))
	case u.Kind == quantity.Pressure || u.Symbol == "atm":
		end = unitEnd(text, next)
		if strings.IndexByte(text[next:end], '/') < 0 {
			return u
		}
	}
	if end <= next || end-u.from > longestUnit {
		return u
	}
	if known, ok := quantity.FindUnit(text[u.from:end]); ok && known.Kind != quantity.None {
		u.Unit, u.to = known, end
	}
	return u
}

// perUnit reads the rest of a rate in words: mTorr per minute, litres per second.
func perUnit(text string, u unit, at int) unit {
	below := wordAt(text, at)
	if known, ok := quantity.FindUnit(u.Symbol + "/" + below); ok && below != "" && known.Kind != quantity.None && known.Kind != quantity.Ratio {
		u.Unit, u.to = known, at+len(below)
	}
	return u
}

// phrases are the units that are written in several words, and those words that call for a doubt, longest first.
var phrases = []struct {
	words string
	worry worry
}{
	{"inches Hg of vacuum", below}, {"inches Hg vacuum", below}, {"inches of mercury vacuum", below}, {"in Hg of vacuum", below},
	{"in Hg vacuum", below}, {"in. Hg of vacuum", below}, {"in. Hg vacuum", below}, {"inHg of vacuum", below}, {"inHg vacuum", below}, {"inHg vac", below},
	{"inches of vacuum", below}, {"inches vacuum", below}, {"inch of vacuum", below}, {"in. of vacuum", below}, {"in of vacuum", below},
	{"in. vacuum", below}, {"pounds of pressure", force}, {"pounds of vacuum", force}, {"lbs of pressure", force}, {"lb of pressure", force},
	{"lbs of vacuum", force}, {"lb of vacuum", force}, {"degrees C", 0}, {"degrees F", 0}, {"deg C", 0}, {"deg F", 0}, {"threads per inch", 0},
	{"threads/inch", 0}, {"inches of mercury", 0}, {"inches of water", 0}, {"inches Hg", 0}, {"in. Hg", 0}, {"in Hg", 0}, {"in H2O", 0},
	{"mm of mercury", 0}, {"mm Hg", 0}, {"µm Hg", 0}, {"std cc/min", 0}, {"std cm3/min", 0}, {"std cm³/min", 0}, {"atm cc/s", 0},
	{"cubic feet", 0}, {"cu ft", 0},
}

// phraseUnit reads the units of several words.
func phraseUnit(text string, from int, _ number) unit {
	for i := range phrases {
		p := &phrases[i]
		if p.words[0] != text[from] && (p.words[0] != 'i' || text[from] != 'I') {
			continue
		}
		end, ok := matchWords(text, from, p.words)
		if !ok || wordBegins(text, end) {
			continue
		}
		if p.worry != 0 {
			return unit{from: from, to: end, worry: p.worry}
		}
		if known, ok := quantity.FindUnit(text[from:end]); ok {
			return unit{Unit: known, from: from, to: end}
		}
	}
	return unit{}
}

// matchWords compares words with a text in which any space may stand between them.
func matchWords(text string, at int, words string) (end int, ok bool) {
	for i := 0; i < len(words); i++ {
		if words[i] == ' ' {
			next := skipGap(text, at)
			if next == at {
				return at, false
			}
			at = next
			continue
		}
		if at >= len(text) || text[at] != words[i] {
			return at, false
		}
		at++
	}
	return at, true
}

// takeReference takes in the word that says what a pressure is counted from.
func (u *unit) takeReference(text string) {
	at := skipGap(text, u.to)
	bracket := at < len(text) && text[at] == '('
	if bracket {
		at++
	}
	next := wordAt(text, at)
	end := at + len(next)
	if at == u.to || bracket && (at == u.to+1 || next != "gauge" || !strings.HasPrefix(text[end:], ")")) {
		return
	}
	switch low := strings.ToLower(next); {
	case low == "absolute" && !bracket || low == "abs" && !bracket:
		u.settled, u.to = true, end
	case (low == "gauge" || low == "gage") && fromAir[u.Symbol] && (bracket || !isInstrument(text, end)):
		u.settled, u.gauge, u.to = true, true, end
		if bracket {
			u.to++
		}
	}
}

// fromAir are the units of dials that count from the air pressure. Behind all others, gauge is the instrument.
var fromAir = setOf("inHg psi bar mbar kPa mmHg inH2O")

// isInstrument tells whether the word gauge before a place means the instrument: the 30 psi gauge reads …
func isInstrument(text string, at int) bool {
	return instrument[strings.ToLower(wordAt(text, skipGap(text, at)))]
}

var instrument = setOf("reads read shows showed show reading readings face port needle dial is was may and agrees glass")
