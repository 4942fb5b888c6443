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

// after gives the states that a step can lead to.
func (s state) after(m *Model, step int) []state {
	done := append(slices.Clone(s.done), step)
	if cures := m.Steps[step].Cures; len(cures) > 0 {
		next := state{slices.Clone(s.weight), s.answers, done}
		for h := range next.weight {
			next.weight[h] *= m.remains(h, done) / m.remains(h, s.done)
		}
		return []state{next}
	}
	f := m.Steps[step].Findings[0]
	var list []state
	for o := range m.Findings[f].Sound {
		next := state{slices.Clone(s.weight), append(slices.Clone(s.answers), Answer{Finding: f, Outcome: o}), done}
		for h := range next.weight {
			next.weight[h] *= m.chance(f, o, h)
		}
		list = append(list, next)
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

// optimum is the least expected time that any order of steps can reach, times the probability of the state.
func optimum(m *Model, s state) float64 {
	total := s.total()
	best := total * m.Call
	for step := range m.Steps {
		if slices.Contains(s.done, step) || total*m.Steps[step].Minutes >= best {
			continue
		}
		sum := total * m.Steps[step].Minutes
		for _, next := range s.after(m, step) {
			if sum < best {
				sum += optimum(m, next)
			}
		}
		best = math.Min(best, sum)
	}
	return best
}

// followed is the expected time of doing what Plan says.
func followed(m *Model, s state, depth int) float64 {
	total := s.total()
	if total < 1e-9 {
		return 0
	}
	step := m.Plan(Bench{Who: Technician, Done: s.done}, s.answers, depth)[0].Step
	if step == HandOver {
		return total * m.Call
	}
	sum := total * m.Steps[step].Minutes
	for _, next := range s.after(m, step) {
		sum += followed(m, next, depth)
	}
	return sum
}

// TestNearTheOptimum: on models small enough to try every order of steps, the order that Plan gives costs on average at
// most 2 % more than the best, and never 25 %. Our own exhaustive search stands for a source.
func TestNearTheOptimum(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 1995))
	for depth, most := range []float64{0.10, 0.04, 0.02} {
		var sum, worst float64
		const models = 60
		for range models {
			m := small(r)
			begin := state{weight: m.prior()}
			over := followed(m, begin, depth)/optimum(m, begin) - 1
			if over < -1e-9 {
				t.Fatalf("better than the best by %g: one of the two reckons wrongly", -over)
			}
			sum += over
			worst = math.Max(worst, over)
		}
		t.Logf("looking %d steps ahead: %.2f %% above the optimum on average, %.1f %% at worst", depth, 100*sum/models, 100*worst)
		if sum/models > most || worst > 0.25 {
			t.Errorf("looking %d steps ahead: %.1f %% above the optimum on average, %.1f %% at worst", depth, 100*sum/models, 100*worst)
		}
	}
}
