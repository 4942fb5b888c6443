package triage_test

import (
	"math"
	"reflect"
	"strings"
	"testing"

	"blankoff/calc/declare"
	"blankoff/calc/triage"
)

// TestSheetsThatCannotBeReckonedWith changes one thing in a good sheet.
func TestSheetsThatCannotBeReckonedWith(t *testing.T) {
	if _, wrong := triage.ReadSheet(small); wrong != "" {
		t.Fatal(wrong)
	}
	for _, c := range []struct{ old, new, want string }{
		{"triage 1\n", "triage 2\n", "line 1: it does not begin with “triage 1”"},
		{"triage 1\n", "", "line 1: it does not begin with “triage 1”"},
		{"stop\t", "halt\t", "line 5: its first word is not known"},
		{"stop\tSmoke?", "stop\tSmoke?\tFire?", "line 5: it has parts too few or too many"},
		{"unlisted\t1", "unlisted\t0", "line 2: a number does not fit"},
		{"unlisted\t1", "unlisted\tNaN", "line 2: a number does not fit"},
		{"unlisted\t1", "unlisted\t1e300", "line 2: a number does not fit"},
		{"unlisted\t1\n", "", "line 20: it lacks a part, or has more causes or steps than a plan can weigh"},
		{"technician\t100", "somebody\t100", "line 3: it uses a name that is not known"},
		{"0.1 0.9\nchoice", "0.1 0.8\nchoice", "line 7: the probabilities are not one for each answer, or do not come to 1"},
		{"0.1 0.9\nchoice", "-0.1 1.1\nchoice", "line 7: a number does not fit"},
		{"yes no\t0.1 0.9\nchoice", "yes\t1\nchoice", "line 7: a finding has two to eight answers"},
		{"choice\tw", "choice\tq", "line 8: the finding stands behind a cause, is there twice or is one too many"},
		{"ratio\t\t2", "ratio\tPa\t2", "line 9: kind and unit do not fit"},
		{"ratio\t\t2", "beauty\t\t2", "line 9: kind and unit do not fit"},
		{"ratio\t\t2", "ratio\t\t2 2", "line 9: the cuts do not rise, or are too many"},
		{"ratio\t\t2", "ratio\t\t1 2 3 4 5 6 7 8", "line 9: the cuts do not rise, or are too many"},
		{"ratio\t\t2", "ratio\t\t", "line 9: a value has no cuts"},
		{"1 0.3 log\nwhen", "0 0.3 log\nwhen", "line 9: what is spread by factors has its middle above 0"},
		{"1 0.3 log\nwhen", "1 0 log\nwhen", "line 9: a number does not fit"},
		{"1 0.3 log\nwhen", "1 0.3 lag\nwhen", "line 9: it has no distribution"},
		{"0.1 0.9\nchoice\tw\tyes no\t0.01 0.99\n", "0.1 0.9\nwhen\tw\tyes\nchoice\tw\tyes no\t0.01 0.99\nwhen\tq\tyes\ntest\tboth\tBoth\t1\t1\ttechnician\t\t\tq w\n", "line 11: all that the test tells waits for itself"},
		{"stop\tSmoke?", "called\tsmoke", "line 5: it calls nothing by a name"},
		{"when\tq\tyes", "when\tq\tyes\ncalled\t", "line 11: something has no name"},
		{"stop\tSmoke?", "ask\tSmoke?", "line 5: it calls nothing by a name"},
		{"when\tq\tyes", "when\tq\tyes\nask\t", "line 11: something has no name"},
		{"when\tq\tyes", "when\tq\tyes\nsaid\tyes\tIt is.", "line 11: it words an answer that is not there"},
		{"choice\tw", "said\tperhaps\tIt may be.\nchoice\tw", "line 8: it uses a name that is not known"},
		{"choice\tw", "said\tyes\t\nchoice\tw", "line 8: something has no name"},
		{"when\tq\tyes", "when\tv\tyes", "line 10: it counts by a finding without answers"},
		{"when\tq\tyes", "when\tq\tperhaps", "line 10: it uses a name that is not known"},
		{"shows\tv\t4 0.3 log", "shows\tv\t4 0.3", "line 13: a value is spread by factors in one place and not in the other"},
		{"shows\tv", "shows\tx", "line 13: there is no such finding, or no cause to show it"},
		{"cause\tb", "cause\ta", "line 14: the cause is there twice"},
		{"The second", "", "line 14: something has no name"},
		{"pair\ta\tb", "pair\ta\tc", "line 16: it names a cause that is not there"},
		{"meter\t\tv", "metre\t\tv", "line 19: it uses a name that is not known"},
		{"\t\tv\n", "\t\t\n", "line 19: the step tells and ends nothing"},
		{"repair\tmend-a", "repair\tmeasure-v", "line 20: the step is there twice"},
		{"a=0.9", "a=1.5", "line 20: a number does not fit"},
		{"a=0.9", "a", "line 20: a number does not fit"},
		{"ask-w\tb=0.8", "mend-b\tb=0.8", "line 21: the step waits for itself"},
		{"ask-w\tb=0.8", "mend-c\tb=0.8", "line 21: it needs a step that is not there"},
	} {
		text := strings.Replace(small, c.old, c.new, 1)
		if text == small {
			t.Fatalf("%q is not in the sheet", c.old)
		}
		if _, wrong := triage.ReadSheet(text); wrong != c.want {
			t.Errorf("%q for %q: %q, want %q", c.new, c.old, wrong, c.want)
		}
	}
}

// TestSheetsBeyondAllMeasure would keep a phone busy for minutes, or end its stack.
func TestSheetsBeyondAllMeasure(t *testing.T) {
	steps := func(n int, needs func(i int) string) string {
		var b strings.Builder
		for i := range n {
			b.WriteString("test\ts" + letter(i) + "\tStep\t1\t1\ttechnician\t\t" + needs(i) + "\tq\n")
		}
		return small + b.String()
	}
	chain := func(i int) string {
		if i < 2 {
			return ""
		}
		return "s" + letter(i-1) + " s" + letter(i-2)
	}
	for name, text := range map[string]string{
		"too many steps":   steps(200, func(int) string { return "" }),
		"a chain of pairs": steps(60, chain),
		"too large":        small + strings.Repeat("stop\tSmoke?\n", 30_000),
		"many causes":      small + strings.Repeat("pair\ta\tb\t1\n", 300),
		"many tools":       "triage 1\n" + strings.Repeat("tool\tx\n", 65),
	} {
		if _, wrong := triage.ReadSheet(text); wrong == "" {
			t.Errorf("%s: taken", name)
		}
	}
}

func letter(i int) string { return string(rune('a'+i/26)) + string(rune('a'+i%26)) }

func TestEntriesThatCannotBeRead(t *testing.T) {
	model := ours(t)
	for _, c := range []struct{ name, text, field, want string }{
		{"answers", "jmps=yes", "answers", "there is no finding “jmps”; did you mean jumps?"},
		{"answers", "jumps", "answers", "“jumps” is not of the form finding=answer"},
		{"answers", "jumps=perhaps", "answers", "jumps has no answer “perhaps”; it has yes, no, unknown"},
		{"answers", "gauge-ratio=OL", "answers", "machine gauge over independent gauge: “OL” is no plain value; say unknown if none can be read"},
		{"answers", "gauge-ratio=3 mTorr", "answers", "machine gauge over independent gauge: "},
		{"answers", "=", "answers", "there is no finding “”; there are over-range, "},
		{"done", "reseat-plugs", "done", "there is no test or repair “reseat-plugs”; did you mean reseat-plug?"},
		{"who", "licensed", "who", "nobody is called “licensed” here; write customer or technician"},
		{"who", "Technician!", "who", "nobody is called “Technician!” here; write customer or technician"},
		{"tools", "ohm-metre", "tools", "no step needs a tool “ohm-metre”; did you mean ohm-meter?"},
		{"answer", "jumps=yes", "answer", "triage has no entry “answer”; it has model, answers, done, who, tools"},
	} {
		a := ask(model, c.name, c.text)
		if a.Fault == nil || a.Fault.Field != c.field || !strings.HasPrefix(a.Fault.Text, c.want) || len(a.Out) > 0 {
			t.Errorf("%s=%q: %+v, want %q", c.name, c.text, a.Fault, c.want)
		}
	}
	if a := ask(""); a.Fault == nil || a.Fault.Field != "model" {
		t.Errorf("without a model: %+v", a.Fault)
	}
	if a := triage.Reply(declare.Request{ID: triage.ID, Out: []declare.Pair{{Name: "causes", Text: "Pa"}}}); a.Fault == nil || a.Fault.Field != "causes" {
		t.Errorf("in another unit: %+v", a.Fault)
	}
}

// FuzzReply: whatever stands in a request, a fault or a sound answer comes back, and the same one where the model was read before.
func FuzzReply(f *testing.F) {
	f.Add(small, "q=yes; v=4 ± 20 %", "mend-a", "technician", "meter")
	f.Add(small, "q=unknown", "ask-q,mend-b", "customer", "none")
	f.Add(small, "v=-1e300\nw=no;q=yes;v=0", "", "", "")
	f.Add(strings.Replace(small, "1 0.3 log", "1e9 1e-9 log", 1), "q=yes;v=1e-300", "mend-a;mend-b", "technician", "")
	f.Add(strings.Replace(small, "a=0.9", "a=1 b=1", 1), "", "mend-a", "technician", "")
	f.Add("triage 1\nunlisted\t1", "", "", "", "")
	f.Fuzz(func(t *testing.T, model, answers, done, who, tools string) {
		a := ask(model, "answers", answers, "done", done, "who", who, "tools", tools)
		known := triage.Know(model)
		for range 2 { // the second finds nothing that the first has left
			if b := known.Reply(declare.Request{ID: triage.ID, In: []declare.Pair{{Name: "answers", Text: answers}, {Name: "done", Text: done}, {Name: "who", Text: who}, {Name: "tools", Text: tools}}}); !reflect.DeepEqual(a, b) {
				t.Fatalf("%v\nby a model read before: %v", a, b)
			}
		}
		if a.Fault != nil {
			if strings.Contains(a.Fault.Text, "please report") {
				t.Fatal(a.Fault.Text)
			}
			return
		}
		for _, g := range a.Out {
			for _, row := range g.Rows {
				if len(row) != len(g.Columns) {
					t.Fatalf("%s: %v", g.ID, row)
				}
				for _, cell := range row {
					if math.IsNaN(cell.Value) || math.IsInf(cell.Value, 0) {
						t.Fatalf("%s: %v", g.ID, row)
					}
				}
			}
		}
		if a.Verdict.Is == "" || len(rows(t, a, "steps")) == 0 {
			t.Fatalf("%v", a)
		}
	})
}
