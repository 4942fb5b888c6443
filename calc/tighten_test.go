package calc_test

import (
	"math/rand/v2"
	"testing"

	"blankoff/calc"
	"blankoff/calc/declare"
	"blankoff/calc/quantity"
)

// TestTighterEntriesNeverReverseAVerdict takes the worked requests of every calculator
// that judges, moves their entries about, and makes what is stated as ± smaller step by
// step: a doubt may be settled, but pass never becomes fail, nor fail pass.
func TestTighterEntriesNeverReverseAVerdict(t *testing.T) {
	for _, c := range calc.All() {
		t.Run(c.ID, func(t *testing.T) {
			t.Parallel()
			random := rand.New(rand.NewPCG(31, 32))
			tried, judged := 0, 0
			for _, base := range requests(c) {
				for range 25 {
					r := shuffled(random, c, base)
					a := calc.Answer(r)
					if tried++; a.Fault != nil || a.Verdict.Is == "" {
						continue
					}
					judged++
					tighten(t, c, r, a)
				}
			}
			if a := mustAnswer(t, declare.Request{ID: c.ID, In: c.Example.In}); a.Verdict.Is != "" && judged < tried/10 {
				t.Errorf("only %d of %d requests were judged", judged, tried)
			}
		})
	}
}

func tighten(t *testing.T, c *declare.Calculator, r declare.Request, before declare.Answer) {
	t.Helper()
	for _, share := range []float64{0.7, 0.3, 0.05, 0} {
		tighter := r
		for i := range c.Inputs {
			in := &c.Inputs[i]
			if q, ok := doubtful(in, entry(r, in.ID)); ok && !leave[c.ID+"/"+in.ID] {
				q.U *= share
				tighter = with(tighter, in.ID, write(q, q.Unit))
			}
		}
		now := calc.Answer(tighter)
		if now.Fault != nil || before.Verdict.Is != now.Verdict.Is && before.Verdict.Is != declare.CannotTell && now.Verdict.Is != declare.CannotTell {
			t.Errorf("%v: %q becomes %q, %+v with %v", r.In, before.Verdict.Is, now.Verdict.Is, now.Fault, tighter.In)
			return
		}
	}
}

// leave holds the entries whose ± is what the maker allows, and no doubt about a reading.
var leave = map[string]bool{"heater/card": true, "heater/power": true}

// doubtful is an entry with its ±, written or assumed.
func doubtful(in *declare.Input, text string) (quantity.Quantity, bool) {
	q, problem := quantity.Parse(text, in.Kinds...)
	if in.Kinds == nil || text == "" || problem != nil || q.Over || q.Gauge {
		return q, false
	}
	if !q.HasU && in.Accuracy != "" {
		q, _ = quantity.Parse(q.Text+" ± "+in.Accuracy, in.Kinds...)
	}
	return q, q.HasU
}

// shuffled moves the numbers of a request by up to a third.
func shuffled(random *rand.Rand, c *declare.Calculator, r declare.Request) declare.Request {
	for i := range c.Inputs {
		in := &c.Inputs[i]
		text := entry(r, in.ID)
		q, problem := quantity.Parse(text, in.Kinds...)
		if in.Kinds == nil || text == "" || problem != nil || q.Over || q.Gauge || random.IntN(3) == 0 {
			continue
		}
		if q.Unit.Affine() {
			q.Value += 20*random.Float64() - 10
		} else {
			q.Value *= 0.7 + 0.6*random.Float64()
		}
		r = with(r, in.ID, write(q, q.Unit))
	}
	return r
}
