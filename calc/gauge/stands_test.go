package gauge_test

import "testing"

// TestHowAComparisonStands: in few words, for who takes pair after pair.
func TestHowAComparisonStands(t *testing.T) {
	for _, c := range []struct {
		want  string
		in    []string
		pairs [][2]float64
	}{
		{"keep going: pairs at the lowest, at 250 and at 900 mTorr", nil, [][2]float64{{5000, 5100}}},
		{"decided: they agree here; keep going, dirt shows lower", nil, [][2]float64{{910, 900}}},
		{"decided: they agree", nil, [][2]float64{{95, 92}, {910, 900}}},
		{"decided: they disagree; keep going, for the pattern: three pairs far apart", nil, [][2]float64{{410, 92}}},
		{"decided: they disagree", nil, [][2]float64{{410, 92}, {598, 250}, {1387, 900}}},
		{"no more pairs will decide: a better gauge would", []string{"machine-accuracy", "40 %"}, [][2]float64{{95, 92}}},
		{"begin anew in air: no pair in vapour decides", []string{"gas", "wet"}, [][2]float64{{95, 92}}},
	} {
		a := answered(t, "gauge-compare", append([]string{"readings", readings(c.pairs...), "reference-accuracy", "10 %"}, c.in...)...)
		if got := given(a, "stands").Text; got != c.want {
			t.Errorf("%v %v: %q, want %q", c.in, c.pairs, got, c.want)
		}
	}
}
