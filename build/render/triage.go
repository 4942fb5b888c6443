package render

import (
	"html/template"
	"slices"
	"strings"

	"blankoff/build/fault"
)

const (
	triagePage = "triage/"             // where the fault model is published
	studyPage  = "pages/fault-finding" // tells how well it does; it may be missing
)

const (
	triageHeading = "Find out what is wrong"
	triageLead    = "One question after the other. You see what each answer changes, and what to do next. Nothing you say leaves this device."
)

// triage makes the page of the fault model.
func (p *page) triage() error {
	m := p.library.Triage
	view := TriageView{Frame: p.frame(triageHeading, triageLead, "symptoms", nil), Heading: triageHeading, Lead: triageLead}
	view.Desk, view.Ladder = p.assets.Triage, nil // no pressure has a place on this page
	if p.assets.Model != "" && p.assets.Calc != "" {
		view.Model = p.root + p.assets.Model
	}
	for _, tool := range m.Tools() {
		view.Tools = append(view.Tools, ToolView{fault.Tool(tool), tool})
	}
	for _, r := range m.RuleOuts {
		view.Stops = append(view.Stops, RuleOutView{r.Name, withQuantities(r.Ask.Text), withQuantities(r.Do.Text), p.shown["stop:"+r.Stop.Text]})
	}
	order := newOrder(m)
	view.First = order.first()
	view.Tests = p.probes(order)
	view.Groups = causeGroups(m)
	for _, s := range m.Repairs {
		view.Repairs = append(view.Repairs, RepairView{
			Name: s.Name, Title: s.Title.Text, Tools: toolNames(s), Notes: stepNotes(s), Do: withQuantities(s.Do.Text), Guide: p.guideOf(s), Stop: p.shown["stop:"+s.Stop.Text],
		})
	}
	if g := p.library.Guide(studyPage); g != nil {
		view.Study = Link{p.root + addressOf(g), g.Title.Text}
	}
	return p.write("triage", view)
}

// triageEntry leads to the page; nothing where the shop has no fault model.
func (p *page) triageEntry() []Entry {
	if !p.library.Triage.Usable() {
		return nil
	}
	return []Entry{{Href: p.root + triagePage, Title: triageHeading, Said: template.HTML(template.HTMLEscapeString("One question after the other, with what each answer is worth."))}}
}

func (p *page) guideOf(s *fault.Step) Link {
	g := p.library.Guide(s.Guide.Text)
	if g == nil {
		return Link{}
	}
	return Link{p.root + addressOf(g), g.Title.Text}
}

func toolNames(s *fault.Step) string {
	var names []string
	for _, t := range s.Tools {
		names = append(names, fault.Tool(t.Text))
	}
	return strings.Join(names, " ")
}

// stepNotes say how long a step takes, for whom it is and what it needs.
func stepNotes(s *fault.Step) []string {
	notes := []string{minutes(s.Minutes)}
	if s.For(fault.Customer) {
		notes = append(notes, readerNotes[fault.Customer])
	} else {
		notes = append(notes, readerNotes[fault.Technician])
	}
	for _, t := range s.Tools {
		notes = append(notes, t.Text)
	}
	return notes
}

// probes are the tests, in the order in which a technician with all tools would take them to the same machine.
func (p *page) probes(order *order) []ProbeView {
	var list []ProbeView
	seen := map[string]bool{}
	for _, s := range order.tests() {
		probe := ProbeView{Name: s.Name, Title: s.Title.Text, Tools: toolNames(s), Notes: stepNotes(s), Guide: p.guideOf(s)}
		var names []string
		for _, tell := range s.Tells {
			names = append(names, tell.Text)
			if !seen[tell.Text] {
				seen[tell.Text] = true
				probe.Findings = append(probe.Findings, order.finding(order.words.Finding(tell.Text)))
			}
		}
		probe.Tells = strings.Join(names, " ")
		list = append(list, probe)
	}
	return list
}

// finding shows a question with its answers; order of a measured one are the ranges between its cuts.
func (o *order) finding(f *fault.Finding) FindingView {
	view := FindingView{Name: f.Name, Ask: withQuantities(f.Title.Text), Valued: f.Measured(), When: guards(f)}
	at := slices.Index(o.words.Findings, f)
	if !f.Measured() {
		for i, a := range f.Answers {
			view.Answers = append(view.Answers, TellingView{a.Name, withQuantities(wordsOf(a)), o.leans(at, i)})
		}
		return view
	}
	view.Unit = f.Unit.Symbol
	for i, text := range ranges(f) {
		view.Answers = append(view.Answers, TellingView{"", template.HTML(template.HTMLEscapeString(text)), o.leans(at, i)})
	}
	return view
}

func wordsOf(a fault.Answer) string {
	if a.Text == "" {
		return a.Name
	}
	return a.Text
}

func guards(f *fault.Finding) string {
	var list []string
	for _, g := range f.When {
		var answers []string
		for _, a := range g.Answers {
			answers = append(answers, a.Text)
		}
		list = append(list, g.Finding.Text+"="+strings.Join(answers, ","))
	}
	return strings.Join(list, " ")
}

// causeGroups keeps the order of the file, groups by their first cause.
func causeGroups(m *fault.Model) []CauseGroup {
	var groups []CauseGroup
	for _, c := range m.Causes {
		at := slices.IndexFunc(groups, func(g CauseGroup) bool { return g.Title == c.Group.Text })
		if at < 0 {
			at = len(groups)
			groups = append(groups, CauseGroup{Title: c.Group.Text})
		}
		view := CauseView{Name: c.Name, Title: c.Title.Text}
		for _, s := range endsOf(m, c) {
			view.Ends = append(view.Ends, Link{"#repair-" + s.Name, s.Title.Text})
		}
		groups[at].Causes = append(groups[at].Causes, view)
	}
	return groups
}

// endsOf are the repairs that end a cause, the surest first.
func endsOf(m *fault.Model, c *fault.Cause) []*fault.Step {
	chance := func(s *fault.Step) float64 {
		for _, cure := range s.Cures {
			if cure.Cause.Text == c.Name {
				return cure.Chance
			}
		}
		return 0
	}
	var list []*fault.Step
	for _, s := range m.Repairs {
		if chance(s) >= .4 {
			list = append(list, s)
		}
	}
	slices.SortStableFunc(list, func(a, b *fault.Step) int {
		switch {
		case chance(a) > chance(b):
			return -1
		case chance(a) < chance(b):
			return 1
		}
		return 0
	})
	return list[:min(len(list), 2)]
}
