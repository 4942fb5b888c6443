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
}

func (m *Model) planner(b Bench, answers []Answer) *planner {
	p := &planner{Model: m, bench: b, done: make([]bool, len(m.Steps)), known: make([]bool, len(m.Findings)), mend: make([]float64, len(m.Causes))}
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
			share = p.failed(share, s)
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
	undo := p.do(s)
	if len(p.Steps[s].Cures) > 0 {
		c.Ends = p.gain(share, s)
		kept := append([]float64(nil), p.mend...)
		rest := p.failed(share, s)
		c.Minutes += (1 - c.Ends) * p.value(rest, depth-1)
		copy(p.mend, kept)
	} else {
		c.Minutes += p.outcomes(p.Steps[s].Findings, share, 1, depth)
	}
	undo()
	return c
}

// do marks a step and what it needs as done.
func (p *planner) do(s int) (undo func()) {
	old := append([]bool(nil), p.done...)
	p.mark(s)
	return func() { copy(p.done, old) }
}

func (p *planner) mark(s int) {
	p.done[s] = true
	for _, n := range p.Steps[s].Needs {
		p.mark(n)
	}
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
	for o := range p.Findings[f].Sound {
		next := make(Belief, len(share))
		total := 0.0
		for h := range share {
			if share[h] > 0 {
				next[h] = share[h] * p.chance(f, o, h)
				total += next[h]
			}
		}
		if total*weight < 1e-6 { // so rare that it cannot change the order
			continue
		}
		for h := range next {
			next[h] /= total
		}
		sum += p.outcomes(findings[1:], next, weight*total, depth)
	}
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

// repairs is the expected rest when repairs are done one after the other, the one with the most probability for its cost
// first, until it is cheaper to hand over.
func (p *planner) repairs(share Belief) float64 {
	left := append(Belief(nil), share...)
	mend := append([]float64(nil), p.mend...)
	done := append([]bool(nil), p.done...)
	alive, spent := 1.0, 0.0
	best := p.Call
	for {
		next, most, gained := -1, 0.0, 0.0
		for s := range p.Steps {
			if len(p.Steps[s].Cures) == 0 || !p.open(s) {
				continue
			}
			if gain := p.gain(left, s); gain > most*p.cost(s) {
				next, most, gained = s, gain/p.cost(s), gain
			}
		}
		// A repair that brings less for its minutes than handing over costs ends the row: all later ones bring still less.
		if next < 0 || most*p.Call < 1e-9 || spent >= best {
			break
		}
		spent += alive * p.cost(next)
		p.mark(next)
		left = p.failed(left, next)
		alive *= 1 - gained
		best = math.Min(best, spent+alive*p.Call)
	}
	copy(p.mend, mend)
	copy(p.done, done)
	return best
}

// gain is the probability that a repair makes the machine work now.
func (p *planner) gain(share Belief, s int) float64 {
	sum := 0.0
	for _, cure := range p.Steps[s].Cures {
		sum += share[cure.Cause] * cure.Chance
	}
	for i := range p.Pairs {
		if pair := share[len(p.Causes)+i]; pair > 0 {
			before := p.mend[p.Pairs[i].A] * p.mend[p.Pairs[i].B]
			sum += pair * (p.mended(p.Pairs[i].A, s)*p.mended(p.Pairs[i].B, s) - before) / math.Max(1-before, 1e-9)
		}
	}
	return math.Min(sum, 1)
}

// mended is the probability that a cause is ended after one more repair.
func (p *planner) mended(cause, s int) float64 {
	q := p.mend[cause]
	for _, cure := range p.Steps[s].Cures {
		if cure.Cause == cause {
			q += (1 - q) * cure.Chance
		}
	}
	return q
}

// failed is the belief after a repair that did not help, and notes in mend what it has ended even so.
func (p *planner) failed(share Belief, s int) Belief {
	next := append(Belief(nil), share...)
	for _, cure := range p.Steps[s].Cures {
		next[cure.Cause] *= 1 - cure.Chance
	}
	for i, pair := range p.Pairs {
		h := len(p.Causes) + i
		before := p.mend[pair.A] * p.mend[pair.B]
		after := p.mended(pair.A, s) * p.mended(pair.B, s)
		next[h] *= (1 - after) / math.Max(1-before, 1e-9)
	}
	for _, cure := range p.Steps[s].Cures {
		p.mend[cure.Cause] = p.mended(cure.Cause, s)
	}
	sum := 0.0
	for _, x := range next {
		sum += x
	}
	if sum < 1e-12 { // it should have helped: only something else is left
		for h := range next {
			next[h] = 0
		}
		next[len(next)-1] = 1
		return next
	}
	return normal(next)
}
