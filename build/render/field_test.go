package render

import (
	"testing"

	"blankoff/calc/declare"
)

// What stands in a field and beside it must mean what was written: a unit in the number with another one beside it misleads.
func TestAFieldPartsNumberAndUnit(t *testing.T) {
	for _, test := range []struct{ text, value, unit string }{
		{"60 L", "60", "L"},
		{"24 L ± 1 L", "24 ± 1", "L"},
		{"60 L ± 2 %", "60 ± 2 %", "L"},
		{"1.4 L/s ± 10 %", "1.4 ± 10 %", "L/s"},
		{"20 %", "20", "%"},
		{"20 % ± 2 %", "20 ± 2", "%"},
		{"24 L ± 100 mL", "24 L ± 100 mL", ""},
		{"-28 inHg gauge", "-28 inHg gauge", ""},
		{"1h30", "1h30", ""},
		{"OL", "OL", ""},
		{"± 2 %", "± 2 %", ""},
		{"", "", ""},
	} {
		if value, unit := parted(test.text); value != test.value || unit != test.unit {
			t.Errorf("%q is parted into %q and %q, want %q and %q", test.text, value, unit, test.value, test.unit)
		}
	}
}

// A list shows a choice as taken only where somebody took it, or where the calculator says what it takes for a blank.
func TestWhatAListOfChoicesShows(t *testing.T) {
	two := []declare.Choice{{Value: "yes"}, {Value: "no", Label: "not so"}}
	for _, test := range []struct {
		name   string
		in     declare.Input
		chosen string
		want   []Option
	}{
		{"with a default", declare.Input{Choices: two, Default: "no"}, "no", []Option{{"yes", "yes", false}, {"no", "not so", true}}},
		{"without, blank", declare.Input{Choices: two}, "", []Option{{"", "not given", true}, {"yes", "yes", false}, {"no", "not so", false}}},
		{"without, taken", declare.Input{Choices: two}, "yes", []Option{{"", "not given", false}, {"yes", "yes", true}, {"no", "not so", false}}},
		{"required, blank", declare.Input{Choices: two, Required: true}, "", []Option{{"", "not given", true}, {"yes", "yes", false}, {"no", "not so", false}}},
		{"required, taken", declare.Input{Choices: two, Required: true}, "yes", []Option{{"yes", "yes", true}, {"no", "not so", false}}},
	} {
		got := choiceOptions(&test.in, test.chosen)
		if len(got) != len(test.want) {
			t.Errorf("%s: got %+v, want %+v", test.name, got, test.want)
			continue
		}
		for i := range got {
			if got[i] != test.want[i] {
				t.Errorf("%s: option %d is %+v, want %+v", test.name, i, got[i], test.want[i])
			}
		}
	}
}

func TestASymbolHasItsIndexBelow(t *testing.T) {
	for text, want := range map[string]string{"V": "V", "R_AB": "R<sub>AB</sub>", "p₁": "p₁", "": "", "a<b": "a&lt;b"} {
		if got := string(symbol(text)); got != want {
			t.Errorf("%q is set as %q, want %q", text, got, want)
		}
	}
}
