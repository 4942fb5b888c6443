package render

import (
	"html/template"
	"slices"
	"strings"

	"blankoff/build/fault"
	"blankoff/build/guide"
	"blankoff/calc/quantity"
)

// Where the fault model is published: one question at a time, and the whole order.
const (
	triagePage  = "triage/"
	triageSheet = "triage/sheet/"
	studyPage   = "pages/fault-finding" // tells how well it does; it may be missing
)

const (
	triageHeading = "Find out what is wrong"
	triageLead    = "One question after the other. You see what each answer changes, and what to do next. Nothing you say leaves this device."
	sheetHeading  = "The whole order, on paper"
	sheetLead     = "What must stop the work, what to ask, what each answer speaks for, and what ends each cause. Print it, or read it here."
)

// triage makes the page that asks one question after the other.
func (p *page) triage() error {
	m := p.library.Triage
	view := TriageView{Frame: p.triageFrame(triageHeading, triageLead), Heading: triageHeading, Lead: triageLead, Sheet: p.root + triageSheet, Stops: p.ruleOuts(), First: newOrder(m).first(), Study: p.study()}
	if p.assets.Model != "" && p.assets.Calc != "" {
		view.Model = p.root + p.assets.Model
	}
	for _, tool := range m.Tools() {
		view.Tools = append(view.Tools, ToolView{fault.Tool(tool), tool})
	}
	return p.write("triage", view)
}

// sheet makes the page that holds everything.
func (p *page) triageSheet() error {
	m, order := p.library.Triage, newOrder(p.library.Triage)
	view := TriageSheetView{
		Frame: p.triageFrame(sheetHeading, sheetLead), Heading: sheetHeading, Lead: sheetLead, Talk: p.root + triagePage,
		Stops: p.ruleOuts(), First: order.first(), Tests: p.probes(order), Groups: causeGroups(m), Hazards: p.hazardsNamed(m.Steps()), Study: p.study(),
	}
	for _, s := range m.Repairs {
		view.Repairs = append(view.Repairs, RepairView{
			Name: s.Name, Title: s.Title.Text, Tools: toolNames(s), Who: names(s.Who), Notes: stepNotes(s), Do: withQuantities(s.Do.Text),
			Guide: p.guideOf(s), Risks: p.risks(s), Stop: p.shown["stop:"+s.Stop.Text],
		})
	}
	return p.write("sheet", view)
}

// study leads to the page that tells how well it does; empty where the shop has none.
func (p *page) study() Link {
	g := p.library.Guide(studyPage)
	if g == nil {
		return Link{}
	}
	return Link{p.root + addressOf(g), g.Title.Text}
}

func (p *page) triageFrame(title, description string) Frame {
	frame := p.frame(title, description, "symptoms", nil)
	frame.Early, frame.Ladder = []string{p.assets.Below, p.assets.Triage}, nil // no pressure has a place on these pages
	return frame
}

func (p *page) ruleOuts() []RuleOutView {
	var list []RuleOutView
	for _, r := range p.library.Triage.RuleOuts {
		list = append(list, RuleOutView{r.Name, withQuantities(r.Ask.Text), withQuantities(r.Do.Text), p.shown["stop:"+r.Stop.Text]})
	}
	return list
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

// names of texts, apart by blanks.
func names(list []fault.Text) string {
	var all []string
	for _, t := range list {
		all = append(all, t.Text)
	}
	return strings.Join(all, " ")
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
		probe := ProbeView{Name: s.Name, Title: s.Title.Text, Tools: toolNames(s), Who: names(s.Who), Notes: stepNotes(s), Guide: p.guideOf(s), Risks: p.risks(s)}
		probe.Tells = names(s.Tells)
		for _, tell := range s.Tells {
			if !seen[tell.Text] {
				seen[tell.Text] = true
				probe.Findings = append(probe.Findings, p.finding(order, s, order.words.Finding(tell.Text)))
			}
		}
		list = append(list, probe)
	}
	return list
}

// finding shows a question with its answers; order of a measured one are the ranges between its cuts.
func (p *page) finding(o *order, test *fault.Step, f *fault.Finding) FindingView {
	view := FindingView{Name: f.Name, Ask: withQuantities(f.Title.Text), Valued: f.Measured(), When: guards(f)}
	at := slices.Index(o.words.Findings, f)
	if calculator, _ := f.Calculator(); calculator != nil || f.Measured() {
		view.From, view.Sources = f.From.Text, p.sources(test, f)
	}
	if !f.Measured() {
		for i, a := range f.Answers {
			view.Answers = append(view.Answers, TellingView{a.Name, withQuantities(wordsOf(a)), o.leans(at, i)})
		}
		return view
	}
	view.Unit, view.Keypad = f.Unit.Symbol, keypad(f)
	for i, text := range ranges(f) {
		view.Answers = append(view.Answers, TellingView{"", template.HTML(template.HTMLEscapeString(text)), o.leans(at, i)})
	}
	return view
}

// keypad is the one on which a phone lets a value be typed: of figures, where it needs neither a minus nor a fraction. ± has a key
// of the page's own.
func keypad(f *fault.Finding) string {
	switch f.Kind {
	case quantity.Temperature, quantity.TemperatureDifference, quantity.Voltage, quantity.Current:
		return "text"
	}
	if f.Unit.Symbol == "" {
		return "text" // 364/8
	}
	return "decimal"
}

// sources are the calculators that give a finding: the one that the model names, else those of the test's guide.
func (p *page) sources(test *fault.Step, f *fault.Finding) []Link {
	if c, _ := f.Calculator(); c != nil {
		return []Link{{p.root + "calculators/" + c.ID + "/", c.Title}}
	}
	return p.placedIn(p.library.Guide(test.Guide.Text))
}

// placedIn are the calculators of a guide, each once. Converting a unit is no measurement.
func (p *page) placedIn(g *guide.Guide) []Link {
	var list []Link
	if g == nil {
		return nil
	}
	for _, c := range calculators() {
		if c.ID != "pressure" && slices.ContainsFunc(g.Calculators, func(block *guide.CalculatorBlock) bool { return block.ID == c.ID }) {
			list = append(list, Link{p.root + "calculators/" + c.ID + "/", c.Title})
		}
	}
	return list
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
		if chance(s) > 0 {
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
	n := min(len(list), 2)
	if n == 2 && chance(list[1]) < .4 {
		n = 1 // the surest stands there, however sure it is
	}
	return list[:n]
}
