package fault

import (
	"math"
	"strings"
	"testing"

	"blankoff/calc/triage"
)

// good is a small model in which all is well.
const good = `unlisted: 1
proof: 15 min
costs: {part: 1 h 30 min}
hand-over: {customer: 3 h, technician: 12 h}
rule-outs:
  smoke: {ask: Is there smoke?, do: Leave., stop: electrical}
findings:
  hiss: {ask: Is there a hiss?, answers: {yes: There is., no: There is none.}, usual: {yes: 3 %, no: 97 %}}
  shape: {ask: How does it climb?, usual: {straight: 4 %, bending: 4 %, within: 92 %}}
  size: {ask: How far over the limit?, kind: ratio, cuts: [3, 30], usual: {middle: 1.6, factor: 1.5}, when: {shape: [straight, bending]}}
  trap: {ask: How cold is the trap?, kind: temperature, unit: °C, cuts: [-30 °C, -10 °C], usual: {middle: -34 °C, spread: 2 K}}
causes:
  seal: {title: A crumb, group: door, weight: 9, shows: {hiss: 40 %, shape: {straight: 85 %, bending: 5 %}, size: {middle: 8, factor: 4}}}
  water: {title: Water left, group: load, weight: 9, shows: {shape: {straight: 5 %, within: 15 %}, size: {middle: 3, factor: 2}}}
  charge: {title: Charge lost, group: cold, weight: 2.5, shows: {trap: {middle: -20 °C, spread: 5 K}}}
pairs:
  - {causes: [seal, water], weight: 0.5}
tests:
  listen: {title: Listen, guide: pages/listen, time: 3 min, who: [customer, technician], tells: [hiss]}
  rise: {title: Rise test, guide: pages/rise, time: 30 min, who: [technician], tools: [watch], needs: [listen], tells: [shape, size]}
  touch: {title: Trap, guide: pages/trap, time: 2 min, who: [technician], tells: [trap]}
repairs:
  wipe: {title: Wipe it, do: Wipe it once., time: 10 min, who: [customer, technician], cures: {seal: 95 %}}
  dry: {title: Dry it, do: Dry it., time: 30 min, who: [technician], cures: {water: 90 %}}
  call: {title: Call, do: Call., time: 30 min, cost: part, who: [technician], cures: {charge: 90 %}, stop: refrigeration}
`

func TestRead(t *testing.T) {
	m := read(t, good)
	r := m.For(Technician)
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"weight", r.Causes[2].Weight, 2.5},
		{"handing over", r.Call, 720},
		{"handing over, customer", m.For(Customer).Call, 180},
		{"what a cause shows", r.Findings[0].Given[0][0], 0.40},
		{"the answer that was left out", r.Findings[1].Given[0][2], 0.10},
		{"one in the middle left out", r.Findings[1].Given[1][1], 0.80},
		{"what is as usual", r.Findings[1].Given[2][2], 0.92},
		{"spread by factors", r.Findings[2].Curve[0].Spread, math.Log(4)},
		{"a temperature, in kelvin", r.Findings[3].Curve[2].Middle, 253.15},
		{"its spread is a difference", r.Findings[3].Curve[2].Spread, 5},
		{"a test has no proof", r.Steps[1].Minutes, 30},
		{"a repair has, and its parts", r.Steps[5].Minutes, 30 + 15 + 90},
		{"a pair", float64(r.Pairs[0].B), 1},
		{"needs", float64(r.Steps[1].Needs[0]), 0},
		{"a size is left to its shape in plans", float64(len(r.Steps[1].Findings)), 1},
		{"a cure", r.Steps[3].Cures[0].Chance, 0.95},
	} {
		if math.Abs(c.got-c.want) > 1e-9 {
			t.Errorf("%s: %v, want %v", c.what, c.got, c.want)
		}
	}
	if r.Steps[1].Who != triage.Technician || r.Steps[0].Who != triage.Customer|triage.Technician || r.Steps[1].Tools != 1 {
		t.Error("workers or tools")
	}
}

// Each row is one slip in the good model, and what is said of it.
func TestFaults(t *testing.T) {
	for _, c := range []struct{ name, old, new, rule, says string }{
		{"sum", "no: 97 %", "no: 79 %", "probability", `the answers of "hiss" come to 82 %`},
		{"over the whole", "straight: 85 %, bending: 5 %", "straight: 85 %, bending: 25 %", "probability", `come to 110 %`},
		{"two left out", "{straight: 5 %, within: 15 %}", "{within: 15 %}", "probability", "2 of them have none"},
		{"no percentage", "hiss: 40 %", "hiss: 0.4", "probability", `"0.4" is no probability`},
		{"above 100", "hiss: 40 %", "hiss: 140 %", "probability", "is no probability"},
		{"below 0", "hiss: 40 %", "hiss: -4 %", "probability", "is no probability"},
		{"one answer", "{yes: 3 %, no: 97 %}", "{yes: 100 %}", "probability", "fewer than two answers"},
		{"a cure of nothing", "seal: 95 %", "seal: 0 %", "probability", "never ends"},
		{"weight of nothing", "weight: 2.5", "weight: 0", "triage-weight", "not a number above 0"},
		{"weight below", "weight: 2.5", "weight: -1", "triage-weight", "not a number above 0"},
		{"weight with a unit", "weight: 2.5", "weight: 2.5 kg", "triage-weight", "not a number above 0"},
		{"unlisted", "unlisted: 1", "unlisted: none", "triage-weight", "unlisted"},
		{"weight of a pair", "weight: 0.5", "weight: OL", "triage-weight", "the pair"},
		{"time without a unit", "time: 3 min", "time: 3", "triage-unit", "has no unit"},
		{"time of another kind", "time: 3 min", "time: 3 mTorr", "triage-unit", "listen: "},
		{"time of ages", "time: 3 min", "time: 3000000 h", "triage-unit", "no time that work takes"},
		{"a year below 0", "time: 3 min", "time: -3 min", "triage-unit", "no time that work takes"},
		{"middle of another kind", "middle: -20 °C", "middle: -20 mTorr", "triage-unit", "middle: "},
		{"unit of another kind", "unit: °C", "unit: mbar", "triage-unit", `"mbar" is no unit of a temperature`},
		{"kind", "kind: temperature", "kind: warmth", "triage-unit", `nothing is measured as "warmth"`},
		{"factor", "factor: 4", "factor: 0.5", "triage-unit", "not a plain number above 1"},
		{"no spread", "spread: 5 K", "spread: 0 K", "triage-unit", "not above 0"},
		{"two spreads", "spread: 5 K", "spread: 5 K, factor: 2", "triage-unit", "one of spread and factor"},
		{"cuts that fall", "cuts: [3, 30]", "cuts: [30, 3]", "triage-unit", "do not rise"},
		{"no cuts", "cuts: [3, 30], ", "", "triage-unit", "has 0 cuts"},
		{"cuts of a choice", "hiss: {ask", "hiss: {cuts: [1], ask", "triage-unit", "belongs to a measured finding"},
		{"factor here, spread there", "{middle: -20 °C, spread: 5 K}", "{middle: -20 °C, factor: 2}", "triage-unit", "by a factor in one place"},
		{"finding of a cause", "shows: {hiss", "shows: {his", "triage-name", `no finding "his"`},
		{"answer of a cause", "{straight: 5 %", "{strait: 5 %", "triage-name", `no answer "strait"`},
		{"words of an answer", "no: There is none.", "nope: There is none.", "triage-name", `no answer "nope"`},
		{"finding of a test", "tells: [trap]", "tells: [trip]", "triage-name", `no finding "trip"`},
		{"needed step", "needs: [listen]", "needs: [lisen]", "triage-name", `no test or repair "lisen"`},
		{"cause of a repair", "cures: {seal", "cures: {seel", "triage-name", `no cause "seel"`},
		{"cause of a pair", "causes: [seal, water]", "causes: [seal, watr]", "triage-name", `no cause "watr"`},
		{"guard", "when: {shape:", "when: {shap:", "triage-name", `no finding "shap"`},
		{"answer of a guard", "[straight, bending]}", "[straight, bent]}", "triage-name", `no answer "bent"`},
		{"class of parts", "cost: part", "cost: parts", "triage-name", `no class of parts "parts"`},
		{"name twice", "  wipe: {title", "  listen: {title", "triage-name", "a test and of a repair"},
		{"untold finding", "tells: [trap]", "tells: [hiss]", "triage-reach", `no test tells the finding "trap"`},
		{"a finding that is always the same", "hiss: 40 %", "hiss: 3 %", "triage-reach", `"hiss" is the same for every cause`},
		{"untold cause", "shows: {trap: {middle: -20 °C, spread: 5 K}}", "shows: {trap: {middle: -34 °C, spread: 2 K}}", "triage-reach", `no finding tells the cause "charge"`},
		{"a test of nothing", "tells: [trap]", "tells: []", "triage-reach", `the test "touch" tells nothing`},
		{"a repair of nothing", "cures: {charge: 90 %}, ", "", "triage-reach", `the repair "call" cures nothing`},
		{"a circle", "time: 3 min,", "time: 3 min, needs: [rise],", "triage-reach", "which in the end needs"},
		{"no end", "cures: {charge: 90 %}", "cures: {water: 90 %}", "triage-end", `the cause "charge" ends in no repair and no stop`},
		{"nobody", "who: [technician], tells: [trap]", "who: [], tells: [trap]", "triage-who", `nobody does "touch"`},
		{"somebody else", "who: [technician], tells: [trap]", "who: [owner], tells: [trap]", "triage-who", `nobody is called "owner"`},
		{"a need for others", "who: [customer, technician], cures", "who: [customer, technician], needs: [rise], cures", "triage-who", `but not "rise", which it needs`},
		{"no way out", "customer: 3 h, ", "", "triage-who", "hand-over says nothing of the customer"},
		{"no way out for a technician", ", technician: 12 h", "", "triage-who", "hand-over says nothing of the technician"},
		{"a way out for nothing", "customer: 3 h", "customer: 0 h", "triage-reach", "giving the job away costs the customer nothing"},
		{"a way out in no unit", "customer: 3 h", "customer: 3", "triage-unit", "has no unit"},

		{"a name that a request has", "  size: {ask", "  tools: {ask", "triage-name", `"tools" cannot be the name of a finding`},
		{"an answer that means none", "{straight: 4 %, bending: 4 %, within: 92 %}", "{unknown: 4 %, bending: 4 %, within: 92 %}", "triage-name", `"unknown" cannot be the name of an answer`},
		{"a cause that means none", "  charge: {title", "  unlisted: {title", "triage-name", `"unlisted" cannot be the name of a cause`},
		{"a step that means none", "  touch: {title", "  hand-over: {title", "triage-name", `"hand-over" cannot be the name of a step`},
		{"a tool that means none", "tools: [watch]", "tools: [none]", "triage-name", `"none" cannot be the name of a tool`},
		{"a tool without a name", "tools: [watch]", `tools: [","]`, "shape", "a tool has no name"},
		{"a tool twice", "tools: [watch]", "tools: [watch, watch]", "triage-name", "is named twice"},
		{"a tool in two spellings", "tools: [watch]", "tools: [stop watch, stop-watch]", "triage-name", "are the same tool"},
		{"told twice", "tells: [trap]", "tells: [trap, trap]", "triage-name", `"trap" is named twice`},
		{"needed twice", "needs: [listen]", "needs: [listen, listen]", "triage-name", "is named twice"},
		{"done by one twice", "who: [technician], tells: [trap]", "who: [technician, technician], tells: [trap]", "triage-name", "is named twice"},
		{"a guard's answer twice", "[straight, bending]}", "[straight, straight]}", "triage-name", "is named twice"},
		{"a pair twice", "weight: 0.5}", "weight: 0.5}\n  - {causes: [water, seal], weight: 0.4}", "triage-name", "this pair is there twice"},
		{"two of one title", "title: Water left", "title: a  crumb", "triage-name", "is said of two"},
		{"two of one question", "How far over the limit?", "How does it climb?", "triage-name", "is said of two"},
		{"two steps of one title", "title: Dry it", "title: Wipe it", "triage-name", "is said of two"},
		{"a group in two spellings", "group: load", "group: Door", "triage-name", "would be two groups"},

		{"answers of a value", "kind: ratio", "answers: {yes: Yes.}, kind: ratio", "triage-unit", "answers belong to a choice"},
		{"an answer that is a list", "yes: There is.", "yes: [There is.]", "shape", "holds a list"},
		{"an answer in no words", "yes: There is.", "yes: ", "shape", "holds nothing"},
		{"a share of nothing", "hiss: 40 %", "hiss: ", "shape", "not a probability"},
		{"a curve of nothing", "size: {middle: 8, factor: 4}", "size: ", "shape", "not a distribution"},
		{"unit of a kind with the same dimension", "kind: temperature, unit: °C", "kind: power, unit: mbar·L/s", "triage-unit", "is no unit of a power"},
		{"degrees of a difference", "kind: temperature, unit: °C", "kind: temperature difference, unit: °C", "triage-unit", "is no unit of a temperature difference"},
		{"a unit for a ratio", "kind: ratio", "kind: ratio, unit: mTorr", "triage-unit", "is no unit of a ratio"},
		{"a value in another unit than it has", "cuts: [-30 °C, -10 °C]", "cuts: [-30, -10]", "triage-unit", "has no unit"},
		{"colder than cold", "middle: -20 °C", "middle: -400 °C", "triage-unit", "is below zero, where nothing is measured as temperature"},
		{"hotter than hot", "middle: -20 °C", "middle: 3e9 K", "triage-unit", "beyond all measure"},
		{"a spread of a value", "spread: 5 K", "spread: 20 %", "triage-unit", "spread: "},
		{"a factor that is none", "factor: 4}", "factor: 1.00001}", "triage-unit", "not a plain number above 1"},
		{"a middle of nothing", "middle: 8, factor: 4", "middle: 1e-12, factor: 4", "triage-unit", "is above 0"},
		{"cuts that a phone cannot tell apart", "cuts: [3, 30]", "cuts: [3, 3.0000000001]", "triage-unit", "do not rise"},
		{"a weight that is next to nothing", "weight: 2.5", "weight: 1e-12", "triage-weight", "not a number above 0"},
		{"a cure that is next to nothing", "charge: 90 %", "charge: 1e-9 %", "probability", "never ends"},
		{"unlisted above all", "unlisted: 1", "unlisted: 4000", "triage-weight", "what is not listed weighs 4000, and all causes together 20.5"},

		{"a cut that nothing passes", "cuts: [-30 °C, -10 °C]", "cuts: [-30 °C, 900 °C]", "triage-reach", `"trap" is never over 900 °C`},
		{"guards in a circle", "no: There is none.}, usual: {yes: 3 %, no: 97 %}}\n  shape: {ask: How does it climb?", "no: There is none.}, usual: {yes: 3 %, no: 97 %}, when: {shape: [within]}}\n  shape: {when: {hiss: [no]}, ask: How does it climb?", "triage-reach", `"hiss" counts only beside "shape", which in the end`},
		{"a repair that does not pay", "do: Dry it., time: 30 min", "do: Dry it., time: 30 h", "triage-reach", `"dry" costs 1815 min with parts and proof, and giving the job away 720 min`},
		{"a cause that only customers end", "who: [customer, technician], cures: {seal", "who: [customer], cures: {seal", "triage-end", "ends in no repair that a technician may do"},
		{"beside what nobody asks", "who: [technician], tools: [watch], needs: [listen], tells: [shape, size]", "who: [customer, technician], tells: [size]}\n  shape: {title: Shape, time: 5 min, who: [technician], tells: [shape]", "triage-who", `the customer may do "rise", but is never asked what it counts beside`},
		{"a calculator of nobody", "kind: ratio,", "from: rise-tst, kind: ratio,", "unknown-calculator", `there is no calculator "rise-tst"`},
		{"a result of nobody", "kind: ratio,", "from: rise-test/ratio, kind: ratio,", "unknown-output", `rise-test has no output "ratio"`},
		{"a result without a name", "kind: ratio,", "from: rise-test/, kind: ratio,", "unknown-output", `rise-test has no output ""`},
		{"a result of another kind", "kind: ratio,", "from: rise-test/rate, kind: ratio,", "triage-unit", `rate of rise-test is a rate of pressure change (mass·length⁻¹·time⁻³); the finding "size" is a ratio`},
		{"a result that is a text", "kind: ratio,", "from: rise-log/shape, kind: ratio,", "triage-unit", `shape of rise-log is a text; the finding "size" is a ratio`},
		{"a result that is a table", "kind: ratio,", "from: gauge-compare/pairs, kind: ratio,", "triage-unit", `pairs of gauge-compare is a table`},
		{"a number for a choice", "How does it climb?,", "How does it climb?, from: rise-log/leak,", "triage-unit", `leak of rise-log is a leak rate`},
		{"a key", "unlisted: 1", "unlisted: 1\nextra: 1", "unknown-key", "triage.yaml has no key"},
		{"a name", "  hiss: {ask", "  Hiss it: {ask", "name", "is not plain"},
		{"a pair of one", "causes: [seal, water]", "causes: [seal, seal]", "shape", "two different causes"},
		{"a list for a share", "hiss: 40 %", "hiss: [40 %]", "shape", "not a probability"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if strings.Count(good, c.old) == 0 {
				t.Fatalf("the good model has no %q", c.old)
			}
			model, faults := readText(strings.Replace(good, c.old, c.new, 1))
			for _, f := range faults {
				if f.Rule == c.rule && strings.Contains(f.Message, c.says) {
					if f.Span.File == nil || f.Span.Len == 0 || f.Hint == "" {
						t.Errorf("no place or no hint: %+v", f)
					}
					if model.Usable() || model.For(Technician) != nil {
						t.Error("a model with faults is usable")
					}
					return
				}
			}
			t.Errorf("not said; %d faults: %+v", len(faults), faults)
		})
	}
}

// TestCalculators: what a finding comes from, where that fits.
func TestCalculators(t *testing.T) {
	for from, want := range map[string]string{"": " ", "rise-test": "rise-test ", "ice-floor/ratio": "ice-floor ratio", "gauge-compare/gain": "gauge-compare gain"} {
		m := read(t, strings.Replace(good, "kind: ratio,", "kind: ratio, from: "+from+",", 1))
		id := ""
		calculator, output := m.Finding("size").Calculator()
		if calculator != nil {
			id = calculator.ID
		}
		if id+" "+output != want {
			t.Errorf("%q: %q, %q", from, id, output)
		}
	}
	m := read(t, strings.Replace(good, "How does it climb?,", "How does it climb?, from: rise-log/shape,", 1))
	if calculator, output := m.Finding("shape").Calculator(); calculator.ID != "rise-log" || output != "shape" {
		t.Error(calculator.ID, output)
	}
}

func TestAnswers(t *testing.T) {
	m := read(t, good)
	for _, c := range []struct {
		name string
		told []Told
		n    int
		err  string
	}{
		{"a choice and a value", []Told{{"hiss", "yes"}, {"trap", "-28 °C ± 1 K"}}, 2, ""},
		{"a size beside its shape", []Told{{"size", "12"}, {"shape", "straight"}}, 2, ""},
		{"a size within the limit", []Told{{"size", "0.8"}, {"shape", "within"}}, 1, ""},
		{"a size whose shape nobody knows", []Told{{"size", "12"}}, 0, ""},
		{"no such answer", []Told{{"hiss", "perhaps"}}, 0, `no answer "perhaps"`},
		{"no such finding", []Told{{"his", "yes"}}, 0, `no finding "his"`},
		{"no value", []Told{{"trap", "cold"}}, 0, "trap: "},
		{"over the range of the meter", []Told{{"trap", "OL"}}, 0, "no plain value"},
	} {
		list, err := m.Answers(c.told)
		if err == nil && c.err != "" || err != nil && (c.err == "" || !strings.Contains(err.Error(), c.err)) || len(list) != c.n {
			t.Errorf("%s: %v, %v", c.name, list, err)
		}
	}
}

// FuzzFault: whatever is written, reading it says what is wrong or gives a model that can be reckoned with.
func FuzzFault(f *testing.F) {
	f.Add(good)
	f.Add(strings.Replace(good, "needs: [listen]", "needs: [rise]", 1))
	f.Add(wide)
	f.Add("findings: {a: {ask: x, usual: {yes: 1 %, no: 99 %}}}")
	f.Fuzz(func(t *testing.T, written string) {
		m, faults := readText(written)
		for _, fault := range faults {
			if fault.Rule == "" || fault.Message == "" || fault.Hint == "" || fault.Span.File == nil {
				t.Errorf("%+v", fault)
			}
		}
		if !m.Usable() || len(faults) > 0 {
			return
		}
		text, err := m.Text()
		if err != nil {
			t.Fatal(err)
		}
		for _, who := range Workers {
			f := m.Findings[len(written)%len(m.Findings)]
			answers := answersOf(f)
			answered(t, text, f.Name+"="+answers[len(written)%len(answers)], who)
		}
		for _, h := range m.HandOver {
			r := m.For(h.Reader.Text)
			belief := r.Belief(nil)
			sum := 0.0
			for _, p := range belief {
				sum += p
			}
			if math.Abs(sum-1) > 1e-9 {
				t.Errorf("the belief sums to %v", sum)
			}
			for _, c := range r.Plan(triage.Bench{Who: Worker(h.Reader.Text), Tools: ^uint64(0)}, nil, triage.Look) {
				if math.IsNaN(c.Minutes) || c.Minutes < 0 {
					t.Errorf("step %d costs %v", c.Step, c.Minutes)
				}
			}
		}
	})
}
