package calc_test

import (
	"testing"

	"blankoff/calc/triage"
)

// Topic 16 is put to the functions: no calculator asks one question about one cause.
var _ = topicOf(topic{file: "16_bayes.csv", rows: 13, numbers: map[string]func(*testing.T, row) float64{
	"posterior_probability": func(t *testing.T, r row) float64 {
		ratio := triage.LikelihoodRatio(r.number(t, "sensitivity"), r.number(t, "specificity"), r.in["result"] == "positive")
		return triage.Posterior(r.number(t, "prevalence"), ratio)
	},
	"predictive_value": func(t *testing.T, r row) float64 {
		if r.in["which"] == "positive" {
			return triage.Share(r.number(t, "TP"), r.number(t, "FP"))
		}
		return triage.Share(r.number(t, "TN"), r.number(t, "FN"))
	},
	"sensitivity": func(t *testing.T, r row) float64 { return triage.Share(r.number(t, "TP"), r.number(t, "FN")) },
	"specificity": func(t *testing.T, r row) float64 { return triage.Share(r.number(t, "TN"), r.number(t, "FP")) },
	"likelihood_ratio": func(t *testing.T, r row) float64 {
		return triage.LikelihoodRatio(r.number(t, "sensitivity"), r.number(t, "specificity"), r.in["result"] == "positive")
	},
	"post_test_probability": func(t *testing.T, r row) float64 {
		return triage.Posterior(r.number(t, "prior"), r.number(t, "likelihood_ratio"))
	},
	"post_test_probability_two": func(t *testing.T, r row) float64 {
		return triage.Posterior(r.number(t, "prior"), r.number(t, "lr1"), r.number(t, "lr2"))
	},
}})
