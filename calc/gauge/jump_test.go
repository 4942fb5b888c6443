package gauge_test

import (
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"blankoff/calc/declare"
)

// The three machines of the trade brief, section 10.
var (
	cn14 = []string{"volume", "24.0 L ± 1.0 L", "speed", "5.1 m³/h", "ultimate", "25 mTorr", "port", "6 mm"}
	tk38 = []string{"volume", "62.0 L ± 2.5 L", "speed", "10.4 m³/h", "ultimate", "18 mTorr", "port", "10 mm"}
	ob09 = []string{"volume", "17.5 L ± 0.7 L", "speed", "3.4 m³/h", "ultimate", "12 mTorr", "port", "6 mm"}
)

func jump(machine []string, in ...string) []string {
	return append(append([]string(nil), machine...), in...)
}

func TestJumpCases(t *testing.T) {
	for _, c := range []struct {
		name  string
		in    []string
		is    string
		state string
		says  string
	}{
		{"trade brief, case 5: the whole first jump", jump(tk38, "before", "211 mTorr", "after", "47,300 mTorr", "interval", "1 s", "return", "209 mTorr"), declare.Fail, "electrical", "No gas can do that"},
		{"case 5, the way up alone", jump(tk38, "before", "211 mTorr", "after", "47,300 mTorr", "interval", "1 s"), declare.CannotTell, "open port or electrical", "would settle it"},
		{"case 5, the way down alone", jump(tk38, "before", "47,300 mTorr", "after", "209 mTorr", "interval", "1 s"), declare.Fail, "electrical", "No gas can do that"},
		{"case 5, the second jump: wider than the port", jump(tk38, "before", "212 mTorr", "after", "760,000 mTorr", "interval", "1 s"), declare.Fail, "electrical", "the largest port has 10 mm"},
		{"case 5, the third jump", jump(tk38, "before", "213 mTorr", "after", "31,900 mTorr", "interval", "1 s", "return", "212 mTorr"), declare.Fail, "electrical", ""},
		{"acceptance test 5 of the trade brief: 211, 47,300, 209 in 2 s", jump(tk38, "before", "211 mTorr", "after", "47,300 mTorr", "interval", "1 s", "return", "209 mTorr", "return-interval", "1 s"), declare.Fail, "electrical", ""},
		{"rule 3: more than 1 mm, less than the port", jump(cn14, "before", "200 mTorr", "after", "30,200 mTorr", "interval", "1 s"), declare.CannotTell, "open port or electrical", "listen"},
		{"rule 4: a small leak", jump(cn14, "before", "200 mTorr", "after", "300 mTorr", "interval", "1 s"), declare.Pass, "plausible", "seal"},
		{"a pump-down as it should be", jump(cn14, "before", "30,000 mTorr", "after", "300 mTorr", "interval", "2 min"), declare.Pass, "plausible", "The pump can"},
		{"30,000 to 300 mTorr in a second", jump(cn14, "before", "30,000 mTorr", "after", "300 mTorr", "interval", "1 s"), declare.Fail, "electrical", ""},
		{"below 17,547 mTorr a cold trap may be faster", jump(cn14, "before", "15,000 mTorr", "after", "300 mTorr", "interval", "1 s"), declare.CannotTell, "cannot tell", "trap warm"},
		{"a fall that frozen vapour explains, from above", jump(cn14, "before", "30,000 mTorr", "after", "25,000 mTorr", "interval", "1 s"), declare.CannotTell, "cannot tell", "trap warm"},
		{"up through a port, and slowly down", jump(tk38, "before", "211 mTorr", "after", "47,300 mTorr", "interval", "1 s", "return", "10,000 mTorr", "return-interval", "1 min"), declare.CannotTell, "open port or electrical", ""},
		{"a small leak and a fall that a trap explains", jump(tk38, "before", "211 mTorr", "after", "250 mTorr", "interval", "1 s", "return", "100 mTorr"), declare.CannotTell, "cannot tell", ""},
		{"no port given", []string{"volume", "62 L", "speed", "2.89 L/s", "before", "211 mTorr", "after", "47,300 mTorr", "interval", "1 s"}, declare.CannotTell, "open port or electrical", "bore of the largest port"},
		{"a rise that vapour explains passes no verdict on the port", []string{"volume", "24 L", "speed", "1.42 L/s", "port", "2 mm", "before", "200 mTorr", "after", "15,000 mTorr", "interval", "0.1 s"}, declare.CannotTell, "open port or electrical", ""},
		{"to nought in a second", jump(tk38, "before", "100 Torr", "after", "0 mTorr", "interval", "1 s"), declare.Fail, "electrical", ""},
		{"from nought", jump(tk38, "before", "0 mTorr", "after", "1 mTorr", "interval", "1 s"), declare.Pass, "plausible", ""},
	} {
		a := answered(t, "reading-jump", c.in...)
		if a.Verdict.Is != c.is || !strings.HasPrefix(given(a, "state").Text, c.state) || !strings.Contains(a.Verdict.Text, c.says) {
			t.Errorf("%s:\ngot  %q, %q, %s\nwant %q, %q, %q", c.name, a.Verdict.Is, given(a, "state").Text, a.Verdict.Text, c.is, c.state, c.says)
		}
	}
}

// Trade brief, sections 2.8 and 10, to the figures printed there.
func TestJumpNumbersOfTheTradeBrief(t *testing.T) {
	for _, c := range []struct {
		name   string
		in     []string
		out    string
		want   float64
		digits float64 // half of the last figure printed
	}{
		{"case 5, first jump", jump(tk38, "before", "211 mTorr", "after", "47,300 mTorr", "interval", "1 s"), "leak", 3890, 5},
		{"case 5, first jump", jump(tk38, "before", "211 mTorr", "after", "47,300 mTorr", "interval", "1 s"), "hole", 5.5, 0.05},
		{"case 5, second jump", jump(tk38, "before", "212 mTorr", "after", "760,000 mTorr", "interval", "1 s"), "leak", 63000, 500},
		{"case 5, second jump", jump(tk38, "before", "212 mTorr", "after", "760,000 mTorr", "interval", "1 s"), "hole", 22, 0.5},
		{"case 5, best fall", jump(tk38, "before", "47,300 mTorr", "after", "211 mTorr", "interval", "1 s"), "lowest", 45150, 5},
		{"case 5, time to 211", jump(tk38, "before", "47,300 mTorr", "after", "211 mTorr", "interval", "1 s"), "time", 118, 0.5},
		{"CN14, hole for + 30,000 mTorr", jump(cn14, "before", "0 mTorr", "after", "30,000 mTorr", "interval", "1 s"), "hole", 2.8, 0.05},
		{"TK38, hole for + 30,000 mTorr", jump(tk38, "before", "0 mTorr", "after", "30,000 mTorr", "interval", "1 s"), "hole", 4.4, 0.05},
		{"OB09, hole for + 30,000 mTorr", jump(ob09, "before", "0 mTorr", "after", "30,000 mTorr", "interval", "1 s"), "hole", 2.4, 0.05},
		{"CN14, largest fall", jump(cn14, "before", "30,000 mTorr", "after", "300 mTorr", "interval", "1 s", "ultimate", "0 Pa"), "fall", 5.7, 0.05},
		{"TK38, largest fall", jump(tk38, "before", "30,000 mTorr", "after", "300 mTorr", "interval", "1 s", "ultimate", "0 Pa"), "fall", 4.6, 0.06},
		{"OB09, largest fall", jump(ob09, "before", "30,000 mTorr", "after", "300 mTorr", "interval", "1 s", "ultimate", "0 Pa"), "fall", 5.3, 0.06},
		{"CN14, 30,000 to 300", jump(cn14, "before", "30,000 mTorr", "after", "300 mTorr", "interval", "1 s", "ultimate", "0 Pa"), "time", 78, 0.5},
		{"TK38, 30,000 to 300", jump(tk38, "before", "30,000 mTorr", "after", "300 mTorr", "interval", "1 s", "ultimate", "0 Pa"), "time", 99, 0.5},
		{"OB09, 30,000 to 300", jump(ob09, "before", "30,000 mTorr", "after", "300 mTorr", "interval", "1 s", "ultimate", "0 Pa"), "time", 85, 0.5},
	} {
		if got := given(answered(t, "reading-jump", c.in...), c.out).Value; !(math.Abs(got-c.want) <= c.digits) {
			t.Errorf("%s: %s is %.6g, want %g", c.name, c.out, got, c.want)
		}
	}
}

// Thinner air outside needs a larger hole for the same leak; an air pressure given
// stands before one from the altitude.
func TestJumpAtAltitude(t *testing.T) {
	in := jump(tk38, "before", "211 mTorr", "after", "47,300 mTorr", "interval", "1 s")
	sea, up := answered(t, "reading-jump", in...), answered(t, "reading-jump", jump(in, "altitude", "1600 m")...)
	near(t, "1,600 m: 24.66 of 29.92 inHg (trade brief, 2.1)", up, "hole", given(sea, "hole").Value/math.Sqrt(24.66/29.92), 1e-3)
	both := answered(t, "reading-jump", jump(in, "altitude", "1600 m", "ambient", "1013.25 mbar")...)
	near(t, "air pressure given", both, "hole", given(sea, "hole").Value, 1e-9)
}

// What the numbers must do, whatever the entries.
func TestJumpProperties(t *testing.T) {
	random := rand.New(rand.NewPCG(49, 50))
	number := func(x float64, unit string) string { return strconv.FormatFloat(x, 'g', 9, 64) + " " + unit }
	seen := map[string]int{}
	for range 1500 {
		before, after := 100*math.Exp(7*random.Float64()), 100*math.Exp(7*random.Float64())
		in := jump([][]string{cn14, tk38, ob09}[random.IntN(3)], "before", number(before, "mTorr"), "after", number(after, "mTorr"), "interval", number(0.1*math.Exp(7*random.Float64()), "s"))
		a := answered(t, "reading-jump", in...)
		seen[a.Verdict.Is]++
		// The same steps in other units.
		other := answered(t, "reading-jump", jump(in, "before", number(before*0.1333223684, "Pa"), "after", number(after/750.0616827, "mbar"))...)
		if other.Verdict.Is != a.Verdict.Is {
			t.Fatalf("%v: %q, in other units %q", in, a.Verdict.Is, other.Verdict.Is)
		}
		// More time is kinder to the gas: no verdict gets worse.
		rank := map[string]int{declare.Fail: 0, declare.CannotTell: 1, declare.Pass: 2}
		longer := answered(t, "reading-jump", jump(in, "interval", "20 min")...)
		if rank[longer.Verdict.Is] < rank[a.Verdict.Is] {
			t.Errorf("%v: %q, with more time %q", in, a.Verdict.Is, longer.Verdict.Is)
		}
		// Less uncertainty settles doubts and turns nothing round.
		exact := answered(t, "reading-jump", jump(in, "gauge", "0 %", "discharge", "0.8")...)
		if d := rank[exact.Verdict.Is] - rank[a.Verdict.Is]; d == 2 || d == -2 {
			t.Errorf("%v: %q, exactly %q", in, a.Verdict.Is, exact.Verdict.Is)
		}
		if least, lowest := given(a, "least").SI, given(a, "lowest").SI; !(least <= lowest*(1+1e-9)) || lowest > math.Max(before, after) {
			t.Errorf("%v: least %g, lowest %g", in, least, lowest)
		}
	}
	for _, is := range []string{declare.Pass, declare.Fail, declare.CannotTell} {
		if seen[is] < 50 {
			t.Errorf("only %d times %q: the comparison says little (%v)", seen[is], is, seen)
		}
	}
}

func TestJumpRefuses(t *testing.T) {
	refuse(t, "reading-jump", jump(tk38, "before", "211 mTorr", "after", "47,300 mTorr", "interval", "1 s"), []refused{
		{"no jump", []string{"before", "47.3 Torr"}, "after", "nothing jumped"},
		{"on in the same direction", []string{"return", "50 Torr"}, "return", "in the same direction"},
		{"no time", []string{"interval", "0 s"}, "interval", "below what is possible"},
		{"negative pressure", []string{"after", "-5 mTorr"}, "after", "cannot be negative"},
		{"no volume", []string{"volume", ""}, "volume", "is blank"},
		{"a port of nought", []string{"port", "0 mm"}, "port", "below what is possible"},
		{"a coefficient above one", []string{"discharge", "1.1"}, "discharge", "above what is possible"},
	})
}
