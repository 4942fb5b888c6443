package triage

// planner looks ahead from one state. What it changes on the way down it puts back on the way up.
type planner struct {
	*Model
	bench Bench
	done  []bool
	known []bool    // findings that have been told
	mend  []float64 // of each cause the probability that repairs so far have ended it
	ahead []int     // the tests that are thought of further down
	fixes []int     // the repairs that this worker can do
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
	for s := range m.Steps {
		if !p.isTest(s) && p.open(s) {
			p.fixes = append(p.fixes, s)
		}
	}
	return p
}

// start takes into the belief that the repairs done so far have not made the machine work.
func (p *planner) start(share Belief) Belief {
	share = append(Belief(nil), share...)
	for s := range p.done {
		if p.done[s] && len(p.Steps[s].Cures) > 0 {
			p.fail(share, s)
			p.settle(share)
		}
	}
	return share
}

// settle scales a belief after a repair that did not help. If it should have helped only something else is left.
func (p *planner) settle(share Belief) {
	if total(share) < 1e-12 {
		clear(share)
		share[len(share)-1] = 1
	}
	normal(share)
}

func total(share []float64) float64 {
	sum := 0.0
	for _, x := range share {
		sum += x
	}
	return sum
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

// mark marks a step and what it needs as done.
func (p *planner) mark(s int) {
	if !p.done[s] {
		p.done[s] = true
		p.room.marked = append(p.room.marked, s)
	}
	for _, n := range p.Steps[s].Needs {
		p.mark(n)
	}
}

// unmark takes back all but the first n marks.
func (p *planner) unmark(n int) {
	for _, s := range p.room.marked[n:] {
		p.done[s] = false
	}
	p.room.marked = p.room.marked[:n]
}

// choice weighs one step.
func (p *planner) choice(s int, share Belief, depth int) Choice {
	c := Choice{Step: s}
	if p.isTest(s) {
		c.Minutes = thousandth(p.test(s, share, 1, depth))
		return c
	}
	c.Ends = p.gain(share, s)
	c.Minutes = p.cost(s)
	before := len(p.room.marked)
	rest, mend := p.room.copied(share), p.room.copied(p.mend)
	p.mark(s)
	p.fail(rest, s)
	c.Minutes = thousandth(c.Minutes + p.value(rest, depth-1))
	copy(p.mend, mend)
	p.room.back(2)
	p.unmark(before)
	return c
}

// From here on a belief is not scaled to 1: it sums to the probability of the state, and what is expected of a state is
// counted with that weight, so that the states after a step need only be added up.

// test is the expected rest with a test first.
func (p *planner) test(s int, share []float64, weight float64, depth int) float64 {
	cost := weight * p.cost(s)
	before := len(p.room.marked)
	p.mark(s)
	cost += p.outcomes(p.Steps[s].Findings, share, depth)
	p.unmark(before)
	return cost
}

// outcomes is the expected rest over all outcomes of the findings that are still open.
func (p *planner) outcomes(findings []int, share []float64, depth int) float64 {
	for len(findings) > 0 && p.known[findings[0]] {
		findings = findings[1:]
	}
	if len(findings) == 0 {
		return p.value(share, depth-1)
	}
	f, sum := findings[0], 0.0
	next := p.room.list(len(share))
	p.known[f] = true
	for _, chance := range p.chances[f] {
		weight := 0.0
		for h, x := range share {
			x *= chance[h]
			next[h] = x
			weight += x
		}
		if weight > 1e-6 { // else it is so rare that it cannot change the order
			sum += p.outcomes(findings[1:], next, depth)
		}
	}
	p.known[f] = false
	p.room.back(1)
	return sum
}

// value is the expected rest of a job: the best of repairing on, handing over and, with depth left, testing first.
func (p *planner) value(share []float64, depth int) float64 {
	best := p.repairs(share)
	if depth < 1 {
		return best
	}
	weight := total(share)
	for _, s := range p.ahead {
		if p.open(s) && weight*p.cost(s) < best {
			best = min(best, p.test(s, share, weight, depth))
		}
	}
	return best
}
