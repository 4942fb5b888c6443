package verify

import (
	"blankoff/build/guide"
	"blankoff/build/load"
	"blankoff/build/prose"
)

// quantities warns of numbers that could be read in two ways. Nobody can tell which was meant but their author, and a
// reader who asks for other units would get the wrong one.
func (c *checker) quantities(page *guide.Guide) {
	for _, doubt := range page.Doubts {
		c.warn("ambiguous-quantity", doubt.Span, doubt.Message, doubt.Hint)
	}
}

// sharedQuantities does so for the sentences that stand on many pages.
func (c *checker) sharedQuantities() {
	for _, h := range c.library.Catalogue.Hazards {
		c.sentences(h.Title, h.Harm, h.Avoid, h.Defer)
	}
	for _, s := range c.library.Catalogue.Stops {
		c.sentences(s.Title, s.Who, s.Why)
	}
	for _, m := range c.library.Machines {
		c.sentences(m.Summary)
	}
}

func (c *checker) sentences(texts ...load.Text) {
	for _, text := range texts {
		_, doubts := prose.Find(text.Text)
		for _, doubt := range doubts {
			span := text.Span
			if span.Text() == text.Text { // else it is written over several lines, or with escapes
				span = span.File.Span(span.Start+doubt.From, span.Start+doubt.To)
			}
			c.warn("ambiguous-quantity", span, doubt.Message, doubt.Hint)
		}
	}
}
