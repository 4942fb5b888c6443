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
	if Posterior(0.3) != 0.3/0.7/(1+0.3/0.7) || Posterior(0.3, math.Inf(1)) != 1 || Posterior(0.3, 0) != 0 {
		t.Error("no finding, a sure one, or one that excludes")
	}
}

func frac(x float64) float64 { return math.Abs(math.Mod(math.Mod(x, 1), 1)) }
