package calc_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
	"testing"

	"blankoff/calc"
	"blankoff/calc/declare"
	"blankoff/calc/quantity"
)

// finite reports what no answer may hold.
func finite(t *testing.T, r declare.Request, a declare.Answer) {
	t.Helper()
	for _, g := range a.Out {
		for _, x := range []float64{g.Value, g.U, g.SI} {
			if math.IsNaN(x) || math.IsInf(x, 0) {
				t.Errorf("%s %.300v: %s is %v ± %v (SI %v)", r.ID, r.In, g.ID, g.Value, g.U, g.SI)
			}
		}
		if g.U < 0 || g.HasU != (g.U > 0) {
			t.Errorf("%s %.300v: %s has u = %v, HasU %v", r.ID, r.In, g.ID, g.U, g.HasU)
		}
	}
	if shown := allTexts(a); a.Fault == nil && (strings.Contains(shown, "NaN") || strings.Contains(shown, "Inf") || strings.Contains(shown, "beyond what can")) {
		t.Errorf("%s %.300v: %s", r.ID, r.In, shown)
	}
	if a.Fault != nil && (a.Fault.Text == "" || strings.Contains(a.Fault.Text, "please report it")) {
		t.Errorf("%s %.300v: the fault of field %q is %q", r.ID, r.In, a.Fault.Field, a.Fault.Text)
	}
}

// unreadable is refused beside the very field, whatever else is entered.
var unreadable = []string{"NaN", "NaN Pa", "Inf", "-Inf L", "1e999 Pa", "5 cd", "5 kg", "abc", "<script>", "5 L L L L L L L L", "\x00", "\xff\xfe",
	strings.Repeat("A", 1<<20), strings.Repeat("9", 1<<20), strings.Repeat("5 L ± ", 1<<17)}

// numbers are tried in every unit of an input.
var numbers = []string{"0", "-1", "-0", "1e-299", "1e-12", "1", "1e12", "1e299", "-1e299", "9999999e299", "5 ± 1e299", "5 ± 0", "1e299 ± 1e299", "1e-299 ± 1e-299", "5 ± 5", "5 ± 10"}

func TestHostileEntries(t *testing.T) {
	for _, c := range calc.All() {
		t.Run(c.ID, func(t *testing.T) {
			t.Parallel()
			for k, base := range requests(c) {
				hostileEntries(t, c, base, k == 0)
			}
		})
	}
}

func hostileEntries(t *testing.T, c *declare.Calculator, base declare.Request, first bool) {
	for i := range c.Inputs {
		in := &c.Inputs[i]
		for _, text := range unreadable {
			if !first && len(text) > 1000 || text == "5 kg" && slices.Contains(in.Kinds, quantity.Mass) {
				continue
			}
			r := with(base, in.ID, text)
			a := calc.Answer(r)
			finite(t, r, a)
			if a.Fault == nil || a.Fault.Field != in.ID {
				t.Errorf("%s: %s = %.40q gives %+v, want a fault of that field", c.ID, in.ID, text, a.Fault)
			}
		}
		for _, number := range numbers {
			for _, unit := range append([]string{in.Unit, "inHg gauge", "Pa", "K", "°F", "sccm", "mol/s", "mTorr/min"}, in.Units...) {
				r := with(base, in.ID, number+" "+unit)
				a := calc.Answer(r)
				finite(t, r, a)
				if a.Fault != nil && c.Input(a.Fault.Field) == nil && c.Output(a.Fault.Field) == nil {
					t.Errorf("%s: %s = %q gives a fault of no field: %+v", c.ID, in.ID, number+" "+unit, a.Fault)
				}
			}
		}
		blank(t, c, base, in)
		over(t, base, in)
	}
}

func blank(t *testing.T, c *declare.Calculator, base declare.Request, in *declare.Input) {
	t.Helper()
	for _, text := range []string{"", "  \t"} {
		r := with(base, in.ID, text)
		a := calc.Answer(r)
		finite(t, r, a)
		switch {
		case in.Required && (a.Fault == nil || a.Fault.Field != in.ID || !strings.Contains(a.Fault.Text, in.Label)):
			t.Errorf("%s: %s left blank gives %+v", c.ID, in.ID, a.Fault)
		case a.Fault != nil && c.Input(a.Fault.Field) == nil:
			t.Errorf("%s: %s left blank gives a fault of no field: %+v", c.ID, in.ID, a.Fault)
		}
	}
}

func over(t *testing.T, base declare.Request, in *declare.Input) {
	t.Helper()
	r := with(base, in.ID, "OL")
	a := calc.Answer(r)
	finite(t, r, a)
	if in.MayBeOver == (a.Fault != nil) || a.Fault != nil && a.Fault.Field != in.ID {
		t.Errorf("%s: %s = OL gives %+v", base.ID, in.ID, a.Fault)
	}
}

// TestWrongDimensionNamesBoth: the message says what was written and what is wanted.
func TestWrongDimensionNamesBoth(t *testing.T) {
	for _, c := range calc.All() {
		for _, in := range c.Inputs {
			if in.Kinds == nil {
				continue
			}
			wrong, is := "5 kg", "a mass (mass)"
			if slices.Contains(in.Kinds, quantity.Mass) {
				wrong, is = "5 A", "an electric current (current)"
			}
			a := calc.Answer(with(declare.Request{ID: c.ID, In: c.Example.In}, in.ID, wrong))
			if a.Fault == nil || !strings.Contains(a.Fault.Text, is) || !strings.Contains(a.Fault.Text, in.Kinds[0].Describe()) {
				t.Errorf("%s: %s in kg gives %+v", c.ID, in.ID, a.Fault)
			}
		}
	}
}

// TestANumberWithoutUnitIsNotGuessed: acceptance test 2 of the trade brief.
func TestANumberWithoutUnitIsNotGuessed(t *testing.T) {
	for _, c := range calc.All() {
		for _, in := range c.Inputs {
			if in.Kinds == nil || in.Unit == "" {
				continue
			}
			a := calc.Answer(with(declare.Request{ID: c.ID, In: c.Example.In}, in.ID, "5"))
			if a.Fault == nil || a.Fault.Field != in.ID || !strings.Contains(a.Fault.Text, "“5” has no unit") {
				t.Errorf("%s: %s = 5 gives %+v", c.ID, in.ID, a.Fault)
			}
		}
	}
}

// TestUnitsOfAnyOutputMayBeChosen, also those in which the number leaves the range of
// a float: then there is a sentence and no Inf.
func TestOutputUnits(t *testing.T) {
	for _, c := range calc.All() {
		for _, base := range requests(c) {
			plain := mustAnswer(t, base)
			for _, g := range plain.Out {
				if !g.HasValue {
					continue
				}
				for _, symbol := range append(quantity.Symbols(), "Pa·m³/s", "Torr·L/s", "atm·cm³/s", "Pa/s", "mbar/h", "g/s", "µmol/s", "mol/min", "µPa·mm³/h") {
					u := quantity.MustUnit(symbol)
					if u.Kind != g.Kind {
						continue
					}
					r := base
					r.Out = pairs(g.ID, symbol)
					a := mustAnswer(t, r)
					finite(t, r, a)
					for _, other := range a.Out {
						if other.ID != g.ID {
							continue
						}
						if other.SI != g.SI || math.Abs(u.To(other.Value)-g.SI) > 1e-12*math.Abs(g.SI) || other.Unit != u.Symbol || math.Abs(u.Span(other.U)-quantity.MustUnit(g.Unit).Span(g.U)) > 1e-12*math.Abs(u.Span(other.U)) {
							t.Errorf("%s: %s is %v %s, in %s %v", c.ID, g.ID, g.Value, g.Unit, symbol, other.Value)
						}
					}
				}
			}
		}
	}
	for _, extreme := range []declare.Request{
		{ID: "throughput", In: pairs("rate", "1e299 mol/s"), Out: pairs("leak", "µPa·mm³/h")},
		{ID: "throughput", In: pairs("rate", "1e299 mol/s ± 1 %")},
		{ID: "throughput", In: pairs("rate", "1e-299 mbar·L/s")},
		{ID: "rise-test", In: pairs("volume", "1 L", "start", "0 Pa", "end", "1e-299 Pa", "time", "100 d"), Out: pairs("leak", "MPa·km³/s")},
	} {
		finite(t, extreme, calc.Answer(extreme))
	}
}

// TestMonotone moves each input that declares a direction and looks at the first output.
func TestMonotone(t *testing.T) {
	for _, c := range calc.All() {
		for _, base := range requests(c) {
			for _, in := range c.Inputs {
				if in.Rising == 0 || entry(base, in.ID) == "" {
					continue
				}
				q, _ := quantity.Parse(entry(base, in.ID), in.Kinds...)
				if q.Value == 0 {
					continue // has no share to be moved by
				}
				q.HasU, q.U = false, 0
				last, moved := math.Inf(-in.Rising), 0
				for step := -8; step <= 8; step++ {
					at := q
					at.Value += 0.02 * float64(step) * math.Abs(q.Value)
					a := calc.Answer(with(base, in.ID, write(at, q.Unit)))
					if a.Fault != nil {
						continue // beyond what is possible together with the other entries
					}
					now := a.Out[0].SI
					if float64(in.Rising)*(now-last) <= 0 {
						t.Errorf("%s: %s rises to %s, %s goes from %v to %v; declared is %+d", c.ID, in.ID, write(at, q.Unit), c.Outputs[0].ID, last, now, in.Rising)
					}
					last, moved = now, moved+1
				}
				if moved < 5 {
					t.Errorf("%s %v: only %d values of %s could be tried", c.ID, base.In, moved, in.ID)
				}
			}
		}
	}
}

// TestUncertaintyGrowsWithThatOfEachEntry, and is never shown where there is none.
func TestUncertaintyGrowsWithThatOfEachEntry(t *testing.T) {
	for _, c := range calc.All() {
		for _, base := range requests(c) {
			for _, in := range c.Inputs {
				q, problem := quantity.Parse(entry(base, in.ID), in.Kinds...)
				if in.Kinds == nil || problem != nil || q.Over || q.Gauge {
					continue
				}
				var last map[string]float64
				for _, share := range []float64{0, 0.001, 0.01, 0.02, 0.05, 0.1, 0.2} {
					q.HasU, q.U = true, share*math.Abs(q.Value-q.Unit.To(0))
					now := map[string]float64{}
					for _, g := range mustAnswer(t, with(base, in.ID, write(q, q.Unit))).Out {
						now[g.ID] = g.U
						if g.HasValue && g.U < last[g.ID]*(1-1e-9) {
							t.Errorf("%s %v: with %s the u of %s falls from %v to %v", c.ID, base.In, write(q, q.Unit), g.ID, last[g.ID], g.U)
						}
					}
					last = now
				}
				if in.Rising != 0 && last[c.Outputs[0].ID] == 0 {
					t.Errorf("%s: ± of %s does not reach %s", c.ID, in.ID, c.Outputs[0].ID)
				}
			}
		}
	}
}

// TestUncertaintyGrowsWithTheInstrument: the accuracies that have entries of their own.
func TestUncertaintyGrowsWithTheInstrument(t *testing.T) {
	for _, c := range []struct{ id, field, unit string }{
		{"rise-test", "gauge", "%"}, {"rise-test", "step", "mTorr"}, {"continuity", "percent", "%"}, {"continuity", "counts", ""}, {"continuity", "resolution", "Ω"},
	} {
		for _, base := range requests(calc.Find(c.id)) {
			last := -1.0
			for _, x := range []float64{0.001, 0.01, 0.1, 1, 10} {
				a := calc.Answer(with(base, c.field, strconv.FormatFloat(x, 'g', -1, 64)+" "+c.unit))
				if a.Fault != nil {
					t.Fatalf("%s %v: %s = %v: %+v", c.id, base.In, c.field, x, a.Fault)
				}
				if now := a.Out[0].U; now <= last {
					t.Errorf("%s %v: %s = %v gives u = %v, not above %v", c.id, base.In, c.field, x, now, last)
				} else {
					last = now
				}
			}
		}
	}
}

// inOtherUnits rewrites every entry in another unit of its field, all figures kept.
func inOtherUnits(c *declare.Calculator, r declare.Request, random *rand.Rand) declare.Request {
	for _, in := range c.Inputs {
		q, problem := quantity.Parse(entry(r, in.ID), in.Kinds...)
		if in.Kinds == nil || problem != nil || q.Over || in.Unit == "" {
			continue
		}
		fit := []quantity.Unit{q.Unit}
		for _, symbol := range append(in.Units, in.Unit, "ppm", "MPa", "kW", "d", "µΩ", "GΩ", "cc", "mbar/h", "Pa/s", "K", "°F", "atm·cm³/s") {
			if u, ok := quantity.FindUnit(symbol); ok && u.Kind == q.Kind {
				fit = append(fit, u)
			}
		}
		r = with(r, in.ID, write(q, fit[random.IntN(len(fit))]))
	}
	return r
}

func TestVerdictDoesNotDependOnUnits(t *testing.T) {
	random := rand.New(rand.NewPCG(5, 6))
	verdicts := map[string]int{}
	compare := func(r declare.Request) {
		a := mustAnswer(t, r)
		verdicts[r.ID+" "+a.Verdict.Is]++
		for range 3 {
			other := inOtherUnits(calc.Find(r.ID), r, random)
			b := calc.Answer(other)
			if b.Fault != nil || b.Verdict.Is != a.Verdict.Is || len(b.Out) != len(a.Out) {
				t.Fatalf("%v gives %q, but %v gives %q, %+v", r.In, a.Verdict.Is, other.In, b.Verdict.Is, b.Fault)
			}
			for i, g := range a.Out {
				if math.Abs(b.Out[i].SI-g.SI) > 1e-10*math.Abs(g.SI)+1e-12 || g.Kind == quantity.None && b.Out[i].Text != g.Text {
					t.Errorf("%v gives %s = %v %s, but %v gives %v %s", r.In, g.ID, g.SI, g.Text, other.In, b.Out[i].SI, b.Out[i].Text)
				}
			}
		}
	}
	for _, c := range calc.All() {
		for _, r := range requests(c) {
			compare(r)
		}
	}
	for range 1500 {
		compare(randomRise(random))
		compare(randomContinuity(random))
	}
	// On the limit itself, and at the ceiling of the gauge.
	for _, in := range [][]declare.Pair{
		pairs("volume", "60 L ± 0 %", "start", "0.05 mbar", "end", "0.25 mbar", "time", "600 s", "limit", "0.02 mbar·L/s", "gauge", "0 %", "step", "0 Pa"),
		pairs("volume", "24 L", "start", "100 mTorr", "end", "300 mTorr", "time", "10 min", "limit", "20 mTorr/min", "gauge", "0 %", "step", "0 Pa"),
		pairs("volume", "24 L", "start", "100 mTorr", "end", "2 Torr", "time", "10 min", "limit", "20 mTorr/min"),
		pairs("volume", "24 L", "start", "2,000 mTorr", "end", "2,000 mTorr", "time", "10 min", "limit", "20 mTorr/min"),
		pairs("volume", "24 L", "start", "103 mTorr", "end", "100 mTorr", "time", "10 min", "limit", "20 mTorr/min", "step", "1.5 mTorr"),
	} {
		for range 40 {
			compare(declare.Request{ID: "rise-test", In: in})
		}
	}
	for _, name := range []string{"rise-test pass", "rise-test fail", "rise-test cannot tell", "continuity pass", "continuity fail", "continuity cannot tell"} {
		if verdicts[name] < 30 {
			t.Errorf("only %d cases of %q: the comparison says little", verdicts[name], name)
		}
	}
}

// TestLessUncertaintyNeverReversesAVerdict: a better instrument may settle a doubt, but
// pass never becomes fail, nor fail pass.
func TestLessUncertaintyNeverReversesAVerdict(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 8))
	accuracies := map[string][]string{"rise-test": {"gauge", "step"}, "continuity": {"percent", "counts"}}
	settled := 0
	for range 2000 {
		for _, base := range []declare.Request{randomRise(random), randomContinuity(random)} {
			before := mustAnswer(t, base).Verdict.Is
			c := calc.Find(base.ID)
			for _, share := range []float64{0.7, 0.3, 0.05, 0} {
				r := base
				for _, field := range accuracies[base.ID] {
					q, _ := quantity.Parse(entry(base, field), c.Input(field).Kinds...)
					q.Value *= share
					r = with(r, field, write(q, q.Unit))
				}
				now := mustAnswer(t, r).Verdict.Is
				if before != now && before != declare.CannotTell && now != declare.CannotTell {
					t.Errorf("%v: %q becomes %q with %v", base.In, before, now, r.In)
				}
				if before == declare.CannotTell && now != before {
					settled++
				}
				before = now
			}
		}
	}
	if settled < 200 {
		t.Errorf("only %d doubts were settled: the comparison says little", settled)
	}
}

// settling are the ways of settling a doubt that verdicts name.
var settling = []string{"Run the test for", "A test of", "would settle it", "have to be better", "too near the limit for any gauge", "finer display", "Close the valve", "on the limit itself", "Dry it"}

// TestEveryAnswerSaysWhyAndWhatNext: working with every answer, a reason with every
// verdict, and with a doubt what would settle it (design.md).
func TestEveryAnswerSaysWhyAndWhatNext(t *testing.T) {
	random := rand.New(rand.NewPCG(23, 24))
	var list []declare.Request
	for _, c := range calc.All() {
		list = append(list, requests(c)...)
	}
	for range 1000 {
		list = append(list, randomRise(random), randomContinuity(random))
	}
	for _, r := range list {
		a := mustAnswer(t, r)
		if len(a.Working) == 0 || a.Working[0] == "" || a.Verdict.Is != "" && a.Verdict.Text == "" {
			t.Errorf("%v: no working, or a verdict without a reason: %+v", r, a)
		}
		told := false
		for _, words := range settling {
			told = told || strings.Contains(a.Verdict.Text, words)
		}
		if a.Verdict.Is == declare.CannotTell && !told {
			t.Errorf("%v: the doubt is not settled by anything: %s", r.In, a.Verdict.Text)
		}
		switch a.Verdict.Is {
		case "", declare.Pass, declare.Fail, declare.CannotTell:
		default:
			t.Errorf("%v: the verdict %q is none of the three", r.In, a.Verdict.Is)
		}
	}
}

// TestContinuityNeverSaysCalibrated: a dirty filament measures perfectly.
func TestContinuityNeverSaysCalibrated(t *testing.T) {
	random := rand.New(rand.NewPCG(9, 10))
	c := calc.Find("continuity")
	said := strings.Join(append(append([]string{c.Title, c.Decision}, c.Cautions...), c.Limits...), "\n")
	for _, reading := range []string{"OL", "0 Ω", "0.3 Ω", "1 MΩ", "50 MΩ", "-1 Ω", "x"} {
		for _, expect := range []string{"wire", "no connection"} {
			said += allTexts(calc.Answer(declare.Request{ID: "continuity", In: pairs("reading", reading, "leads", "0.3 Ω", "expect", expect)}))
		}
	}
	for range 2000 {
		said += allTexts(calc.Answer(randomContinuity(random)))
	}
	if strings.Contains(strings.ToLower(said), "calibrat") {
		t.Errorf("an answer of the continuity check speaks of calibration")
	}
}

func BenchmarkAnswer(b *testing.B) {
	for _, c := range calc.All() {
		b.Run(c.ID, func(b *testing.B) {
			r := declare.Request{ID: c.ID, In: c.Example.In}
			b.ReportAllocs()
			for b.Loop() {
				calc.Answer(r)
			}
		})
	}
}
