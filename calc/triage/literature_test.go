package triage

import (
	"math"
	"slices"
	"testing"
)

// exact gives a finding's probabilities so that with the slips that the belief reckons with they are as published.
func exact(published ...float64) []float64 {
	list := slices.Clone(published)
	for o := range list {
		list[o] = (list[o] - slip/float64(len(list))) / (1 - slip)
	}
	return list
}

// told adds a finding of which each cause's probabilities are published, and gives the answer that was seen.
func (m *Model) told(outcome int, given ...[]float64) Answer {
	f := Finding{Sound: given[0]}
	for _, g := range given {
		f.Given = append(f.Given, exact(g...))
	}
	m.Findings = append(m.Findings, f)
	return Answer{Finding: len(m.Findings) - 1, Outcome: outcome}
}

func causes(weights ...float64) *Model {
	m := &Model{}
	for _, w := range weights {
		m.Causes = append(m.Causes, Cause{Weight: w})
	}
	return m
}

// Worked examples whose figures were seen in the documents named; within half of the last figure printed there.
func TestPublishedPosteriors(t *testing.T) {
	for _, c := range []struct {
		name, source string
		weights      []float64
		outcomes     []int         // of each finding the one that was seen
		given        [][][]float64 // of each finding, each cause: the probability of each outcome
		want, within float64       // of the first cause
	}{
		{"thyroid of a dog, positive", "epiR 2.0.57, epi.nomogram, example 1",
			[]float64{0.05, 0.95}, []int{0}, [][][]float64{{pairOf(0.89), pairOf(1 - 0.85)}}, 0.24, 0.005},
		{"thyroid of a dog, negative", "epiR 2.0.57, epi.nomogram, example 1",
			[]float64{0.05, 0.95}, []int{1}, [][][]float64{{pairOf(0.89), pairOf(1 - 0.85)}}, 0.0068, 0.00005},
		// Given are the ratios 9000 and 0.1: with p found in healthy ones, 9000 p = 1 − 0.1 (1 − p).
		{"mange of a dog, nothing found", "epiR 2.0.57, epi.nomogram, example 2",
			[]float64{3, 3*52 - 3}, []int{1}, [][][]float64{{pairOf(9000 * 0.9 / 8999.9), pairOf(0.9 / 8999.9)}}, 0.002, 0.0005},
		// Both positive: sensitivity 0.855 and specificity 0.970 of the two in series, at even odds.
		{"two tests in series", "epiR 2.0.57, rsu.dxtest, example 1",
			[]float64{1, 1}, []int{0, 0}, [][][]float64{{pairOf(0.9), pairOf(1 - 0.8)}, {pairOf(0.95), pairOf(1 - 0.85)}}, 0.855 / (0.855 + 1 - 0.970), 0.0006},
		// The guest has chosen door A, the host opens C: the prize is behind B, A or C.
		{"three doors", "pomegranate 0.14.8, tutorial B 4, Bayesian networks: 0.6666666666666664",
			[]float64{1, 1, 1}, []int{2}, [][][]float64{{{0, 0, 1}, {0, 0.5, 0.5}, {0, 1, 0}}}, 2.0 / 3, 1e-12},
	} {
		m := causes(c.weights...)
		var answers []Answer
		for f := range c.given {
			answers = append(answers, m.told(c.outcomes[f], c.given[f]...))
		}
		m.Prepare()
		if got := m.Belief(answers)[0]; !(math.Abs(got-c.want) <= c.within) {
			t.Errorf("%s: %.6g, want %v ± %v (%s)", c.name, got, c.want, c.within, c.source)
		}
	}
}

// TestThreeDoorsAsRepairs: to open a door is a repair. Having seen another opened it is better to switch, which wins twice as often as to stay
// (source as above); so 1 min each takes 1 + 1/3.
func TestThreeDoorsAsRepairs(t *testing.T) {
	m := causes(1, 1, 1)
	m.Call = 100
	opened := m.told(2, []float64{0, 0.5, 0.5}, []float64{0, 0, 1}, []float64{0, 1, 0})
	for door := range 3 {
		m.Steps = append(m.Steps, Step{Minutes: 1, Who: Technician, Cures: []Cure{{Cause: door, Chance: 1}}})
	}
	m.Prepare()
	list, minutes := m.Repairs(Bench{Who: Technician}, []Answer{opened})
	for i, want := range []Choice{{Step: 1, Ends: 2.0 / 3}, {Step: 0, Ends: 1.0 / 3}, {Step: 2}} {
		if list[i].Step != want.Step || math.Abs(list[i].Ends-want.Ends) > 1e-12 {
			t.Errorf("place %d: %v, want %v", i, list[i], want)
		}
	}
	if math.Abs(minutes-4.0/3) > halfFigure {
		t.Errorf("%v min, want 4/3", minutes)
	}
	stayed, _ := m.Repairs(Bench{Who: Technician, Done: []int{0}}, []Answer{opened})
	if stayed[0].Step != 1 || math.Abs(stayed[0].Ends-1) > 1e-12 {
		t.Errorf("after staying in vain: %v, want the other door for sure", stayed[0])
	}
}

// TestPublishedDiscreteBayes: the two examples of Albert's vignette “Introduction to Bayes using Discrete Priors” of the R package
// LearnBayes (18 March 2018, Debian's r-cran-learnbayes), with the figures that it prints.
func TestPublishedDiscreteBayes(t *testing.T) {
	t.Run("accidents of ten weeks", func(t *testing.T) {
		counts := []int{24, 25, 31, 31, 22, 21, 26, 20, 16, 22}
		printed := []float64{0.0086284462, 0.0432554621, 0.1263286996, 0.2255195224, 0.2566196329, 0.1931041454,
			0.0992616593, 0.0358720144, 0.0093507519, 0.0017989279, 0.0002607378}
		m := causes(slices.Repeat([]float64{1}, len(printed))...)
		var rows [][]float64
		for i := range printed {
			rows = append(rows, poisson(20+float64(i), 60))
		}
		var answers []Answer
		for _, n := range counts {
			answers = append(answers, m.told(n, rows...))
		}
		m.Prepare()
		for i, got := range m.Belief(answers)[:len(printed)] {
			if math.Abs(got-printed[i]) > 0.5e-10 {
				t.Errorf("a mean of %d: %.10f, want %.10f", 20+i, got, printed[i])
			}
		}
	})
	t.Run("20 of 32", func(t *testing.T) {
		m := causes(slices.Repeat([]float64{1}, 101)...)
		var rows [][]float64
		for i := range 101 {
			rows = append(rows, pairOf(float64(i)/100))
		}
		var answers []Answer
		for i := range 32 {
			answers = append(answers, m.told(min(i/20, 1), rows...))
		}
		m.Prepare()
		sum := 0.0
		for _, p := range m.Belief(answers)[49:76] {
			sum += p
		}
		if math.Abs(sum-0.9001245) > 0.5e-7 {
			t.Errorf("a share of 0.49 to 0.75: %.7f, want 0.9001245", sum)
		}
	})
}

// poisson is the distribution of a count, all from top on together.
func poisson(mean float64, top int) []float64 {
	list, rest := make([]float64, top+1), 1.0
	for n := range top {
		gamma, _ := math.Lgamma(float64(n) + 1)
		list[n] = math.Exp(float64(n)*math.Log(mean) - mean - gamma)
		rest -= list[n]
	}
	list[top] = math.Max(rest, 0)
	return list
}
