package calc_test

import (
	"math/rand/v2"
	"os"
	"strings"
	"testing"

	"blankoff/calc"
	"blankoff/calc/declare"
	"blankoff/calc/wire"
)

func TestDumpEvl(t *testing.T) {
	name := os.Getenv("DUMP")
	if name == "" {
		return
	}
	mine := " continuity tube-check test-current meter heater cord-drop ice-load drying-time energy ice-floor water-boil vapour-volume solvent-vapour "
	var out strings.Builder
	say := func(r declare.Request) { out.Write(append(wire.AppendAnswer(nil, calc.Answer(r)), '\n')) }
	random := rand.New(rand.NewPCG(7, 8))
	for _, c := range calc.All() {
		if !strings.Contains(mine, " "+c.ID+" ") {
			continue
		}
		bases := requests(c)
		pool := map[string][]string{}
		for _, b := range bases {
			for _, p := range b.In {
				pool[p.Name] = append(pool[p.Name], p.Text)
			}
		}
		for i := range c.Inputs {
			in := &c.Inputs[i]
			for _, ch := range in.Choices {
				pool[in.ID] = append(pool[in.ID], ch.Value)
			}
			if in.Choices == nil {
				for _, n := range []string{"0", "0.5", "1", "3", "7.5", "8 ", "9.3", "20", "150", "1e4", "OL"} {
					for _, u := range append([]string{in.Unit}, in.Units...) {
						pool[in.ID] = append(pool[in.ID], n+" "+u)
					}
				}
			}
			pool[in.ID] = append(pool[in.ID], "")
		}
		for _, base := range bases {
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
			}
			for range 150 {
				r := base
				for range 1 + random.IntN(4) {
					id := c.Inputs[random.IntN(len(c.Inputs))].ID
					r = with(r, id, pool[id][random.IntN(len(pool[id]))])
				}
				say(r)
			}
		}
	}
	if err := os.WriteFile(name, []byte(out.String()), 0o600); err != nil {
		t.Fatal(err)
	}
}
