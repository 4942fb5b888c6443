package fault

import (
	"fmt"
	"math"
	"slices"

	"blankoff/build/source"
	"blankoff/calc/quantity"
)

// reach asks that everything in the file can come into play.
func (r *reader) reach() {
	if len(r.faults) > 0 {
		return
	}
	for _, key := range []struct {
		what string
		n    int
	}{{"finding", len(r.model.Findings)}, {"cause", len(r.model.Causes)}, {"test", len(r.model.Tests)}, {"repair", len(r.model.Repairs)}} {
		if key.n == 0 {
			r.refuse("triage-reach", r.model.File.Whole(), "triage.yaml has no "+key.what, "a plan needs one or more; take the file away if there is nothing to plan")
		}
	}
	if r.circles(); len(r.faults) > 0 {
		return
	}
	if r.size(); len(r.faults) > 0 {
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
		r.pays(s)
	}
	r.scaled()
	if len(r.faults) == 0 {
		r.answersReached()
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
	} else if !slices.ContainsFunc(m.Repairs, func(s *Step) bool { return cured(c, s) && s.For(Technician) }) {
		r.refuse("triage-end", c.NameSpan, "the cause "+source.Quote(c.Name)+" ends in no repair that a technician may do", "add technician to `who:` of one")
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

// workersReach asks that whoever may do a step may do what it needs.
func (r *reader) workersReach(s *Step) {
	for _, who := range s.Who {
		if len(s.Tells) > 0 && !slices.ContainsFunc(s.Tells, func(t Text) bool { return r.asked(who.Text, r.model.Finding(t.Text)) }) {
			r.refuse("triage-who", who.Span, "the "+who.Text+" may do "+source.Quote(s.Name)+", but is never asked what it counts beside", "let a test for the "+who.Text+" tell that too, or take "+who.Text+" out of `who:`")
		}
		for _, need := range s.Needs {
			if other := r.model.Step(need.Text); !other.For(who.Text) {
				r.refuse("triage-who", need.Span, "the "+who.Text+" may do "+source.Quote(s.Name)+", but not "+source.Quote(need.Text)+", which it needs",
					"let both be for the same people, or take the need out")
			}
		}
	}
}

// asked tells whether somebody has tests for all that a finding counts beside.
func (r *reader) asked(who string, f *Finding) bool {
	return !slices.ContainsFunc(f.When, func(g Guard) bool {
		return !slices.ContainsFunc(r.model.Tests, func(s *Step) bool { return s.For(who) && tells(s, g.Finding.Text) })
	})
}

// pays refuses a step that costs more than giving the job away: no plan would come to it.
func (r *reader) pays(s *Step) {
	cost := s.Minutes + r.model.Costs[s.Cost.Text]
	if len(s.Cures) > 0 {
		cost += r.model.Proof
	}
	most := 0.0
	for _, over := range r.model.HandOver {
		if s.For(over.Reader.Text) {
			most = math.Max(most, over.Minutes)
		}
	}
	if cost >= most {
		r.refuse("triage-reach", s.NameSpan, fmt.Sprintf("%s costs %.0f min with parts and proof, and giving the job away %.0f min: no plan would come to it", source.Quote(s.Name), cost, most),
			"look at its time and its class of parts, or at `hand-over:`")
	}
}

// scaled asks that the causes of the file explain more than what is not in it.
func (r *reader) scaled() {
	sum := 0.0
	for _, c := range r.model.Causes {
		sum += c.Weight
	}
	if r.model.Unlisted >= sum {
		entry := r.model.unlistedAt
		r.refuse("triage-weight", entry, fmt.Sprintf("what is not listed weighs %.4g, and all causes together %.4g", r.model.Unlisted, sum), "write how often it is none of these, beside the weights of the causes")
	}
}

// answersReached asks that each answer can be given: somewhere its probability is above nothing.
func (r *reader) answersReached() {
	t := r.model.For(Technician)
	for i := range t.Findings {
		f, words := &t.Findings[i], r.model.Findings[i]
		for o := range f.Sound {
			most := f.Sound[o]
			for c := range f.Given {
				most = math.Max(most, f.Given[c][o])
			}
			if most >= 1e-9 {
				continue
			}
			if words.Measured() {
				r.refuse("triage-reach", words.NameSpan, "whatever the cause, "+source.Quote(words.Name)+" is never "+words.part(o), "take out the cut, or look at the medians and spreads")
			} else {
				r.refuse("triage-reach", words.NameSpan, "whatever the cause, "+source.Quote(words.Name)+" is never answered with "+source.Quote(words.Answers[o].Name), "take the answer out, or give it to the causes that show it")
			}
		}
	}
}

// part puts a part of a range in words.
func (f *Finding) part(o int) string {
	cut := func(i int) string { return quantity.Format(f.Cuts[i], 0, f.Unit, 3) }
	switch o {
	case 0:
		return "under " + cut(0)
	case len(f.Cuts):
		return "over " + cut(o-1)
	}
	return "from " + cut(o-1) + " to " + cut(o)
}
