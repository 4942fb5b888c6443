package fault

import (
	"slices"
	"strings"

	"blankoff/build/source"
)

// names looks up what the parts of the file say of each other.
func (r *reader) names() {
	m := r.model
	var causes, steps []string
	for _, c := range m.Causes {
		causes = append(causes, c.Name)
	}
	seen := map[string]bool{}
	for _, s := range m.Steps() {
		if seen[s.Name] {
			r.refuse("triage-name", s.NameSpan, source.Quote(s.Name)+" is the name of a test and of a repair", "give one of them another name")
		}
		seen[s.Name] = true
		steps = append(steps, s.Name)
	}
	for _, s := range m.Steps() {
		r.known(s.Tells, "finding", r.findingNames())
		r.known(s.Needs, "test or repair", steps)
		for _, c := range s.Cures {
			r.known([]Text{c.Cause}, "cause", causes)
		}
		for _, list := range [][]Text{s.Tells, s.Needs, s.Who} {
			r.once(list)
		}
	}
	for i, p := range m.Pairs {
		r.known(p.Causes, "cause", causes)
		if slices.ContainsFunc(m.Pairs[:i], func(q Pair) bool { return alikePair(p, q) }) {
			r.refuse("triage-name", p.Span, "this pair is there twice", "take one of the two out")
		}
	}
	for _, f := range m.Findings {
		r.from(f)
	}
	r.tools()
	r.titles()
}

// known refuses each name that is not in a list.
func (r *reader) known(list []Text, what string, names []string) {
	for _, t := range list {
		if !slices.Contains(names, t.Text) {
			r.refuse("triage-name", t.Span, "there is no "+what+" "+source.Quote(t.Text), r.meant(t.Text, names))
		}
	}
}

// once refuses a name that a list holds a second time: it would count twice.
func (r *reader) once(list []Text) {
	for i, t := range list {
		if slices.ContainsFunc(list[:i], func(other Text) bool { return other.Text == t.Text }) {
			r.refuse("triage-name", t.Span, source.Quote(t.Text)+" is named twice here", "take one of the two out")
		}
	}
}

// reserved refuses a name that means something else where people or pages answer.
func (r *reader) reserved(name string, at source.Span, what string, taken ...string) {
	if slices.Contains(taken, name) {
		r.refuse("triage-name", at, source.Quote(name)+" cannot be the name of "+what+": it has a meaning of its own where answers are given", "give it another name")
	}
}

func alikePair(p, q Pair) bool {
	a, b, c, d := p.Causes[0].Text, p.Causes[1].Text, q.Causes[0].Text, q.Causes[1].Text
	return a == c && b == d || a == d && b == c
}

// tools refuses two spellings of a tool that pages and requests cannot tell apart.
func (r *reader) tools() {
	first := map[string]Text{}
	for _, s := range r.model.Steps() {
		r.once(s.Tools)
		for _, tool := range s.Tools {
			name := strings.ToLower(Tool(tool.Text))
			if before, known := first[name]; known && before.Text != tool.Text {
				r.refuse("triage-name", tool.Span, source.Quote(tool.Text)+" and "+source.Quote(before.Text)+" are the same tool", "write it in one way")
			} else if !known {
				first[name] = tool
			}
		}
	}
}

// titles refuses two things that a reader could not tell apart.
func (r *reader) titles() {
	m := r.model
	var findings, calls, causes, steps []Text
	for _, f := range m.Findings {
		findings, calls = append(findings, f.Title), append(calls, f.Called)
	}
	groups := map[string]string{}
	for _, c := range m.Causes {
		causes = append(causes, c.Title)
		folded := strings.ToLower(c.Group.Text)
		if before, known := groups[folded]; known && before != c.Group.Text {
			r.refuse("triage-name", c.Group.Span, source.Quote(c.Group.Text)+" and "+source.Quote(before)+" would be two groups", "write it in one way")
		} else if !known {
			groups[folded] = c.Group.Text
		}
	}
	for _, s := range m.Steps() {
		steps = append(steps, s.Title)
	}
	for _, list := range [][]Text{findings, calls, causes, steps} {
		seen := map[string]bool{}
		for _, t := range list {
			said := strings.ToLower(strings.Join(strings.Fields(t.Text), " "))
			if seen[said] && said != "" {
				r.refuse("triage-name", t.Span, source.Quote(t.Text)+" is said of two, which a reader could not tell apart", "put it in other words")
			}
			seen[said] = true
		}
	}
}

// mostGuesses bounds the names for which a near one is looked for: each costs a look at all names.
const mostGuesses = 100

// meant offers what was probably meant by a name that is not known.
func (r *reader) meant(name string, known []string) string {
	if len(r.faults) > mostGuesses {
		return "mend what is told before it, then look again"
	}
	if hint := source.DidYouMean(name, known); hint != "" {
		return hint
	}
	return "there is none in this file yet: write it, or take the name out"
}
