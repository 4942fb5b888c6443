package verify

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"blankoff/calc"
	"blankoff/calc/declare"
	"blankoff/calc/quantity"
)

// TestPrintedResults: what a calculator's answer shows, in any unit, is true of it: with its accuracy, and without.
func TestPrintedResults(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	for range 6000 {
		family := pick1(r, families...)
		given, shown := mustUnit(t, pick1(r, family...)), mustUnit(t, pick1(r, family...))
		q := quantity.Quantity{Value: given.To(math.Exp(math.Log(1e-6) + r.Float64()*math.Log(1e14))), Kind: given.Kind, Unit: given}
		if q.HasU = r.IntN(3) > 0; q.HasU {
			q.U = q.Value * math.Exp(math.Log(1e-5)+r.Float64()*math.Log(4e4))
		}
		right := measure{Low: q, High: q, Form: value, Computed: true}
		text := quantity.Format(q.Value, q.U, shown, quantity.DefaultFigures)
		if why := disagreement(read(text), right); why != agrees {
			t.Fatalf("%q is shown of %v ± %v %s, and %s", text, given.From(q.Value), 2*q.U/given.Span(1), given.Symbol, why)
		}
		if main, _, _ := strings.Cut(text, " ± "); q.HasU && !strings.Contains(text, "(") && !strings.Contains(text, "×") {
			if why := disagreement(read(main+" "+shown.Symbol), right); why != agrees {
				t.Fatalf("%q is shown of %v ± %v %s, and its value alone %s", text, given.From(q.Value), 2*q.U/given.Span(1), given.Symbol, why)
			}
		}
	}
}

// TestExamplesAsFacts: each result of each calculator's example, as its page shows it, could stand in a guide.
func TestExamplesAsFacts(t *testing.T) {
	results := 0
	for _, c := range calc.All() {
		answer := calc.Answer(declare.Request{ID: c.ID, In: c.Example.In})
		if answer.Fault != nil {
			t.Fatal(c.ID, answer.Fault.Text)
		}
		for _, g := range answer.Out {
			for _, text := range append([]string{g.Text}, g.Also...) {
				if g.Columns != nil {
					continue
				}
				results++
				right := understood([]right{{measureOf(g), c.ID}})[0]
				right.Text = "" // not by its letters
				if why := disagreement(read(text), right.measure); g.HasValue && why != agrees {
					t.Errorf("%s gives %s: %q %s", c.ID, g.Text, text, why)
				}
			}
		}
	}
	if results < 50 {
		t.Errorf("only %d results", results)
	}
}
