package prose

import (
	"strings"

	"blankoff/calc/quantity"
)

// longestUnit is the longest spelling that is looked up.
const longestUnit = 24

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
	if !ok || strings.HasSuffix(word, "1") || strings.HasSuffix(word, "¹") { // to the power of one: the mark of a footnote
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
		below := skipGap(text, next+1)
		end = unitEnd(text, below)
		if time, ok := quantity.FindUnit(text[below:end]); !ok || time.Kind != quantity.Time {
			return u
		}
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
	time, ok := quantity.FindUnit(below)
	if !ok || below == "" || time.Kind != quantity.Time {
		return u
	}
	if known, ok := quantity.FindUnit(u.Symbol + "/" + below); ok && known.Kind != quantity.None {
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
		if p.words[0] != text[from] {
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
