package verify

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"blankoff/build/guide"
	"blankoff/build/load"
	"blankoff/build/source"
	"blankoff/calc"
)

// carried lists the hazards that a page has a link for, each once, in the order of the text.
func carried(page *guide.Guide) []string {
	var list []string
	for _, ref := range page.HazardRefs {
		if !slices.Contains(list, ref.Name) {
			list = append(list, ref.Name)
		}
	}
	return list
}

// demandedHazards: what a page does decides which hazards it must carry.
func (c *checker) demandedHazards(page *guide.Guide) {
	catalogue := &c.library.Catalogue
	known := names(catalogue.Acts, func(a *load.Act) string { return a.Name })
	has := carried(page)
	for _, does := range page.Does {
		act := catalogue.Act(does.Text)
		if act == nil {
			c.refuse("unknown-act", does.Span, "the catalogue has no act "+source.Quote(does.Text), source.DidYouMean(does.Text, known))
			continue
		}
		for _, need := range act.Hazards {
			hazard := catalogue.Hazard(need.Text)
			if hazard == nil || slices.Contains(has, need.Text) {
				continue // a hazard that the catalogue lacks is the catalogue's own error
			}
			c.missing(does.Span, fmt.Sprintf("the act %s (%s)", source.Quote(does.Text), act.Means.Text), hazard)
		}
	}
}

// measuredHazards: a calculator in a step is where readings are taken, so the page carries the hazards of taking them.
func (c *checker) measuredHazards(page *guide.Guide) {
	has := carried(page)
	for _, block := range page.Calculators {
		calculator := calc.Find(block.ID)
		if block.Step == nil || calculator == nil {
			continue
		}
		for _, need := range calculator.Hazards {
			hazard := c.library.Catalogue.Hazard(need)
			switch {
			case hazard == nil:
			case !slices.Contains(has, need):
				c.missing(block.IDSpan, "taking the readings for the calculator "+source.Quote(block.ID), hazard)
			case c.comesLate(need, block.Step):
				c.refuse("hazard-late", block.IDSpan, fmt.Sprintf("here step %d takes the readings for a calculator, and their hazard %s comes only later",
					block.Step.Number, source.Quote(need)), earlier(hazard, block.Step))
			}
		}
	}
}

// missing says that something on the page demands a hazard which it does not carry.
func (c *checker) missing(at source.Span, what string, hazard *load.Hazard) {
	c.refuse("hazard-missing", at, what+" demands the hazard "+source.Quote(hazard.Name)+", which the page does not carry",
		"write this line in a paragraph of its own, before the step it concerns or under `Before you start`:\n"+hazardLine(hazard))
}

func hazardLine(h *load.Hazard) string {
	return "[" + h.Word.Text + ": " + lowerFirst(h.Title.Text) + "](hazard:" + h.Name + ")"
}

// lowerFirst lets a title go on after a colon; an abbreviation such as ESD keeps its capitals.
func lowerFirst(text string) string {
	runes := []rune(text)
	if len(runes) < 2 || unicode.IsUpper(runes[1]) {
		return text
	}
	runes[0] = unicode.ToLower(runes[0])
	return string(runes)
}

// hazardRefs checks each hazard link: known, signal word first, before what it warns of.
func (c *checker) hazardRefs(page *guide.Guide) {
	known := names(c.library.Catalogue.Hazards, func(h *load.Hazard) string { return h.Name })
	for _, ref := range page.HazardRefs {
		hazard := c.library.Catalogue.Hazard(ref.Name)
		if hazard == nil {
			c.refuse("unknown-hazard", ref.NameSpan, "the catalogue has no hazard "+source.Quote(ref.Name), source.DidYouMean(ref.Name, known))
			continue
		}
		if word := hazard.Word.Text; slices.Contains(load.SignalWords, word) && !startsWithWord(ref.Said, word) {
			c.refuse("signal-word", ref.SaidSpan, fmt.Sprintf("the hazard %s is a %s, and its text must begin so", source.Quote(ref.Name), word),
				"write "+hazardLine(hazard))
		}
		if ref.Late {
			c.refuse("hazard-late", ref.SaidSpan, fmt.Sprintf("the hazard stands after the action of step %d", ref.Step.Number),
				"move it up: the first paragraph of the step, before what to do")
		}
	}
	c.lateHazards(page)
}

// lateHazards refuses a hazard whose first mention comes after all steps: who reads in order has done the work by then.
func (c *checker) lateHazards(page *guide.Guide) {
	if len(page.Steps) == 0 {
		return
	}
	last := page.Steps[len(page.Steps)-1].Span.Start
	seen := map[string]bool{}
	for _, ref := range page.HazardRefs {
		if ref.Step == nil && ref.SaidSpan.Start > last && !seen[ref.Name] && c.library.Catalogue.Hazard(ref.Name) != nil {
			c.refuse("hazard-late", ref.SaidSpan, "the hazard "+source.Quote(ref.Name)+" is named only after the last step",
				"move it under `Before you start`, or into the step it concerns")
		}
		seen[ref.Name] = true
	}
}

// startsWithWord tells whether a text begins with a whole word.
func startsWithWord(text, word string) bool {
	rest, found := strings.CutPrefix(text, word)
	return found && word != "" && strings.IndexFunc(rest, unicode.IsLetter) != 0
}

// stopRefs checks that each stop is known.
func (c *checker) stopRefs(page *guide.Guide) {
	known := names(c.library.Catalogue.Stops, func(s *load.Stop) string { return s.Name })
	for _, ref := range page.StopRefs {
		if c.library.Catalogue.Stop(ref.Name) == nil {
			c.refuse("unknown-stop", ref.NameSpan, "the catalogue has no stop "+source.Quote(ref.Name), source.DidYouMean(ref.Name, known))
		}
		if !startsWithWord(strings.ToUpper(ref.Said), "STOP") {
			c.refuse("stop-word", ref.SaidSpan, "the text of a stop must begin with STOP", "write [STOP: who goes on from here](stop:"+ref.Name+")")
		}
	}
}
