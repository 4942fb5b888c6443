package verify

import (
	"fmt"
	"slices"

	"blankoff/build/guide"
	"blankoff/build/load"
	"blankoff/build/source"
)

// deed is an act that the words of a step name, or those of the sections before and after the steps.
type deed struct {
	act   *load.Act
	step  *guide.Step // nil outside steps
	where string      // "step 3", for messages
	span  source.Span // the words that name it
}

// deeds lists the acts that the work of a page comes to, each once a step, in the order of the text.
func (c *checker) deeds(page *guide.Guide) []deed {
	type place struct {
		act     *load.Act
		step    *guide.Step
		section *guide.Section
	}
	seen := map[place]bool{}
	var list []deed
	for _, p := range c.text {
		if !isWork(page, p) {
			continue
		}
		for _, m := range c.words.acts.mentions(p.words) {
			if at := (place{m.of, p.step, p.section}); !seen[at] {
				seen[at] = true
				list = append(list, deed{m.of, p.step, placeOfWork(p), p.span(page.File, m.from, m.to)})
			}
		}
	}
	return list
}

// isWork tells whether a passage says what is done: in a step, or before or after the steps.
func isWork(page *guide.Guide, p *passage) bool {
	if p.step != nil {
		return true
	}
	return p.section != nil && !p.heading && len(page.Steps) > 0 && (p.section.ID == "before-you-start" || p.section.ID == "afterwards")
}

func placeOfWork(p *passage) string {
	if p.step != nil {
		return fmt.Sprintf("step %d", p.step.Number)
	}
	return "the section " + source.Quote(p.section.Title)
}

// acts holds what the steps of a page do against what its header says, against who reads it, and against the hazards
// that must stand before.
func (c *checker) acts(page *guide.Guide) {
	deeds := c.deeds(page)
	for _, d := range deeds {
		if d.step != nil { // what stands around the steps describes the work; its hazards may follow in the steps
			c.lateHazardsOf(d)
		}
	}
	unnamed := map[*load.Act]bool{}
	for _, d := range deeds {
		if d.act.Stop.Text != "" {
			c.reserved(page, d)
		} else if !unnamed[d.act] {
			unnamed[d.act] = true // one line in the header mends all steps
			c.named(page, d)
		}
	}
	for _, does := range page.Does {
		if act := c.library.Catalogue.Act(does.Text); act != nil {
			c.permitted(page, does.Span, act)
			c.endsInStop(page, does, act)
		}
	}
}

// named asks for the act of a step in the header.
func (c *checker) named(page *guide.Guide, d deed) {
	if slices.ContainsFunc(page.Does, func(does load.Text) bool { return does.Text == d.act.Name }) {
		return // the header's own act is looked at once
	}
	if misread(page, "does") || slices.ContainsFunc(page.Does, func(does load.Text) bool { return source.NearMiss(does.Text, []string{d.act.Name}) != "" }) {
		return // the header's own error
	}
	c.refuse("act-unnamed", d.span, fmt.Sprintf("%s does what the act %s means (%s), and the header does not say so",
		d.where, source.Quote(d.act.Name), d.act.Means.Text), "add "+d.act.Name+" to `does:` in the header, or write a step that does not do it")
	c.permitted(page, d.span, d.act)
}

// permitted asks whether the reader of a page may do an act.
func (c *checker) permitted(page *guide.Guide, at source.Span, act *load.Act) {
	reader := page.Reader.Text
	if !slices.Contains(guide.Readers, reader) {
		return // the header's own error
	}
	reserved := act.Stop.Text != ""
	if reserved && reader != "customer" {
		return
	}
	readers := names(act.Readers, func(t load.Text) string { return t.Text })
	if !reserved && (len(readers) == 0 || slices.Contains(readers, reader)) {
		return
	}
	hint := "take it out of this page and let the reader call the shop"
	if len(readers) > 0 {
		hint += fmt.Sprintf("; the act is for %s", either(readers))
	}
	c.refuse("licensed-act", at, fmt.Sprintf("a page for a %s must not lead to the act %s (%s)", reader, source.Quote(act.Name), act.Means.Text), hint)
}

// reserved asks for the stop in a step that reaches the work of licensed people.
func (c *checker) reserved(page *guide.Guide, d deed) {
	if page.Reader.Text == "customer" {
		c.permitted(page, d.span, d.act)
		return
	}
	stops, place := page.StopRefs, "there"
	if d.step != nil {
		stops, place = d.step.Stops, "the step there"
	}
	if slices.ContainsFunc(stops, func(s *guide.StopRef) bool { return s.Name == d.act.Stop.Text }) {
		return
	}
	c.refuse("licence-stop", d.span, fmt.Sprintf("%s reaches work for licensed people (%s) and does not stop", d.where, d.act.Means.Text),
		"end "+place+": "+c.stopLine(d.act.Stop.Text))
}

// endsInStop asks a page that names reserved work in its header for the stop at which it ends.
func (c *checker) endsInStop(page *guide.Guide, does load.Text, act *load.Act) {
	stop := act.Stop.Text
	if stop == "" || page.Reader.Text == "customer" || slices.ContainsFunc(page.StopRefs, func(s *guide.StopRef) bool { return s.Name == stop }) {
		return
	}
	c.refuse("licence-stop", does.Span, fmt.Sprintf("the act %s (%s) is for licensed people, and the page has no stop for them", source.Quote(does.Text), act.Means.Text),
		"write where the work of the reader ends: "+c.stopLine(stop))
}

func (c *checker) stopLine(name string) string {
	who := "who goes on from here"
	if stop := c.library.Catalogue.Stop(name); stop != nil {
		who = lowerFirst(stop.Title.Text)
	}
	return "[STOP: " + who + "](stop:" + name + ")"
}

// lateHazardsOf asks that each hazard of an act has stood before the action of the step that does it. That a page lacks
// the hazard altogether is said at the act.
func (c *checker) lateHazardsOf(d deed) {
	for _, need := range d.act.Hazards {
		if hazard := c.library.Catalogue.Hazard(need.Text); hazard != nil && c.comesLate(hazard.Name, d.step) {
			c.refuse("hazard-late", d.span, fmt.Sprintf("here %s does what the act %s means (%s), and the hazard %s comes only later",
				d.where, source.Quote(d.act.Name), d.act.Means.Text, source.Quote(hazard.Name)), earlier(hazard, d.step))
		}
	}
}

func earlier(hazard *load.Hazard, step *guide.Step) string {
	return fmt.Sprintf("write this line before the action of step %d, or under `Before you start`:\n%s", step.Number, hazardLine(hazard))
}

// comesLate tells whether a page carries a hazard, but not before the action of a step. One that stands late in this very
// step has been refused there.
func (c *checker) comesLate(hazard string, step *guide.Step) bool {
	first := c.first[hazard]
	return first != nil && first.SaidSpan.Start >= step.Span.Start && first.Step != step
}

// either joins names for a message: technician or shop.
func either(list []string) string {
	text := ""
	for i, name := range list {
		switch {
		case i == 0:
		case i == len(list)-1:
			text += " or "
		default:
			text += ", "
		}
		text += name
	}
	return text
}
