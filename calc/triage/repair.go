package triage

import "math"

// Repairs lists the repairs that could come next, the likeliest to end the job first, and gives the expected minutes of
// doing them one after the other without another test, handing over when that is cheaper. Minutes of each are its own.
func (m *Model) Repairs(b Bench, answers []Answer) ([]Choice, float64) {
	p := m.planner(b, answers)
	share := p.start(m.Belief(answers))
	var list []Choice
	for s := range m.Steps {
		if len(m.Steps[s].Cures) > 0 && p.open(s) {
			list = append(list, Choice{Step: s, Minutes: p.cost(s), Ends: p.gain(share, s)})
		}
	}
	for i := 1; i < len(list); i++ {
		for j := i; j > 0 && list[j].Ends > list[j-1].Ends; j-- {
			list[j], list[j-1] = list[j-1], list[j]
		}
	}
	return list, p.repairs(share)
}

// repairs is the expected rest when repairs are done one after the other, the one with the most probability for its cost
// first, until it is cheaper to hand over. Here the belief is not scaled anew after each: gains are shares of the whole, so
// that those of repairs that have no cause in common with the last one stand.
func (p *planner) repairs(share Belief) float64 {
	left := append(Belief(nil), share...)
	mend := append([]float64(nil), p.mend...)
	done := append([]bool(nil), p.done...)
	gain := make([]float64, len(p.Steps))
	for s := range gain {
		if len(p.Steps[s].Cures) > 0 && p.open(s) {
			gain[s] = p.gain(left, s)
		}
	}
	alive, spent := 1.0, 0.0
	best := p.Call
	for spent < best {
		// Below this rate no later repair pays either: even of a job with nothing but an unlisted cause left, it would cost more
		// than it saves. (Of two causes at once a later repair can gain a little; that is left out.)
		next, most := -1, math.Max(1e-9*alive, left[len(left)-1])/p.Call
		for s, g := range gain {
			if g > 0 && !p.done[s] && g > most*p.cost(s) {
				next, most = s, g/p.cost(s)
			}
		}
		if next < 0 {
			break
		}
		spent += alive * p.cost(next)
		p.mark(next)
		p.fail(left, next)
		alive -= gain[next]
		best = math.Min(best, spent+alive*p.Call)
		for _, s := range p.near[next] {
			if gain[s] > 0 {
				gain[s] = p.gain(left, s)
			}
		}
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
	for _, i := range p.pairs[s] {
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
	p.fail(next, s)
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

// fail takes from a belief what a repair would have ended.
func (p *planner) fail(share Belief, s int) {
	for _, cure := range p.Steps[s].Cures {
		share[cure.Cause] *= 1 - cure.Chance
	}
	for _, i := range p.pairs[s] {
		pair := p.Pairs[i]
		before := p.mend[pair.A] * p.mend[pair.B]
		after := p.mended(pair.A, s) * p.mended(pair.B, s)
		share[len(p.Causes)+i] *= (1 - after) / math.Max(1-before, 1e-9)
	}
	for _, cure := range p.Steps[s].Cures {
		p.mend[cure.Cause] = p.mended(cure.Cause, s)
	}
}
