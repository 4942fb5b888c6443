package triage

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

// small draws a model so small that every way through it can be tried.
func small(r *rand.Rand) *Model {
	m := &Model{Unlisted: 0.2 + r.Float64(), Call: 60 + 400*r.Float64()}
	causes := 2 + r.IntN(3)
	for range causes {
		m.Causes = append(m.Causes, Cause{Weight: 0.5 + 5*r.Float64()})
	}
	if causes > 2 {
		m.Pairs = []Pair{{A: 0, B: 1 + r.IntN(causes-1), Weight: 0.5 * r.Float64()}}
	}
	for range 2 + r.IntN(2) {
		f := Finding{Sound: pairOf(0.02 + 0.1*r.Float64())}
		for range causes {
			f.Given = append(f.Given, pairOf(math.Pow(r.Float64(), 2)*0.98+0.01))
		}
		m.Findings = append(m.Findings, f)
		m.Steps = append(m.Steps, Step{Minutes: 1 + 40*r.Float64(), Who: Technician, Findings: []int{len(m.Findings) - 1}})
	}
	for i := range causes {
		m.Steps = append(m.Steps, Step{Minutes: 10 + 150*r.Float64(), Who: Technician, Cures: []Cure{{Cause: i, Chance: 0.8 + 0.2*r.Float64()}}})
	}
	m.Prepare()
	return m
}

func pairOf(p float64) []float64 { return []float64{p, 1 - p} }

// varied draws a model with all that a model can hold: more pairs, findings of two or three answers, tests that tell two of
// them, repairs that end several causes, steps that need others first, and a cause that is not listed, rare or likely.
func varied(r *rand.Rand) *Model {
	m := &Model{Unlisted: math.Exp(3*r.Float64() - 2), Call: 60 + 600*r.Float64()}
	causes := 3 + r.IntN(2)
	for range causes {
		m.Causes = append(m.Causes, Cause{Weight: 0.5 + 5*r.Float64()})
	}
	for b := 1; b < causes; b++ {
		if r.IntN(2) == 0 {
			m.Pairs = append(m.Pairs, Pair{A: r.IntN(b), B: b, Weight: 1.5 * r.Float64()})
		}
	}
	for range 3 + r.IntN(2) {
		outcomes := 2 + r.IntN(2)
		f := Finding{Sound: shares(r, outcomes)}
		for range causes {
			f.Given = append(f.Given, shares(r, outcomes))
		}
		m.Findings = append(m.Findings, f)
	}
	for f := 0; f < len(m.Findings); f++ {
		s := Step{Minutes: 1 + 40*math.Pow(r.Float64(), 2), Who: Technician, Findings: []int{f}}
		if f+1 < len(m.Findings) && r.IntN(4) == 0 {
			f++
			s.Findings = append(s.Findings, f)
		}
		m.Steps = append(m.Steps, s)
	}
	tests := len(m.Steps)
	if tests > 1 && r.IntN(3) == 0 {
		m.Steps[1].Needs = []int{0}
	}
	for i := range causes {
		s := Step{Minutes: 10 + 200*r.Float64(), Who: Technician, Cures: []Cure{{Cause: i, Chance: 0.5 + 0.5*r.Float64()}}}
		if r.IntN(3) == 0 {
			s.Cures = append(s.Cures, Cure{Cause: (i + 1) % causes, Chance: r.Float64()})
		}
		if r.IntN(4) == 0 {
			s.Needs = []int{r.IntN(tests)}
		}
		m.Steps = append(m.Steps, s)
	}
	if r.IntN(2) == 0 { // one more, for a cause that has a repair already
		m.Steps = append(m.Steps, Step{Minutes: 10 + 100*r.Float64(), Who: Technician, Cures: []Cure{{Cause: r.IntN(causes), Chance: 0.3 + 0.6*r.Float64()}}})
	}
	m.Prepare()
	return m
}

// shares draws the probabilities of some outcomes, few of them even.
func shares(r *rand.Rand, n int) []float64 {
	list := make([]float64, n)
	for i := range list {
		list[i] = 0.02 + math.Pow(r.Float64(), 3)
	}
	return normal(list)
}

// state is a job under way: weight is the probability of each hypothesis together with all that has been seen, told and
// mended so far.
type state struct {
	weight  []float64
	answers []Answer
	done    []int
}

func (s state) total() float64 {
	sum := 0.0
	for _, w := range s.weight {
		sum += w
	}
	return sum
}

// key is the same for all ways to the same state: the order of steps changes nothing of it.
func (s state) key() string {
	var key [24]byte // steps, then answers
	for _, step := range s.done {
		key[step] = 1
	}
	for _, a := range s.answers {
		key[16+a.Finding] = byte(1 + a.Outcome)
	}
	return string(key[:])
}

// may tells whether a step can be done now.
func (s state) may(m *Model, step int) bool {
	return !slices.Contains(s.done, step) && !slices.ContainsFunc(m.Steps[step].Needs, func(n int) bool { return !slices.Contains(s.done, n) })
}

// after gives the states that a step can lead to.
func (s state) after(m *Model, step int) []state {
	done := append(slices.Clone(s.done), step)
	if cures := m.Steps[step].Cures; len(cures) > 0 {
		next := state{slices.Clone(s.weight), s.answers, done}
		for h := range next.weight {
			if next.weight[h] > 0 {
				next.weight[h] *= m.remains(h, done) / m.remains(h, s.done)
			}
		}
		return []state{next}
	}
	list := []state{{s.weight, s.answers, done}}
	for _, f := range m.Steps[step].Findings {
		var longer []state
		for _, s := range list {
			for o := range m.Findings[f].Sound {
				next := state{slices.Clone(s.weight), append(slices.Clone(s.answers), Answer{Finding: f, Outcome: o}), done}
				for h := range next.weight {
					next.weight[h] *= m.chance(f, o, h)
				}
				longer = append(longer, next)
			}
		}
		list = longer
	}
	return list
}

// remains is the probability that a hypothesis still stops the machine after what has been done.
func (m *Model) remains(h int, done []int) float64 {
	a, b := m.parts(h)
	if a < 0 {
		return 1
	}
	left := func(cause int) float64 {
		p := 1.0
		for _, s := range done {
			for _, cure := range m.Steps[s].Cures {
				if cure.Cause == cause {
					p *= 1 - cure.Chance
				}
			}
		}
		return p
	}
	if a == b {
		return left(a)
	}
	return 1 - (1-left(a))*(1-left(b))
}

// optimum is the least expected time that any order of steps can reach, times the probability of the state. best remembers
// the states that were looked at.
func optimum(m *Model, s state, best map[string]float64) float64 {
	key := s.key()
	if least, found := best[key]; found {
		return least
	}
	total := s.total()
	least := total * m.Call
	for step := range m.Steps {
		if !s.may(m, step) {
			continue
		}
		sum := total * m.Steps[step].Minutes
		for _, next := range s.after(m, step) {
			if sum < least {
				sum += optimum(m, next, best)
			}
		}
		least = math.Min(least, sum)
	}
	best[key] = least
	return least
}

// followed is the expected time of doing what Plan says, and what it needs before it.
func followed(m *Model, s state, depth int) float64 {
	total := s.total()
	if total < 1e-9 {
		return 0
	}
	step := m.Plan(Bench{Who: Technician, Done: s.done}, s.answers, depth)[0].Step
	if step == HandOver {
		return total * m.Call
	}
	for !s.may(m, step) {
		needs := m.Steps[step].Needs
		step = needs[slices.IndexFunc(needs, func(n int) bool { return !slices.Contains(s.done, n) })]
	}
	sum := total * m.Steps[step].Minutes
	for _, next := range s.after(m, step) {
		sum += followed(m, next, depth)
	}
	return sum
}

// worthwhile draws models until the best order of steps takes at least 2 % less than repairs without a test: where no test
// is worth its minutes, nothing can go wrong in choosing one. It gives the optimum too.
func worthwhile(draw func(*rand.Rand) *Model, r *rand.Rand) (*Model, float64) {
	for {
		m := draw(r)
		best := optimum(m, state{weight: m.prior()}, map[string]float64{})
		if _, untested := m.Repairs(Bench{Who: Technician}, nil); untested > 1.02*best {
			return m, best
		}
	}
}

// TestNearTheOptimum: on models small enough to try every order of steps, the order that Plan gives costs at most 10 % more
// than the best, and far less on average. Our own exhaustive search stands for a source.
func TestNearTheOptimum(t *testing.T) {
	for _, family := range []struct {
		name        string
		draw        func(*rand.Rand) *Model
		mean, worst [Look]float64 // what is allowed, looking one step ahead and two
	}{
		{"simple models", small, [...]float64{0.02, 0.01}, [...]float64{0.20, 0.10}},
		{"varied models", varied, [...]float64{0.02, 0.01}, [...]float64{0.20, 0.10}},
	} {
		r := rand.New(rand.NewPCG(4, 1995))
		const models = 100
		var sum, worst [Look]float64
		for i := range models {
			m, best := worthwhile(family.draw, r)
			for n := range sum {
				over := followed(m, state{weight: m.prior()}, n+1)/best - 1
				if over < -1e-9 {
					t.Fatalf("%s, number %d: better than the best by %g: one of the two reckons wrongly", family.name, i, -over)
				}
				sum[n] += over
				worst[n] = math.Max(worst[n], over)
			}
		}
		for n := range sum {
			t.Logf("%s, looking ahead by %d: %.2f %% above the optimum on average, %.1f %% at worst", family.name, n+1, 100*sum[n]/models, 100*worst[n])
			if sum[n]/models > family.mean[n] || worst[n] > family.worst[n] {
				t.Errorf("%s, looking ahead by %d: %.2f %% above the optimum on average, %.1f %% at worst", family.name, n+1, 100*sum[n]/models, 100*worst[n])
			}
		}
	}
}
