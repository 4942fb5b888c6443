package prose

import (
	"strings"

	"blankoff/calc/quantity"
)

// worry is why a place is in doubt.
type worry uint8

const (
	below     worry = iota + 1 // how far below the air, or above nothing?
	above                      // gauge or absolute?
	negative                   // below nothing
	force                      // pounds are a mass
	tesla                      // mT
	mega                       // Mtorr
	charge                     // C
	farad                      // F
	degree                     // deg
	inchMark                   // "
	footMark                   // '
	minuteOr                   // m: minute or metre
	thousand                   // K: kelvin or kilohm
	reference                  // a standard flow without its temperature
	dash                       // 5 -8 mV
)

// worries are signs and words that are no unit, or one of two.
var worries = map[string]worry{"mT": tesla, "C": charge, "F": farad, "deg": degree, "degrees": degree}

// reasons hold what can be meant, and what to write instead. In a hint, # stands for the figures.
var reasons = [...]struct{ message, hint string }{
	below:     {"this can be a pressure below the air or one above nothing", "write -# inHg gauge or # inHg absolute"},
	above:     {"near a vacuum this can count from the air or from nothing", "write the word gauge or absolute behind the unit"},
	negative:  {"no pressure is below nothing, so this counts from the air", "write the word gauge behind the unit"},
	force:     {"a pound is a mass or a force, not a pressure", "write # psi gauge or # psi absolute"},
	tesla:     {"mT is the millitesla, a magnetic field", "write # mTorr"},
	mega:      {"a capital M means a million, a small one a thousandth", "write the unit with a small m if that is meant"},
	charge:    {"C by itself is the coulomb, and may mean degrees Celsius", "write # °C"},
	farad:     {"F by itself is the farad, and may mean degrees Fahrenheit", "write # °F"},
	degree:    {"these can be degrees of an angle, Celsius or Fahrenheit", "write # °C or # °F"},
	inchMark:  {"this sign can mean inches, seconds or the end of a quotation", "write # in or # s"},
	footMark:  {"this sign can mean feet, minutes or the end of a quotation", "write # ft or # min"},
	minuteOr:  {"m is the metre, and may mean minutes here", "write min"},
	thousand:  {"K is the kelvin, and may mean thousands of ohms here", "write # kΩ"},
	reference: {"a standard flow is no amount of gas without its reference temperature", "say at which temperature the standard litre is counted, such as at 0 °C"},
	dash:      {"this dash can join a range or be a minus sign", "write to between the numbers, or join the minus sign to a number with words around it"},
}

// doubt notes a place.
func (s *scanner) doubt(from, to int, why worry, figures string) {
	r := reasons[why]
	s.doubts = append(s.doubts, Doubt{From: from, To: to, Message: r.message, Hint: strings.ReplaceAll(r.hint, "#", figures)})
}

// concern tells why a mark is in doubt where it stands; 0 if it is clear.
func (s *scanner) concern(at int, u unit, least float64) worry {
	switch {
	case u.worry == degree && u.name == "degrees":
		if talk := s.about(at); !talk.warm || talk.turn {
			return 0 // of an angle, which is no quantity here
		}
		return degree
	case u.worry != 0:
		return u.worry
	case u.count || u.settled:
		return 0
	}
	switch u.Symbol {
	case "inHg":
		return below
	case "psi", "bar", "kPa":
		if least < 0 {
			return negative
		}
		if u.Symbol != "kPa" && s.about(at).vacuum {
			return above
		}
	case "sccm", "slm":
		if !s.about(at).standard {
			return reference
		}
	case "K":
		if resistors[wordAt(s.text, skipGap(s.text, u.to))] {
			return thousand
		}
	}
	return 0
}

// resistors are what kelvins are seldom said of.
var resistors = setOf("resistor resistors thermistor NTC potentiometer pot")

// talk is what a sentence speaks of, found once for each.
type talk struct {
	from, to                              int
	vacuum, standard, kilohms, warm, turn bool
}

// about tells what the sentence at a place speaks of. Places come in order, so that no part of the text is read twice.
func (s *scanner) about(at int) talk {
	for at >= s.talk.to {
		from := s.talk.to
		to := sentenceEnd(s.text, from)
		s.talk = talk{from: from, to: to}
		if to <= at {
			continue
		}
		low := strings.ToLower(s.text[from:min(to, len(s.text))])
		has := func(words ...string) bool {
			for _, word := range words {
				if strings.Contains(low, word) {
					return true
				}
			}
			return false
		}
		s.talk.vacuum = has("vacuum", "evacuat", "suction", "chamber", "pump pulls", "pumped down", "pumps down", "pump-down", "pull-down")
		s.talk.standard = has("counted at", "reference", "standard", "sccm at", "slm at", "sccm (", "slm (")
		s.talk.kilohms = has("resist", "thermistor", "ntc", "potentiometer", "ohm", "ω", "probe", "meter")
		s.talk.warm = has("temperature", "trap", "room", "warm", "cold", "cool", "heat", "freez", "shelf", "oil")
		s.talk.turn = has("turn", "rotat", "angle", "apart", "clock", "handle", "bend", "tilt")
	}
	return s.talk
}

// sentenceEnd is where the sentence that begins at a place ends.
func sentenceEnd(text string, at int) int {
	for ; at < len(text); at++ {
		switch text[at] {
		case '.', '!', '?':
			if next := skipGap(text, at+1); next > at+1 && (next >= len(text) || text[next] < 'a' || text[next] > 'z') {
				return next
			}
		case '\n':
			if at+1 < len(text) && text[at+1] == '\n' {
				return at + 1
			}
		}
	}
	return len(text) + 1
}

// quotes counts the quotation marks up to a place.
type quotes struct {
	to   int
	open bool
}

// quoted tells whether a straight quotation mark before a place is still open.
func (s *scanner) quoted(at int) bool {
	for ; s.quotes.to < at; s.quotes.to++ {
		if s.text[s.quotes.to] == '"' {
			s.quotes.open = !s.quotes.open
		}
	}
	return s.quotes.open
}

// primeUnit reads the signs for inches and feet. Only behind a fraction are they sure: 11/16" is a size, 30" may be many things.
func primeUnit(text string, from int, n number) unit {
	if from != n.to {
		return unit{}
	}
	for _, sign := range []struct {
		text  string
		worry worry
	}{{`"`, inchMark}, {"″", inchMark}, {"'", footMark}, {"′", footMark}} {
		end := from + len(sign.text)
		if !strings.HasPrefix(text[from:], sign.text) || wordBegins(text, end) {
			continue
		}
		u := unit{from: from, to: end, worry: sign.worry}
		if n.fraction && sign.worry == inchMark {
			u.worry, u.Unit = 0, inch
		}
		return u
	}
	return unit{}
}

var inch = quantity.MustUnit("in")

// apostrophe tells whether a single quotation mark is open in front of a place, in the words just before it.
func apostrophe(text string, at int) bool {
	before := text[max(0, at-60):at]
	i := strings.LastIndexByte(before, '\'')
	return i >= 0 && (i == 0 || !wordEnds(before, i))
}
