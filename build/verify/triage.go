package verify

import (
	"slices"

	"blankoff/build/fault"
	"blankoff/build/guide"
	"blankoff/build/load"
	"blankoff/build/source"
)

// triage holds the fault model against the pages and the catalogue. What it says by itself is looked at where it is read.
func (c *checker) triage() {
	m := c.library.Triage
	if m == nil {
		return
	}
	for _, s := range m.Tests {
		if s.Guide.Text == "" {
			c.refuse("triage-guide", s.NameSpan, "the test "+source.Quote(s.Name)+" has no guide", "write the page that tells how it is done: `guide: procedures/rise-test`")
		}
		c.triageStep(s)
	}
	for _, s := range m.Repairs {
		if s.Guide.Text == "" && s.Do.Text == "" {
			c.refuse("triage-guide", s.NameSpan, "the repair "+source.Quote(s.Name)+" does not say what to do", "write `do:` with a sentence, or `guide:` with a page")
		}
		c.triageStop(s.Stop)
		c.triageStep(s)
	}
	for _, out := range m.RuleOuts {
		c.triageStop(out.Stop)
		for _, act := range c.actsOf(out.Do) {
			if !actFor(act, fault.Customer) {
				c.refuse("triage-who", out.Do.Span, source.Quote(out.Name)+" is asked of customers and leads to the act "+source.Quote(act.Name)+" ("+act.Means.Text+")", "take it out of the text")
			}
		}
	}
}

func (c *checker) triageStop(stop fault.Text) {
	if stop.Text != "" && c.library.Catalogue.Stop(stop.Text) == nil {
		known := names(c.library.Catalogue.Stops, func(s *load.Stop) string { return s.Name })
		c.refuse("unknown-stop", stop.Span, "the catalogue has no stop "+source.Quote(stop.Text), source.DidYouMean(stop.Text, known))
	}
}

func (c *checker) triageStep(s *fault.Step) {
	page := c.triageGuide(s.Guide)
	if s.For(fault.Customer) {
		c.customerStep(s, page)
	}
	if s.Stop.Text == "" {
		c.reservedStep(s)
		c.hazardousStep(s, page)
	}
}

// texts are what leads a reader to do something.
func (c *checker) texts(s *fault.Step) []fault.Text {
	list := []fault.Text{s.Title, s.Do}
	for _, tell := range s.Tells {
		if f := c.library.Triage.Finding(tell.Text); f != nil {
			list = append(list, f.Title)
		}
	}
	return list
}

// hazardousStep asks that the page of a step warns of what the step's text leads to: the triage itself shows no hazards.
func (c *checker) hazardousStep(s *fault.Step, page *guide.Guide) {
	has, whose := []string(nil), "no page warns"
	switch {
	case page != nil:
		has, whose = carried(page), "its page "+source.Quote(page.Path())+" does not warn"
	case s.Guide.Text != "":
		return // that page is to be written first
	}
	for _, t := range c.texts(s) {
		for _, act := range c.actsOf(t) {
			if act.Stop.Text != "" || !slices.ContainsFunc(act.Hazards, func(h load.Text) bool { return !slices.Contains(has, h.Text) }) {
				continue
			}
			c.refuse("triage-guide", t.Span, source.Quote(s.Name)+" leads to the act "+source.Quote(act.Name)+" ("+act.Means.Text+"), and "+whose+" of its hazards",
				"name a page that has `does: ["+act.Name+"]`, or say it in other words")
		}
	}
}

// triageGuide finds the page of a step; nil of none.
func (c *checker) triageGuide(name fault.Text) *guide.Guide {
	if name.Text == "" {
		return nil
	}
	page := c.library.Guide(name.Text)
	if page == nil && !slices.Contains(c.library.Unread, name.Text+".md") {
		known := names(c.library.Guides, (*guide.Guide).Path)
		c.refuse("triage-guide", name.Span, "there is no page "+source.Quote(name.Text), source.DidYouMean(name.Text, known))
	}
	return page
}

// customerStep asks that a customer is led to nothing that is not for him.
func (c *checker) customerStep(s *fault.Step, page *guide.Guide) {
	who := s.Who[slices.IndexFunc(s.Who, func(t fault.Text) bool { return t.Text == fault.Customer })]
	if page != nil && page.Reader.Text != fault.Customer {
		c.refuse("triage-who", who.Span, source.Quote(s.Name)+" is offered to customers, and its page "+source.Quote(page.Path())+" is for a "+page.Reader.Text,
			"name a page whose reader is the customer, or take customer out of `who:`")
	}
	if s.Stop.Text != "" {
		c.refuse("triage-who", who.Span, source.Quote(s.Name)+" is work for licensed people, and is offered to customers", "let the shop call them: take customer out of `who:`")
	}
	for _, t := range c.texts(s) {
		for _, act := range c.actsOf(t) {
			if actFor(act, fault.Customer) {
				continue
			}
			c.refuse("triage-who", t.Span, source.Quote(s.Name)+" is offered to customers and leads to the act "+source.Quote(act.Name)+" ("+act.Means.Text+")",
				"take it out of the text, or customer out of `who:`")
		}
	}
}

// reservedStep asks that nobody is led to licensed work without its stop.
func (c *checker) reservedStep(s *fault.Step) {
	for _, t := range c.texts(s) {
		for _, act := range c.actsOf(t) {
			if act.Stop.Text == "" || s.For(fault.Customer) {
				continue
			}
			c.refuse("triage-who", t.Span, source.Quote(s.Name)+" leads to work for licensed people ("+act.Means.Text+") and names no stop",
				"add `stop: "+act.Stop.Text+"`, or take it out of the text")
		}
	}
}

// actsOf lists the acts that a text names.
func (c *checker) actsOf(t fault.Text) []*load.Act {
	var list []*load.Act
	for _, m := range c.words.acts.mentions(wordsOf(t.Text)) {
		if !slices.Contains(list, m.of) {
			list = append(list, m.of)
		}
	}
	return list
}

func actFor(act *load.Act, reader string) bool {
	return act.Stop.Text == "" && (len(act.Readers) == 0 || slices.ContainsFunc(act.Readers, func(t load.Text) bool { return t.Text == reader }))
}
