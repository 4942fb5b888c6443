package triage

import "math"

// HandOver is the step of giving the job to somebody else: the shop, the maker, a licensed person.
const HandOver = -1

// Choice is a step that could come next, with what is expected of the job if it does.
type Choice struct {
	_       [0]func() // never compared: saves the code for it
	Step    int       // or HandOver
	Minutes float64   // expected until the machine works or the job is handed over, this step included; to a thousandth
	Ends    float64   // probability that this step itself ends the job
	Saves   float64   // of a test: minutes that it is expected to save, for each of its own; below 1 it does not pay
}

// Bench is who works, with what, and what has been done.
type Bench struct {
	Who   Worker
	Tools uint64 // bit by bit; a step whose tools are not all there is not offered
	Done  []int  // tests, and repairs that did not make the machine work
	Asked []int  // findings that nobody can tell, or that do not count: they are not asked again
}

// Look is how many steps ahead a plan looks for those who work by it. A third one brought nothing that simulated jobs could
// show.
const Look = 2

// Plan lists what could come next, the best first: of the tests with which the end is expected sooner than without a test
// the one that saves most for its minutes, then everything by its expected minutes. A short question comes so before a
// long test that saves more by itself: what the question leaves open the test can tell later, the other way round it comes
// too late. Each step is weighed by looking depth steps ahead (1 or 2); after that repairs are taken in the order of
// probability over cost, which is optimal for single causes, each cured by one repair (Heckerman, Breese and Rommelse
// 1995, section 2). Minutes are rounded, and equal steps stand in the order of the model, handing over last, so that
// neither the machine nor the order of the answers changes the list.
func (m *Model) Plan(b Bench, answers []Answer, depth int) []Choice {
	p := m.planner(b, answers)
	share := p.start(m.Belief(answers))
	var list []Choice
	for s := range m.Steps {
		if p.open(s) {
			list = append(list, p.choice(s, share, 1))
		}
	}
	list = append(list, Choice{Step: HandOver, Minutes: m.Call, Ends: 1})
	p.order(list)
	if depth > 1 {
		p.deeper(list, share, depth)
		p.order(list)
	}
	return list
}

// deeper weighs again those that a deeper look can bring to the top: the tests that save most for their minutes, and the
// repairs that end the job soonest. Two steps ahead these tests alone are thought of; and where tests can end in
// many ways, fewer of them.
func (p *planner) deeper(list []Choice, share Belief, depth int) {
	const tests, repairs, branches = 6, 6, 32
	var again []int
	for left := branches; len(again) < tests; {
		best := -1
		for i := range list {
			if p.isTest(list[i].Step) && !in(again, i) && p.branches(list[i].Step) <= left && (best < 0 || list[i].Saves > list[best].Saves) {
				best = i
			}
		}
		if best < 0 {
			break
		}
		left -= p.branches(list[best].Step)
		p.ahead, again = append(p.ahead, list[best].Step), append(again, best)
	}
	for i := range list {
		if s := list[i].Step; s != HandOver && !p.isTest(s) && before(list, list[i].Minutes) < repairs {
			again = append(again, i)
		}
	}
	for _, i := range again {
		list[i] = p.choice(list[i].Step, share, depth)
	}
}

// branches is how many ways a test can end.
func (p *planner) branches(s int) int {
	n := 1
	for _, f := range p.Steps[s].Findings {
		if !p.known[f] {
			n *= len(p.Findings[f].Sound)
		}
	}
	return n
}

// before counts the steps that end the job sooner.
func before(list []Choice, minutes float64) int {
	n := 0
	for i := range list {
		if list[i].Minutes < minutes {
			n++
		}
	}
	return n
}

// taking is what a test takes, in minutes, beside its own time: putting the question and noting the answer. It keeps the shortest
// questions from coming first for their shortness alone. Of 0, 2 and 4 this was best in simulated jobs, other ones than those
// of testdata/triage-study.txt.
const taking = 4

// order puts the best first.
func (p *planner) order(list []Choice) {
	without := p.untested(list)
	for i := range list {
		if c := &list[i]; p.isTest(c.Step) {
			cost := p.cost(c.Step)
			c.Saves = (without - c.Minutes + cost) / (cost + taking)
		}
	}
	for i := 1; i < len(list); i++ {
		for j := i; j > 0 && p.sooner(&list[j], &list[j-1], without); j-- {
			list[j], list[j-1] = list[j-1], list[j]
		}
	}
}

// untested is the least of what is expected without a test first.
func (p *planner) untested(list []Choice) float64 {
	least := p.Call
	for i := range list {
		if !p.isTest(list[i].Step) {
			least = min(least, list[i].Minutes)
		}
	}
	return least
}

func (p *planner) sooner(a, b *Choice, without float64) bool {
	pays, other := p.isTest(a.Step) && a.Minutes < without, p.isTest(b.Step) && b.Minutes < without
	switch {
	case pays != other:
		return pays
	case pays && a.Saves != b.Saves:
		return a.Saves > b.Saves
	case a.Minutes != b.Minutes:
		return a.Minutes < b.Minutes
	}
	return uint(a.Step) < uint(b.Step) // HandOver is the largest
}

func (p *planner) isTest(s int) bool { return s >= 0 && len(p.Steps[s].Cures) == 0 }

func thousandth(x float64) float64 { return math.Round(x*1e3) / 1e3 }
