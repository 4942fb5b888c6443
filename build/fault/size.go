package fault

import (
	"fmt"

	"blankoff/build/source"
	"blankoff/calc/triage"
)

// size holds the model against what a plan on a phone can weigh in the time that a reader waits.
func (r *reader) size() {
	m := r.model
	over := func(at source.Span, what, hint string, most int) {
		r.refuse("triage-size", at, fmt.Sprintf("%s; a phone weighs %d", what, most), hint)
	}
	if most := triage.MaxFindings; len(m.Findings) > most {
		over(m.Findings[most].NameSpan, fmt.Sprintf("there are %d findings", len(m.Findings)), "take out those that hardly any cause changes", most)
	}
	if most, n := triage.MaxHypotheses-1, len(m.Causes)+len(m.Pairs); n > most {
		at := m.Causes[min(most, len(m.Causes)-1)].NameSpan
		if most >= len(m.Causes) {
			at = m.Pairs[most-len(m.Causes)].Span
		}
		over(at, fmt.Sprintf("there are %d causes and pairs", n), "put rare ones together", most)
	}
	if steps, most := m.Steps(), triage.MaxSteps; len(steps) > most {
		over(steps[most].NameSpan, fmt.Sprintf("there are %d tests and repairs", len(steps)), "put those together that are always done together", most)
	}
	if most, n := triage.MaxTools, len(m.Tools()); n > most {
		over(r.lastTool(), fmt.Sprintf("there are %d tools", n), "leave out what everybody has", most)
	}
	r.ways(over)
	r.before(over)
}

// lastTool is where the first tool beyond the bound is named.
func (r *reader) lastTool() source.Span {
	seen := map[string]bool{}
	for _, s := range r.model.Steps() {
		for _, tool := range s.Tools {
			if seen[tool.Text] = true; len(seen) > triage.MaxTools {
				return tool.Span
			}
		}
	}
	return r.model.File.Whole()
}

// ways counts in how many ways tests can end.
func (r *reader) ways(over func(at source.Span, what, hint string, most int)) {
	m := r.model
	all := len(m.Repairs) // each is looked at once
	for _, s := range m.Tests {
		n := 1
		for _, tell := range s.Tells {
			if f := m.Finding(tell.Text); !m.refines(f, s) {
				n *= max(len(f.Answers), len(f.Cuts)+1)
			}
			if n > triage.MaxBranches {
				over(tell.Span, "from here on the test "+source.Quote(s.Name)+" can end in more ways", "let it tell less, or part it into two tests", triage.MaxBranches)
				return
			}
		}
		if all <= triage.MaxLooks && all+n > triage.MaxLooks {
			over(s.NameSpan, "from here on all tests together can end in more ways", "take out answers and cuts after which the same would be done", triage.MaxLooks)
		}
		all += n
	}
}

// before counts what must be done up to each step; a step counts as often as it is needed.
func (r *reader) before(over func(at source.Span, what, hint string, most int)) {
	count := map[string]int{}
	var upTo func(s *Step) int
	upTo = func(s *Step) int {
		if n, known := count[s.Name]; known {
			return n
		}
		n := 1
		for _, need := range s.Needs {
			n = min(n+upTo(r.model.Step(need.Text)), triage.MaxNeeds+1)
		}
		count[s.Name] = n
		return n
	}
	for _, s := range r.model.Steps() {
		if upTo(s) > triage.MaxNeeds {
			over(s.NameSpan, "too many steps stand before "+source.Quote(s.Name), "let it need only the last of them", triage.MaxNeeds)
			return
		}
	}
}
