package fault

import (
	"fmt"
	"slices"

	"blankoff/calc/triage"
)

var workers = map[string]triage.Worker{Customer: triage.Customer, Technician: triage.Technician}

// Worker is the reckoning's word for somebody.
func Worker(name string) triage.Worker { return workers[name] }

// For gives the numbers of the model as they are for one worker; nil of a file with faults. Causes, findings and steps
// (tests, then repairs) are numbered in the order of the file.
func (m *Model) For(worker string) *triage.Model {
	if !m.Usable() {
		return nil
	}
	t := &triage.Model{Unlisted: m.Unlisted}
	for _, over := range m.HandOver {
		if over.Reader.Text == worker {
			t.Call = over.Minutes
		}
	}
	for _, c := range m.Causes {
		t.Causes = append(t.Causes, triage.Cause{ID: c.Name, Weight: c.Weight})
	}
	for _, p := range m.Pairs {
		t.Pairs = append(t.Pairs, triage.Pair{A: m.causeAt(p.Causes[0].Text), B: m.causeAt(p.Causes[1].Text), Weight: p.Weight})
	}
	for _, f := range m.Findings {
		t.Findings = append(t.Findings, m.reckonFinding(f))
	}
	for _, s := range m.Steps() {
		t.Steps = append(t.Steps, m.reckonStep(s))
	}
	t.Prepare()
	return t
}

func (m *Model) causeAt(name string) int {
	return slices.IndexFunc(m.Causes, func(c *Cause) bool { return c.Name == name })
}

func (m *Model) findingAt(name string) int {
	return slices.IndexFunc(m.Findings, func(f *Finding) bool { return f.Name == name })
}

func (m *Model) stepAt(name string) int {
	return slices.IndexFunc(m.Steps(), func(s *Step) bool { return s.Name == name })
}

func (m *Model) reckonFinding(f *Finding) triage.Finding {
	t := triage.Finding{ID: f.Name, Sound: f.Usual, Cuts: f.Cuts, Plain: f.Plain}
	for _, c := range m.Causes {
		given := m.given(c, f)
		if f.Measured() {
			t.Curve = append(t.Curve, given.Curve)
		} else {
			t.Given = append(t.Given, given.Given)
		}
	}
	return t
}

func (m *Model) reckonStep(s *Step) triage.Step {
	t := triage.Step{ID: s.Name, Minutes: s.Minutes + m.Costs[s.Cost.Text]}
	for _, who := range s.Who {
		t.Who |= workers[who.Text]
	}
	for i, tool := range m.Tools() {
		if slices.ContainsFunc(s.Tools, func(t Text) bool { return t.Text == tool }) {
			t.Tools |= 1 << i
		}
	}
	for _, need := range s.Needs {
		t.Needs = append(t.Needs, m.stepAt(need.Text))
	}
	for _, tell := range s.Tells {
		if f := m.Finding(tell.Text); !m.refines(f, s) {
			t.Findings = append(t.Findings, m.findingAt(f.Name))
		}
	}
	if len(s.Cures) > 0 {
		t.Minutes += m.Proof
	}
	for _, cure := range s.Cures {
		t.Cures = append(t.Cures, triage.Cure{Cause: m.causeAt(cure.Cause.Text), Chance: cure.Chance})
	}
	return t
}

// refines tells whether a finding counts only for some answers of another one that the same test tells. A plan looks at
// the other one alone: it would take the two for independent, and expect a size even of what is within its limit.
func (m *Model) refines(f *Finding, s *Step) bool {
	return slices.ContainsFunc(f.When, func(g Guard) bool { return tells(s, g.Finding.Text) })
}

// Tools are the tools of all steps, by the alphabet, which is the order of their bits.
func (m *Model) Tools() []string {
	var names []string
	for _, s := range m.Steps() {
		for _, tool := range s.Tools {
			if !slices.Contains(names, tool.Text) {
				names = append(names, tool.Text)
			}
		}
	}
	slices.Sort(names)
	return names
}

// Told is what somebody said of a finding: the name of an answer, or a value with its unit.
type Told struct{ Finding, Answer string }

// Answers reads what was told. A finding that does not count beside the other answers is left out, an unknown one must
// be left out by the caller.
func (m *Model) Answers(told []Told) ([]triage.Answer, error) {
	var list []triage.Answer
	said := map[string]string{}
	for _, t := range told {
		said[t.Finding] = t.Answer
	}
	for _, t := range told {
		f := m.Finding(t.Finding)
		if f == nil {
			return nil, fmt.Errorf("there is no finding %q", t.Finding)
		}
		a, err := m.answer(f, t.Answer)
		if err != nil {
			return nil, err
		}
		if f.counts(said) {
			list = append(list, a)
		}
	}
	return list, nil
}

func (m *Model) answer(f *Finding, text string) (triage.Answer, error) {
	a := triage.Answer{Finding: m.findingAt(f.Name)}
	if !f.Measured() {
		if a.Outcome = f.answer(text); a.Outcome < 0 {
			return a, fmt.Errorf("the finding %q has no answer %q", f.Name, text)
		}
		return a, nil
	}
	q, wrong := triage.ReadValue(text, f.Kind, f.Unit.Symbol)
	if wrong != "" {
		return a, fmt.Errorf("%s: %s", f.Name, wrong)
	}
	a.Value, a.U = q.Value, q.U
	return a, nil
}

// counts tells whether the answers that were given let this one count.
func (f *Finding) counts(said map[string]string) bool {
	for _, g := range f.When {
		if !slices.ContainsFunc(g.Answers, func(a Text) bool { return a.Text == said[g.Finding.Text] }) {
			return false
		}
	}
	return true
}
