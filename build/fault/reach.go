package fault

import (
	"math"
	"slices"

	"blankoff/build/source"
)

// reach asks that everything in the file can come into play.
func (r *reader) reach() {
	if len(r.faults) > 0 {
		return
	}
	for _, key := range []struct {
		what string
		n    int
	}{{"finding", len(r.model.Findings)}, {"cause", len(r.model.Causes)}, {"test", len(r.model.Tests)}, {"repair", len(r.model.Repairs)}, {"reader under hand-over", len(r.model.HandOver)}} {
		if key.n == 0 {
			r.refuse("triage-reach", r.model.File.Whole(), "triage.yaml has no "+key.what, "a plan needs one or more; take the file away if there is nothing to plan")
		}
	}
	if r.circles(); len(r.faults) > 0 {
		return
	}
	for _, f := range r.model.Findings {
		r.findingReached(f)
	}
	for i, c := range r.model.Causes {
		r.causeReached(i, c)
	}
	for _, s := range r.model.Tests {
		if len(s.Tells) == 0 {
			r.refuse("triage-reach", s.NameSpan, "the test "+source.Quote(s.Name)+" tells nothing", "write what it finds out: `tells: [FINDING]`")
		}
	}
	for _, s := range r.model.Repairs {
		if len(s.Cures) == 0 {
			r.refuse("triage-reach", s.NameSpan, "the repair "+source.Quote(s.Name)+" cures nothing", "write what it ends: `cures: {CAUSE: 90 %}`")
		}
	}
	for _, s := range r.model.Steps() {
		r.workersReach(s)
	}
}

func (r *reader) findingReached(f *Finding) {
	m := r.model
	if !slices.ContainsFunc(m.Tests, func(s *Step) bool { return tells(s, f.Name) }) {
		r.refuse("triage-reach", f.NameSpan, "no test tells the finding "+source.Quote(f.Name), "add it to `tells:` of a test")
	}
	if !slices.ContainsFunc(m.Causes, func(c *Cause) bool { return m.bears(c, f) }) {
		r.refuse("triage-reach", f.NameSpan, "the finding "+source.Quote(f.Name)+" is the same for every cause", "add it to `shows:` of the causes that change it, or take it out")
	}
}

func tells(s *Step, finding string) bool {
	return slices.ContainsFunc(s.Tells, func(t Text) bool { return t.Text == finding })
}

// bears tells whether a cause changes a finding.
func (m *Model) bears(c *Cause, f *Finding) bool {
	shown := c.shown(f.Name)
	if shown == nil {
		return false
	}
	if f.Measured() {
		return shown.Curve != f.Plain
	}
	return !same(shown.Given, f.Usual)
}

func same(a, b []float64) bool {
	return slices.EqualFunc(a, b, func(x, y float64) bool { return math.Abs(x-y) < 1e-9 })
}

func (r *reader) causeReached(i int, c *Cause) {
	m := r.model
	if !slices.ContainsFunc(m.Findings, func(f *Finding) bool { return m.bears(c, f) }) {
		r.refuse("triage-reach", c.NameSpan, "no finding tells the cause "+source.Quote(c.Name)+" from the rest", "write under `shows:` what it changes")
	}
	cured := func(of *Cause, s *Step) bool {
		return slices.ContainsFunc(s.Cures, func(cure Cure) bool { return cure.Cause.Text == of.Name })
	}
	if !slices.ContainsFunc(m.Repairs, func(s *Step) bool { return cured(c, s) }) {
		r.refuse("triage-end", c.NameSpan, "the cause "+source.Quote(c.Name)+" ends in no repair and no stop",
			"add it to `cures:` of a repair; where the work is for licensed people, of a repair with `stop: NAME`")
	}
	for _, earlier := range m.Causes[:i] {
		if m.alike(c, earlier) && !slices.ContainsFunc(m.Repairs, func(s *Step) bool { return cured(c, s) && cured(earlier, s) }) {
			r.refuse("triage-reach", c.NameSpan, "no finding tells the cause "+source.Quote(c.Name)+" from "+source.Quote(earlier.Name)+", and no repair ends both",
				"write under `shows:` what sets them apart, or make them one cause")
		}
	}
}

// alike tells whether two causes show the same everywhere.
func (m *Model) alike(a, b *Cause) bool {
	for _, f := range m.Findings {
		x, y := m.given(a, f), m.given(b, f)
		if !same(x.Given, y.Given) || x.Curve != y.Curve {
			return false
		}
	}
	return true
}

// given is what a cause makes of a finding, the usual where it makes nothing of it.
func (m *Model) given(c *Cause, f *Finding) Shown {
	if shown := c.shown(f.Name); shown != nil {
		return *shown
	}
	return Shown{Given: f.Usual, Curve: f.Plain}
}

// circles refuses steps that need themselves, on whatever way round.
func (r *reader) circles() {
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

// workersReach asks that whoever may do a step may do what it needs, and that the job can be handed over by him.
func (r *reader) workersReach(s *Step) {
	for _, who := range s.Who {
		if !slices.ContainsFunc(r.model.HandOver, func(h HandOver) bool { return h.Reader.Text == who.Text }) {
			r.refuse("triage-who", who.Span, "hand-over says nothing of the "+who.Text, "write what giving the job away costs: `hand-over: {"+who.Text+": 4 h}`")
		}
		for _, need := range s.Needs {
			if other := r.model.Step(need.Text); !other.For(who.Text) {
				r.refuse("triage-who", need.Span, "the "+who.Text+" may do "+source.Quote(s.Name)+", but not "+source.Quote(need.Text)+", which it needs",
					"let both be for the same people, or take the need out")
			}
		}
	}
}
