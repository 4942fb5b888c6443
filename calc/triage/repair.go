package triage

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
	return list, thousandth(p.repairs(share)) // a belief sums to 1 but for its last bit
}

// repairs is the expected rest when repairs are done one after the other, the one with the most probability for its cost
// first, until it is cheaper to hand over. The belief is not scaled anew after each: gains are shares of the whole, so that
// those of repairs that have no cause in common with the last one stand.
func (p *planner) repairs(share []float64) float64 {
	left, mend, before := p.room.copied(share), p.room.copied(p.mend), len(p.room.marked)
	gain, cost, open, waiting := p.room.list(len(p.Steps)), p.room.list(len(p.Steps)), p.room.open[:0], p.room.waiting[:0]
	clear(gain)
	for _, s := range p.fixes {
		if p.done[s] {
			continue
		}
		if gain[s] = p.gain(left, s); gain[s] > 0 {
			if cost[s] = p.Steps[s].Minutes; len(p.Steps[s].Needs) > 0 {
				cost[s] = p.cost(s)
				waiting = append(waiting, s)
			}
			open = append(open, s)
		}
	}
	alive, spent := total(left), 0.0
	best := alive * p.Call
	for spent < best {
		// Below this rate no later repair pays either: even of a job with nothing but an unlisted cause left, it would cost more
		// than it saves. (Of two causes at once a later repair can gain a little; that is left out.)
		least := left[len(left)-1]
		if x := 1e-9 * alive; x > least {
			least = x
		}
		at, most := -1, least/p.Call
		for i, s := range open {
			if gain[s] > most*cost[s] {
				at, most = i, gain[s]/cost[s]
			}
		}
		if at < 0 {
			break
		}
		next := open[at]
		open = append(open[:at], open[at+1:]...)
		spent += alive * cost[next]
		alive -= gain[next]
		if x := spent + alive*p.Call; x < best {
			best = x
		}
		marked, cheaper := len(p.room.marked), false
		p.mark(next)
		for _, s := range p.room.marked[marked:] {
			gain[s] = 0
			cheaper = cheaper || p.needed[s]
		}
		if cheaper {
			for _, s := range waiting {
				cost[s] = p.cost(s)
			}
		}
		p.fail(left, next)
		for _, s := range p.near[next] {
			if gain[s] > 0 {
				gain[s] = p.gain(left, s)
			}
		}
	}
	copy(p.mend, mend)
	p.unmark(before)
	p.room.back(4)
	return best
}

// gain is the probability that a repair makes the machine work now.
func (p *planner) gain(share Belief, s int) float64 {
	sum := 0.0
	cures := p.Steps[s].Cures
	for i := range cures {
		sum += share[cures[i].Cause] * cures[i].Chance
	}
	joints := p.joints[s]
	for i := range joints {
		if pair := share[joints[i].at]; pair > 0 {
			before, after := joints[i].ended(p.mend)
			sum += pair * (after - before) / (1 - before)
		}
	}
	if sum > 1 {
		return 1
	}
	return sum
}

// ended is the probability that both causes of a pair are ended, before a repair and after it; before is never quite 1.
func (j *joint) ended(mend []float64) (before, after float64) {
	a, b := mend[j.a], mend[j.b]
	before, after = a*b, (a+(1-a)*j.endsA)*(b+(1-b)*j.endsB)
	if before > 1-1e-9 {
		before = 1 - 1e-9
	}
	return before, after
}

// fail takes from a belief what a repair would have ended.
func (p *planner) fail(share Belief, s int) {
	for _, cure := range p.Steps[s].Cures {
		share[cure.Cause] *= 1 - cure.Chance
	}
	joints := p.joints[s]
	for i := range joints {
		before, after := joints[i].ended(p.mend)
		share[joints[i].at] *= (1 - after) / (1 - before)
	}
	for _, cure := range p.Steps[s].Cures {
		p.mend[cure.Cause] += (1 - p.mend[cure.Cause]) * cure.Chance
	}
}
