package render

import (
	"html/template"

	"blankoff/build/guide"
	"blankoff/build/load"
	"blankoff/calc/declare"
)

// section is a list page that the thumb bar leads to.
type section struct {
	address, name, heading, lead string
	groups                       func(*page) []Group
}

var sections = []section{
	{"symptoms/", "symptoms", "What do you see?", "Take the line that fits. These checks are safe for anybody.",
		func(p *page) []Group { return []Group{{Entries: p.symptoms()}} }},
	{"procedures/", "procedures", "Procedures", "One job each, with its hazards, its limits and its calculators where the reading is taken.",
		func(p *page) []Group { return []Group{{Entries: p.guides(guide.Procedure)}} }},
	{"calculators/", "calculators", "Calculators", "Each answers one question, says how sure it is, and works without a network.",
		func(p *page) []Group { return p.calculatorGroups() }},
	{"machines/", "machines", "Machines", "The values that every guide is checked against.",
		func(p *page) []Group { return []Group{{Entries: p.machineEntries()}} }},
}

// index makes the page of a section.
func (p *page) index(s section) error {
	var begin, urgent []Entry
	if s.name == "symptoms" {
		begin, urgent = p.triageEntry(), p.urgent()
	}
	return p.write("index", IndexView{
		Begin:   begin,
		Urgent:  urgent,
		Frame:   p.listFrame(s.heading, s.lead, s.name, nil),
		Heading: s.heading,
		Lead:    template.HTML(template.HTMLEscapeString(s.lead)),
		Groups:  s.groups(p),
	})
}

// home makes the first page: the words of pages/home.md, then the lists.
func (p *page) home() error {
	view := HomeView{
		Heading:     p.library.Shop.Name.Text,
		Begin:       p.triageEntry(),
		Urgent:      p.urgent(),
		Symptoms:    p.symptoms(),
		Calculators: p.calculatorsInBrief(),
		Machines:    p.machineEntries(),
	}
	if procedures := p.guides(guide.Procedure); len(procedures) > 0 {
		for i := range procedures {
			procedures[i].Said = "" // the whole sentences would bury the first page
		}
		view.Stages = []Group{{Entries: procedures}}
	}
	machine := (*load.Machine)(nil)
	if g := p.library.Guide(homePage); g != nil {
		p.guide = g
		view.Heading, view.First, view.Body = g.Title.Text, p.summary(g), p.sections(g)
		machine = p.firstMachine(g)
	}
	view.Frame = p.listFrame(view.Heading, p.library.Shop.Summary.Text, "", machine)
	return p.write("home", view)
}

func (p *page) guides(kind guide.Kind) []Entry {
	var entries []Entry
	for _, g := range p.library.Guides {
		if g.Kind == kind {
			entries = append(entries, p.entry(g))
		}
	}
	return entries
}

func (p *page) entry(g *guide.Guide) Entry {
	e := Entry{Href: p.root + addressOf(g), Title: g.Title.Text, Said: withQuantities(firstSentence(g.SummaryText()))}
	for _, note := range []string{readerNotes[g.Reader.Text], g.Time.Text} {
		if note != "" {
			e.Notes = append(e.Notes, note)
		}
	}
	return e
}

// readerNotes say in a list for whom a guide is.
var readerNotes = map[string]string{"customer": "safe for anyone", "technician": "for technicians", "shop": "for the shop"}

// firstSentence ends at the first full stop that a space follows.
func firstSentence(text string) string {
	for i := 0; i+1 < len(text); i++ {
		if (text[i] == '.' || text[i] == '?') && text[i+1] == ' ' {
			return text[:i+1]
		}
	}
	return text
}

// calculatorGroups are all calculators, by what the technician is doing.
func (p *page) calculatorGroups() []Group {
	var groups []Group
	for _, title := range declare.Groups() {
		group := Group{ID: guide.Slug(title), Title: title}
		for _, c := range calculators() {
			if c.Group == title {
				group.Entries = append(group.Entries, Entry{Href: p.root + "calculators/" + c.ID + "/", Title: c.Title, Said: withQuantities(c.Decision)})
			}
		}
		groups = append(groups, group)
	}
	return groups
}

// calculatorsInBrief leads to each group and names what stands in it: the whole list would bury the first page.
func (p *page) calculatorsInBrief() []Entry {
	var entries []Entry
	for _, group := range p.calculatorGroups() {
		e := Entry{Href: p.root + "calculators/#" + group.ID, Title: group.Title}
		for _, calculator := range group.Entries {
			e.Notes = append(e.Notes, calculator.Title)
		}
		entries = append(entries, e)
	}
	return entries
}

func (p *page) machineEntries() []Entry {
	var entries []Entry
	for _, m := range p.library.Machines {
		entries = append(entries, Entry{Href: p.root + "machines/" + m.Name + "/", Title: m.Title.Text, Said: withQuantities(m.Summary.Text)})
	}
	return entries
}

// used lists the guides that place a calculator.
func (p *page) used(c *declare.Calculator) []Entry {
	var entries []Entry
	for _, g := range p.library.Guides {
		for _, block := range g.Calculators {
			if block.ID == c.ID && g.Path() != homePage {
				entries = append(entries, p.entry(g))
				break
			}
		}
	}
	return entries
}
