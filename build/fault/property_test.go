package fault

import (
	"fmt"
	"math"
	"math/rand/v2"
	"regexp"
	"strings"
	"testing"

	"blankoff/calc/declare"
	"blankoff/calc/triage"
)

// wide is the good model with more of what a shop can write: units with zeros of their own, percentages, guards on guards,
// words for findings, answers that are certain.
var wide = strings.NewReplacer(
	"causes:\n", `  leak: {ask: How large is the leak?, called: leak, kind: leak rate, unit: mbar·L/s, cuts: [0.01 mbar·L/s, 1 mbar·L/s], usual: {middle: 0.004 mbar·L/s, factor: 3}, when: {shape: [straight]}}
  base: {ask: How low does it get?, kind: pressure, unit: mTorr, cuts: [100 mTorr], usual: {middle: 80 mTorr, spread: 20 mTorr}}
  share: {ask: What part of the room does it take?, kind: ratio, unit: "%", cuts: [20 %, 60 %], usual: {middle: 10 %, spread: 5 %}}
  warmer: {ask: How much warmer than before?, kind: temperature difference, unit: K, cuts: [4 K], usual: {middle: 0 K, spread: 2 K}}
  sure: {ask: Is the handle open?, usual: {yes: 0 %, no: 100 %}}
causes:
`,
	"shows: {hiss: 40 %", "shows: {leak: {middle: 0.2 mbar·L/s, factor: 5}, sure: 100 %, hiss: 40 %",
	"shows: {trap: {middle: -20 °C, spread: 5 K}}", "shows: {trap: {middle: -20 °C, spread: 5 K}, base: {middle: 300 mTorr, spread: 90 mTorr}, share: {middle: 50 %, spread: 10 %}, warmer: {middle: 9 K, spread: 3 K}}",
	"repairs:\n", `  read: {title: Read it, guide: pages/x, time: 9 min, who: [technician], tells: [base, share, warmer, leak]}
  look: {title: Look, guide: pages/x, time: 1 min, who: [customer, technician], tells: [sure]}
repairs:
`).Replace(good)

// answersOf are all that can be said of a finding, and of a value what lies in its parts, far out, and with accuracies.
func answersOf(f *Finding) []string {
	if !f.Measured() {
		return append(f.answerNames(), triage.Unknown)
	}
	unit := f.Unit.Symbol
	list := []string{triage.Unknown}
	for _, cut := range f.Cuts {
		x := f.Unit.From(cut)
		list = append(list, fmt.Sprintf("%.6g %s", x, unit), fmt.Sprintf("%.6g %s ± %.6g %s", 1.3*x, unit, math.Abs(x)/5, unit))
	}
	list = append(list, "0 "+unit, "1e6 "+unit)
	if unit == "" {
		list = append(list, "4.5 ± 20 %")
	}
	return list
}

// answered puts answers to a sheet, as a page does, and asks that what comes back is sound.
func answered(t *testing.T, text, said, who string) {
	t.Helper()
	a := triage.Reply(declare.Request{ID: triage.ID, In: []declare.Pair{{Name: "model", Text: text}, {Name: "answers", Text: said}, {Name: "who", Text: who}}})
	if a.Fault != nil {
		t.Fatalf("%s, %s: %s: %s", who, said, a.Fault.Field, a.Fault.Text)
	}
	for _, g := range a.Out {
		for _, row := range g.Rows {
			for i, cell := range row {
				if math.IsNaN(cell.Value) || math.IsInf(cell.Value, 0) || strings.Contains(cell.Text, "NaN") {
					t.Fatalf("%s, %s: %s: %v", who, said, g.ID, row)
				}
				if g.Columns[i].ID == "probability" && !(cell.Value >= 0 && cell.Value <= 1) {
					t.Fatalf("%s, %s: %s: the probability %v", who, said, g.ID, cell.Value)
				}
			}
		}
		if g.ID == "steps" && len(g.Rows) == 0 {
			t.Fatalf("%s, %s: there is nothing to do next", who, said)
		}
	}
	if a.Verdict.Is == "" || a.Verdict.Text == "" {
		t.Fatalf("%s, %s: no verdict", who, said)
	}
}

// reckons asks that a model which verify has passed is read and answers, to every single answer and up to so many pairs.
func reckons(t *testing.T, m *Model, random *rand.Rand, pairs int) {
	t.Helper()
	text, err := m.Text()
	if err != nil {
		t.Fatal(err)
	}
	sheet, wrong := triage.ReadSheet(text)
	if wrong != "" {
		t.Fatal(wrong)
	}
	var all []Told
	for _, f := range m.Findings {
		for _, answer := range answersOf(f) {
			all = append(all, Told{f.Name, answer})
		}
	}
	whole := func(told ...Told) {
		t.Helper()
		var known []Told
		for _, one := range told {
			if one.Answer != triage.Unknown {
				known = append(known, one)
			}
		}
		answers, err := m.Answers(known)
		if err != nil {
			t.Fatal(err)
		}
		for _, model := range []*triage.Model{&sheet.Model, m.For(Technician)} {
			sum := 0.0
			for _, p := range model.Belief(answers) {
				sum += p
			}
			if math.Abs(sum-1) > 1e-9 {
				t.Fatalf("after %v the belief sums to %v", told, sum)
			}
		}
	}
	said := func(t Told) string { return t.Finding + "=" + t.Answer }
	for _, who := range Workers {
		answered(t, text, "", who)
		for i, one := range all {
			answered(t, text, said(one), who)
			whole(one)
			for _, two := range all[:i] {
				if two.Finding != one.Finding && random.IntN(len(all)*len(all)/2) < pairs {
					answered(t, text, said(one)+";"+said(two), who)
					whole(one, two)
				}
			}
		}
	}
}

// TestEveryAnswerAndPair of the wide model, and of the demo shop's each answer and some pairs.
func TestEveryAnswerAndPair(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	reckons(t, read(t, wide), random, 1<<30)
	reckons(t, demo(t), random, 60)
}

var (
	figure = regexp.MustCompile(`-?\d+(\.\d+)?`)
	word   = regexp.MustCompile(`[a-z]+(-[a-z]+)*`)
	// Numbers that somebody could mistype, and some that nobody would.
	odd = []string{"0", "1", "100", "99.9999999", "-5", "0.5", "1e-7", "1e-12", "1e12", "250", "33.333333333", "1,000", "1/3", "400"}
)

// edited changes a few things in a model: a number, a name, a line, a word in a list.
func edited(random *rand.Rand, text string) string {
	for range 1 + random.IntN(3) {
		switch random.IntN(6) {
		case 0, 1:
			text = swapped(random, text, figure, odd)
		case 2:
			text = swapped(random, text, word, word.FindAllString(text, -1))
		case 3: // a line taken out, or there once more
			lines := strings.SplitAfter(text, "\n")
			i := random.IntN(len(lines))
			lines[i] = strings.Repeat(lines[i], 2*random.IntN(2))
			text = strings.Join(lines, "")
		case 4: // a part of a list or mapping taken out
			parts := strings.Split(text, ", ")
			i := random.IntN(len(parts)-1) + 1
			text = strings.Join(append(parts[:i:i], parts[i+1:]...), ", ")
		case 5: // one unit in place of another
			text = swapped(random, text, regexp.MustCompile(`min|h\b|°C|K\b|mTorr|mbar·L/s|%`), []string{"min", "h", "°C", "K", "mTorr", "Pa", "mbar·L/s", "%", "s", "ppm"})
		}
	}
	return text
}

// swapped puts something in the place of one match.
func swapped(random *rand.Rand, text string, at *regexp.Regexp, by []string) string {
	found := at.FindAllStringIndex(text, -1)
	if len(found) == 0 || len(by) == 0 {
		return text
	}
	place := found[random.IntN(len(found))]
	return text[:place[0]] + by[random.IntN(len(by))] + text[place[1]:]
}

// TestWhatVerifyPassesCanBeReckonedWith: of random edits, those that verify passes are read by the calculators' reader and
// answer; all others are told with place and hint.
func TestWhatVerifyPassesCanBeReckonedWith(t *testing.T) {
	random := rand.New(rand.NewPCG(27, 11))
	passed, refused := 0, map[string]int{}
	for i := range 2000 {
		text := edited(random, wide)
		m, faults := readText(text)
		for _, f := range faults {
			refused[f.Rule]++
			if f.Rule == "" || f.Message == "" || f.Hint == "" || f.Span.File == nil {
				t.Fatalf("edit %d: %+v\n%s", i, f, text)
			}
		}
		if len(faults) > 0 {
			continue
		}
		if passed++; passed > 40 {
			if _, err := m.Text(); err != nil {
				t.Fatalf("edit %d: %v\n%s", i, err, text)
			}
			continue
		}
		reckons(t, m, random, 40)
		if t.Failed() {
			t.Fatalf("edit %d\n%s", i, text)
		}
	}
	t.Logf("%d passed; refused by %v", passed, refused)
	if passed < 150 || len(refused) < 9 {
		t.Errorf("%d edits passed, and only these rules spoke: %v", passed, refused)
	}
}
