package prose

import (
	"math"
	"strings"

	"blankoff/calc/quantity"
)

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

// kindOf is the kind of a mark: that of its unit, but a tolerance of a temperature is a difference, and so is what the
// words around call one. Below 100 kelvin nothing in this trade is cold, so few kelvins are a difference too.
func (s *scanner) kindOf(form Form, from, end int, it item) quantity.Kind {
	if it.unit.Kind != quantity.Temperature {
		return it.unit.Kind
	}
	if form == Spread || it.unit.Symbol == "K" && math.Abs(it.value) < 100 {
		return quantity.TemperatureDifference
	}
	before, at := wordBefore(s.text, from)
	low := strings.ToLower(before)
	if before != "" && low == "of" {
		noun, _ := wordBefore(s.text, at)
		if changes[strings.ToLower(noun)] {
			return quantity.TemperatureDifference
		}
	}
	if low == "minus" {
		word, _ := wordBefore(s.text, at)
		if strings.ToLower(word) == "or" { // plus or minus 2 °C
			return quantity.TemperatureDifference
		}
	}
	if low == "by" || low == "within" && form == Value {
		return quantity.TemperatureDifference
	}
	next := wordAt(s.text, skipGap(s.text, end))
	if it.value >= 0 && (warmer[next] || beyond[next] && low != "at" && low != "to") {
		return quantity.TemperatureDifference
	}
	return quantity.Temperature
}

var changes = setOf("change rise drop fall difference step error offset gap spread drift")

// Words behind a temperature that make it a difference: 3 °C colder, 5 °C above the trap.
var (
	warmer = setOf("warmer colder cooler hotter apart")
	beyond = setOf("higher lower above below more less")
)
