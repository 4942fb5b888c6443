package triage

import "math"

// HandOver is the step of giving the job to somebody else: the shop, the maker, a licensed person.
const HandOver = -1

// Choice is a step that could come next, with what is expected of the job if it does.
type Choice struct {
	Step    int     // or HandOver
	Minutes float64 // expected until the machine works or the job is handed over, this step included
	Ends    float64 // probability that this step itself ends the job
}

// Bench is who works, with what, and what has been done.
type Bench struct {
	Who   Worker
	Tools uint64 // bit by bit; a step whose tools are not all there is not offered
	Done  []int  // tests, and repairs that did not make the machine work
	Asked []int  // findings that nobody can tell, or that do not count: they are not asked again
}

// Plan lists what could come next, the best first: the step with the least expected time to the end. Tests are weighed
// by looking depth steps ahead (0, 1 or 2); after that repairs are taken in the order of probability over cost, which is
// optimal for single causes, each cured by one repair (Heckerman, Breese and Rommelse 1995, section 2).
func (m *Model) Plan(b Bench, answers []Answer, depth int) []Choice {
	p := m.planner(b, answers)
	share := p.start(m.Belief(answers))
	list := []Choice{{Step: HandOver, Minutes: m.Call, Ends: 1}}
	for s := range m.Steps {
		if p.open(s) {
			list = append(list, p.choice(s, share, min(depth, 1)))
		}
	}
	sortChoices(list)
	if depth > 1 {
		const worth = 8 // the others are too far behind for a deeper look to bring them to the top
		for i := range list[:min(worth, len(list))] {
			if s := list[i].Step; s >= 0 {
				list[i] = p.choice(s, share, depth)
			}
		}
		sortChoices(list[:min(worth, len(list))])
	}
	return list
}

func sortChoices(list []Choice) {
	for i := 1; i < len(list); i++ {
		for j := i; j > 0 && list[j].Minutes < list[j-1].Minutes; j-- {
			list[j], list[j-1] = list[j-1], list[j]
		}
	}
}

// planner looks ahead from one state. Its lists change on the way down and are put back on the way up.
type planner struct {
	*Model
	bench Bench
	done  []bool
	known []bool    // findings that have been told
	mend  []float64 // of each cause the probability that repairs so far have ended it
	room  room
}

func (m *Model) planner(b Bench, answers []Answer) *planner {
	p := &planner{Model: m, bench: b, done: make([]bool, len(m.Steps)), known: make([]bool, len(m.Findings)), mend: make([]float64, len(m.Causes))}
	p.room.fit(m)
	for _, s := range b.Done {
		p.done[s] = true
	}
	for _, a := range answers {
		p.known[a.Finding] = true
	}
	for _, f := range b.Asked {
		p.known[f] = true
	}
	return p
}

// start takes into the belief that the repairs done so far have not made the machine work.
func (p *planner) start(share Belief) Belief {
	share = append(Belief(nil), share...)
	for s := range p.done {
		if p.done[s] {
			p.failed(share, s)
		}
	}
	return share
}

// open tells whether this worker can do a step and has something of it.
func (p *planner) open(s int) bool {
	step := &p.Steps[s]
	if p.done[s] || step.Who&p.bench.Who == 0 || step.Tools&^p.bench.Tools != 0 {
		return false
	}
	for _, n := range step.Needs {
		if !p.done[n] && !p.open(n) {
			return false
		}
	}
	if len(step.Cures) > 0 {
		return true
	}
	for _, f := range step.Findings {
		if !p.known[f] {
			return true
		}
	}
	return false
}

// cost is the work of a step with that of the steps it still needs.
func (p *planner) cost(s int) float64 {
	sum := p.Steps[s].Minutes
	for _, n := range p.Steps[s].Needs {
		if !p.done[n] {
			sum += p.cost(n)
		}
	}
	return sum
}

// choice weighs one step.
func (p *planner) choice(s int, share Belief, depth int) Choice {
	c := Choice{Step: s, Minutes: p.cost(s)}
	before := len(p.room.marked)
	p.mark(s)
	if len(p.Steps[s].Cures) > 0 {
		c.Ends = p.gain(share, s)
		rest, mend := p.room.copied(share), p.room.copied(p.mend)
		p.failed(rest, s)
		c.Minutes += (1 - c.Ends) * p.value(rest, depth-1)
		copy(p.mend, mend)
		p.room.back(2)
	} else {
		c.Minutes += p.outcomes(p.Steps[s].Findings, share, 1, depth)
	}
	p.unmark(before)
	return c
}

// mark notes a step and what it needs as done.
func (p *planner) mark(s int) {
	if !p.done[s] {
		p.done[s] = true
		p.room.marked = append(p.room.marked, s)
	}
	for _, n := range p.Steps[s].Needs {
		p.mark(n)
	}
}

// unmark takes back all but the first n notes.
func (p *planner) unmark(n int) {
	for _, s := range p.room.marked[n:] {
		p.done[s] = false
	}
	p.room.marked = p.room.marked[:n]
}

// outcomes is the expected rest over all outcomes of the findings that are still open.
func (p *planner) outcomes(findings []int, share Belief, weight float64, depth int) float64 {
	for len(findings) > 0 && p.known[findings[0]] {
		findings = findings[1:]
	}
	if len(findings) == 0 {
		return weight * p.value(share, depth-1)
	}
	f, sum := findings[0], 0.0
	p.known[f] = true
	next := p.room.list(len(share))
	for _, chance := range p.chances[f] {
		total := 0.0
		for h, x := range share {
			x *= chance[h]
			next[h] = x
			total += x
		}
		if total*weight < 1e-6 { // so rare that it cannot change the order
			continue
		}
		for h := range next {
			next[h] /= total
		}
		sum += p.outcomes(findings[1:], next, weight*total, depth)
	}
	p.room.back(1)
	p.known[f] = false
	return sum
}

// value is the expected rest of a job: the best of repairing on, handing over and, with depth left, testing first.
func (p *planner) value(share Belief, depth int) float64 {
	best := p.repairs(share)
	if depth < 1 {
		return best
	}
	for s := range p.Steps {
		if len(p.Steps[s].Cures) == 0 && p.open(s) && p.cost(s) < best {
			best = math.Min(best, p.choice(s, share, depth).Minutes)
		}
	}
	return best
}
