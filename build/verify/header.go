package verify

import (
	"slices"
	"strconv"
	"strings"

	"blankoff/build/guide"
	"blankoff/build/machine"
	"blankoff/build/source"
	"blankoff/calc/quantity"
)

var headerFields = []source.Field{
	{Key: "title", Shape: source.Text, Required: true},
	{Key: "reader", Shape: source.Text, Required: true},
	{Key: "machines", Shape: source.List},
	{Key: "families", Shape: source.List},
	{Key: "time", Shape: source.Text},
	{Key: "people", Shape: source.Text},
	{Key: "does", Shape: source.List},
	{Key: "parts", Shape: source.List},
	{Key: "tools", Shape: source.List},
	{Key: "supplies", Shape: source.List},
	{Key: "spares", Shape: source.List},
	{Key: "revision", Shape: source.Text},
	{Key: "approver", Shape: source.Text},
	{Key: "review", Shape: source.Text},
	{Key: "urgent", Shape: source.Text},
}

// header checks the keys of a page and what they hold.
func (c *checker) header(page *guide.Guide) {
	if len(page.Header.Entries) == 0 {
		return // already said: no header, or one that cannot be read
	}
	for _, fault := range page.Header.Faults("the header", headerFields) {
		c.refuse(fault.Rule, fault.Span, fault.Message, fault.Hint)
	}
	if r := page.Reader; r.Text != "" && !slices.Contains(guide.Readers, r.Text) {
		c.refuse("reader", r.Span, "there is no reader "+source.Quote(r.Text), source.DidYouMean(r.Text, guide.Readers))
	}
	for _, m := range page.Machines {
		if known := c.library.MachineNames(); !slices.Contains(known, m.Text) {
			c.refuse("unknown-machine", m.Span, "there is no machine "+source.Quote(m.Text),
				join(source.DidYouMean(m.Text, known), "a machine is a file machines/NAME.yaml"))
		}
	}
	c.duration(page)
	c.urgent(page)
	if r := page.Revision; r.Text != "" {
		if n, err := strconv.Atoi(r.Text); err != nil || n < 1 {
			c.refuse("revision", r.Span, "the revision "+source.Quote(r.Text)+" is not a number from 1", "count revisions 1, 2, 3")
		}
	}
	if _, known := page.Header.Find("does"); !known && len(page.Steps) > 0 && !misread(page, "does") {
		c.refuse("does", page.Header.Span, "a page with steps must say what it does",
			"add a line `does: [evacuates]` with acts of the catalogue, or `does: []` if it does nothing that can hurt")
	}
}

// misread tells whether what a key says is lost: the header could not be read, the key holds something of another
// shape, or some other key is nearly it. That has been said, and nothing can be made of the rest.
func misread(page *guide.Guide, keys ...string) bool {
	return len(page.Header.Entries) == 0 || slices.ContainsFunc(page.Header.Entries, func(e source.Entry) bool {
		i := slices.IndexFunc(headerFields, func(f source.Field) bool { return f.Key == e.Key })
		if i < 0 {
			return source.NearMiss(e.Key, keys) != ""
		}
		return slices.Contains(keys, e.Key) && e.Value.Shape != headerFields[i].Shape
	})
}

// urgent: what stands before all else is read by everybody who has a machine that fails.
func (c *checker) urgent(page *guide.Guide) {
	u := page.Urgent
	switch {
	case u.Text == "":
	case u.Text != "yes":
		c.refuse("urgent", u.Span, source.Quote(u.Text)+" is not yes", "write `urgent: yes` on the page that tells when to stop at once, or leave the line out")
	case page.Kind != guide.Symptom || page.Reader.Text != "customer":
		c.refuse("urgent", u.Span, "only a symptom's page for customers stands before the others", "move the page to symptoms/ with `reader: customer`, or take the line out")
	}
}

func (c *checker) duration(page *guide.Guide) {
	if page.Time.Text == "" {
		return
	}
	_, single := quantity.Parse(page.Time.Text, quantity.Time)
	_, ranged := quantity.ParseRange(page.Time.Text, quantity.Time)
	if single != nil && ranged != nil {
		c.refuse("time", page.Time.Span, single.Text, "write `time: 40 min`, `time: 1h30` or `time: 30 to 40 min`")
	}
}

// checkShop checks what shop.yaml says about the place and its units.
func (c *checker) checkShop() {
	shop := c.library.Shop
	if a := shop.Altitude; a.Text != "" {
		if _, problem := quantity.Parse(a.Text, quantity.Length); problem != nil {
			c.refuse("altitude", a.Span, problem.Text, "write `altitude: 430 m`")
		}
	}
	kinds := quantity.Kinds()
	known := names(kinds, func(k quantity.Kind) string { return machine.KindKey(k) })
	for _, u := range shop.Units {
		i := slices.Index(known, u.Name)
		if i < 0 {
			c.refuse("unit", u.NameSpan, "there is no kind of quantity "+source.Quote(u.Name), source.DidYouMean(u.Name, known))
			continue
		}
		unit, found := quantity.FindUnit(u.Text.Text)
		switch {
		case !found:
			c.refuse("unit", u.Span, source.Quote(u.Text.Text)+" is not a unit known here", "write a unit of "+kinds[i].Describe())
		case unit.Kind != kinds[i]:
			c.refuse("unit", u.Span, source.Quote(u.Text.Text)+" is a unit of "+unit.Kind.Describe(), "write a unit of "+kinds[i].Describe())
		}
	}
}

// checkTitles refuses two pages of one title: in a list of links nobody could tell them apart.
func (c *checker) checkTitles() {
	first := map[string]*guide.Guide{}
	for _, page := range c.library.Guides {
		title := strings.ToLower(page.Title.Text)
		if title == "" {
			continue
		}
		if earlier := first[title]; earlier != nil {
			c.refuse("duplicate-title", page.Title.Span, "another page has the title "+source.Quote(page.Title.Text), "the other is "+earlier.File.Name+"; change one")
			continue
		}
		first[title] = page
	}
}

// join puts hints on lines of their own, leaving out empty ones.
func join(hints ...string) string {
	return strings.Join(slices.DeleteFunc(hints, func(s string) bool { return s == "" }), "\n")
}
