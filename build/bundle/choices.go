package bundle

import (
	"encoding/json"
	"io/fs"
	"slices"
	"strconv"
	"strings"

	"blankoff/calc/quantity"
)

// topic is what a reader switches as one. Kinds are those of a page's quantities; each has the same number of choices, and
// a kind that follows (a rate of pressure change follows the pressure) is written in the unit beside the one chosen.
type topic []kindChoices

// name is that of its first kind.
func (t topic) name() string { return t[0].kinds[0] }

// kindChoices are what kinds can be shown in, as data-kind names them. A choice is a unit; "kPa 10 Pa" is Pa with a larger
// companion, which counts from 10 of it on. The last unit of a topic's first kind names the choice.
type kindChoices struct {
	kinds   []string
	choices []string
}

// topics are all that can be switched. A bench uses microns up to some ten thousand, and inches below a foot or two; the
// limits are judgement, from common practice without a source.
var topics = []topic{
	{
		{[]string{"pressure", "gauge pressure", "pressure difference"}, []string{"kPa 10 Pa", "mbar", "Torr 20 mTorr", "Torr 20 micron", "Torr", "inHg"}},
		{[]string{"rate of pressure change"}, []string{"Pa/min", "mbar/min", "mTorr/min", "micron/min", "Torr/min", "inHg/min"}},
	},
	{{[]string{"leak rate"}, []string{"Pa·m³/s", "mbar·L/s", "Torr·L/s", "atm·cm³/s"}}},
	{
		{[]string{"temperature"}, []string{"°C", "°F", "K"}},
		// A degree and a kelvin are one difference: who asks for °C keeps either.
		{[]string{"temperature difference"}, []string{"K 0 °C", "°F", "°C 0 K"}},
	},
	{{[]string{"length"}, []string{"m 1 mm", "ft 3 in"}}},
	{{[]string{"volume"}, []string{"L 0.5 mL", "gal 0.5 in³"}}},
}

// presets choose for every topic at once, in the order of topics: for each its last unit, "," between.
var presets = [][2]string{
	{"As written", ",,,,"},
	{"SI", "Pa,Pa·m³/s,°C,mm,mL"},
	{"US shop", "micron,Torr·L/s,°F,in,in³"},
}

// Choices gives the unit of each choice that a kind can be shown in, by the name of the choice: the smallest that it has.
func Choices(kind quantity.Kind) map[string]quantity.Unit {
	units := map[string]quantity.Unit{}
	for _, t := range topics {
		for _, k := range t {
			if !slices.Contains(k.kinds, kind.Name()) {
				continue
			}
			for i, choice := range k.choices {
				units[last(t[0].choices[i])] = quantity.MustUnit(last(choice))
			}
		}
	}
	return units
}

func last(choice string) string {
	all := symbols(choice)
	return all[len(all)-1]
}

// symbols are the units of a choice, the larger first.
func symbols(choice string) []string {
	fields := strings.Fields(choice)
	if len(fields) == 3 {
		return []string{fields[0], fields[2]}
	}
	return fields
}

// choicesTable is what the scripts fetch as "choices.txt", see choices.ts.
func choicesTable(site fs.FS) ([]byte, error) {
	units, zeros, kinds, answered := map[string]float64{}, map[string]float64{}, map[string]map[string][][2]any{}, map[string]map[string]string{}
	for _, t := range topics {
		for _, k := range t {
			for _, choice := range k.choices {
				for _, symbol := range symbols(choice) {
					u := quantity.MustUnit(symbol)
					units[symbol] = short(u.Span(1))
					if zero := u.To(0); zero != 0 {
						zeros[symbol] = short(zero)
					}
				}
			}
			for i, choice := range k.choices {
				if unit := answeredIn(choice); unit.Kind.Name() == k.kinds[0] {
					name := last(t[0].choices[i])
					if answered[name] == nil {
						answered[name] = map[string]string{}
					}
					answered[name][k.kinds[0]] = unit.Symbol
				}
			}
			for _, kind := range k.kinds {
				kinds[kind] = map[string][][2]any{}
				for i, choice := range k.choices {
					kinds[kind][last(t[0].choices[i])] = shownIn(choice)
				}
			}
		}
	}
	sheet, err := unitSheet(site)
	if err != nil {
		return nil, err
	}
	return json.Marshal(map[string]any{"units": units, "zeros": zeros, "kinds": kinds, "answered": answered, "sheet": sheet})
}

// shownIn are the units of a choice, each with the least number that is shown in it.
func shownIn(choice string) (units [][2]any) {
	least := 0.0
	if fields := strings.Fields(choice); len(fields) == 3 {
		least, _ = strconv.ParseFloat(fields[1], 64) // the tables are ours
	}
	for _, symbol := range symbols(choice) {
		units = append(units, [2]any{symbol, least})
		least = 0
	}
	return units
}

// answeredIn is what calculators are asked for: the smallest unit of a choice, but litres and gallons.
func answeredIn(choice string) quantity.Unit {
	unit := quantity.MustUnit(last(choice))
	if unit.Kind == quantity.Volume {
		unit = quantity.MustUnit(symbols(choice)[0])
	}
	return unit
}

// short keeps ten figures, more than any text has.
func short(x float64) float64 {
	rounded, err := strconv.ParseFloat(strconv.FormatFloat(x, 'g', 10, 64), 64)
	if err != nil {
		return x
	}
	return rounded
}
