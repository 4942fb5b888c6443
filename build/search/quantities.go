package search

import (
	"cmp"
	"encoding/json"
	"fmt"
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"

	"blankoff/calc/quantity"
)

// A quantity is a term as well: "#", a letter for its kind, and the number of the small range in which its SI value lies.
// A range is one per cent wide, and for kinds that have values below zero a step of their own. Who looks for 500 mTorr
// looks in the ranges around it.
const perRange = 0.01

// lettersOfKinds are those of the kinds that are found by number, as a page's data-kind names them.
var lettersOfKinds = map[string]string{
	"pressure": "p", "pressure difference": "p", "gauge pressure": "g", "rate of pressure change": "r", "leak rate": "q",
	"temperature": "t", "temperature difference": "d", "length": "l", "volume": "v", "time": "s", "mass": "m",
	"volume flow rate": "f", "resistance": "o", "voltage": "u", "electric current": "a", "power": "w", "energy": "e",
	"thread count": "n", "wire gauge": "c",
}

// linear kinds, with the width of their ranges; of a dial it is a tenth of an inHg.
var linear = map[string]float64{"t": 0.5, "d": 0.5, "g": 338.6}

// called are words for what pages about a kind are called: they count where no page has a value near.
var called = map[string]string{
	"p": "pressure", "g": "pressure", "r": "rise", "q": "leak", "t": "temperature", "l": "length", "v": "volume", "s": "time",
	"f": "speed", "o": "ohms", "u": "voltage", "w": "power", "e": "energy", "n": "thread",
}

// calledBy gives them as stems, for the kinds that the terms have.
func calledBy(terms []string) map[string]string {
	used := map[string]string{}
	for _, term := range terms {
		if term[0] == '#' && called[term[1:2]] != "" {
			used[term[1:2]] = Stem(called[term[1:2]])
		}
	}
	return used
}

// bareUnit is that of a number without a unit that is too large to count something: what displays of these machines show.
const bareUnit = "mtorr"

// quantityTerm is the term of an SI value; empty where it cannot be found by number.
func quantityTerm(kind string, si float64) string {
	letter := lettersOfKinds[kind]
	step := linear[letter]
	switch {
	case letter == "" || math.IsInf(si, 0) || math.IsNaN(si):
		return ""
	case step > 0:
		return fmt.Sprintf("#%s%d", letter, int(math.Round(si/step)))
	case si <= 0:
		return ""
	}
	return fmt.Sprintf("#%s%d", letter, int(math.Round(math.Log(si)/perRange)))
}

// dataTerms gives the terms of a page's data element.
func dataTerms(kind, values string) []string {
	var terms []string
	for _, value := range strings.Fields(values) {
		if si, err := strconv.ParseFloat(value, 64); err == nil {
			if term := quantityTerm(kind, si); term != "" {
				terms = append(terms, term)
			}
		}
	}
	return terms
}

// spoken are spellings that people type besides the symbols, and compound units that have no row of their own.
var spoken = []string{
	"metre", "meter", "metres", "meters", "inch", "inches", "foot", "feet", "l", "litre", "litres", "liter", "liters", "gallon", "gallons",
	"sec", "second", "seconds", "mins", "minute", "minutes", "hr", "hrs", "hour", "hours", "day", "days", "gram", "grams", "lbs",
	"C", "F", "degC", "degF", "deg C", "deg F", "degrees C", "degrees F", "celsius", "fahrenheit", "kelvin", "pascal", "microns",
	"µmHg", "in Hg", "inches Hg", "inches of mercury", "amp", "amps", "volt", "volts", "ohm", "ohms", "watt", "watts", "threads per inch",
	"mTorr/min", "mTorr/s", "micron/min", "microns/min", "Pa/min", "Pa/s", "mbar/min", "Torr/min", "inHg/min",
	"mbar·L/s", "mbar l/s", "mbarl/s", "Torr·L/s", "torr l/s", "torrl/s", "Pa·m³/s", "pa m3/s", "atm·cm³/s", "atm cc/s",
	"m³/h", "m3/h", "L/s", "L/min", "in³", "cm³", "cm3", "kWh",
}

// unreadUnits are spellings that calc/quantity does not read and people type.
var unreadUnits = map[string]string{
	"pascals": "Pa", "millitorr": "mTorr", "millibar": "mbar", "kohm": "kΩ", "kohms": "kΩ", "kilohm": "kΩ", "megohm": "MΩ", "megohms": "MΩ",
	"kilogram": "kg", "kilograms": "kg", "degrees": "°C", "deg": "°C",
}

// Unit is a spelling of a unit, with the letter of its kind: SI value = zero + factor × number.
type Unit struct {
	Spelling, Kind string
	Factor, Zero   float64
}

// MarshalJSON writes a unit without names: there are many.
func (u Unit) MarshalJSON() ([]byte, error) {
	return json.Marshal([]any{u.Spelling, u.Kind, u.Factor, u.Zero})
}

// UnmarshalJSON reads what MarshalJSON writes.
func (u *Unit) UnmarshalJSON(text []byte) error {
	return json.Unmarshal(text, &[]any{&u.Spelling, &u.Kind, &u.Factor, &u.Zero})
}

// unitsOf lists the units of those kinds that the terms have, in small letters unless another unit would be the same: MPa
// is no mPa.
func unitsOf(terms []string) []Unit {
	used := map[string]bool{}
	for _, term := range terms {
		if term[0] == '#' {
			used[term[1:2]] = true
		}
	}
	units := map[string]Unit{}
	add := func(spelling string, u quantity.Unit) {
		letter := lettersOfKinds[u.Kind.Name()]
		if !used[letter] {
			return
		}
		unit := Unit{strings.ToLower(spelling), letter, rounded(u.Span(1)), rounded(u.To(0))}
		if other, taken := units[unit.Spelling]; taken && (other.Kind != letter || other.Factor != unit.Factor) {
			unit.Spelling = spelling
		}
		if _, taken := units[unit.Spelling]; !taken {
			units[unit.Spelling] = unit
		}
	}
	for _, spelling := range slices.Concat(quantity.Symbols(), spoken) {
		if u, known := quantity.FindUnit(spelling); known {
			add(spelling, u)
		}
	}
	for spelling, symbol := range unreadUnits {
		add(spelling, quantity.MustUnit(symbol))
	}
	list := slices.Collect(maps.Values(units))
	slices.SortFunc(list, func(a, b Unit) int {
		return cmp.Or(len(b.Spelling)-len(a.Spelling), cmp.Compare(a.Spelling, b.Spelling))
	})
	return list
}

// rounded keeps seven figures: ranges are one per cent wide.
func rounded(x float64) float64 {
	short, err := strconv.ParseFloat(strconv.FormatFloat(x, 'g', 7, 64), 64)
	if err != nil {
		return x
	}
	return short
}
