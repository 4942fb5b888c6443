package prose

import "strings"

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
