package electrical_test

import (
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"blankoff/calc/declare"
)

// TestLessDoubtNeverReverses: a better meter, a lead better known may settle a doubt, but
// pass never becomes fail, nor fail pass.
func TestLessDoubtNeverReverses(t *testing.T) {
	random := rand.New(rand.NewPCG(61, 62))
	number := func(low, high float64) string { return figures(low + (high-low)*random.Float64()) }
	cold := ""
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
		{"heater", func() []string {
			cold = number(30, 40)
			return []string{"supply", "120 V", "card", "35.1 Ω ± 7 %"}
		}, func(share float64) []string { return []string{"cold", cold + " Ω ± " + percent(5*share)} }},
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

// TestWhatIsSaid looks for what a reader must know beside the verdict.
func TestWhatIsSaid(t *testing.T) {
	lead := []string{"length", "10 m", "conductor", "12 AWG", "current", "9.5 A", "supply", "120 V"}
	plate := []string{"supply", "120 V", "power", "500 W", "cold", "28.8 Ω"}
	for _, c := range []struct {
		name, id string
		in       []string
		words    string
		want     bool
	}{
		{"a lead without the starting current", "cord-drop", lead, "Without the starting current", true},
		{"and with it", "cord-drop", join(lead, []string{"start", "28 A"}), "Without the starting current", false},
		{"a plate and a cold resistance", "heater", plate, "A plate means the hot heater", true},
		{"and the hot one", "heater", join(plate, []string{"hot", "29 Ω"}), "A plate means the hot heater", false},
		{"and a coefficient with the temperature", "heater", join(plate, []string{"coefficient", "0.017 %", "temperature", "80 °C"}), "A plate means the hot heater", false},
		{"a resistance without ±", "heater", plate, "± (1 % + 0.3 Ω) taken", true},
		{"and with it", "heater", join(plate, []string{"cold", "28.8 Ω ± 0.1 Ω"}), "± (1 % + 0.3 Ω) taken", false},
		{"a last digit that no megohm range has", "meter", []string{"reading", "8.4 MΩ", "leads", "0 Ω"}, "a last digit of 42,000 Ω was taken", true},
		{"unless it was entered", "meter", []string{"reading", "8.4 MΩ", "leads", "0 Ω", "resolution", "0.1 Ω"}, "was taken. Enter", false},
		{"the ± entered is in the working: by hand √(0.384² + 0.3²)", "continuity", []string{"reading", "8.4 Ω ± 0.3 Ω", "leads", "0.3 Ω"}, "√((0.487 Ω)² + (0.303 Ω)²)", true},
		{"five pairs cannot show the contact that the sixth would", "tube-check", join(bareTX4, intactTX4, []string{"ab", ""}), "a contact at C–D, which shows only with A–B", true},
		{"six can", "tube-check", join(bareTX4, intactTX4), "which shows only with", false},
	} {
		a := answer(c.id, c.in...)
		said := strings.Join(append(append([]string{shown(a, "not-proved")}, a.Working...), a.Cautions...), "\n")
		if a.Fault != nil || strings.Contains(said, c.words) != c.want {
			t.Errorf("%s: %q said: %v; %+v\n%s", c.name, c.words, !c.want, a.Fault, said)
		}
	}
}
