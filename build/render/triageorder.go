package render

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"blankoff/build/fault"
	"blankoff/calc/quantity"
	"blankoff/calc/triage"
)

// order reckons what stands on the page before anybody has answered: in which order to ask, and what each answer
// speaks for.
type order struct {
	words    *fault.Model
	customer *triage.Model
	all      *triage.Model
}

func newOrder(m *fault.Model) *order {
	return &order{words: m, customer: m.For(fault.Customer), all: m.For(fault.Technician)}
}

// shares are those of the causes among the machines for which a finding counts: how far a rise is over its limit is asked of
// none that stays within.
func (o *order) shares(finding int) []float64 {
	share, sum := make([]float64, len(o.all.Causes)), 0.0
	for c := range share {
		share[c] = o.all.Causes[c].Weight
		for _, g := range o.words.Findings[finding].When {
			share[c] *= o.guarded(g, c)
		}
		sum += share[c]
	}
	for c := range share {
		share[c] /= max(sum, math.SmallestNonzeroFloat64) // nothing counts where no cause shows what the guard asks for
	}
	return share
}

// guarded is how probable the answers of a guard are under a cause.
func (o *order) guarded(g fault.Guard, cause int) float64 {
	on, sum := o.words.Finding(g.Finding.Text), 0.0
	at := slices.Index(o.words.Findings, on)
	for i, a := range on.Answers {
		if slices.ContainsFunc(g.Answers, func(t fault.Text) bool { return t.Text == a.Name }) {
			sum += o.all.Findings[at].Given[cause][i]
		}
	}
	return sum
}

// usual is how probable an answer is before anything is known, over all causes.
func (o *order) usual(finding, answer int) float64 {
	sum := 0.0
	for c, share := range o.shares(finding) {
		sum += share * o.all.Findings[finding].Given[c][answer]
	}
	return sum
}

// tests are the tests as a technician with every tool would rank them, the best first.
func (o *order) tests() []*fault.Step {
	var list []*fault.Step
	for _, choice := range o.all.Plan(triage.Bench{Who: triage.Technician, Tools: ^uint64(0)}, nil, triage.Look) {
		if choice.Step >= 0 && choice.Step < len(o.words.Tests) {
			list = append(list, o.words.Tests[choice.Step])
		}
	}
	for _, s := range o.words.Tests { // those that a plan does not reach are still to be read about
		if !slices.Contains(list, s) {
			list = append(list, s)
		}
	}
	return list
}

// leans are the titles of the causes under which an answer is clearly more probable than under all others, the most
// probable cause first.
func (o *order) leans(finding, answer int) []string {
	const clearly, most = 1.5, 3
	f, shares, usual := &o.all.Findings[finding], o.shares(finding), o.usual(finding, answer)
	var causes []int
	for c, share := range shares {
		others := (usual - share*f.Given[c][answer]) / (1 - share)
		if f.Given[c][answer] >= clearly*others {
			causes = append(causes, c)
		}
	}
	weight := func(c int) float64 { return shares[c] * f.Given[c][answer] }
	slices.SortStableFunc(causes, func(a, b int) int {
		switch {
		case weight(a) > weight(b):
			return -1
		case weight(a) < weight(b):
			return 1
		}
		return 0
	})
	var titles []string
	for _, c := range causes[:min(len(causes), most)] {
		titles = append(titles, o.words.Causes[c].Title.Text)
	}
	return titles
}

// deep is how many steps of the customer's order stand on the page: with two answers each, what fits a sheet of paper.
const deep = 4

// first is the customer's order from its beginning.
func (o *order) first() *BranchView { return o.branch(nil, nil, deep) }

// branch plans one place of the order and what follows.
func (o *order) branch(answers []triage.Answer, done []int, depth int) *BranchView {
	best := o.next(answers, done)
	if best == triage.HandOver {
		return &BranchView{Title: "Call the shop, and say what you found."}
	}
	step := o.words.Steps()[best]
	view := &BranchView{Title: step.Title.Text, Notes: []string{minutes(step.Minutes)}}
	done = append(slices.Clone(done), best)
	switch {
	case len(step.Cures) > 0:
		if depth > 1 {
			view.Ends = []BranchEnd{{Answer: "It did not help.", Next: o.branch(answers, done, depth-1)}}
		}
	case depth > 1:
		view.Ends = o.ends(best, answers, done, depth-1)
	}
	return view
}

// atOnce is the time of a test that is a question, in minutes. Where handing over is best, such a one comes first all the
// same: the shop will ask it.
const atOnce = 3

func (o *order) next(answers []triage.Answer, done []int) int {
	plan := o.customer.Plan(triage.Bench{Who: triage.Customer, Tools: ^uint64(0), Done: done}, answers, triage.Look)
	if plan[0].Step != triage.HandOver {
		return plan[0].Step
	}
	for _, choice := range plan {
		if s := choice.Step; s >= 0 && s < len(o.words.Tests) && o.words.Tests[s].Minutes <= atOnce {
			return s
		}
	}
	return triage.HandOver
}

// ends are the answers to what a test tells first.
func (o *order) ends(step int, answers []triage.Answer, done []int, depth int) []BranchEnd {
	at := o.customer.Steps[step].Findings[0]
	f := o.words.Findings[at]
	if f.Measured() {
		return nil
	}
	var ends []BranchEnd
	for i, a := range f.Answers {
		said := append(slices.Clone(answers), triage.Answer{Finding: at, Outcome: i})
		ends = append(ends, BranchEnd{Answer: wordsOf(a), Leads: o.leading(said), Next: o.branch(said, done, depth)})
	}
	return ends
}

// leading names the cause that leads, and how sure that is.
func (o *order) leading(answers []triage.Answer) string {
	belief := o.customer.Belief(answers)
	best, most := 0, 0.0
	for c := range o.words.Causes {
		if p := o.customer.Of(belief, c); p > most {
			best, most = c, p
		}
	}
	return fmt.Sprintf("%s, %.0f %%", o.words.Causes[best].Title.Text, 100*most)
}

// ranges put the parts of a measured finding, between its cuts, in words.
func ranges(f *fault.Finding) []string {
	var list []string
	text := func(i int) string { return quantity.Format(f.Cuts[i], 0, f.Unit, 3) }
	for i := range f.Cuts {
		if i == 0 {
			list = append(list, "under "+text(0))
			continue
		}
		list = append(list, text(i-1)+" to "+text(i))
	}
	return append(list, "over "+text(len(f.Cuts)-1))
}

// minutes says a time as people do: whole hours where it is some of them.
func minutes(n float64) string {
	whole := int(math.Round(n))
	if whole < 60 || whole%60 > 0 && whole < 180 {
		return fmt.Sprintf("%d min", whole)
	}
	return strings.TrimSuffix(fmt.Sprintf("%.1f", n/60), ".0") + " h"
}
