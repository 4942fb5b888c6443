package fault

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"blankoff/build/source"
	"blankoff/calc/triage"
)

// many writes a line for each number.
func many(n int, line func(i int) string) string {
	var b strings.Builder
	for i := range n {
		b.WriteString(line(i))
	}
	return b.String()
}

// TestSize: what is at a bound of the calculators is read by them, what is one above it is told at its place. The bounds
// stand in package triage alone.
func TestSize(t *testing.T) {
	// Of the good model: 4 findings, 3 causes and 1 pair, 3 tests that end in 2 + 3 + 3 ways, 3 repairs, 1 tool.
	for _, c := range []struct {
		name, before string // the lines go before this
		line         func(i int) string
		fit          int // so many lines fit
		says         string
		where        string // what stands at the place
	}{
		{"findings", "causes:\n", func(i int) string {
			return fmt.Sprintf("  f%d: {ask: Question %d?, usual: {yes: 1 %%, no: 99 %%}}\n", i, i)
		}, triage.MaxFindings - 4, "there are 65 findings; a phone weighs 64", "f60"},
		{"causes", "pairs:\n", func(i int) string {
			return fmt.Sprintf("  c%d: {title: Cause %d, group: door, weight: 1, shows: {hiss: %d.%d %%}}\n", i, i, 4+i/10, i%10)
		}, triage.MaxHypotheses - 1 - 4, "there are 200 causes and pairs; a phone weighs 199", "{"},
		{"repairs", "  dry: {title", func(i int) string {
			return fmt.Sprintf("  r%d: {title: Repair %d, do: Do it., time: 5 min, who: [technician], cures: {seal: 5 %%}}\n", i, i)
		}, triage.MaxSteps - 6, "there are 129 tests and repairs; a phone weighs 128", "call"},
		{"tools", "  dry: {title", func(i int) string {
			return fmt.Sprintf("  r%d: {title: Repair %d, do: Do it., time: 5 min, tools: [tool %d], who: [technician], cures: {seal: 5 %%}}\n", i, i, i)
		}, triage.MaxTools - 1, "there are 65 tools; a phone weighs 64", "tool 63"},
		{"needs", "  dry: {title", func(i int) string {
			return fmt.Sprintf("  r%d: {title: Repair %d, do: Do it., time: 1 min, needs: [%s], who: [technician], cures: {seal: 5 %%}}\n", i, i, []string{"listen", fmt.Sprintf("r%d", i-1)}[min(i, 1)])
		}, triage.MaxNeeds - 1, `too many steps stand before "r63"; a phone weighs 64`, "r63"},
		{"ways", "repairs:\n", func(i int) string {
			return fmt.Sprintf("  t%d: {title: Test %d, guide: pages/x, time: 5 min, who: [technician], tells: [shape, trap]}\n", i, i)
		}, (triage.MaxLooks - 8 - 3) / 9, "from here on all tests together can end in more ways; a phone weighs 400", "t43"},
	} {
		t.Run(c.name, func(t *testing.T) {
			write := func(n int) string { return strings.Replace(good, c.before, many(n, c.line)+c.before, 1) }
			text := write(c.fit)
			if c.name == "findings" { // each is told by a test and changed by a cause
				write = func(n int) string {
					text := strings.Replace(good, c.before, many(n, c.line)+c.before, 1)
					text = strings.Replace(text, "{hiss: 40 %", "{"+many(n, func(i int) string { return fmt.Sprintf("f%d: 50 %%, ", i) })+"hiss: 40 %", 1)
					return strings.Replace(text, "repairs:\n", many(n, func(i int) string {
						return fmt.Sprintf("  t%d: {title: Test %d, guide: pages/x, time: 5 min, who: [technician], tells: [f%d]}\n", i, i, i)
					})+"repairs:\n", 1)
				}
				text = write(c.fit)
			}
			if c.name == "causes" {
				cured := write
				write = func(n int) string {
					return strings.Replace(cured(n), "cures: {seal: 95 %", "cures: {"+many(n, func(i int) string { return fmt.Sprintf("c%d: 90 %%, ", i) })+"seal: 95 %", 1)
				}
				text = write(c.fit)
			}
			if sheet, err := read(t, text).Text(); err != nil {
				t.Errorf("at the bound: %v\n%s", err, sheet)
			}
			_, faults := readText(write(c.fit + 1))
			if len(faults) != 1 || faults[0].Rule != "triage-size" || !strings.HasPrefix(faults[0].Message, c.says) || faults[0].Hint == "" {
				t.Fatalf("%+v", faults)
			}
			if span := faults[0].Span; span.File.Text[span.Start:span.End()] != c.where {
				t.Errorf("told at %q, want %q", span.File.Text[span.Start:span.End()], c.where)
			}
		})
	}
}

// TestSizeOfOneTest: five findings of two answers, and more, told by one test.
func TestSizeOfOneTest(t *testing.T) {
	write := func(n int) string {
		text := strings.Replace(good, "causes:\n", many(n, func(i int) string {
			return fmt.Sprintf("  f%d: {ask: Question %d?, usual: {yes: 1 %%, no: 99 %%}}\n", i, i)
		})+"causes:\n", 1)
		text = strings.Replace(text, "{hiss: 40 %", "{"+many(n, func(i int) string { return fmt.Sprintf("f%d: 50 %%, ", i) })+"hiss: 40 %", 1)
		return strings.Replace(text, "tells: [hiss]", "tells: ["+many(n, func(i int) string { return fmt.Sprintf("f%d, ", i) })+"hiss]", 1)
	}
	read(t, write(5))
	_, faults := readText(write(6))
	if len(faults) != 1 || faults[0].Rule != "triage-size" || !strings.Contains(faults[0].Message, `from here on the test "listen" can end in more ways`) {
		t.Errorf("%+v", faults)
	}
	nine := strings.Replace(good, "{straight: 4 %, bending: 4 %, within: 92 %}", "{a: 1 %, b: 1 %, c: 1 %, d: 1 %, e: 1 %, f: 1 %, g: 1 %, h: 1 %, i: 92 %}", 1)
	if _, faults := readText(nine); !slices.ContainsFunc(faults, func(f source.Fault) bool {
		return f.Rule == "triage-size" && strings.Contains(f.Message, "more than 8 answers")
	}) {
		t.Errorf("%+v", faults)
	}
}

// TestAnswersOfNobody: an answer that no cause gives looks like knowledge and is none.
func TestAnswersOfNobody(t *testing.T) {
	text := strings.Replace(good, "usual: {yes: 3 %, no: 97 %}", "usual: {yes: 3 %, no: 97 %, perhaps: 0 %}", 1)
	text = strings.Replace(text, "hiss: 40 %", "hiss: {yes: 40 %, no: 60 %}", 1)
	_, faults := readText(text)
	if len(faults) != 1 || faults[0].Rule != "triage-reach" || faults[0].Message != `whatever the cause, "hiss" is never answered with "perhaps"` {
		t.Errorf("%+v", faults)
	}
}

// TestTheReaderHasTheLastWord: what only the calculators' reader refuses is told at the place of its line.
func TestTheReaderHasTheLastWord(t *testing.T) {
	model, faults := readText(strings.Replace(good, "title: Water left", "title: \"\u00a0\"", 1))
	if len(faults) != 1 || faults[0].Rule != "triage-size" || !strings.Contains(faults[0].Message, "something has no name") || model.Usable() {
		t.Fatalf("%+v", faults)
	}
	if span := faults[0].Span; span.File.Text[span.Start:span.End()] != "water" {
		t.Errorf("told at %q", span.File.Text[span.Start:span.End()])
	}
}
