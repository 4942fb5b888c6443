package load

import (
	"testing"

	"blankoff/build/guide"
)

func TestSeries(t *testing.T) {
	value := func(name, text string) Value { return Value{Named: Named{Name: name, Text: guide.Text{Text: text}}} }
	for _, c := range []struct {
		says, name string
		values     []Value
		want       string // empty: there is no such table
	}{
		{"in the order of the numbers, in the unit of the first", "dry-curve-N-min",
			[]Value{value("dry-curve-12-min", "0.125 Torr"), value("dry-curve-2-min", "1,170 mTorr"), value("ready-limit", "350 mTorr")}, "time min,pressure mTorr\n2,1170\n12,125"},
		{"no such values", "dry-curve-N-min", []Value{value("ready-limit", "350 mTorr")}, ""},
		{"one that is no number", "dry-curve-N-min", []Value{value("dry-curve-2-min", "fast")}, ""},
		{"two kinds", "own-N-min", []Value{value("own-1-min", "3 mTorr"), value("own-2-min", "3 L")}, ""},
		{"no unit behind the number", "stage-N-of", []Value{value("stage-1-of", "3 mTorr")}, ""},
		{"a plain name", "dry-curve", []Value{value("dry-curve-2-min", "3 mTorr")}, ""},
	} {
		card := Card{Values: c.values}
		got, found := card.Value(c.name)
		if got.Text.Text != c.want || found != (c.want != "") || found && !got.Table {
			t.Errorf("%s: %q, %t, want %q", c.says, got.Text.Text, found, c.want)
		}
	}
}
