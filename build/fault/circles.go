package fault

import (
	"slices"

	"blankoff/build/source"
)

// circles refuses steps that need themselves, and findings that count only beside themselves, on whatever way round.
func (r *reader) circles() {
	r.guardCircles()
	state := map[string]int{} // 1 on the way, 2 done
	var visit func(s *Step) bool
	visit = func(s *Step) bool {
		if state[s.Name] > 0 {
			return state[s.Name] == 2
		}
		state[s.Name] = 1
		for _, need := range s.Needs {
			if !visit(r.model.Step(need.Text)) {
				r.refuse("triage-reach", need.Span, source.Quote(s.Name)+" needs "+source.Quote(need.Text)+", which in the end needs "+source.Quote(s.Name), "take one of the needs out")
				state[s.Name] = 2
				return true // told once
			}
		}
		state[s.Name] = 2
		return true
	}
	for _, s := range r.model.Steps() {
		visit(s)
	}
}

// guardCircles: of findings that wait for each other none would ever count.
func (r *reader) guardCircles() {
	for _, f := range r.model.Findings {
		seen := map[string]bool{}
		var waits func(other *Finding) bool
		waits = func(other *Finding) bool {
			return slices.ContainsFunc(other.When, func(g Guard) bool {
				name := g.Finding.Text
				if name == f.Name || seen[name] {
					return name == f.Name
				}
				seen[name] = true
				return waits(r.model.Finding(name))
			})
		}
		if waits(f) {
			on := f.When[0].Finding
			r.refuse("triage-reach", on.Span, source.Quote(f.Name)+" counts only beside "+source.Quote(on.Text)+", which in the end counts only beside "+source.Quote(f.Name), "take one of the lines `when:` out")
			return
		}
	}
}
