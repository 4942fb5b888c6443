// Package triage holds the arithmetic of deciding between causes. For now it is Bayes'
// rule for one finding; the fault model that uses it comes with the triage pages.
package triage

// LikelihoodRatio tells how much a finding speaks for a cause: its probability where the
// cause is present, divided by that where it is not. Sensitivity is the share of cases
// with the cause that show the finding, specificity the share of those without that do
// not; both lie between 0 and 1. Infinite when only the cause can show the finding.
func LikelihoodRatio(sensitivity, specificity float64, found bool) float64 {
	if found {
		return sensitivity / (1 - specificity)
	}
	return (1 - sensitivity) / specificity
}

// Posterior is the probability of a cause after independent findings, from the one
// before and the likelihood ratio of each: odds are multiplied (Bayes' rule).
func Posterior(prior float64, ratios ...float64) float64 {
	odds := prior / (1 - prior)
	for _, ratio := range ratios {
		odds *= ratio
	}
	if odds > 1e300 {
		return 1
	}
	return odds / (1 + odds)
}

// Share is the part that a count has of two: true positives of all positives (the
// predictive value), or of all with the cause (the sensitivity).
func Share(of, rest float64) float64 { return of / (of + rest) }
