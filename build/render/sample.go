package render

import (
	"cmp"
	"html/template"
	"slices"
	"strconv"
	"strings"

	"blankoff/build/diagnostic"
	"blankoff/build/example"
	"blankoff/build/rules"
)

// toldWidth is how much of a source line a phone shows beside its number.
const toldWidth = 34

// ruleExample shows both examples of a rule and what is said of them; of their files only those that matter.
func ruleExample(rule rules.Rule, outcome example.Outcome) RuleExampleView {
	var view RuleExampleView
	aside := func(file rules.File, other []rules.File) bool { // needed, but neither wrong nor changed
		return slices.Contains(other, file) && len(faulty(file, outcome.Bad)) == 0
	}
	for _, file := range rule.Bad {
		if aside(file, rule.Good) {
			continue
		}
		view.Bad = append(view.Bad, SampleView{Name: file.Name, Rows: rowsOf(file.Text, faulty(file, outcome.Bad), nil)})
	}
	for _, file := range rule.Good {
		if aside(file, rule.Bad) {
			continue
		}
		view.Good = append(view.Good, SampleView{Name: file.Name, Rows: rowsOf(file.Text, nil, changed(file, rule.Bad))})
	}
	view.Told = told(outcome.Bad)
	view.ToldOfGood = told(outcome.Good)
	return view
}

// told parts the words of verify so that a narrow page can break them where they may break.
func told(list []diagnostic.Diagnostic) []ToldView {
	var views []ToldView
	for _, d := range list {
		lines := strings.Split(strings.TrimRight(diagnostic.Text(d, diagnostic.Style{Width: toldWidth}), "\n"), "\n")
		view := ToldView{Head: lines[0]}
		for _, line := range lines[1:] {
			if hint, is := strings.CutPrefix(line, "      = "); is {
				view.Hints = append(view.Hints, hint)
			} else {
				view.Excerpt += line + "\n"
			}
		}
		views = append(views, view)
	}
	return views
}

// stretch is a part of a text, in bytes.
type stretch struct{ from, to int }

// faulty are the parts of a file that something is said of, in order and apart from each other.
func faulty(file rules.File, found []diagnostic.Diagnostic) []stretch {
	var list []stretch
	for _, d := range found {
		if d.Span.File != nil && d.Span.File.Path == file.Name && d.Span.Len > 0 {
			list = append(list, stretch{d.Span.Start, min(d.Span.End(), len(file.Text))})
		}
	}
	slices.SortFunc(list, func(a, b stretch) int { return cmp.Or(cmp.Compare(a.from, b.from), cmp.Compare(a.to, b.to)) })
	var apart []stretch
	for _, s := range list {
		if last := len(apart) - 1; last >= 0 && s.from <= apart[last].to {
			apart[last].to = max(apart[last].to, s.to)
			continue
		}
		apart = append(apart, s)
	}
	return apart
}

// changed tells which lines of a good file are other than in the bad file of the same name.
func changed(file rules.File, bad []rules.File) func(line int) bool {
	i := slices.IndexFunc(bad, func(b rules.File) bool { return b.Name == file.Name })
	if i < 0 {
		return nil
	}
	now, old := strings.SplitAfter(file.Text, "\n"), strings.SplitAfter(bad[i].Text, "\n")
	start := 0
	for start < min(len(now), len(old)) && now[start] == old[start] {
		start++
	}
	end := 0
	for end < min(len(now), len(old))-start && now[len(now)-1-end] == old[len(old)-1-end] {
		end++
	}
	return func(line int) bool { return line >= start && line < len(now)-end }
}

// rowsOf writes a file line by line, with what is marked in it.
func rowsOf(text string, marked []stretch, isNew func(int) bool) []RowView {
	var rows []RowView
	at := 0
	for line := range strings.Lines(text) {
		words := strings.TrimSuffix(line, "\n")
		html, wrong := row(words, at, marked)
		rows = append(rows, RowView{Number: strconv.Itoa(len(rows) + 1), HTML: html, Wrong: wrong, New: isNew != nil && isNew(len(rows))})
		at += len(line)
	}
	return rows
}

// around is how many lines an excerpt shows on both sides of what it is about.
const around = 2

// brief leaves out the lines that an example is not about. One that marks nothing is about all of its lines.
func brief(rows []RowView) []RowView {
	telling := func(r RowView) bool { return r.Wrong || r.New }
	if !slices.ContainsFunc(rows, telling) {
		return rows
	}
	var kept []RowView
	for i, r := range rows {
		switch {
		case slices.ContainsFunc(rows[max(i-around, 0):min(i+around+1, len(rows))], telling):
			kept = append(kept, r)
		case len(kept) == 0 || kept[len(kept)-1].Number != leftOut:
			kept = append(kept, RowView{Number: leftOut})
		}
	}
	return kept
}

// leftOut stands in place of the number where lines are left out.
const leftOut = "⋮"

// row writes one line, which starts at an offset of its file, and tells whether something is marked in it.
func row(words string, offset int, marked []stretch) (html template.HTML, wrong bool) {
	var b strings.Builder
	done := 0
	for _, s := range marked {
		from, to := max(s.from-offset, done), min(s.to-offset, len(words))
		if from >= to {
			continue
		}
		b.WriteString(template.HTMLEscapeString(words[done:from]) + "<mark>" + template.HTMLEscapeString(words[from:to]) + "</mark>")
		done, wrong = to, true
	}
	b.WriteString(template.HTMLEscapeString(words[done:]))
	return template.HTML(b.String()), wrong
}
