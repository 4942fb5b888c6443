package triage

import (
	"math"
	"math/rand/v2"
	"testing"
)

// measured adds a measured finding to a small model.
func measured(r *rand.Rand, m *Model) *Model {
	f := Finding{Plain: Curve{Middle: 5, Spread: 0.5, Log: true}, Cuts: []float64{10, 50}}
	for range m.Causes {
		f.Curve = append(f.Curve, Curve{Middle: math.Exp(1 + 5*r.Float64()), Spread: 0.2 + r.Float64(), Log: true})
	}
	m.Findings = append(m.Findings, f)
	m.Prepare()
	return m
}

func TestBeliefIsAProbability(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 300 {
		m := measured(r, small(r))
		var answers []Answer
		for f := range m.Findings {
			answers = append(answers, Answer{Finding: f, Outcome: r.IntN(2), Value: math.Exp(20*r.Float64() - 10), U: r.Float64()})
		}
		b := m.Belief(answers)
		sum := 0.0
		for _, p := range b {
			if !(p >= 0 && p <= 1) {
				t.Fatalf("%v", b)
			}
			sum += p
		}
		if math.Abs(sum-1) > 1e-12 {
			t.Fatalf("sums to %v", sum)
		}
		for f := range m.Findings {
			for h := range m.hypotheses() {
				sum := 0.0
				for o := range m.Findings[f].Sound {
					sum += m.chance(f, o, h)
				}
				if math.Abs(sum-1) > 1e-9 {
					t.Fatalf("the outcomes of a finding sum to %v", sum)
				}
			}
		}
		for i := range answers {
			if p := m.Surprise(answers, i); !(p >= 0 && p <= 1+1e-12) {
				t.Fatalf("an answer has probability %v", p)
			}
			if w := m.Weight(answers, i, 0); math.IsNaN(w) || math.IsInf(w, 0) {
				t.Fatalf("an answer weighs %v", w)
			}
		}
	}
}

// TestBeliefOfOneFinding is Bayes' rule: a mammogram example of Rice, Mathematical Statistics and Data Analysis, 3rd ed., as
// cited in testdata/reference/16_bayes.csv: prior 1 %, found in 80 % of cases with the cause and 10 % without, gives 7.5 %.
// Slips of the answer are taken into the probabilities given here, so that the published figures stand.
func TestBeliefOfOneFinding(t *testing.T) {
	told := func(p float64) []float64 { return pairOf((p - slip/2) / (1 - slip)) }
	m := &Model{
		Causes:   []Cause{{Weight: 0.01}, {Weight: 0.99}},
		Findings: []Finding{{Sound: pairOf(0.1), Given: [][]float64{told(0.8), told(0.1)}}},
	}
	m.Prepare()
	if got := m.Belief([]Answer{{Finding: 0, Outcome: 0}})[0]; math.Abs(got-0.075) > 0.0005 {
		t.Errorf("%v, want 0.075", got)
	}
}

// Two causes together: what neither bears on is as usual, what one shows shows, and the order does not matter.
func TestTogether(t *testing.T) {
	sound := []float64{0.03, 0.97}
	for _, c := range []struct {
		name       string
		a, b       []float64
		least, top float64
	}{
		{"neither bears on it", sound, sound, 0.03, 0.03},
		{"one shows it", pairOf(0.9), sound, 0.9, 0.9},
		{"both show it", pairOf(0.9), pairOf(0.8), 0.97, 1},
		{"one of them hides it", pairOf(0.001), pairOf(0.8), 0.7, 0.8},
	} {
		got, other := together(sound, c.a, c.b, 0), together(sound, c.b, c.a, 0)
		if got != other || got < c.least-1e-9 || got > c.top+1e-9 {
			t.Errorf("%s: %v and %v, want %v to %v", c.name, got, other, c.least, c.top)
		}
	}
}

// A value that is known less well moves the belief less; one that no cause explains speaks for something not listed.
func TestMeasuredValues(t *testing.T) {
	m := &Model{
		Causes: []Cause{{Weight: 1}, {Weight: 1}}, Unlisted: 0.1,
		Findings: []Finding{{Cuts: []float64{30}, Plain: Curve{5, 0.3, true}, Curve: []Curve{{10, 0.3, true}, {100, 0.3, true}}}},
	}
	m.Prepare()
	at := func(x, u float64) Belief { return m.Belief([]Answer{{Finding: 0, Value: x, U: u}}) }
	if sure, less := at(10, 0.1)[0], at(10, 8)[0]; !(sure > 0.95 && less < sure && less > 0.5) {
		t.Errorf("%v known well, %v known badly", sure, less)
	}
	if odd := at(1e6, 1); odd[2] < 0.7 {
		t.Errorf("a value beyond all causes: %v", odd)
	}
	if p := m.Surprise([]Answer{{Finding: 0, Value: 1e6, U: 1}}, 0); p > 0.2 {
		t.Errorf("a value beyond all causes has probability %v", p)
	}
}
