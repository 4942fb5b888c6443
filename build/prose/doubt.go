package prose

import "strings"

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

// reasons hold what can be meant, and what to write instead. In a hint, # stands for the figures as written, -# for
// them below zero and +# without their sign.
var reasons = [...]struct{ message, hint string }{
	below:     {"this can be a pressure below the air or one above nothing", "write -# inHg gauge or +# inHg absolute"},
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
	dash:      {"this dash can join a range or be a minus sign", "write to between the numbers, or a word before the minus sign"},
}

// doubt notes a place.
func (s *scanner) doubt(from, to int, why worry, items []item) {
	hint := reasons[why].hint
	for _, form := range []struct{ mark, sign string }{{"-#", "-"}, {"+#", ""}, {"#", "±"}} {
		if strings.Contains(hint, form.mark) {
			hint = strings.ReplaceAll(hint, form.mark, s.written(items, form.sign))
		}
	}
	s.doubts = append(s.doubts, Doubt{From: from, To: to, Message: reasons[why].message, Hint: hint})
}

// written are the figures of items for a hint, each with a sign before it in place of its own; ± keeps that.
func (s *scanner) written(items []item, sign string) string {
	text, last := "", -1
	for _, it := range items {
		if last >= 0 {
			text += s.text[last:it.from]
		}
		figures := s.text[it.from:it.number.to]
		if sign != "±" {
			figures = sign + strings.TrimLeft(figures, "-−–+")
		}
		text += figures
		last = it.number.to
	}
	return text
}

// resistors are what kelvins are seldom said of.
var resistors = setOf("resistor resistors thermistor NTC potentiometer pot")
