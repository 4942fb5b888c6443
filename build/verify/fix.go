package verify

import (
	"slices"
	"strings"

	"blankoff/build/guide"
	"blankoff/build/load"
	"blankoff/build/parallel"
)

// Fix writes stale facts anew: only the figures change, in the unit and style of the text; every other
// byte stays. The keys are paths in the content folder; a page without stale facts is absent. What
// cannot be written so, such as a fact on which two machines differ, is left to the author.
func Fix(library *load.Library) map[string][]byte {
	library, fixed := fixMachines(library) // first, for pages state what the machines' files say
	memo := &answers{}
	machines := &checker{library: library}
	machines.checkMachines() // a figure that is refused in its own file goes nowhere else
	texts := make([][]byte, len(library.Guides))
	parallel.Each(len(texts), func(i int) {
		c := &checker{library: library, answers: memo, wrong: machines.wrong} // what it finds on the way is Check's to say
		texts[i] = c.fixPage(library.Guides[i])
	})
	for i, page := range library.Guides {
		if texts[i] != nil {
			fixed[page.File.Path] = texts[i]
		}
	}
	return fixed
}

// fixPage gives the text of a page with its stale facts written anew, or nil if there is nothing to write.
func (c *checker) fixPage(page *guide.Guide) []byte {
	var edits []edit
	for _, fact := range page.Facts {
		if fact.Said == "" {
			continue
		}
		if rights, ok := c.rights(page, fact); ok && !c.isTrue(fact, rights) {
			edits = append(edits, cure(fact, understood(rights)).edits...)
		}
	}
	if len(edits) == 0 {
		return nil
	}
	slices.SortFunc(edits, func(a, b edit) int { return a.from - b.from })
	return []byte(apply(page.File.Text, edits))
}

// remedy is how a stale fact can be made true: the text that it should have, and the edits of the file that give it.
// Without edits the author has to write it, and because says why.
type remedy struct {
	text    string
	edits   []edit
	because string
}

// cure finds the figures that make a fact true for every machine.
func cure(fact *guide.Fact, rights []right) remedy {
	s := spell(fact)
	said := s.text.String()
	for _, right := range rights {
		edits, ok := amend(said, right.measure)
		if !ok || len(edits) == 0 {
			continue
		}
		fresh := apply(said, edits)
		if !holds(fresh, rights) {
			continue
		}
		r := remedy{text: strings.Join(strings.Fields(fresh), " ")}
		r.edits, r.because = carry(fact, s, edits)
		return r
	}
	return remedy{}
}

// holds tells whether a text is true for every machine.
func holds(text string, rights []right) bool {
	said := read(text)
	return !slices.ContainsFunc(rights, func(r right) bool { return disagreement(said, r.measure) != agrees })
}

// carry takes the edits of a fact's text over to its file, or tells why that would break it.
func carry(fact *guide.Fact, s *spelling, edits []edit) ([]edit, string) {
	if strings.Join(strings.Fields(s.text.String()), " ") != fact.Said {
		return nil, "the text holds more than letters"
	}
	if isOwnName(fact.SaidSpan) {
		return nil, "the text is also the name of its target, which must change with it"
	}
	raw, ok := s.edits(edits)
	if !ok {
		return nil, "the figure has markup inside"
	}
	return raw, ""
}
