package machine

import (
	"strconv"
	"strings"
)

// MostPins bounds the positions of a base. UsualPins is an octal-style base, which thermocouple tubes mostly have: common
// practice, no source.
const (
	MostPins  = 14
	UsualPins = 8
)

// Constructions are how a tube's couple and heater stand to each other, as a tube's file says it.
var Constructions = []string{"insulated", "joined"}

// Roles are what a pin can be for.
var Roles = []string{heaterRole, coupleRole, "case", "none"}

const (
	heaterRole = "heater"
	coupleRole = "couple"
)

// Pin is a position of a tube's base with what it is for.
type Pin struct {
	Number int
	Role   string
}

// Derived are the values that a tube's file gives without writing them.
var Derived = []string{"sensor-tube", "sensor-construction", "heater-pins", "couple-pins"}

// Derive gives the text of a derived value; empty where the tube does not tell.
func Derive(name, title, construction string, pins []Pin) string {
	switch name {
	case "sensor-tube":
		return title
	case "sensor-construction":
		if construction != "" {
			return construction + " junction"
		}
	case "heater-pins":
		return list(pins, heaterRole)
	case "couple-pins":
		return list(pins, coupleRole)
	}
	return ""
}

// list writes the pins of a role as a card does: 1 and 4.
func list(pins []Pin, role string) string {
	var words []string
	for n := 1; n <= MostPins; n++ {
		for _, pin := range pins {
			if pin.Number == n && pin.Role == role {
				words = append(words, strconv.Itoa(n))
			}
		}
	}
	return strings.Join(words, " and ")
}

// CheckPins says what a pin map lacks: heater and couple have two pins each, nothing else can be measured as a pair.
func CheckPins(pins []Pin) []Problem {
	var found []Problem
	for _, role := range []string{heaterRole, coupleRole} {
		n := 0
		for _, pin := range pins {
			if pin.Role == role {
				n++
			}
		}
		if n != 2 {
			found = append(found, Problem{Rule: "pins", Message: "this map has " + strconv.Itoa(n) + " for the " + role + "; it needs two",
				Hint: "write two lines such as `1: " + role + "`; look at the pin side, count clockwise from the key"})
		}
	}
	return found
}

// CheckPair says whether a value such as pair-2-5 speaks of pins that the map connects.
func CheckPair(name string, pins []Pin) *Problem {
	if pattern(name) != "pair-N-N" {
		return nil
	}
	between := numbers(name)
	for i, n := range between {
		connected := false
		for _, pin := range pins {
			connected = connected || pin.Number == n && (pin.Role == heaterRole || pin.Role == coupleRole)
		}
		if !connected || i == 1 && between[0] >= n {
			return &Problem{Rule: "pins", Message: name + " is no pair of this tube", Hint: "name two pins of heater or couple, the lower number first; they are " + joined(pins)}
		}
	}
	return nil
}

func joined(pins []Pin) string {
	return strings.Join(strings.Fields(strings.ReplaceAll(list(pins, heaterRole)+" "+list(pins, coupleRole), " and ", " ")), ", ")
}
