package render

import (
	"strings"
	"testing"

	"blankoff/build/diagnostic"
	"blankoff/build/example"
	"blankoff/build/rules"
	"blankoff/build/source"
)

func shown(rows []RowView) string {
	var lines []string
	for _, r := range rows {
		line := r.Number + " " + string(r.HTML)
		if r.New {
			line += " +"
		}
		lines = append(lines, line)
	}
	return strings.Join(lines, "\n")
}

func TestSamples(t *testing.T) {
	bad := rules.File{Name: "pages/a.md", Text: "one\ntwo <b>\nthree\nfour\nfive\nsix\nseven\neight\n"}
	good := rules.File{Name: "pages/a.md", Text: "one\ntwo\nnew\nthree\nfour\nfive\nsix\nseven\neight\n"}
	file := &source.File{Path: bad.Name, Text: bad.Text}
	other := &source.File{Path: "pages/b.md", Text: bad.Text}
	found := []diagnostic.Diagnostic{
		diagnostic.NewError("r", file.Span(8, 15), "m", ""), diagnostic.NewError("r", file.Span(4, 9), "m", ""),
		diagnostic.NewError("r", other.Span(0, 3), "m", ""), diagnostic.NewError("r", file.Span(99, 99), "m", ""),
	}
	view := ruleExample(rules.Rule{Bad: []rules.File{bad}, Good: []rules.File{good}}, example.Outcome{Bad: found})
	same, named := rules.File{Name: "pages/c.md", Text: "same\n"}, rules.File{Name: "pages/b.md", Text: bad.Text}
	aside := ruleExample(rules.Rule{Bad: []rules.File{same, bad, named}, Good: []rules.File{good, same, named}}, example.Outcome{Bad: found})
	if len(aside.Bad) != 2 || len(aside.Good) != 2 || aside.Bad[1].Name != "pages/b.md" || aside.Good[0].Name != "pages/a.md" {
		t.Errorf("a file that is the same in both and that nothing is said of is shown: %+v", aside)
	}
	for _, c := range []struct{ what, got, want string }{
		{"what is wrong is marked, over lines too", shown(view.Bad[0].Rows), "1 one\n2 <mark>two &lt;b&gt;</mark>\n3 <mark>thr</mark>ee\n4 four\n5 five\n6 six\n7 seven\n8 eight"},
		{"what is new has its sign", shown(view.Good[0].Rows), "1 one\n2 two +\n3 new +\n4 three\n5 four\n6 five\n7 six\n8 seven\n9 eight"},
		{"in brief", shown(brief(view.Bad[0].Rows)), "1 one\n2 <mark>two &lt;b&gt;</mark>\n3 <mark>thr</mark>ee\n4 four\n5 five\n⋮ "},
		{"nothing marked: all of it", shown(brief(rowsOf("a\nb\n", nil, nil))), "1 a\n2 b"},
		{"without a bad file of its name", shown(rowsOf("a\n", nil, changed(good, nil))), "1 a"},
	} {
		if c.got != c.want {
			t.Errorf("%s: got\n%s\nwant\n%s", c.what, c.got, c.want)
		}
	}
}

// TestVerifysWordsAreWhole: parted for narrow screens, they are still all that verify says.
func TestVerifysWordsAreWhole(t *testing.T) {
	for _, rule := range rules.All() {
		for i, view := range told(outcomeOf(rule).Bad) {
			whole := view.Head + "\n" + view.Excerpt
			for _, hint := range view.Hints {
				whole += "      = " + hint + "\n"
			}
			if want := diagnostic.Text(outcomeOf(rule).Bad[i], diagnostic.Style{Width: toldWidth}); whole != want {
				t.Errorf("%s: got\n%s\nwant\n%s", rule.Name, whole, want)
			}
		}
	}
}

// BenchmarkRulePages is what the pages about rules cost a publish, the examples checked anew each time.
func BenchmarkRulePages(b *testing.B) {
	for b.Loop() {
		outcomes.Clear()
		for _, rule := range rules.All() {
			ruleExample(rule, outcomeOf(rule))
			ruleText(rule.Text)
		}
	}
}
