package verify

import (
	"slices"

	"blankoff/build/guide"
	"blankoff/build/load"
)

// Fix writes stale facts anew: only the figures change, in the unit and style of the text; every other
// byte stays. The keys are paths in the content folder; a page without stale facts is absent. What
// cannot be written so, such as a fact on which two machines differ, is left to the author.
func Fix(library *load.Library) map[string][]byte {
	c := &checker{library: library} // what it finds on the way is Check's to say
	fixed := map[string][]byte{}
	for _, page := range library.Guides {
		if text, changed := c.fixPage(page); changed {
			fixed[page.File.Path] = text
		}
	}
	return fixed
}

func (c *checker) fixPage(page *guide.Guide) ([]byte, bool) {
	text := []byte(page.File.Text)
	changed := false
	for _, fact := range slices.Backward(page.Facts) { // from the end, so that places before stay right
		if fresh, ok := c.fixFact(page, fact); ok {
			text = slices.Replace(text, fact.SaidSpan.Start, fact.SaidSpan.End(), []byte(fresh)...)
			changed = true
		}
	}
	return text, changed
}

// fixFact gives the new text of a stale fact, if there is one that is true for every machine.
func (c *checker) fixFact(page *guide.Guide, fact *guide.Fact) (string, bool) {
	rights, ok := c.rights(page, fact)
	if !ok {
		return "", false
	}
	return freshFact(fact, rights)
}

// freshFact writes a fact's text anew, if the outcome differs from it and is true for all.
func freshFact(fact *guide.Fact, rights []right) (string, bool) {
	old := fact.SaidSpan.Text()
	if len(rights) == 0 {
		return "", false
	}
	fresh, ok := restate(old, rights[0].measure)
	if !ok || fresh == old {
		return "", false
	}
	for _, right := range rights[1:] {
		if disagreement(read(fresh), right.measure) != agrees {
			return "", false
		}
	}
	return fresh, true
}
