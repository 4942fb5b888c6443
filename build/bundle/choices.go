package bundle

import (
	"encoding/json"
	"io/fs"

	"blankoff/calc/quantity"
)

// choice is a unit that a reader can ask for and its larger companion, the larger first: the first counts in which a number
// is not below its least.
type choice []chosen

// chosen is a unit and the least number of it that is shown in it.
type chosen struct {
	symbol string
	least  float64
}

// topic is what a reader switches as one. Kinds are those of a page's quantities; each has the same number of choices, and
// a kind that follows (a rate of pressure change follows the pressure) is written in the unit beside the one chosen.
type topic struct {
	name, label string
	kinds       []kindChoices
}

type kindChoices struct {
	kinds   []string // as data-kind names them
	choices []choice
}

func only(symbol string) choice { return choice{{symbol, 0}} }

// and adds a larger unit, shown from a number of it on.
func (c choice) and(symbol string, least float64) choice {
	return append(choice{{symbol, least}}, c...)
}

// topics are all that can be switched. A bench uses microns up to some ten thousand, and inches below a foot or two; the
// limits are judgement, from common practice without a source.
var topics = []topic{
	{"pressure", "Pressure", []kindChoices{
		{[]string{"pressure", "gauge pressure", "pressure difference"}, []choice{
			only("Pa").and("kPa", 10), only("mbar"), only("mTorr").and("Torr", 20), only("micron").and("Torr", 20), only("Torr"), only("inHg"),
		}},
		{[]string{"rate of pressure change"}, []choice{
			only("Pa/min"), only("mbar/min"), only("mTorr/min"), only("micron/min"), only("Torr/min"), only("inHg/min"),
		}},
	}},
	{"leak", "Leak rate", []kindChoices{{[]string{"leak rate"}, []choice{
		only("Pa·m³/s"), only("mbar·L/s"), only("Torr·L/s"), only("atm·cm³/s"),
	}}}},
	{"temperature", "Temperature", []kindChoices{
		{[]string{"temperature"}, []choice{only("°C"), only("°F"), only("K")}},
		// A degree and a kelvin are one difference: who asks for °C keeps either.
		{[]string{"temperature difference"}, []choice{only("°C").and("K", 0), only("°F"), only("K").and("°C", 0)}},
	}},
	{"length", "Length", []kindChoices{{[]string{"length"}, []choice{
		only("mm").and("m", 1), only("in").and("ft", 3),
	}}}},
	{"volume", "Volume", []kindChoices{{[]string{"volume"}, []choice{
		only("mL").and("L", 0.5), only("in³").and("gal", 0.5),
	}}}},
}

// presets choose for every topic at once. A choice is named by its smallest unit.
var presets = []sentPreset{
	{"SI", map[string]string{"pressure": "Pa", "leak": "Pa·m³/s", "temperature": "°C", "length": "mm", "volume": "mL"}},
	{"US shop", map[string]string{"pressure": "micron", "leak": "Torr·L/s", "temperature": "°F", "length": "in", "volume": "in³"}},
}

// The shapes of choices.d.ts.
type (
	sentTopic struct {
		Name  string     `json:"name"`
		Label string     `json:"label"`
		Kinds []sentKind `json:"kinds"`
	}
	sentKind struct {
		Kinds []string     `json:"kinds"`
		Units [][]sentUnit `json:"units"` // a row for each choice
	}
	sentUnit struct {
		Symbol string  `json:"symbol"`
		Factor float64 `json:"factor"` // SI of one
		Zero   float64 `json:"zero"`   // SI of none
		Least  float64 `json:"least"`
	}
	sentPreset struct {
		Name    string            `json:"name"`
		Choices map[string]string `json:"choices"`
	}
)

// choicesModule is what the scripts import as "./choices".
func choicesModule(fs.FS) (string, error) {
	var sent []sentTopic
	for _, t := range topics {
		one := sentTopic{Name: t.name, Label: t.label}
		for _, k := range t.kinds {
			one.Kinds = append(one.Kinds, k.sent())
		}
		sent = append(sent, one)
	}
	topicText, err := json.Marshal(sent)
	if err != nil {
		return "", err
	}
	presetText, err := json.Marshal(presets)
	return "export const topics = " + string(topicText) + ";\nexport const presets = " + string(presetText) + ";\n", err
}

func (k kindChoices) sent() sentKind {
	out := sentKind{Kinds: k.kinds}
	for _, c := range k.choices {
		var row []sentUnit
		for _, u := range c {
			unit := quantity.MustUnit(u.symbol)
			if k.kinds[0] == quantity.TemperatureDifference.Name() {
				unit = unit.Difference()
			}
			row = append(row, sentUnit{unit.Symbol, unit.Span(1), unit.To(0), u.least})
		}
		out.Units = append(out.Units, row)
	}
	return out
}
