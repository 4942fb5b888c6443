package triage_test

import (
	"cmp"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"

	"blankoff/calc/declare"
	"blankoff/calc/quantity"
	"blankoff/calc/triage"
)

// ours is the text of the content folder's model.
func ours(t testing.TB) string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("..", "..", "testdata", "triage-model.txt"))
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// ask makes a request of name, text, name, text.
func ask(model string, in ...string) declare.Answer {
	request := declare.Request{ID: triage.ID, In: []declare.Pair{{Name: "model", Text: model}}}
	for i := 0; i < len(in); i += 2 {
		request.In = append(request.In, declare.Pair{Name: in[i], Text: in[i+1]})
	}
	return triage.Reply(request)
}

func rows(t testing.TB, a declare.Answer, table string) [][]declare.Cell {
	t.Helper()
	if a.Fault != nil {
		t.Fatal(*a.Fault)
	}
	i := slices.IndexFunc(a.Out, func(g declare.Given) bool { return g.ID == table })
	if i < 0 {
		t.Fatalf("there is no table %s", table)
	}
	return a.Out[i].Rows
}

// without leaves tables out.
func without(a declare.Answer, tables ...string) declare.Answer {
	a.Out = slices.DeleteFunc(slices.Clone(a.Out), func(g declare.Given) bool { return slices.Contains(tables, g.ID) })
	return a
}

func TestUnknownMovesNothing(t *testing.T) {
	model := ours(t)
	for _, before := range []string{"", "jumps=yes", "levels-off=yes; oil-looks-wrong=yes"} {
		plain := ask(model, "answers", before, "who", "technician")
		unknown := ask(model, "answers", before+"; slow=unknown; gauge-ratio=Unknown", "who", "technician")
		for _, table := range []string{"causes", "groups"} {
			if !reflect.DeepEqual(rows(t, plain, table), rows(t, unknown, table)) {
				t.Errorf("after %q the %s move", before, table)
			}
		}
		for _, step := range rows(t, unknown, "steps") {
			if step[0].Text == "time-pump-down" || step[0].Text == "gauge-compare" {
				t.Errorf("after %q %s is asked although nobody knows", before, step[0].Text)
			}
		}
		heard := rows(t, unknown, "answers")
		if last := heard[len(heard)-1]; last[2].Value != 0 || last[4].Text != "Unknown, so it moves nothing." {
			t.Errorf("%v", last)
		}
	}
}

// TestOrderOfAnswersDoesNotMatter: all but the list of the answers themselves stays, whatever the order.
func TestOrderOfAnswersDoesNotMatter(t *testing.T) {
	model, random := ours(t), rand.New(rand.NewPCG(5, 6))
	told := []string{"over-range=no", "ice-ratio=2.2 ± 10 %", "rise-size=6", "rise-shape=bending", "load-or-defrost=yes", "hiss=unknown"}
	want := ask(model, "answers", strings.Join(told, ";"))
	for range 20 {
		random.Shuffle(len(told), func(i, j int) { told[i], told[j] = told[j], told[i] })
		got := ask(model, "answers", strings.Join(told, ";"))
		if !reflect.DeepEqual(without(got, "answers", "report"), without(want, "answers", "report")) {
			t.Errorf("%v: %v, else %v", told, rows(t, got, "steps"), rows(t, want, "steps"))
		}
	}
}

func TestRevisedAnswerIsAsIfGivenSoAtOnce(t *testing.T) {
	model := ours(t)
	at := ask(model, "answers", "jumps=no; levels-off=yes; gauge-ratio=3")
	revised := ask(model, "answers", "jumps=yes; levels-off=unknown; jumps=no; gauge-ratio=0.2; levels-off=yes; gauge-ratio=3")
	if !reflect.DeepEqual(at, revised) {
		t.Errorf("%v\n%v", at, revised)
	}
}

// TestCustomersAreOfferedTheirOwnStepsOnly goes through 300 states.
func TestCustomersAreOfferedTheirOwnStepsOnly(t *testing.T) {
	model, random := ours(t), rand.New(rand.NewPCG(8, 9))
	sheet, wrong := triage.ReadSheet(model)
	if wrong != "" {
		t.Fatal(wrong)
	}
	seen := 0
	for range 300 {
		answers, done := someAnswers(random, sheet), sheet.Steps[random.IntN(len(sheet.Steps))].ID
		for _, row := range rows(t, ask(model, "answers", answers, "done", done), "steps") {
			i := slices.IndexFunc(sheet.Steps, func(s triage.Step) bool { return s.ID == row[0].Text })
			if i < 0 {
				continue // handing over
			}
			seen++
			if sheet.Steps[i].Who&triage.Customer == 0 {
				t.Fatalf("a customer is offered %s after %s", row[0].Text, answers)
			}
			if row[0].Text == done {
				t.Fatalf("%s is offered again", done)
			}
		}
	}
	if seen < 500 {
		t.Errorf("only %d steps were offered", seen)
	}
}

func someAnswers(r *rand.Rand, sheet *triage.Sheet) string {
	var told []string
	for f := range sheet.Findings {
		if names := sheet.Names[f]; names != nil && r.IntN(4) == 0 {
			told = append(told, sheet.Findings[f].ID+"="+names[r.IntN(len(names))])
		}
	}
	return strings.Join(told, ";")
}

func TestToolsAtHand(t *testing.T) {
	model := ours(t)
	needs := map[string]string{"gauge-compare": "independent-gauge", "blank-off": "independent-gauge", "tube-check": "ohm-meter", "replace-tube": "two-spanners", "remake-joint": "two-spanners"}
	for _, tools := range []string{"none", "ohm-meter", "two-spanners, ohm-meter", "two spanners"} {
		for _, answers := range []string{"", "jumps=yes", "over-range=yes;pair-open=yes", "levels-off=yes;oil-looks-wrong=yes"} {
			for _, row := range rows(t, ask(model, "who", "technician", "tools", tools, "answers", answers), "steps") {
				if tool := needs[row[0].Text]; tool != "" && !strings.Contains(strings.ReplaceAll(tools, " s", "-s"), tool) {
					t.Errorf("with %s, %s is offered", tools, row[0].Text)
				}
			}
		}
	}
}

// small is a model that can be reckoned by hand: one question, two causes and their pair.
const small = `triage 1
unlisted	1
call	technician	100
call	customer	10
stop	Smoke?
tool	meter
choice	q	yes no	0.1 0.9
choice	w	yes no	0.01 0.99
value	v	ratio		2	1 0.3 log
when	q	yes
cause	a	The first	one	6
shows	q	0.9 0.1
shows	v	4 0.3 log
cause	b	The second	two	2
shows	w	0.6 0.4
pair	a	b	1
test	ask-q	Ask q	1	1	technician customer			q
test	ask-w	Ask w	2	2	technician			w
test	measure-v	Measure v	20	20	technician	meter		v
repair	mend-a	Mend a	10	25	technician customer			a=0.9
repair	mend-b	Mend b	10	70	technician		ask-w	b=0.8
`

// TestByHand: q=yes. With slips of one in a hundred P(q=yes) is 0.99 x 0.9 + 0.005 = 0.896 for a, 0.99 x 0.1 + 0.005 = 0.104 for b.
// Of both at once, no stays usual with 0.1 x 0.9 / 0.9 = 0.1, so yes has 0.9. What is not listed: half the causes' mean
// (6 x 0.9 + 2 x 0.1) / 8 = 0.7, half 0.5, so 0.6, with slips 0.599. Weights 6, 2, 1, 1: 5.376, 0.208, 0.896, 0.599; sum 7.079.
func TestByHand(t *testing.T) {
	a := ask(small, "answers", "q=yes", "who", "technician")
	causes := rows(t, a, "causes")
	sum := 5.376 + 0.208 + 0.896 + 0.599
	for i, want := range []struct {
		name string
		p    float64
	}{{"a", (5.376 + 0.896) / sum}, {"b", (0.208 + 0.896) / sum}, {"unlisted", 0.599 / sum}} {
		if row := causes[i]; row[0].Text != want.name || math.Abs(row[2].Value-want.p) > 2e-6 {
			t.Errorf("cause %d is %v, want %v", i, row, want)
		}
	}
	before := 7.0 / 10 // of a, alone or with b
	weight := 10 * math.Log10(((5.376+0.896)/(0.208+0.599))/(before/(1-before)))
	heard := rows(t, a, "answers")[0]
	if math.Abs(heard[2].Value-weight) > 1e-3 || math.Abs(heard[3].Value-sum/10) > 1e-6 {
		t.Errorf("the answer weighs %v, want %g, and was expected with %g", heard, weight, sum/10)
	}
	if want := "Speaks for “The first”: its odds times 3.3."; heard[4].Text != want {
		t.Errorf("%q, want %q", heard[4].Text, want)
	}
	if a.Verdict.Is != declare.Pass || a.Verdict.Text != "It is most likely this: “The first” (89 %)." {
		t.Errorf("%v", a.Verdict)
	}
}

// TestPairsAreMentioned: after w=yes too, reckoned as above: 6 x 0.896 x 0.0149 = 0.080, 2 x 0.104 x 0.599 = 0.125, 0.896 x 0.599 = 0.537
// for both, 0.599 x 0.330 = 0.198; so both have 57 %.
func TestPairsAreMentioned(t *testing.T) {
	a := ask(small, "answers", "q=yes;w=yes", "who", "technician")
	if !slices.Contains(a.Cautions, "Two at once are possible: “The first” with “The second” (57 %).") {
		t.Errorf("%q", a.Cautions)
	}
}

func TestGuards(t *testing.T) {
	for answers, want := range map[string]string{
		"v=4":           "It counts only where q is answered with yes.",
		"q=no;v=4":      "It counts only where q is answered with yes.",
		"q=unknown;v=4": "It counts only where q is answered with yes.",
		"v=unknown":     "Unknown, so it moves nothing.",
	} {
		heard := rows(t, ask(small, "answers", answers), "answers")
		if last := heard[len(heard)-1]; last[4].Text != want || last[2].Value != 0 {
			t.Errorf("%s: %v", answers, last)
		}
	}
	if heard := rows(t, ask(small, "answers", "v=4;q=yes"), "answers"); heard[0][2].Value < 3 {
		t.Errorf("%v", heard)
	}
	for _, step := range rows(t, ask(small, "answers", "q=no", "who", "technician"), "steps") {
		if step[0].Text == "measure-v" {
			t.Error("what cannot count is to be measured")
		}
	}
}

// TestFindingsAreCalledByWords: sentences are for readers who know the question, not the name behind it.
func TestFindingsAreCalledByWords(t *testing.T) {
	called := strings.Replace(small, "choice\tw", "called\tthe first question\nchoice\tw", 1)
	heard := rows(t, ask(called, "answers", "v=4"), "answers")
	if want := "It counts only where the first question is answered with yes."; heard[0][4].Text != want {
		t.Errorf("%q, want %q", heard[0][4].Text, want)
	}
	if a := ask(called, "answers", "v=4 Pa"); !strings.HasPrefix(a.Fault.Text, "v: ") {
		t.Errorf("%q", a.Fault.Text)
	}
	bare := strings.ReplaceAll(strings.ReplaceAll(small, "\tv\t", "\tgauge-ratio\t"), "\tv\n", "\tgauge-ratio\n")
	if a := ask(bare, "answers", "gauge-ratio=x"); !strings.HasPrefix(a.Fault.Text, "gauge ratio: ") {
		t.Errorf("%q: without words of its own, the name with blanks", a.Fault.Text)
	}
}

// TestValuesWithUnits: a temperature may be below 0 °C, its accuracy is a difference; what has a unit is never read without.
func TestValuesWithUnits(t *testing.T) {
	for _, c := range []struct {
		text     string
		kind     quantity.Kind
		unit     string
		value, u float64
		wrong    string
	}{
		{"-28 °C ± 1 K", quantity.Temperature, "°C", 245.15, 0.5, ""},
		{"-28 ± 2 °C", quantity.Temperature, "°C", 245.15, 1, ""},
		{"245.15 K", quantity.Temperature, "°C", 245.15, 0, ""},
		{"4 °F", quantity.Temperature, "°C", 257.594444444, 0, ""},
		{"-28", quantity.Temperature, "°C", 0, 0, "has no unit"},
		{"-28 °C ± 5 %", quantity.Temperature, "°C", 0, 0, "a percentage of a temperature has no meaning"},
		{"350 ± 20 mTorr", quantity.Pressure, "mTorr", 46.662829, 1.3332237, ""},
		{"0.35 Torr ± 10 %", quantity.Pressure, "mTorr", 46.662829, 2.3331414, ""},
		{"-28 inHg gauge", quantity.Pressure, "mTorr", 0, 0, "no plain value"},
		{"0.02 W", quantity.Throughput, "mbar·L/s", 0, 0, "is a power"},
		{"20 ± 2 %", quantity.Ratio, "%", 0.2, 0.01, ""},
		{"20", quantity.Ratio, "%", 0, 0, "has no unit; write it in %"},
		{"4.5 ± 20 %", quantity.Ratio, "", 4.5, 0.45, ""},
		{"OL", quantity.Resistance, "Ω", 0, 0, "no plain value"},
	} {
		q, wrong := triage.ReadValue(c.text, c.kind, c.unit)
		if c.wrong != "" {
			if !strings.Contains(wrong, c.wrong) {
				t.Errorf("%s: %q, want %q", c.text, wrong, c.wrong)
			}
		} else if wrong != "" || math.Abs(q.Value-c.value) > 1e-6 || math.Abs(q.U-c.u) > 1e-6 {
			t.Errorf("%s: %v, u %v, %q, want %v, u %v", c.text, q.Value, q.U, wrong, c.value, c.u)
		}
	}
}

// TestSurprise: an answer that the others speak against is to be checked again; one that is only rare is not.
func TestSurprise(t *testing.T) {
	model := ours(t)
	odd := ask(model, "answers", "oil-looks-wrong=yes;blank-off-ratio=15;rise-shape=within;gauge-ratio=1.05;levels-off=yes;jumps=yes")
	if odd.Verdict.Is != declare.CannotTell || !strings.Contains(odd.Verdict.Text, "Recheck this first: the leaps of the number = yes.") || !strings.HasPrefix(odd.Cautions[0], "Recheck this answer: the leaps of the number = yes.") {
		t.Errorf("%v %q", odd.Verdict, odd.Cautions)
	}
	for _, rare := range []string{"pair-open=yes", "jumps=yes", "plug-moves=yes", "room-out-of-range=yes"} {
		if a := ask(model, "answers", rare); strings.Contains(fmt.Sprint(a.Cautions), "Recheck") {
			t.Errorf("%s alone: %q", rare, a.Cautions)
		}
	}
}

// TestAccuracyOfARatio: a fifth of 4.5 is 0.9, however it is written.
func TestAccuracyOfARatio(t *testing.T) {
	model := ours(t)
	want := rows(t, ask(model, "answers", "gauge-ratio=4.5 ± 0.9"), "causes")
	for _, text := range []string{"4.5 ± 20 %", "4.5±20%", "4,5 +/- 20 %", "450 % ± 90 %", "4.5 +- 0.9"} {
		if got := rows(t, ask(model, "answers", "gauge-ratio="+text), "causes"); !reflect.DeepEqual(got, want) {
			t.Errorf("%s: %v", text, got[0])
		}
	}
	if exact := rows(t, ask(model, "answers", "gauge-ratio=4.5"), "causes"); reflect.DeepEqual(exact, want) {
		t.Error("the accuracy moves nothing")
	}
	for _, text := range []string{"4.5 ± x %", "4.5 ± %", "x ± 20 %"} {
		if a := ask(model, "answers", "gauge-ratio="+text); a.Fault == nil || a.Fault.Field != "answers" {
			t.Errorf("%s: %v", text, a.Fault)
		}
	}
}

func TestRepairThatDidNotHelp(t *testing.T) {
	model := ours(t)
	p := func(in ...string) float64 {
		for _, row := range rows(t, ask(model, in...), "causes") {
			if row[0].Text == "plug-loose" {
				return row[2].Value
			}
		}
		return 0
	}
	before := p("answers", "jumps=yes;plug-moves=yes", "who", "technician")
	after := p("answers", "jumps=yes;plug-moves=yes", "who", "technician", "done", "reseat-plug")
	if !(before > 0.5 && after < before/2) {
		t.Errorf("the plug has %g, and after it was reseated in vain %g", before, after)
	}
	if twice := p("answers", "jumps=yes;plug-moves=yes", "done", "reseat-plug; reseat-plug,reseat-plug", "who", "technician"); twice != after {
		t.Errorf("named more than once it counts for %g, not %g", twice, after)
	}
}

// TestNeverTooSure: whatever is told, no cause and no group is shown above 95 %, rows are in order, and sums are sane.
func TestNeverTooSure(t *testing.T) {
	model, random := ours(t), rand.New(rand.NewPCG(3, 4))
	sheet, _ := triage.ReadSheet(model)
	top := 0.0
	for i := range 300 {
		answers := someAnswers(random, sheet)
		if i == 0 {
			answers = "oil-looks-wrong=yes;blank-off-ratio=15;rise-shape=within;gauge-ratio=1.05;trap-warm=no;load-or-defrost=yes;hiss=no;slow=no;over-range=no;levels-off=yes;jumps=no;dry-empty-good=no"
		}
		a := ask(model, "answers", answers, "who", "technician")
		for _, table := range []struct {
			name string
			at   int
		}{{"causes", 2}, {"groups", 1}} {
			last := 1.0
			for _, row := range rows(t, a, table.name) {
				if p := row[table.at].Value; row[0].Text != "unlisted" && (p > 0.95 || p > last+1e-6 || p < 0.005-1e-6) {
					t.Fatalf("%s: %v", table.name, row)
				} else if row[0].Text != "unlisted" {
					last, top = p, max(top, p)
				}
			}
		}
		steps := rows(t, a, "steps")
		if begun := regexp.MustCompile(`(trap-warm|rise-shape)=\w+$`).MatchString(answers); begun && (steps[0][0].Text == "look-trap" || steps[0][0].Text == "rise-test") {
			steps = steps[1:] // what was begun is ended first
		}
		if len(steps) > 6 || !inOrder(steps) {
			t.Fatalf("%v", steps)
		}
		if len(rows(t, a, "turns")) > 3 {
			t.Fatal("more than three turns")
		}
	}
	if top != 0.95 {
		t.Errorf("the surest was %g: the ceiling was not reached", top)
	}
}

// inOrder tells whether the tests that bring the end sooner than any repair come first, what they save for each minute (and
// four more for the asking) falling, and then everything by its minutes.
func inOrder(steps [][]declare.Cell) bool {
	i := slices.IndexFunc(steps, func(row []declare.Cell) bool { return row[1].Text == "repair" || row[1].Text == "hand-over" })
	if i < 0 {
		return true // the best repair is not shown
	}
	without := steps[i][2].Value
	saves := func(row []declare.Cell) float64 { return (without - row[2].Value + row[3].Value) / (row[3].Value + 4) }
	for k := 1; k < len(steps); k++ {
		if k < i && saves(steps[k]) > saves(steps[k-1])+1e-9 || k == i && steps[k-1][2].Value > without || k > i && steps[k][2].Value < steps[k-1][2].Value {
			return false
		}
	}
	return true
}

// TestTurnsAndReasonsAreTrue: what a turn promises comes true when that answer is given.
func TestTurnsAndReasonsAreTrue(t *testing.T) {
	model, random := ours(t), rand.New(rand.NewPCG(11, 12))
	sheet, _ := triage.ReadSheet(model)
	tried := 0
	for range 60 {
		answers := someAnswers(random, sheet)
		for _, turn := range rows(t, ask(model, "answers", answers), "turns") {
			if strings.ContainsAny(turn[1].Text, "0123456789") {
				continue // a range
			}
			causes := rows(t, ask(model, "answers", answers+";"+turn[0].Text+"="+turn[1].Text), "causes")
			best := slices.MaxFunc(causes, func(x, y []declare.Cell) int { return int(math.Copysign(1, x[2].Value-y[2].Value)) })
			if tried++; best[1].Text != turn[2].Text || math.Abs(best[2].Value-turn[3].Value) > 2e-6 {
				t.Errorf("after %s: %v, but then %v", answers, turn, best)
			}
		}
	}
	if tried < 50 {
		t.Errorf("only %d turns", tried)
	}
	first := rows(t, ask(small, "who", "technician"), "steps")[0]
	if !strings.Contains(first[5].Text, "would put") && !strings.Contains(first[5].Text, "stays in front") && !strings.Contains(first[5].Text, "ends it in") {
		t.Errorf("%q", first[5].Text)
	}
}

// TestWeightsAreRatiosOfOdds asks once more without each answer: the weight is ten times the decimal logarithm of the ratio of
// the odds, of a cause in front and of what is not listed alike.
func TestWeightsAreRatiosOfOdds(t *testing.T) {
	model, random := ours(t), rand.New(rand.NewPCG(12, 13))
	odds := func(p float64) float64 { return 10 * math.Log10(p/(1-p)) }
	sheet, wrong := triage.ReadSheet(model)
	if wrong != "" {
		t.Fatal(wrong)
	}
	listed, unlisted := 0, 0
	for range 400 {
		told := strings.Split(someAnswers(random, sheet), ";")
		if strings.Contains(strings.Join(told, ";"), "rise-") {
			continue // counts beside another one only
		}
		all := ask(model, "answers", strings.Join(told, ";"))
		leader := slices.MaxFunc(rows(t, all, "causes"), func(a, b []declare.Cell) int { return cmp.Compare(a[2].Value, b[2].Value) })
		for i, row := range rows(t, all, "answers") {
			rest := rows(t, ask(model, "answers", strings.Join(slices.Delete(slices.Clone(told), i, i+1), ";")), "causes")
			at := slices.IndexFunc(rest, func(r []declare.Cell) bool { return r[0].Text == leader[0].Text })
			if at < 0 || leader[2].Value > 0.94 || rest[at][2].Value > 0.94 || strings.Contains(row[4].Text, "Unknown") {
				continue // not shown, or shown as less than it is
			}
			if want := odds(leader[2].Value) - odds(rest[at][2].Value); math.Abs(row[2].Value-want) > 0.003 {
				t.Errorf("%v without %s: it weighs %v for %s, want %v", told, row[0].Text, row[2].Value, leader[0].Text, want)
			}
			if listed++; leader[0].Text == "unlisted" {
				unlisted++
			}
		}
	}
	if listed < 300 || unlisted < 20 {
		t.Errorf("%d weights were compared, %d of them for what is not listed: too few", listed, unlisted)
	}
}

func BenchmarkReply(b *testing.B) {
	model := ours(b)
	known := triage.Know(model)
	for _, who := range []string{"customer", "technician"} {
		request := declare.Request{ID: triage.ID, In: []declare.Pair{{Name: "who", Text: who}, {Name: "answers", Text: "levels-off=yes"}}}
		b.Run(who, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				known.Reply(request)
			}
		})
	}
	b.Run("model", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			triage.Know(model)
		}
	})
}

// TestWords: what a reader said, is asked and is told, is worded as the questions are, where the model has words.
func TestWords(t *testing.T) {
	worded := strings.Replace(small, "choice\tw", "ask\tIs it q?\nsaid\tyes\tIt is q.\nchoice\tw", 1)
	heard := rows(t, ask(worded, "answers", "q=yes;w=unknown;v=4"), "answers")
	for i, want := range [][2]string{{"Is it q?", "It is q."}, {"w", "I don't know"}, {"v", "4"}} {
		if got := [2]string{heard[i][5].Text, heard[i][6].Text}; got != want {
			t.Errorf("answer %d is told as %q, want %q", i, got, want)
		}
	}
	all := ask(worded, "who", "technician")
	if said := fmt.Sprint(rows(t, all, "steps")); !strings.Contains(said, "“It is q” (") || !strings.Contains(said, "“no” (") {
		t.Errorf("the reasons do not use the words: %s", said)
	}
	for _, turn := range rows(t, all, "turns") {
		if turn[0].Text == "q" && (turn[1].Text != "yes" && turn[1].Text != "no" || turn[4].Text != "Is it q?") {
			t.Errorf("%v", turn)
		}
	}
	if steps := rows(t, ask(worded, "done", "ask-w, mend-a"), "done"); len(steps) != 2 || steps[0][2].Text != "Done." || steps[1][1].Text != "Mend a" || steps[1][2].Text != "It did not help." {
		t.Errorf("%v", steps)
	}
}

// TestWhatIsOfferedFirst: a test that is begun is ended, unless the reader prefers another step; nobody is led to a step that is
// not for him.
func TestWhatIsOfferedFirst(t *testing.T) {
	model := ours(t)
	for _, c := range []struct{ who, answers, pick, step, asks string }{
		{"technician", "rise-shape=straight", "", "rise-test", "rise-size"},
		{"technician", "rise-shape=straight", "oil-change", "oil-change", ""},
		{"technician", "over-range=no;trap-warm=yes", "", "look-trap", "ice-ratio"},
		{"customer", "over-range=no;trap-warm=yes", "listen", "listen", "hiss"},
		{"technician", "jumps=yes", "jumps", "", ""},
	} {
		a := ask(model, "who", c.who, "answers", c.answers, "pick", c.pick)
		if c.step == "" {
			if a.Fault == nil || a.Fault.Field != "pick" {
				t.Errorf("%+v is taken", c)
			}
			continue
		}
		steps := rows(t, a, "steps")
		if steps[0][0].Text != c.step || steps[0][7].Text != c.asks {
			t.Errorf("%+v: first comes %v", c, steps[0])
		}
		for _, row := range steps[1:] {
			if row[0].Text == c.step {
				t.Errorf("%+v: %s is offered twice", c, c.step)
			}
		}
	}
	if row := rows(t, ask(model, "who", "technician", "answers", "rise-shape=straight;jumps=no"), "steps")[0]; row[0].Text == "rise-test" {
		t.Errorf("a test is gone back to of which nobody talks any more: %v", row)
	}
	for _, row := range rows(t, ask(model, "pick", "oil-change"), "steps") {
		if row[0].Text == "oil-change" {
			t.Error("a customer is led to the oil change")
		}
	}
}
