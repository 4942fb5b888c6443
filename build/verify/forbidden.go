package verify

import (
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
	for _, p := range c.text {
		if p.section != nil && deniesAll(p.section) {
			continue
		}
		for _, m := range c.words.forbidden.mentions(p.words) {
			if m.of.part.Name == load.AnyPart || about(page, m.of.part) {
				c.refuse("forbidden", p.span(page.File, m.from, m.to), m.of.saying(), "instead: "+m.of.Instead.Text+"; to warn of it, write that it is never done")
			}
		}
	}
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
