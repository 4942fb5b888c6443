package triage

import "math"

// Belief is how sure one may be of each hypothesis: the causes in their order, the pairs, and last something that
// is not listed. It sums to 1.
type Belief []float64

// Belief gives the posterior after the answers (Bayes' rule; findings are taken as independent of each other once the
// cause is known).
func (m *Model) Belief(answers []Answer) Belief {
	share := append(Belief(nil), m.before...)
	for _, a := range answers {
		for h := range share {
			share[h] += m.support(a, h)
		}
	}
	return settled(share)
}

// support is the logarithm of how probable an answer is under a hypothesis, kept finite: a value beyond all sense speaks
// against everything alike.
func (m *Model) support(a Answer, h int) float64 {
	return math.Log(math.Max(m.likelihood(a, h), 1e-300))
}

// settled turns logarithms of shares into shares.
func settled(share []float64) Belief {
	top := math.Inf(-1)
	for _, s := range share {
		top = math.Max(top, s)
	}
	for h := range share {
		share[h] = math.Exp(share[h] - top)
	}
	return normal(share)
}

// Of is how sure one may be that a cause is there, alone or with another.
func (m *Model) Of(b Belief, cause int) float64 {
	sum := 0.0
	for h := range b {
		if a, c := m.parts(h); a == cause || c == cause {
			sum += b[h]
		}
	}
	return math.Min(sum, 1)
}

// without leaves one answer out.
func without(answers []Answer, i int) []Answer {
	rest := make([]Answer, 0, len(answers))
	return append(append(rest, answers[:i]...), answers[i+1:]...)
}

// Weight is how much one answer, given all others, speaks for a cause against all else: the natural logarithm of
// the factor by which it multiplies the odds (Good, Probability and the Weighing of Evidence, 1950; from memory).
func (m *Model) Weight(answers []Answer, i, cause int) float64 {
	with := m.Of(m.Belief(answers), cause)
	rest := m.Of(m.Belief(without(answers, i)), cause)
	return odds(with) - odds(rest)
}

// odds is the logarithm of the odds, kept finite: nobody is surer than that.
func odds(p float64) float64 {
	const sure = 1e-9
	p = math.Min(math.Max(p, sure), 1-sure)
	return math.Log(p) - math.Log1p(-p)
}

// Surprise is how probable an answer was, given all the others: that of its outcome, or of a measured value as far out
// or further. A small one says that this answer, or one of the others, is wrong, or that the cause is not listed.
func (m *Model) Surprise(answers []Answer, i int) float64 {
	b := m.Belief(without(answers, i))
	a := answers[i]
	finding := &m.Findings[a.Finding]
	sum := 0.0
	for h := range b {
		switch {
		case len(finding.Cuts) == 0:
			sum += b[h] * m.chance(a.Finding, a.Outcome, h)
		default:
			sum += b[h] * m.tail(a, h)
		}
	}
	return sum
}

// tail is the probability of a value as far from the middle of a hypothesis' curve as the one measured, or further.
func (m *Model) tail(a Answer, h int) float64 {
	finding := &m.Findings[a.Finding]
	first, second := m.parts(h)
	if first < 0 {
		return 1
	}
	c := stronger(finding, first, second)
	slope := 1.0
	if c.Log {
		slope = 1 / math.Max(a.Value, least)
	}
	z := math.Abs(c.scale(a.Value)-c.scale(c.Middle)) / math.Hypot(c.Spread, a.U*slope)
	return slip + (1-slip)*math.Erfc(z/math.Sqrt2)
}
