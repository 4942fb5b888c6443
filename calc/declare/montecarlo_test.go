package declare_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"blankoff/calc"
	"blankoff/calc/declare"
	"blankoff/calc/quantity"
)

// spread are requests with uncertainties of the size that a workshop meets; each
// calculator's own example is tried as well.
var spread = map[string][][]declare.Pair{
	"pressure": {
		{{Name: "value", Text: "-20 inHg gauge"}, {Name: "altitude", Text: "1600 m ± 100 m"}},
		{{Name: "value", Text: "340 micron ± 20 %"}, {Name: "ambient", Text: "970 mbar ± 10 mbar"}},
	},
	"throughput": {
		{{Name: "rate", Text: "50 sccm ± 10 %"}, {Name: "reference", Text: "0 °C ± 2 K"}, {Name: "gas-temperature", Text: "25 °C ± 10 K"}},
		{{Name: "rate", Text: "0.02 mbar·L/s ± 20 %"}, {Name: "gas-temperature", Text: "20 °C ± 15 K"}, {Name: "reference", Text: "20 °C"}},
		{{Name: "rate", Text: "2e-5 mol/s ± 5 %"}, {Name: "gas-temperature", Text: "25 °C ± 5 K"}},
	},
	"rise-test": {
		{{Name: "volume", Text: "24 L ± 1 L"}, {Name: "start", Text: "701 mTorr"}, {Name: "end", Text: "850 mTorr"}, {Name: "time", Text: "10 min"}},
		{{Name: "volume", Text: "62 L ± 10 %"}, {Name: "start", Text: "100 mTorr ± 5 mTorr"}, {Name: "end", Text: "400 mTorr ± 20 mTorr"}, {Name: "time", Text: "20 min ± 4 min"}, {Name: "gauge", Text: "30 %"}},
		{{Name: "volume", Text: "17.5 L"}, {Name: "start", Text: "90 mTorr"}, {Name: "end", Text: "95 mTorr"}, {Name: "time", Text: "2 min"}, {Name: "step", Text: "5 mTorr"}},
	},
	"continuity": {
		{{Name: "reading", Text: "8.4 Ω"}, {Name: "leads", Text: "0.3 Ω"}},
		{{Name: "reading", Text: "8.4 Ω ± 0.3 Ω"}, {Name: "leads", Text: "0.3 Ω ± 0.1 Ω"}, {Name: "percent", Text: "2 %"}, {Name: "counts", Text: "10"}, {Name: "resolution", Text: "0.01 Ω"}},
	},
}

// spreadOf adds requests of a calculator; its return value lets a var in the file of a
// topic do so.
func spreadOf(id string, in ...[]declare.Pair) bool {
	spread[id] = append(spread[id], in...)
	return true
}

// pairs holds name, text, name, text...
func pairs(in ...string) []declare.Pair {
	var list []declare.Pair
	for i := 0; i < len(in); i += 2 {
		list = append(list, declare.Pair{Name: in[i], Text: in[i+1]})
	}
	return list
}

// TestFirstOrderAgainstMonteCarlo holds the promise "GUM against Monte Carlo within 5 %":
// 200,000 draws settle a standard deviation to 0.2 %.
func TestFirstOrderAgainstMonteCarlo(t *testing.T) {
	const draws, allowed = 200_000, 0.05
	for _, c := range calc.All() {
		t.Run(c.ID, func(t *testing.T) {
			t.Parallel()
			list := append([][]declare.Pair{c.Example.In}, spread[c.ID]...)
			compared := 0
			for k, in := range list {
				request := declare.Request{ID: c.ID, In: in}
				a := calc.Answer(request)
				deviations, refused, fault := declare.MonteCarlo(c, request, draws, rand.New(rand.NewPCG(17, uint64(k))))
				if a.Fault != nil || fault != nil {
					t.Fatalf("%s %v: %+v, %+v", c.ID, in, a.Fault, fault)
				}
				if refused > draws/1000 {
					t.Errorf("%s %v: %d of %d draws were refused", c.ID, in, refused, draws)
				}
				for _, g := range a.Out {
					if !g.HasValue || c.Output(g.ID).Derived {
						continue
					}
					drawn := deviations[index(c, g.ID)]
					first := quantity.MustUnit(g.Unit).Span(g.U)
					if first == 0 && drawn < 1e-12*math.Abs(g.SI) {
						continue // without any uncertainty, both ways
					}
					compared++
					if math.Abs(first-drawn) > allowed*drawn {
						t.Errorf("%s %v: u of %s is %.4g, Monte Carlo gives %.4g", c.ID, in, g.ID, first, drawn)
					}
				}
			}
			if compared == 0 {
				t.Errorf("%s: nothing to compare; give it a request with uncertainties in spread", c.ID)
			}
		})
	}
}

func index(c *declare.Calculator, id string) int {
	for i := range c.Outputs {
		if c.Outputs[i].ID == id {
			return i
		}
	}
	return -1
}
