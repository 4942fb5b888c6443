package calc_test

import (
	"os"
	"strings"
	"testing"

	"blankoff/calc"
	"blankoff/calc/declare"
	"blankoff/calc/wire"
)

// Not for the repository: writes every answer of every worked request, hostile ones too, to the file named by DUMP.
func TestDumpEvl(t *testing.T) {
	name := os.Getenv("DUMP")
	if name == "" {
		return
	}
	var out strings.Builder
	say := func(r declare.Request) { out.Write(append(wire.AppendAnswer(nil, calc.Answer(r)), '\n')) }
	for _, c := range calc.All() {
		for _, base := range requests(c) {
			say(base)
			for i := range c.Inputs {
				in := &c.Inputs[i]
				say(with(base, in.ID, ""))
				for _, choice := range in.Choices {
					say(with(base, in.ID, choice.Value))
				}
				for _, n := range []string{"0", "1", "3", "7.5", "20", "150", "1e4", "OL"} {
					for _, u := range append([]string{in.Unit}, in.Units...) {
						say(with(base, in.ID, n+" "+u))
					}
				}
				if in.Columns != nil {
					for _, cells := range [][]string{{"1"}, {"5", "5", "5"}, {"9", "8", "7", "6", "5", "4", "3", "2", "1"}, {"1", "2", "3", "4", "5.5", "6", "7", "8", "9", "10", "11", "13"}, {"1", "", "3", "-", "5", "OL", "7", "8", "9", "10"}, {"1", "2", "3", "1e6", "5", "6", "7", "8", "9", "10"}} {
						say(with(base, in.ID, tableOf(in, cells)))
					}
				}
			}
		}
	}
	if err := os.WriteFile(name, []byte(out.String()), 0o600); err != nil {
		t.Fatal(err)
	}
}
