package calc_test

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"blankoff/calc"
	"blankoff/calc/declare"
	"blankoff/calc/quantity"
)

// The tests here and in answer_test.go run over calc.All(): a new calculator is held to
// them the moment it is listed.

var idRule = regexp.MustCompile(`^[a-z][a-z0-9]*(-[a-z0-9]+)*$`)

func TestIDsFollowTheRule(t *testing.T) {
	calculators := map[string]bool{}
	for _, c := range calc.All() {
		if calculators[c.ID] {
			t.Errorf("%s stands twice", c.ID)
		}
		calculators[c.ID] = true
		if calc.Find(c.ID) != c {
			t.Errorf("%s is not found by its ID", c.ID)
		}
		ids := []string{c.ID}
		inputs, outputs := map[string]bool{}, map[string]bool{}
		for _, in := range c.Inputs {
			if inputs[in.ID] {
				t.Errorf("%s: input %s stands twice", c.ID, in.ID)
			}
			inputs[in.ID], ids = true, append(ids, in.ID)
		}
		for _, out := range c.Outputs {
			if outputs[out.ID] {
				t.Errorf("%s: output %s stands twice", c.ID, out.ID)
			}
			outputs[out.ID], ids = true, append(ids, out.ID)
		}
		for _, influence := range c.Influences {
			ids = append(ids, influence.ID)
		}
		for _, id := range append(ids, c.Hazards...) {
			if !idRule.MatchString(id) {
				t.Errorf("%s: %q is not lower-case words joined by hyphens", c.ID, id)
			}
		}
	}
	if calc.Find("none") != nil {
		t.Errorf("a calculator is found that does not exist")
	}
}

func TestDeclarationsAreComplete(t *testing.T) {
	marks := map[string]bool{declare.Published: true, declare.Computed: true, declare.CommonPractice: true, declare.Memory: true}
	for _, c := range calc.All() {
		if c.Title == "" || !strings.HasSuffix(c.Decision, "?") || len(c.Formula) == 0 || len(c.Sources) == 0 || len(c.Example.In) == 0 || len(c.Example.Want) == 0 || c.Example.From == "" {
			t.Errorf("%s lacks a title, a question, a formula, a source or an example", c.ID)
		}
		for _, s := range c.Sources {
			if !marks[s.Mark] {
				t.Errorf("%s: source %q has the mark %q", c.ID, s.Title, s.Mark)
			}
			if s.Title == "" || s.Mark == declare.Published && s.Where == "" {
				t.Errorf("%s: source %+v does not say where it stands", c.ID, s)
			}
		}
		for _, in := range c.Inputs {
			if in.Label == "" || in.Help == "" || kindsOf(&in) != 1 {
				t.Errorf("%s: input %s lacks a label, a help line, or is not one of quantity, choice and table", c.ID, in.ID)
			}
		}
		for _, out := range c.Outputs {
			if out.Label == "" || out.Kind != quantity.Ratio && (out.Kind == quantity.None) != (out.Unit == "") {
				t.Errorf("%s: output %s lacks a label or its unit", c.ID, out.ID)
			}
		}
	}
}

// TestEveryCalculatorHasItsGroup keeps the list of calculators whole: what stands in no group stands on no page.
func TestEveryCalculatorHasItsGroup(t *testing.T) {
	in := map[string]int{}
	for _, c := range calc.All() {
		if !slices.Contains(declare.Groups(), c.Group) {
			t.Errorf("%s: Group is %q; set it to one of declare.Groups()", c.ID, c.Group)
		}
		in[c.Group]++
	}
	for _, group := range declare.Groups() {
		if in[group] == 0 {
			t.Errorf("no calculator stands in the group %q", group)
		}
	}
}

// kindsOf counts what an input is at once.
func kindsOf(in *declare.Input) int {
	n := 0
	for _, is := range []bool{in.Kinds != nil, in.Choices != nil, in.Columns != nil} {
		if is {
			n++
		}
	}
	return n
}

func TestEveryDeclaredUnitBoundAndDefaultParses(t *testing.T) {
	for _, c := range calc.All() {
		for _, in := range c.Inputs {
			for _, unit := range append(in.Units, in.Unit) {
				if in.Kinds == nil {
					continue
				}
				q, problem := quantity.Parse(strings.TrimSpace("1 "+unit), in.Kinds...)
				if problem != nil {
					t.Errorf("%s: unit %q of input %s: %s", c.ID, unit, in.ID, problem.Text)
				} else if q.Gauge && !in.Gauge {
					t.Errorf("%s: unit %q of input %s is gauge, the input is not", c.ID, unit, in.ID)
				}
			}
			bounds := map[string]quantity.Quantity{}
			for name, text := range map[string]string{"Min": in.Min, "Max": in.Max, "UsualLow": in.UsualLow, "UsualHigh": in.UsualHigh, "Default": in.Default} {
				if text == "" || in.Kinds == nil {
					continue
				}
				q, problem := quantity.Parse(text, in.Kinds...)
				if problem != nil {
					t.Errorf("%s: %s of input %s: %s", c.ID, name, in.ID, problem.Text)
				}
				bounds[name] = q
			}
			order := []string{"Min", "UsualLow", "Default", "UsualHigh", "Max"}
			for i, low := range order {
				for _, high := range order[i+1:] {
					a, hasA := bounds[low]
					b, hasB := bounds[high]
					if hasA && hasB && a.Kind == b.Kind && a.Value > b.Value {
						t.Errorf("%s: input %s has %s above %s", c.ID, in.ID, low, high)
					}
				}
			}
			if in.Accuracy != "" {
				if q, problem := quantity.Parse("1 "+in.Unit+" ± "+in.Accuracy, in.Kinds...); problem != nil || !q.HasU {
					t.Errorf("%s: accuracy %q of input %s: %v", c.ID, in.Accuracy, in.ID, problem)
				}
			}
			if in.Choices != nil && in.Default != "" {
				found := false
				for _, choice := range in.Choices {
					found = found || choice.Value == in.Default
				}
				if !found {
					t.Errorf("%s: default %q of input %s is no choice", c.ID, in.Default, in.ID)
				}
			}
		}
		for _, out := range c.Outputs {
			for _, unit := range append(out.Also, out.Unit) {
				if out.Kind == quantity.None {
					continue
				}
				if u, ok := quantity.FindUnit(unit); !ok || u.Kind != out.Kind && (out.Kind != quantity.TemperatureDifference || u.Kind != quantity.Temperature) || u.Symbol != unit {
					t.Errorf("%s: unit %q of output %s is %+v", c.ID, unit, out.ID, u)
				}
			}
		}
	}
}

// TestEveryExampleHolds compares letter for letter: an example is what a page shows.
func TestEveryExampleHolds(t *testing.T) {
	for _, c := range calc.All() {
		a := mustAnswer(t, declare.Request{ID: c.ID, In: c.Example.In})
		got := map[string]string{}
		for _, g := range a.Out {
			got[g.ID] = g.Text
		}
		for _, want := range c.Example.Want {
			if got[want.Name] != want.Text {
				t.Errorf("%s: %s is %q, the example says %q (%s)", c.ID, want.Name, got[want.Name], want.Text, c.Example.From)
			}
		}
	}
}

func TestUnknownNamesAreNamed(t *testing.T) {
	a := calc.Answer(declare.Request{ID: "rise"})
	if want := "there is no calculator “rise”; there are pressure, throughput, rise-test, "; a.Fault == nil || !strings.HasPrefix(a.Fault.Text, want) {
		t.Errorf("got %+v, want %q", a.Fault, want)
	}
	for _, c := range calc.All() {
		in := calc.Answer(with(declare.Request{ID: c.ID, In: c.Example.In}, "no-such-entry", "5 L"))
		out := calc.Answer(declare.Request{ID: c.ID, In: c.Example.In, Out: pairs("no-such-entry", "L")})
		for _, a := range []declare.Answer{in, out} {
			if a.Fault == nil || a.Fault.Field != "no-such-entry" || !strings.Contains(a.Fault.Text, "no-such-entry") {
				t.Errorf("%s: an unknown name gives %+v", c.ID, a.Fault)
			}
		}
		for _, output := range c.Outputs {
			for _, unit := range []string{"kg", "furlong", "K", "A", ""} {
				warm := output.Kind == quantity.Temperature || output.Kind == quantity.TemperatureDifference
				if output.Kind == quantity.Ratio && unit == "" || warm && unit == "K" || output.Kind == quantity.Mass && unit == "kg" || output.Kind == quantity.Current && unit == "A" {
					continue
				}
				a := calc.Answer(declare.Request{ID: c.ID, In: c.Example.In, Out: pairs(output.ID, unit)})
				if a.Fault == nil || a.Fault.Field != output.ID {
					t.Errorf("%s: %s in %q gives %+v", c.ID, output.ID, unit, a.Fault)
				}
			}
		}
	}
}
