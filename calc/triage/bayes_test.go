package triage

import (
	"math"
	"testing"
	"testing/quick"
)

// Findings in any order, and a prior that has already been moved by one of them, give the same.
func TestPosteriorDoesNotDependOnOrder(t *testing.T) {
	same := func(a, b, c float64) bool {
		prior, first, second := 0.01+0.98*frac(a), math.Exp(6*frac(b)-3), math.Exp(6*frac(c)-3)
		at := Posterior(prior, first, second)
		return math.Abs(Posterior(prior, second, first)-at) < 1e-12 && math.Abs(Posterior(Posterior(prior, first), second)-at) < 1e-12 &&
			(Posterior(prior, first) > prior) == (first > 1)
	}
	if err := quick.Check(same, nil); err != nil {
		t.Error(err)
	}
	if math.Abs(Posterior(0.3)-0.3) > 1e-15 || Posterior(0.3, math.Inf(1)) != 1 || Posterior(0.3, 0) != 0 {
		t.Error("no finding, a sure one, or one that excludes")
	}
}

// Findings at the ends of what there is: never NaN, and no cause is called certain that a
// finding excludes.
func TestPosteriorAtTheEnds(t *testing.T) {
	endless := math.Inf(1)
	for _, c := range []struct {
		name        string
		got, within float64
	}{
		{"excluded before, proved later", Posterior(0, endless), 0},
		{"certain before, excluded later", Posterior(1, 0), 0},
		{"proved and excluded", Posterior(0.3, endless, 0), 0},
		{"large ratios that cancel out", Posterior(0.5, 1e200, 1e200, 1e-200, 1e-200), 0.5},
		{"certain before", Posterior(1, 0.01), 1},
		{"a finding that cannot be, seen", LikelihoodRatio(0, 1, true), 1},
		{"a finding that must be, missed", LikelihoodRatio(1, 0, false), 1},
		{"only the cause can show it", LikelihoodRatio(0.5, 1, true), endless},
	} {
		if !(math.Abs(c.got-c.within) < 1e-12 || c.got == c.within) {
			t.Errorf("%s: %v, want %v", c.name, c.got, c.within)
		}
	}
}

func frac(x float64) float64 { return math.Abs(math.Mod(math.Mod(x, 1), 1)) }
