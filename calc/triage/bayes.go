package triage

import "math"

// LikelihoodRatio tells how much a finding speaks for a cause: its probability where the
// cause is present, divided by that where it is not. Sensitivity is the share of cases
// with the cause that show the finding, specificity the share of those without that do
// not; both lie between 0 and 1. Infinite when only the cause can show the finding, 1 when
// neither can: what cannot happen tells nothing.
func LikelihoodRatio(sensitivity, specificity float64, found bool) float64 {
	with, without := sensitivity, 1-specificity
	if !found {
		with, without = 1-sensitivity, specificity
	}
	if with == without {
		return 1
	}
	return with / without
}

// Posterior is the probability of a cause after independent findings, from the one
// before and the likelihood ratio of each: odds are multiplied (Bayes' rule), as sums of
// logarithms, which do not overflow on the way. What is excluded stays excluded, whatever
// else speaks for it: where findings contradict each other, one of them is wrong, and a
// cause must not be called certain on the other.
func Posterior(prior float64, ratios ...float64) float64 {
	odds := math.Log(prior) - math.Log1p(-prior)
	excluded := prior == 0
	for _, ratio := range ratios {
		excluded = excluded || ratio == 0
		odds += math.Log(ratio)
	}
	if excluded {
		return 0
	}
	return 1 / (1 + math.Exp(-odds))
}

// Share is the part that a count has of two: true positives of all positives (the
// predictive value), or of all with the cause (the sensitivity). Something must have been
// counted.
func Share(of, rest float64) float64 { return of / (of + rest) }
