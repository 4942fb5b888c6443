package verify

import (
	"slices"
	"strings"

	"blankoff/build/guide"
	"blankoff/build/machine"
	"blankoff/build/source"
)

// sourcesTitle heads the part of a page that says how its facts are known.
const sourcesTitle = "Where this comes from"

// ownMarks are what a page may say besides the marks of a card: a choice or a text that is nobody else's.
var ownMarks = []string{"our own"}

// sources: a page that somebody has approved says how it knows what it says, item by item, by the marks that cards have too.
func (c *checker) sources(page *guide.Guide) {
	if page.Approver.Text == "" || len(page.Steps)+len(page.Facts)+len(page.Calculators) == 0 {
		return // a draft, or a page without facts
	}
	section := page.Section(guide.Slug(sourcesTitle))
	if section == nil || len(section.Nodes) == 0 {
		hint := "write `## " + sourcesTitle + "` at the end, an item for each fact: who published it, or that it was computed, is common practice, memory or invented"
		if near := nearTitle(page, sourcesTitle); section == nil && near != nil {
			hint = "the heading " + source.Quote(near.Title) + " is nearly it: write `## " + sourcesTitle + "`"
		}
		c.refuse("sources", page.Header.Span, "the page is approved, but does not say where its facts come from", hint)
		return
	}
	for _, p := range c.text {
		if p.section != section || p.heading || p.cell || len(p.words) == 0 || p.says(machine.Marks) || p.says(ownMarks) {
			continue
		}
		c.warn("sources", page.File.Span(p.words[0].from, p.words[len(p.words)-1].to), "this item does not say how the fact is known",
			"name one: "+strings.Join(append(slices.Clone(machine.Marks), ownMarks...), ", "))
	}
}

// says tells whether one of some phrases stands in a passage.
func (p *passage) says(phrases []string) bool {
	var text strings.Builder
	for _, w := range p.words {
		text.WriteString(" " + w.text)
	}
	text.WriteString(" ")
	return slices.ContainsFunc(phrases, func(phrase string) bool { return strings.Contains(text.String(), " "+phrase+" ") })
}
