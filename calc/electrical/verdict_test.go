package electrical_test

import (
	"math/rand/v2"
	"strconv"
	"testing"

	"blankoff/calc/declare"
)

// TestLessDoubtNeverReverses: a better meter, a lead better known may settle a doubt, but
// pass never becomes fail, nor fail pass.
func TestLessDoubtNeverReverses(t *testing.T) {
	random := rand.New(rand.NewPCG(61, 62))
	number := func(low, high float64) string { return figures(low + (high-low)*random.Float64()) }
	for _, c := range []struct {
		id     string
		in     func() []string
		better func(share float64) []string
	}{
		{"meter", func() []string {
			return []string{"reading", number(6, 11) + " Ω", "leads", "0.3 Ω", "low", "6.9 Ω", "high", "9.3 Ω"}
		}, func(share float64) []string {
			return []string{"percent", percent(2 * share), "contact", figures(0.5*share) + " Ω"}
		}},
		{"cord-drop", func() []string {
			return []string{"length", number(5, 60) + " m", "conductor", "1.5 mm²", "current", number(2, 10) + " A", "supply", "120 V", "start", number(10, 40) + " A"}
		}, func(share float64) []string { return []string{"spread", percent(20 * share)} }},
		{"test-current", func() []string { return []string{"resistance", "8.1 Ω", "test", number(1, 80) + " mA"} },
			func(share float64) []string { return []string{"normal", "42 mA ± " + percent(20*share)} }},
		{"heater", func() []string { return []string{"cold", number(30, 40) + " Ω ± 0 Ω", "supply", "120 V"} },
			func(share float64) []string { return []string{"card", "35.1 Ω ± " + percent(5*share)} }},
	} {
		seen := map[string]int{}
		for range 400 {
			in, before := c.in(), ""
			for _, share := range []float64{1, 0.5, 0.2, 0.05, 0} {
				a := answer(c.id, join(in, c.better(share))...)
				if a.Fault != nil {
					t.Fatalf("%s %v: %s", c.id, in, a.Fault.Text)
				}
				now := a.Verdict.Is
				if before != "" && before != now && before != declare.CannotTell && now != declare.CannotTell {
					t.Errorf("%s %v: %q becomes %q with %v", c.id, in, before, now, c.better(share))
				}
				if before != "" {
					seen[before+" > "+now]++
				}
				before = now
			}
		}
		if seen["pass > pass"] < 50 || seen["fail > fail"] < 50 || seen["cannot tell > pass"]+seen["cannot tell > fail"] < 20 {
			t.Errorf("%s: %v: the comparison says little", c.id, seen)
		}
	}
}

func figures(x float64) string { return strconv.FormatFloat(x, 'f', 3, 64) }

func percent(x float64) string { return figures(x) + " %" }
