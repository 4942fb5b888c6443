package guide

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/yuin/goldmark/ast"

	"blankoff/build/source"
	"blankoff/calc/quantity"
)

var update = flag.Bool("update", false, "write the golden files anew")

const head = "---\ntitle: T\nreader: shop\n---\n"

func parse(text string) (*Guide, []source.Fault) {
	return Parse(&source.File{Name: "content/procedures/x.md", Path: "procedures/x.md", Text: text}, Procedure)
}

// outline writes the tree with one node a line: what it is and the text that it stands for.
func outline(g *Guide) string {
	var b strings.Builder
	level := 0
	_ = ast.Walk(g.Doc, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering {
			level--
			return ast.WalkContinue, nil
		}
		fmt.Fprintf(&b, "%s%s%s\n", strings.Repeat("  ", level), n.Kind(), told(g, n))
		level++
		return ast.WalkContinue, nil
	})
	return b.String()
}

func told(g *Guide, n ast.Node) string {
	switch n := n.(type) {
	case *ast.Text:
		return fmt.Sprintf(" %q", n.Value(g.Source))
	case *Step:
		return fmt.Sprintf(" %d %q", n.Number, n.Span.Text())
	case *Action:
		return fmt.Sprintf(" %q", n.Span.Text())
	case *Expect:
		return fmt.Sprintf(" %q", n.Span.Text())
	case *IfNot:
		return fmt.Sprintf(" %q", n.Span.Text())
	case *HazardRef:
		return fmt.Sprintf(" %s=%s %q late=%v", n.Name, n.NameSpan.Text(), n.SaidSpan.Text(), n.Late)
	case *StopRef:
		return fmt.Sprintf(" %s=%s %q", n.Name, n.NameSpan.Text(), n.SaidSpan.Text())
	case *CalculatorBlock:
		return fmt.Sprintf(" c%d %s=%s%s", n.Index, n.ID, n.IDSpan.Text(), presets(n.Presets))
	case *Fact:
		return fmt.Sprintf(" %q %s", n.SaidSpan.Text(), factParts(n))
	case *Quantity:
		return fmt.Sprintf(" %q at %q: %s", n.Said, n.Span.Text(), markParts(n))
	case *ast.Heading:
		id, _ := n.AttributeString("id")
		return fmt.Sprintf(" %d #%s", n.Level, id)
	}
	return ""
}

func markParts(n *Quantity) string {
	said := []string{"value", "range", "list", "tolerance", "thread", "count"}[n.Mark.Form]
	if n.Mark.Kind != quantity.None {
		said += " of " + n.Mark.Kind.Name()
	}
	for _, number := range n.Mark.Numbers {
		said += fmt.Sprintf(" %q=%.6g", n.Said[number.From:number.To], number.SI)
	}
	return said
}

func factParts(n *Fact) string {
	if n.Spec != nil {
		return fmt.Sprintf("machine=%q name=%q at %q", n.Spec.Machine, n.Spec.Name, n.Spec.Span.Text())
	}
	return fmt.Sprintf("%s=%s out=%s=%s%s", n.Calc.ID, n.Calc.IDSpan.Text(), n.Calc.Out, n.Calc.OutSpan.Text(), presets(n.Calc.Inputs))
}

// presets writes each input twice, as read and as it stands at its place.
func presets(list []Preset) string {
	var b strings.Builder
	for _, p := range list {
		fmt.Fprintf(&b, " [%s=%s: %q=%q", p.Name, p.NameSpan.Text(), p.Text, strings.TrimSpace(p.Span.Text()))
		if p.Spec != nil {
			fmt.Fprintf(&b, " spec %s/%s", p.Spec.Machine, p.Spec.Name)
		}
		b.WriteString("]")
	}
	return b.String()
}

// TestTrees compares the tree of each page in testdata with the outline beside it.
func TestTrees(t *testing.T) {
	pages, _ := filepath.Glob("testdata/*.md")
	if len(pages) == 0 {
		t.Fatal("no pages in testdata")
	}
	for _, name := range pages {
		t.Run(filepath.Base(name), func(t *testing.T) {
			text, err := os.ReadFile(name)
			if err != nil {
				t.Fatal(err)
			}
			for _, ends := range []string{"\n", "\r\n"} { // line ends must change neither tree nor places
				g, faults := parse(strings.ReplaceAll(string(text), "\n", ends))
				got := strings.ReplaceAll(outline(g), `\r`, "")
				for _, f := range faults {
					p := f.Span.Position()
					got += fmt.Sprintf("%d:%d: %s: %s = %s\n", p.Line, p.Column, f.Rule, f.Message, f.Hint)
				}
				for _, d := range g.Doubts {
					got += fmt.Sprintf("doubt %q: %s = %s\n", d.Span.Text(), d.Message, d.Hint)
				}
				golden(t, strings.TrimSuffix(name, ".md")+".tree", got)
			}
		})
	}
}

func golden(t *testing.T, name, got string) {
	t.Helper()
	if *update {
		if err := os.WriteFile(name, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("%s differs (look at it, then -update):\n%s", name, firstDifference(got, string(want)))
	}
}

func firstDifference(got, want string) string {
	a, b := strings.Split(got, "\n"), strings.Split(want, "\n")
	for i := range max(len(a), len(b)) {
		switch {
		case i >= len(a):
			return fmt.Sprintf("line %d is missing: %s", i+1, b[i])
		case i >= len(b):
			return fmt.Sprintf("line %d is too much: %s", i+1, a[i])
		case a[i] != b[i]:
			return fmt.Sprintf("line %d\n got %s\nwant %s", i+1, a[i], b[i])
		}
	}
	return ""
}

func TestHeader(t *testing.T) {
	g, faults := parse("---\ntitle: Rise ± test\nreader: technician\nmachines: [a, b]\ntime: 40 min\npeople: one\n" +
		"does: [evacuates]\ntools: [gauge]\nsupplies: [wipes]\nspares: [seal]\nrevision: 3\napprover: lead\nreview: 2027-06-01\n---\nOne *line*\nof [text](x.md).\n\nMore.\n\n## Before you start\n\nx\n")
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	for _, c := range []struct{ what, got, want string }{
		{"title", g.Title.Text, "Rise ± test"}, {"its place", g.Title.Span.Text(), "Rise ± test"},
		{"reader", g.Reader.Text, "technician"}, {"machines", g.Machines[1].Text, "b"}, {"place of a machine", g.Machines[1].Span.Text(), "b"},
		{"time", g.Time.Text, "40 min"}, {"people", g.People.Text, "one"}, {"does", g.Does[0].Text, "evacuates"}, {"tools", g.Tools[0].Text, "gauge"},
		{"supplies", g.Supplies[0].Text, "wipes"}, {"spares", g.Spares[0].Text, "seal"}, {"revision", g.Revision.Text, "3"},
		{"approver", g.Approver.Text, "lead"}, {"review", g.Review.Text, "2027-06-01"},
		{"summary", g.SummaryText(), "One line of text. More."}, {"path", g.Path(), "procedures/x"},
		{"section", g.Section("before-you-start").Title, "Before you start"},
		{"place of what is missing in the header", fmt.Sprint(g.Header.Span.Position()), "{1 1}"},
	} {
		if c.got != c.want {
			t.Errorf("%s: %q, want %q", c.what, c.got, c.want)
		}
	}
}

func TestAnchors(t *testing.T) {
	g, _ := parse(head + "## Über Ice & Oil!\n\n## Notes\n\n## Notes\n\n## Step 3\n\n## ?\n\n## Steps\n\n1. a\n2. b\n\ntext\n\n3. c\n\n## Checks\n\n1. d\n")
	want := "über-ice-oil notes notes-2 section-step-3 section steps checks step-1 step-2 step-3 step-4"
	if got := strings.Join(g.Anchors(), " "); got != want {
		t.Errorf("\n got %s\nwant %s", got, want)
	}
}

func TestLinks(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"inline", "see [valve check](valve.md#step-3) now", `"valve check" -> valve.md#step-3 at "valve.md#step-3"`},
		{"in angle brackets with a title", "[a](<b c.md> \"title\")", `"a" -> b c.md at "b c.md"`},
		{"by reference", "[a][r]\n\n[r]: b.md", `"a" -> b.md at "[a]"`},
		{"emphasis at the end of the text", "[a **b**](c.md)", `"a b" -> c.md at "c.md"`},
		{"code at the end of the text", "[a `b`](c.md)", `"a b" -> c.md at "c.md"`},
		{"a bracket in the text", `[a \] b](c.md)`, `"a ] b" -> c.md at "c.md"`},
		{"nothing in it", "[]()", `"" ->  at "[]()"`},
		{"picture", "![the valve](../pictures/v.svg)", `"the valve" -> ../pictures/v.svg at "../pictures/v.svg" picture`},
		{"picture in a link", "[![v](v.svg)](c.md)", `"v" -> c.md at "c.md" | "v" -> v.svg at "v.svg" picture`},
		{"written out", "<https://example.org/x>", `"https://example.org/x" -> https://example.org/x at "<https://example.org/x>"`},
		{"mail", "<a@example.org>", `"mailto:a@example.org" -> mailto:a@example.org at "<a@example.org>"`},
		{"a page named as a scheme", "[a](spec) [b](hazard)", `"a" -> spec at "spec" | "b" -> hazard at "hazard"`},
		{"hidden scheme", "[a](javascript&#58;alert)", `"a" -> javascript:alert at "javascript&#58;alert"`},
		{"letters of two bytes before", "± Ω [ä](b.md)", `"ä" -> b.md at "b.md"`},
	} {
		t.Run(c.name, func(t *testing.T) {
			g, _ := parse(head + c.text + "\n")
			var got []string
			for _, l := range g.Links {
				said := fmt.Sprintf("%q -> %s at %q", l.Text, l.Target, l.Span.Text())
				if l.Picture {
					said += " picture"
				}
				got = append(got, said)
			}
			if strings.Join(got, " | ") != c.want {
				t.Errorf("\n got %s\nwant %s", strings.Join(got, " | "), c.want)
			}
		})
	}
}

func TestFaults(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"hazard in a sentence", head + "Mind: [WARNING: x](hazard:pane).", `5:7: hazard-place: a hazard link must stand alone in its paragraph`},
		{"stop in a sentence", head + "Then [STOP: x](stop:mains) go on.", `5:6: stop-place: a stop link must stand alone in its paragraph or end an ` + "`If not:` line"},
		{"hazard in an If not line", head + "## Steps\n\n1. a\n   - If not: b. [WARNING: x](hazard:pane)", `8:17: hazard-place: a hazard link must stand alone in its paragraph`},
		{"steps without a list", head + "## Steps\n\n- a\n", `5:4: steps: the section "Steps" has no numbered list`},
		{"calculator without a name", head + "```calculator\n```\n", "5:4: calculator-block: a calculator block needs the name of one calculator"},
		{"calculator with two names", head + "```calculator a b\n```\n", "5:4: calculator-block: a calculator block needs the name of one calculator"},
		{"list as a preset", head + "```calculator a\nx: [1]\n```\n", `6:4: calculator-block: the input "x" holds a list, not a text`},
		{"broken presets in a step", head + "## Steps\n\n1. ä\n   ```calculator a\n   x: y: z\n   ```\n", `9:7: yaml: this YAML cannot be read: mapping value is not allowed in this context`},
		{"preset written twice", head + "```calculator a\nx: 1\nx: 2\n```\n", `7:1: duplicate-key: the key "x" is written twice`},
		{"no header", "hello", `1:1: header: the file does not start with a header`},
		{"empty file", "", `1:1: header: the file does not start with a header`},
		{"too many quotes", head + strings.Repeat("> ", 30) + "x", `5:1: depth: this line opens too many lists or quotes inside each other`},
		{"too many quotes without space", head + strings.Repeat(">", 5000) + "x", `5:1: depth: this line opens too many lists or quotes inside each other`},
		{"a line without end", head + strings.Repeat("word ", 3000), `5:1: long-line: this line has 15000 bytes; 10000 is the most`},
		{"too many lists", head + strings.Repeat("1. ", 1000) + "x", `5:1: depth: this line opens too many lists or quotes inside each other`},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, faults := parse(c.text)
			var got []string
			for _, f := range faults {
				p := f.Span.Position()
				got = append(got, fmt.Sprintf("%d:%d: %s: %s", p.Line, p.Column, f.Rule, f.Message))
			}
			if strings.Join(got, " | ") != c.want {
				t.Errorf("\n got %s\nwant %s", strings.Join(got, " | "), c.want)
			}
		})
	}
}

// TestHostileSizes: large nonsense must end, and leave every place inside the file.
func TestHostileSizes(t *testing.T) {
	const n = 20000
	for _, c := range []struct{ name, text string }{
		{"open brackets", strings.Repeat("[", n)},
		{"links without end", strings.Repeat("[a](spec:", n)},
		{"emphasis", strings.Repeat("*a_", n)},
		{"one long line", strings.Repeat("word ", 10*n)},
		{"many facts", strings.Repeat("[1 L](spec:a) ", n/4)},
		{"rules", strings.Repeat("- ", n)},
		{"code marks", strings.Repeat("`", n) + "x"},
		{"tables", "|a" + strings.Repeat("|b", n/4) + "|\n" + strings.Repeat("|-", n/4) + "|\n"},
		{"many steps", "## Steps\n\n" + strings.Repeat("1. a\n   - Expect: b\n   - If not: c\n", n/4)},
	} {
		t.Run(c.name, func(t *testing.T) {
			g, _ := parse(head + c.text)
			everyPlace(t, g)
			g, _ = parse(head + c.text[:min(len(c.text), longest-1)])
			everyPlace(t, g)
		})
	}
}

// everyPlace checks that all places lie inside the file and that facts can be read back.
func everyPlace(t *testing.T, g *Guide) {
	t.Helper()
	inside := func(s source.Span) {
		if s.File != g.File || s.Start < 0 || s.Len < 0 || s.End() > len(g.File.Text) {
			t.Fatalf("a place outside the file: %d+%d of %d", s.Start, s.Len, len(g.File.Text))
		}
	}
	for _, f := range g.Facts {
		inside(f.Span)
		inside(f.SaidSpan)
		for _, c := range []*CalcRef{f.Calc} {
			if c == nil {
				continue
			}
			inside(c.IDSpan)
			for _, p := range c.Inputs {
				inside(p.NameSpan)
				inside(p.Span)
			}
		}
	}
	for _, q := range g.Quantities {
		inside(q.Span)
		if q.Span.Len == 0 || q.Mark.To != len(q.Said) || !q.HasChildren() {
			t.Fatalf("not a quantity of the text: %q at %q, %+v", q.Said, q.Span.Text(), q.Mark)
		}
	}
	for _, d := range g.Doubts {
		inside(d.Span)
	}
	for _, l := range g.Links {
		inside(l.Span)
		inside(l.TextSpan)
	}
	for _, h := range g.HazardRefs {
		inside(h.NameSpan)
		inside(h.SaidSpan)
	}
	for _, h := range g.StopRefs {
		inside(h.NameSpan)
	}
	for _, c := range g.Calculators {
		inside(c.IDSpan)
	}
	for _, s := range g.Steps {
		inside(s.Span)
	}
	for _, h := range g.Headings {
		inside(h.Span)
	}
	for _, s := range g.RawHTML {
		inside(s)
	}
}

func FuzzParse(f *testing.F) {
	for _, pattern := range []string{"../../content/*/*.md", "testdata/*.md"} {
		names, _ := filepath.Glob(pattern)
		for _, name := range names {
			text, err := os.ReadFile(name)
			if err != nil {
				f.Fatal(err)
			}
			f.Add(string(text))
		}
	}
	for _, s := range []string{"", "---\n---\n", head + "[a](spec:b)[c](<calc:d?e=f&out=g>)", head + "## Steps\n\n1. [WARNING: a](hazard:b)\n\n   c\n   - Expect: d\n   - If not: [STOP](stop:e)."} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		g, faults := parse(text)
		everyPlace(t, g)
		for _, fault := range faults {
			if fault.Message == "" || fault.Rule == "" || fault.Span.End() > len(text) {
				t.Fatalf("not a usable fault: %+v", fault)
			}
		}
		for i, step := range g.Steps {
			if step.Number != i+1 {
				t.Fatalf("step %d is numbered %d", i+1, step.Number)
			}
		}
	})
}
