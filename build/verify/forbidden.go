package verify

import (
	"slices"
	"strings"

	"blankoff/build/guide"
	"blankoff/build/load"
	"blankoff/build/source"
)

// forbidden refuses what must not be done to the parts that a page is about, wherever the page speaks of it without
// denying it. Sections that are headed "Do not" or "Never" deny all they hold.
func (c *checker) forbidden(page *guide.Guide) {
	for _, part := range page.Parts {
		if c.library.Catalogue.Part(part.Text) == nil {
			known := names(c.library.Catalogue.Parts, func(p *load.Part) string { return p.Name })
			c.refuse("unknown-part", part.Span, "the catalogue has no part "+source.Quote(part.Text), source.DidYouMean(part.Text, known))
		}
	}
	for _, item := range broughtAlong(page) {
		for _, m := range c.words.forbidden.mentions(wordsOf(item.Text)) {
			c.forbid(page, m.of, item.Span)
		}
	}
	for _, p := range c.text {
		if p.section != nil && deniesAll(p.section) {
			continue
		}
		said := map[*load.Forbidden]bool{}
		for _, m := range c.words.forbidden.mentions(p.words) {
			if said[m.of.Forbidden] {
				continue
			}
			said[m.of.Forbidden] = true
			c.forbid(page, m.of, p.span(page.File, m.from, m.to))
		}
	}
}

func (c *checker) forbid(page *guide.Guide, b ban, at source.Span) {
	if b.part.Name == load.AnyPart || about(page, b.part) {
		c.refuse("forbidden", at, b.saying(), "instead: "+b.Instead.Text+"; to warn of it, write that it is never done")
	}
}

// broughtAlong lists what the header tells to bring.
func broughtAlong(page *guide.Guide) []load.Text {
	return slices.Concat(page.Tools, page.Supplies, page.Spares)
}

func about(page *guide.Guide, part *load.Part) bool {
	for _, name := range page.Parts {
		if name.Text == part.Name {
			return true
		}
	}
	return false
}

// saying is the message: what is forbidden for which part, and why.
func (b ban) saying() string {
	where := ""
	if b.part.Name != load.AnyPart {
		where = " for " + source.Quote(b.part.Name)
	}
	return "this is forbidden" + where + ": " + strings.TrimSuffix(lowerFirst(b.Why.Text), ".")
}

func deniesAll(section *guide.Section) bool {
	title := strings.ToLower(section.Title)
	return strings.HasPrefix(title, "do not") || strings.HasPrefix(title, "never") || strings.HasPrefix(title, "not ")
}
