package calc_test

import (
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"blankoff/calc"
	"blankoff/calc/declare"
	"blankoff/calc/quantity"
)

// Further requests of the calculators of leaks, for the generic tests.
var (
	_ = work("balance",
		pairs("reading", "600 mTorr ± 20 mTorr", "speed", "0.4 L/s ± 0.05 L/s", "blank-off", "25 mTorr", "leak", "0.1 mbar·L/s ± 10 %"),
		pairs("reading", "25,000 mTorr", "speed", "1.4 L/s", "blank-off", "25 mTorr", "gauge", "5 %"),
		pairs("leak", "0.5 mbar·L/s", "speed", "1 m³/h", "blank-off", "3 Pa", "limit", "2 mbar"),
		pairs("leak", "0.02 Torr·L/s", "speed", "0.3 L/s", "blank-off", "30 mTorr", "limit", "90 mTorr", "gauge", "2 %"))
	_ = work("hole",
		pairs("leak", "127 mbar·L/s ± 10 %", "altitude", "1600 m", "temperature", "30 °C"),
		pairs("leak", "1e-6 mbar·L/s", "ambient", "970 mbar ± 5 mbar", "length", "3 mm ± 1 mm"),
		pairs("leak", "1 mbar·L/s ± 20 %", "length", "1 mm", "coefficient", "0.7 ± 0.1"),
		pairs("diameter", "50 µm ± 5 µm", "inside", "700 Torr", "ambient", "29.92 inHg"),
		pairs("diameter", "6 mm", "inside", "200 mTorr"))
	_ = work("test-plan",
		pairs("limit", "20 mTorr/min", "volume", "24 L ± 1 L", "start", "120 mTorr"),
		pairs("limit", "0.02 mbar·L/s", "volume", "28 L", "start", "120 mTorr", "gauge", "60 %"),
		pairs("limit", "0.02 mbar·L/s", "volume", "28 L ± 40 %", "start", "120 mTorr", "gauge", "100 %"),
		pairs("limit", "0.02 mbar·L/s", "volume", "28 L", "start", "1,990 mTorr", "step", "2 mTorr"),
		pairs("limit", "0.002 Torr·L/s", "volume", "62 L ± 2 L", "start", "90 micron", "gauge", "5 %", "step", "0.1 mTorr"))
)

// The rows on choked flow, put to the calculator of equivalent holes.
var _ = topicOf(topic{file: "06_choked_flow.csv", rows: 21, numbers: map[string]func(t *testing.T, r row) float64{
	"choked_throughput": func(t *testing.T, r row) float64 {
		return ask(t, "hole", "through-hole", strings.ReplaceAll(strings.ReplaceAll(r.unit, ".", "·"), "m3", "m³"), outsideOf(r, "diameter", r.in["d"])...).Value
	},
	"hole_diameter_for_leak": func(t *testing.T, r row) float64 {
		return ask(t, "hole", "hole", r.unit, outsideOf(r, "leak", strings.ReplaceAll(r.in["Q"], ".L", "·L"))...).Value
	},
	"choked_throughput_per_area": func(t *testing.T, r row) float64 {
		return ask(t, "hole", "through-hole", "mbar·L/s", outsideOf(r, "diameter", text(math.Sqrt(400/math.Pi), "mm"))...).Value
	},
	"choked_volume_flow_per_area": func(t *testing.T, r row) float64 {
		r.in["p0"] = "100000 Pa"
		return ask(t, "hole", "through-hole", "mbar·L/s", outsideOf(r, "diameter", text(math.Sqrt(400/math.Pi), "mm"))...).Value / 1000
	},
	"choked_mass_flow": func(t *testing.T, r row) float64 {
		leak := ask(t, "hole", "through-hole", "Pa·m³/s", outsideOf(r, "diameter", r.in["d"])...).Value
		return ask(t, "throughput", "air", "g/s", "rate", text(leak, "Pa·m³/s"), "gas-temperature", r.in["T0"]).Value
	},
	// The pressure inside, as a share of that outside, above which the caution about
	// flow that is not choked comes: found by halving.
	"critical_pressure_ratio": func(t *testing.T, r row) float64 {
		low, high := 0.0, 0.98
		for range 60 {
			middle := (low + high) / 2
			a := mustAnswer(t, declare.Request{ID: "hole", In: pairs("diameter", "1 mm", "ambient", "100 kPa", "inside", text(100*middle, "kPa"))})
			if strings.Contains(strings.Join(a.Cautions, " "), "not choked") {
				high = middle
			} else {
				low = middle
			}
		}
		return low
	},
	// A tenth of the row's pressures, which no room has: only their ratio counts. A
	// molecular leak goes with the pressure itself, as a choked hole does.
	"leak_pressure_scaling": func(t *testing.T, r row) float64 {
		leak := strings.ReplaceAll(r.in["Q1"], ".L", "·L")
		before, after := text(10*r.number(t, "p_high1"), "kPa"), text(10*r.number(t, "p_high2"), "kPa")
		size, flow := "bore", "through-bore"
		if r.in["mode"] == "molecular" {
			size, flow = "hole", "through-hole"
		}
		m := ask(t, "hole", size, "m", "leak", leak, "ambient", before, "coefficient", "1").Value
		return ask(t, "hole", flow, "mbar·L/s", "diameter", text(m, "m"), "ambient", after, "coefficient", "1").Value
	},
}})

func outsideOf(r row, name, value string) []string {
	return []string{name, value, "ambient", r.in["p0"], "temperature", r.in["T0"], "coefficient", r.in["Cd"]}
}

// The trade brief's table, section 2.4 [computed there]: leaks of air at 20 °C and
// 1,013 mbar, C = 0.8, capillaries of 10 mm, in µm as printed.
func TestEquivalentHolesOfTheTradeBrief(t *testing.T) {
	for _, c := range []struct{ leak, hole, halfHole, bore float64 }{
		{0.001, 2.8, 0.05, 19}, {0.01, 8.9, 0.05, 35}, {0.1, 28, 0.5, 62}, {1, 89, 0.5, 110}, {127, 1000, 50, 0},
	} {
		leak := text(c.leak, "mbar·L/s")
		if got := ask(t, "hole", "hole", "µm", "leak", leak).Value; math.Abs(got-c.hole) > c.halfHole {
			t.Errorf("%s: a hole of %.2f µm, want %v", leak, got, c.hole)
		}
		a := mustAnswer(t, declare.Request{ID: "hole", In: pairs("leak", leak)})
		bore := 0.0
		for _, g := range a.Out {
			if g.ID == "bore" {
				bore = g.SI * 1e6
			}
		}
		if math.Abs(bore-c.bore) > 1 {
			t.Errorf("%s: a capillary of %.2f µm, want %v", leak, bore, c.bore)
		}
	}
}

// What a hole lets in gives the hole back, and so for the capillary.
func TestHoleThereAndBack(t *testing.T) {
	random := rand.New(rand.NewPCG(31, 32))
	for range 300 {
		leak := text(draw(random, 1e-5, 1e3), "mbar·L/s")
		place := []string{"altitude", text(draw(random, 0, 3000), "m"), "inside", text(draw(random, 0, 6e4), "Pa"), "temperature", text(draw(random, -20, 60), "°C"), "length", text(draw(random, 1, 50), "mm")}
		for size, back := range map[string]string{"hole": "through-hole", "bore": "through-bore"} {
			a := mustAnswer(t, declare.Request{ID: "hole", In: pairs(append(place, "leak", leak)...)})
			for _, g := range a.Out {
				if g.ID != size {
					continue
				}
				got := ask(t, "hole", back, "mbar·L/s", append(place, "diameter", text(g.SI, "m"))...).Value
				if want, _ := strconv.ParseFloat(strings.Fields(leak)[0], 64); math.Abs(got-want) > 1e-9*want {
					t.Errorf("%s as a %s of %v m lets %v mbar·L/s in", leak, size, g.SI, got)
				}
			}
		}
	}
}

// The size is an equivalent in every text, and nobody is told that a hole was found.
func TestHoleIsAlwaysAnEquivalent(t *testing.T) {
	c := calc.Find("hole")
	for _, out := range c.Outputs {
		if out.ID != "ambient" && !strings.HasPrefix(out.Label, "Equivalent") {
			t.Errorf("output %q is not called an equivalent", out.Label)
		}
	}
	said := strings.Join(append(append([]string{c.Title, c.Decision}, c.Cautions...), c.Limits...), "\n")
	for _, r := range requests(c) {
		a := mustAnswer(t, r)
		if !strings.Contains(strings.Join(a.Cautions, " "), "equivalent size, not a finding") {
			t.Errorf("%v does not say that it is an equivalent", r.In)
		}
		said += allTexts(a)
	}
	for _, word := range []string{"found", "detected", "located"} {
		if strings.Contains(strings.ToLower(said), word) {
			t.Errorf("a text says %q", word)
		}
	}
}

// The steady state against 04_pumpdown.csv, whose rows go to another calculator as well.
func TestBalanceAgainstReference(t *testing.T) {
	seen := 0
	for _, r := range readReference(t, "04_pumpdown.csv") {
		if r.quantity != "equilibrium_pressure" {
			continue
		}
		seen++
		r.check(t, ask(t, "balance", "pressure", r.unit, "leak", strings.ReplaceAll(r.in["Q"], ".L", "·L"), "speed", r.in["S"], "blank-off", r.in["Pu"]).Value)
	}
	if seen != 3 {
		t.Errorf("%d rows on the steady state, want 3", seen)
	}
}

// The leak that explains the pressure which a leak holds is that leak; and ice at the
// temperature named has that pressure, as the trade brief's table says.
func TestBalanceThereAndBack(t *testing.T) {
	random := rand.New(rand.NewPCG(33, 34))
	for range 300 {
		leak := draw(random, 1e-5, 10)
		pump := []string{"speed", text(draw(random, 0.05, 20), "L/s"), "blank-off", text(draw(random, 0, 100), "mTorr")}
		held := ask(t, "balance", "pressure", "Pa", append(pump, "leak", text(leak, "mbar·L/s"))...)
		if held.SI > 1.9e5 {
			continue
		}
		back := ask(t, "balance", "explains", "mbar·L/s", append(pump, "reading", text(held.SI, "Pa"))...).Value
		if math.Abs(back-leak) > 1e-8*leak {
			t.Errorf("%v mbar·L/s holds %v Pa, which %v would explain", leak, held.SI, back)
		}
	}
	for mTorr, celsius := range map[string]float64{"350 mTorr": -28, "187 mTorr": -34, "1,240 mTorr": -15, "8.1 mTorr": -60} {
		if got := ask(t, "balance", "ice", "°C", "reading", mTorr, "speed", "1 L/s", "blank-off", "0 Pa").Value; math.Abs(got-celsius) > 0.05 {
			t.Errorf("ice at %v °C for %s, want %v", got, mTorr, celsius)
		}
	}
}

func TestBalanceRefusesWhatExplainsNothing(t *testing.T) {
	for _, c := range []struct {
		in          []declare.Pair
		field, says string
	}{
		{pairs("reading", "25 mTorr", "speed", "1 L/s", "blank-off", "25 micron"), "reading", "not above the blank-off pressure"},
		{pairs("reading", "20 mTorr", "speed", "1 L/s", "blank-off", "25 mTorr"), "reading", "not above the blank-off pressure"},
		{pairs("speed", "1 L/s", "blank-off", "25 mTorr"), "leak", "give a leak"},
	} {
		a := calc.Answer(declare.Request{ID: "balance", In: c.in})
		if a.Fault == nil || a.Fault.Field != c.field || !strings.Contains(a.Fault.Text, c.says) {
			t.Errorf("%v: %+v", c.in, a.Fault)
		}
	}
}

// A reading above what water has in a room is no vapour, if the gauge's 20 % cannot bring it
// below; else vapour is named with every leak. 617 mTorr of a wet chamber on a thermal
// gauge are ice near −27 °C (trade brief, case 2; computed there).
func TestBalanceSpeaksOfVapour(t *testing.T) {
	for reading, want := range map[string]string{"25,000 mTorr": "this is air", "20,000 mTorr": "of water coming off", "500 mTorr": "Ice at −24 °C", "617 mTorr": "at about −27 °C where a thermal gauge", "10,000 mTorr": "of water coming off"} {
		a := mustAnswer(t, declare.Request{ID: "balance", In: pairs("reading", reading, "speed", "1 L/s", "blank-off", "25 mTorr")})
		if said := strings.Join(a.Cautions, " "); !strings.Contains(said, want) {
			t.Errorf("%s: %q does not say %q", reading, said, want)
		}
	}
}

// A pump that does not reach the limit by itself is not helped by mending the leak.
func TestBalanceSendsToThePumpFirst(t *testing.T) {
	for blankOff, want := range map[string]string{"200 mTorr": "See to the pump first", "100 mTorr": "Mend the leak"} {
		a := mustAnswer(t, declare.Request{ID: "balance", In: pairs("leak", "0.1 mbar·L/s", "speed", "1 L/s", "blank-off", blankOff, "limit", "120 mTorr", "gauge", "5 %")})
		if a.Verdict.Is != declare.Fail || !strings.Contains(a.Verdict.Text, want) {
			t.Errorf("%s: %+v does not say %q", blankOff, a.Verdict, want)
		}
	}
}

// What the ± of a hole comes from is said only where it does.
func TestHoleNamesTheCoefficient(t *testing.T) {
	for leak, want := range map[string]bool{"1 mbar·L/s": true, "1 mbar·L/s ± 5 %": true, "1 mbar·L/s ± 60 %": false} {
		a := mustAnswer(t, declare.Request{ID: "hole", In: pairs("leak", leak)})
		if got := strings.Contains(strings.Join(a.Cautions, " "), "mostly that of the discharge coefficient"); got != want {
			t.Errorf("%s: the caution is %v, want %v", leak, got, want)
		}
	}
}

// TestPlanForAGaugeThatHardlyFails: where twice the limit takes too long to fail, the plan
// is that of a pass, and no reading is foretold that the gauge cannot show.
func TestPlanForAGaugeThatHardlyFails(t *testing.T) {
	for _, gauge := range []string{"49.99 %", "49.999 %", "60 %"} {
		a := mustAnswer(t, declare.Request{ID: "test-plan", In: pairs("limit", "20 mTorr/min", "volume", "24 L", "start", "120 mTorr", "gauge", gauge)})
		if a.Verdict.Is != declare.CannotTell || !strings.HasPrefix(a.Verdict.Text, "This gauge can pass a tight chamber in 1 min") {
			t.Errorf("%s: %+v", gauge, a.Verdict)
		}
	}
	a := mustAnswer(t, declare.Request{ID: "test-plan", In: pairs("limit", "200 mTorr/min", "volume", "24 L", "start", "1,850 mTorr", "gauge", "60 %")})
	for _, g := range a.Out {
		if g.ID == "expect" {
			t.Errorf("a reading of %s is foretold, above what the gauge reads true", g.Text)
		}
	}
}

// TestPlannedTestDecides: a rise test run as planned does decide half and twice the limit,
// whatever the display rounds, and one nearer than the plan says does not.
func TestPlannedTestDecides(t *testing.T) {
	random := rand.New(rand.NewPCG(35, 36))
	verdicts := map[string]int{}
	for range 1500 {
		in := randomPlan(random)
		plan := mustAnswer(t, declare.Request{ID: "test-plan", In: in})
		verdicts[plan.Verdict.Is]++
		if plan.Verdict.Is != declare.Pass {
			continue
		}
		got := map[string]float64{}
		for _, g := range plan.Out {
			got[g.ID] = g.SI
		}
		for share, want := range map[float64]string{0.5: declare.Pass, 2: declare.Fail} {
			rise := runPlan(t, in, share, got["time"], got["highest"], random.Float64())
			if rise.Verdict.Is != want {
				t.Errorf("%v: planned %v s, but %v of the limit gives %q: %s", in, got["time"], share, rise.Verdict.Is, rise.Verdict.Text)
			}
		}
		middle := (got["pass-below"] + got["fail-above"]) / 2
		if got["fail-above"]-got["pass-below"] < 0.1 {
			continue // so narrow a doubt that one display step leads out of it
		}
		if rise := runPlan(t, in, middle, got["time"], math.Inf(1), 0); rise.Verdict.Is != declare.CannotTell {
			t.Errorf("%v: %v of the limit gives %q, though no test is to decide it", in, middle, rise.Verdict.Is)
		}
	}
	for _, is := range []string{declare.Pass, declare.CannotTell} {
		if verdicts[is] < 100 {
			t.Errorf("only %d plans with %q: the comparison says little", verdicts[is], is)
		}
	}
}

// randomPlan draws a limit as a rise (no volume in it) or as a leak rate.
func randomPlan(random *rand.Rand) []declare.Pair {
	volume, perMinute := draw(random, 5, 100), draw(random, 0.5, 100)
	in := pairs("limit", text(perMinute, "mTorr/min"), "volume", text(volume, "L")+" ± "+text(volume*draw(random, 0.001, 0.3), "L"),
		"start", text(draw(random, 10, 1500), "mTorr"), "gauge", text(draw(random, 0.5, 80), "%"), "step", text(draw(random, 0.05, 20), "mTorr"))
	if random.IntN(2) == 0 {
		in[0].Text = text(perMinute*volume/60000, "Torr·L/s")
	}
	return in
}

// runPlan runs the rise test of a plan in a chamber whose leak is a share of the limit.
// The clock stops when the time is over or the highest useful reading is passed; offset
// shifts the start within a display step.
func runPlan(t *testing.T, in []declare.Pair, share, seconds, highest, offset float64) declare.Answer {
	t.Helper()
	value := func(name string) float64 {
		return mustParse(t, entry(declare.Request{In: in}, name))
	}
	rate, start, step := value("limit"), value("start"), value("step")
	if strings.HasSuffix(in[0].Text, "L/s") {
		rate /= value("volume")
	}
	rate *= share
	seconds = math.Min(seconds, (highest-start)/rate)
	shown := func(p float64) string { return text(math.Round(p/step)*step, "Pa") }
	start += offset * step
	request := append([]declare.Pair(nil), in...)
	request[2].Text = shown(start)
	request = append(request, pairs("end", shown(start+rate*seconds), "time", text(seconds, "s"), "ceiling", "200 kPa")...)
	return mustAnswer(t, declare.Request{ID: "rise-test", In: request})
}

func mustParse(t *testing.T, text string) float64 {
	t.Helper()
	q, problem := quantity.Parse(text)
	if problem != nil {
		t.Fatalf("%q: %s", text, problem.Text)
	}
	return q.Value
}

// randomBalance is a leak whose steady pressure lies near the pressure to be reached.
func randomBalance(random *rand.Rand) declare.Request {
	leak, speed, least := draw(random, 1e-4, 1), draw(random, 0.1, 5), draw(random, 1, 60)
	settles := least + leak/speed*750.062
	in := pairs("leak", text(leak, "mbar·L/s"), "speed", text(speed, "L/s")+" ± "+text(speed*draw(random, 0.001, 0.3), "L/s"), "blank-off", text(least, "mTorr"),
		"gauge", text(draw(random, 0.5, 50), "%"), "limit", text(settles*draw(random, 0.6, 1.6), "mTorr"))
	return declare.Request{ID: "balance", In: in}
}

// TestLeakVerdictsHold: the same entries in other units give the same verdict, and less
// uncertainty never turns a sure one into its opposite.
func TestLeakVerdictsHold(t *testing.T) {
	random := rand.New(rand.NewPCG(37, 38))
	verdicts, settled := map[string]int{}, 0
	for range 1000 {
		for _, r := range []declare.Request{randomBalance(random), {ID: "test-plan", In: randomPlan(random)}} {
			before := mustAnswer(t, r).Verdict.Is
			verdicts[r.ID+" "+before]++
			if other := inOtherUnits(calc.Find(r.ID), r, random); mustAnswer(t, other).Verdict.Is != before {
				t.Errorf("%v gives %q, but not %v", r.In, before, other.In)
			}
			for _, share := range []float64{0.6, 0.2, 0} {
				now := mustAnswer(t, surer(r, share)).Verdict.Is
				if before != now && before != declare.CannotTell && now != declare.CannotTell {
					t.Errorf("%v: %q becomes %q with %v of its uncertainties", r.In, before, now, share)
				}
				if now != before {
					settled++
				}
				before = now
			}
		}
	}
	for _, name := range []string{"balance pass", "balance fail", "balance cannot tell", "test-plan pass", "test-plan cannot tell"} {
		if verdicts[name] < 50 {
			t.Errorf("only %d cases of %q: the comparison says little", verdicts[name], name)
		}
	}
	if settled < 200 {
		t.Errorf("only %d doubts were settled: the comparison says little", settled)
	}
}

// surer leaves a share of every ± and of the gauge's accuracy and step.
func surer(r declare.Request, share float64) declare.Request {
	c := calc.Find(r.ID)
	for _, pair := range r.In {
		q, problem := quantity.Parse(pair.Text, c.Input(pair.Name).Kinds...)
		if problem != nil {
			continue
		}
		if pair.Name == "gauge" || pair.Name == "step" {
			q.Value *= share
		} else {
			q.HasU, q.U = true, share*q.U
		}
		r = with(r, pair.Name, write(q, q.Unit))
	}
	return r
}

// What a plan says would settle it does: a gauge of the accuracy named decides.
func TestPlanAdviceHolds(t *testing.T) {
	random := rand.New(rand.NewPCG(39, 40))
	followed := 0
	for range 2000 {
		in := randomPlan(random)
		a := mustAnswer(t, declare.Request{ID: "test-plan", In: in})
		_, advice, named := strings.Cut(a.Verdict.Text, "A gauge good to ")
		if a.Verdict.Is != declare.CannotTell || !named {
			continue
		}
		accuracy, _, _ := strings.Cut(advice, " of reading")
		followed++
		b := mustAnswer(t, with(declare.Request{ID: "test-plan", In: in}, "gauge", accuracy))
		if b.Verdict.Is != declare.Pass && !strings.Contains(b.Verdict.Text, "finer step") {
			t.Errorf("%v: with the advised %s: %s", in, accuracy, b.Verdict.Text)
		}
	}
	if followed < 50 {
		t.Errorf("only %d pieces of advice: the comparison says little", followed)
	}
}

func TestPlanVerdicts(t *testing.T) {
	for _, c := range []struct {
		name     string
		in       []declare.Pair
		is, says string
	}{
		{"ordinary", pairs("limit", "20 mTorr/min", "volume", "24 L", "start", "120 mTorr"), declare.Pass, "This gauge decides"},
		{"start at the ceiling", pairs("limit", "20 mTorr/min", "volume", "24 L", "start", "2 Torr"), declare.Fail, "No test can start there"},
		{"coarse gauge", pairs("limit", "20 mTorr/min", "volume", "24 L", "start", "120 mTorr", "gauge", "55 %"), declare.CannotTell, "never fail one with twice the limit. A gauge good to 45 % of reading"},
		{"useless gauge", pairs("limit", "20 mTorr/min", "volume", "24 L", "start", "120 mTorr", "gauge", "100 %"), declare.CannotTell, "decides nothing"},
		{"unknown volume", pairs("limit", "0.02 mbar·L/s", "volume", "24 L ± 60 %", "start", "120 mTorr"), declare.CannotTell, "Gauge and volume would both have to be better"},
		{"unknown volume, limit as a rise", pairs("limit", "20 mTorr/min", "volume", "24 L ± 60 %", "start", "120 mTorr"), declare.Pass, "This gauge decides"},
		{"coarse step near the ceiling", pairs("limit", "20 mTorr/min", "volume", "24 L", "start", "1,900 mTorr", "step", "20 mTorr"), declare.CannotTell, "above 2,000 mTorr by then"},
		{"a limit too small for a display", pairs("limit", "1e-9 mbar·L/s", "volume", "24 L", "start", "100 mTorr"), declare.CannotTell, "too long for a test"},
	} {
		a := mustAnswer(t, declare.Request{ID: "test-plan", In: c.in})
		if a.Verdict.Is != c.is || !strings.Contains(a.Verdict.Text, c.says) {
			t.Errorf("%s: %q, %s", c.name, a.Verdict.Is, a.Verdict.Text)
		}
	}
	a := calc.Answer(declare.Request{ID: "test-plan", In: pairs("limit", "0 mTorr/min", "volume", "24 L", "start", "120 mTorr")})
	if a.Fault == nil || a.Fault.Field != "limit" {
		t.Errorf("a limit of nought: %+v", a)
	}
}
