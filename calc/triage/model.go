// Package triage finds out what is wrong with a machine: which cause the findings speak for, how sure that is, and
// which test or repair is likely to end the job soonest.
//
// A Model is data that a shop edits. Findings are answers to questions or measured values; each cause says how
// probable each outcome is. Belief is the posterior over all hypotheses: every single cause, common pairs of two
// causes at once, and something that the model does not list. Planner.Next gives the step that is expected to end
// the job soonest (decision-theoretic troubleshooting: Heckerman, Breese and Rommelse, Communications of the ACM
// 38(3), 1995, 49–57).
//
//	belief := model.Belief(answers)
//	plan := model.Plan(triage.Worker{Who: triage.Technician}, answers, done)
package triage

import "math"

// Model is a fault model. Indices into its lists name things: cause 3 is Causes[3].
type Model struct {
	Causes   []Cause
	Pairs    []Pair
	Findings []Finding
	Steps    []Step
	Unlisted float64 // prior weight of a cause that is not in the list, on the scale of the causes' weights
	Call     float64 // what handing the job over costs, in minutes

	joints  [][]joint     // of each step
	near    [][]int       // of each step those, itself too, that bear on the same causes and pairs
	needed  []bool        // steps that another one needs
	chances [][][]float64 // of each outcome of each finding, by hypothesis
	before  []float64     // logarithm of the share of each hypothesis before anything is known
}

// Cause is one thing that can be wrong.
type Cause struct {
	_      [0]func() // never compared: saves the code for it
	ID     string
	Weight float64 // prior weight; any scale, above 0
}

// Pair is two causes at once.
type Pair struct {
	_      [0]func() // never compared: saves the code for it
	A, B   int
	Weight float64 // on the scale of the causes' weights
}

// Finding is something that can be asked or measured, with what each cause makes of it.
type Finding struct {
	ID    string
	Sound []float64   // probability of each outcome where nothing bears on this finding; sums to 1
	Given [][]float64 // the same for each cause
	Cuts  []float64   // of a measured finding: where one outcome ends and the next begins, rising; else empty
	Curve []Curve     // of a measured finding: for each cause
	Plain Curve       // of a measured finding: where nothing bears on it

	from, to float64 // of a measured finding: the range that any cause could show, on the scale of its curves
}

// Curve is the distribution of a measured value: normal, or normal in the logarithm.
type Curve struct {
	Middle float64 // median
	Spread float64 // standard deviation; of a logarithmic curve that of the natural logarithm
	Log    bool
}

// Worker is who does the work. Each is one bit, so that a step can name several.
type Worker uint8

// The workers.
const (
	Customer Worker = 1 << iota
	Technician
	Licensed
)

// Step is a test or a repair.
type Step struct {
	ID       string
	Minutes  float64 // of work, with what it takes to see whether a repair has helped; parts counted as minutes
	Who      Worker  // those who may do it
	Tools    uint64  // what must be at hand, a bit a tool
	Findings []int   // what a test tells
	Cures    []Cure  // what a repair ends
	Needs    []int   // steps that must be done before
}

// Cure is a cause that a repair ends, and how often it does.
type Cure struct {
	_      [0]func() // never compared: saves the code for it
	Cause  int
	Chance float64
}

// joint is a pair with a cause that a step ends, and how often it ends each of the two.
type joint struct {
	_            [0]func() // never compared: saves the code for it
	at           int       // its hypothesis
	a, b         int
	endsA, endsB float64
}

// Answer is one finding as it was told. An unknown one is left out of the list.
type Answer struct {
	_       [0]func() // never compared: saves the code for it
	Finding int
	Outcome int     // of a choice
	Value   float64 // of a measured finding
	U       float64 // its standard uncertainty
}

// hypotheses counts what may be the case: causes, pairs, something else.
func (m *Model) hypotheses() int { return len(m.Causes) + len(m.Pairs) + 1 }

// parts gives the causes of a hypothesis; both are the same of a single one, negative of the unlisted.
func (m *Model) parts(h int) (int, int) {
	switch {
	case h < len(m.Causes):
		return h, h
	case h < len(m.Causes)+len(m.Pairs):
		pair := m.Pairs[h-len(m.Causes)]
		return pair.A, pair.B
	}
	return -1, -1
}

// prior gives the share of each hypothesis before anything is known.
func (m *Model) prior() []float64 {
	share := make([]float64, 0, m.hypotheses())
	for i := range m.Causes {
		share = append(share, m.Causes[i].Weight)
	}
	for i := range m.Pairs {
		share = append(share, m.Pairs[i].Weight)
	}
	return normal(append(share, m.Unlisted))
}

// normal scales shares to a sum of 1. Where nothing is left all are equally likely: every answer spoke against
// everything.
func normal(share []float64) []float64 {
	sum := 0.0
	for _, s := range share {
		sum += s
	}
	for i := range share {
		if sum > 0 {
			share[i] /= sum
		} else {
			share[i] = 1 / float64(len(share))
		}
	}
	return share
}

// Prepare works out, for each measured finding, how probable each part of its range is, which is what a plan reckons
// with before the value is known, how probable each outcome is under each hypothesis, and which steps bear on the same
// causes. It must be called once before anything else, and again if the model changes.
func (m *Model) Prepare() {
	m.neighbours()
	for i := range m.Findings {
		f := &m.Findings[i]
		if len(f.Cuts) == 0 {
			continue
		}
		f.stretch()
		f.Sound = f.Plain.parts(f.Cuts)
		f.Given = make([][]float64, len(f.Curve))
		for c := range f.Curve {
			f.Given[c] = f.Curve[c].parts(f.Cuts)
		}
	}
	m.tabulate()
	m.before = m.prior()
	for h, share := range m.before {
		m.before[h] = math.Log(share)
	}
}

// neighbours finds which steps bear on the same causes and pairs, and which ones others need.
func (m *Model) neighbours() {
	touch := make([][]bool, len(m.Steps))
	m.joints, m.near, m.needed = make([][]joint, len(m.Steps)), make([][]int, len(m.Steps)), make([]bool, len(m.Steps))
	for s := range m.Steps {
		for _, n := range m.Steps[s].Needs {
			m.needed[n] = true
		}
		touch[s] = make([]bool, m.hypotheses())
		for _, cure := range m.Steps[s].Cures {
			touch[s][cure.Cause] = true
		}
		for i, pair := range m.Pairs {
			if touch[s][pair.A] || touch[s][pair.B] {
				touch[s][len(m.Causes)+i] = true
				m.joints[s] = append(m.joints[s], joint{at: len(m.Causes) + i, a: pair.A, b: pair.B, endsA: m.ends(s, pair.A), endsB: m.ends(s, pair.B)})
			}
		}
		for other := range s {
			if meet(touch[s], touch[other]) {
				m.near[s] = append(m.near[s], other)
				m.near[other] = append(m.near[other], s)
			}
		}
		m.near[s] = append(m.near[s], s)
	}
}

// ends is how often a step ends a cause.
func (m *Model) ends(s, cause int) float64 {
	q := 0.0
	for _, cure := range m.Steps[s].Cures {
		if cure.Cause == cause {
			q += (1 - q) * cure.Chance
		}
	}
	return q
}

func meet(a, b []bool) bool {
	for i := range a {
		if a[i] && b[i] {
			return true
		}
	}
	return false
}

// parts is the probability of each part that the cuts make.
func (c Curve) parts(cuts []float64) []float64 {
	list := make([]float64, 0, len(cuts)+1)
	last := 0.0
	for _, cut := range cuts {
		below := c.below(cut)
		list = append(list, below-last)
		last = below
	}
	return append(list, 1-last)
}
