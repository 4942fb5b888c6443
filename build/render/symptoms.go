package render

import (
	"slices"

	"blankoff/build/guide"
)

// urgent are the pages that come before everything.
func (p *page) urgent() []Entry {
	var entries []Entry
	for _, g := range p.library.Guides {
		if isUrgent(g) {
			e := p.entry(g)
			e.Notes = nil // nobody may take his time over it
			entries = append(entries, e)
		}
	}
	return entries
}

func isUrgent(g *guide.Guide) bool { return g.Kind == guide.Symptom && g.Urgent.Text == "yes" }

// symptoms are the other symptoms, what is met most often first. Those of which the fault model knows nothing come last.
func (p *page) symptoms() []Entry {
	var list []*guide.Guide
	for _, g := range p.library.Guides {
		if g.Kind == guide.Symptom && !isUrgent(g) {
			list = append(list, g)
		}
	}
	met := p.metSymptoms()
	slices.SortStableFunc(list, func(a, b *guide.Guide) int {
		switch {
		case met[a.Path()] > met[b.Path()]:
			return -1
		case met[a.Path()] < met[b.Path()]:
			return 1
		}
		return 0
	})
	var entries []Entry
	for _, g := range list {
		entries = append(entries, p.entry(g))
	}
	return entries
}

// metSymptoms is, for each page that a test has as its guide, how probable the first answer to the test's question is before
// anything is known: the first answer is the one that says that something is so.
func (p *page) metSymptoms() map[string]float64 {
	met := map[string]float64{}
	m := p.library.Triage
	if !m.Usable() {
		return met
	}
	order := newOrder(m)
	for _, test := range m.Tests {
		if f := m.Finding(test.Tells[0].Text); !f.Measured() {
			met[test.Guide.Text] = max(met[test.Guide.Text], order.usual(slices.Index(m.Findings, f), 0))
		}
	}
	return met
}
