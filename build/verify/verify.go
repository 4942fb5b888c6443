// Package verify says what is wrong in a loaded Library, and what to do about each thing.
//
// Each rule, or family of rules, is one file; its name stands in every diagnostic. A rule takes the
// library and one page and gives what it found; no rule depends on another or on their order.
//
//	problems, counts := verify.Check(library, time.Now())
//	files := verify.Fix(library) // the figures of stale facts, written anew
package verify

import (
	"slices"
	"time"

	"blankoff/build/diagnostic"
	"blankoff/build/guide"
	"blankoff/build/load"
	"blankoff/build/parallel"
	"blankoff/build/source"
)

// Counts tells what was looked at.
type Counts struct {
	Pages       int
	Calculators int // placed in pages
	Facts       int // spec: and calc: links
	Quantities  int // recognised in running text
	Hazards     int // hazards that pages carry, each page's own
	Stops       int
	Links       int // to other places, pictures included
}

func (c *Counts) add(more Counts) {
	c.Pages += more.Pages
	c.Calculators += more.Calculators
	c.Facts += more.Facts
	c.Quantities += more.Quantities
	c.Hazards += more.Hazards
	c.Stops += more.Stops
	c.Links += more.Links
}

// Check applies all rules. today decides whether a review date has passed.
func Check(library *load.Library, today time.Time) ([]diagnostic.Diagnostic, Counts) {
	c := &checker{library: library, today: today, words: newVocabulary(library), linked: linkedSteps(library.Guides, library.Guide)}
	c.checkShop()
	c.checkMachines()
	c.checkTitles()
	c.checkAuthoring()
	c.triage()
	c.synonyms()
	c.sharedQuantities()
	fresh, _ := fixMachines(library) // a fact that follows from a stale value is told with it
	memo, known := &answers{}, &anchors{}
	pages := make([]*checker, len(library.Guides))
	parallel.Each(len(pages), func(i int) {
		pages[i] = &checker{library: fresh, today: today, words: c.words, linked: c.linked, answers: memo, anchors: known, wrong: c.wrong}
		pages[i].page(library.Guides[i])
	})
	for _, page := range pages {
		c.found = append(c.found, page.found...)
		c.counts.add(page.counts)
	}
	return diagnostic.Sorted(c.found), c.counts
}

// page applies every rule to one page; nothing that a rule learns may outlive it.
func (c *checker) page(page *guide.Guide) {
	c.read(page)
	for _, rule := range rules {
		rule(c, page)
	}
	c.count(page)
}

// read cuts the page into passages, which many rules look at.
func (c *checker) read(page *guide.Guide) {
	c.text = passages(page)
	c.ofStep, c.first = map[*guide.Step][]*passage{}, map[string]*guide.HazardRef{}
	for _, ref := range slices.Backward(page.HazardRefs) {
		c.first[ref.Name] = ref
	}
	for _, p := range c.text {
		if p.step != nil {
			c.ofStep[p.step] = append(c.ofStep[p.step], p)
		}
	}
}

// rules are applied to each page.
var rules = []func(*checker, *guide.Guide){
	(*checker).header,
	(*checker).families,
	(*checker).review,
	(*checker).structure,
	(*checker).sections,
	(*checker).sources,
	(*checker).steps,
	(*checker).ways,
	(*checker).flow,
	(*checker).demandedHazards,
	(*checker).measuredHazards,
	(*checker).hazardRefs,
	(*checker).stopRefs,
	(*checker).acts,
	(*checker).forbidden,
	(*checker).tools,
	(*checker).abbreviations,
	(*checker).facts,
	(*checker).looseFacts,
	(*checker).quantities,
	(*checker).readingGrade,
	(*checker).calculatorBlocks,
	(*checker).mixtures,
	(*checker).presets,
	(*checker).links,
	(*checker).pictureTexts,
	(*checker).drawings,
	(*checker).rawHTML,
	(*checker).exampleBlocks,
}

type checker struct {
	library *load.Library
	today   time.Time
	words   *vocabulary
	linked  map[*guide.Guide][]int // steps to which other pages lead
	text    []*passage             // of the page
	ofStep  map[*guide.Step][]*passage
	first   map[string]*guide.HazardRef // where the page first tells of each hazard
	answers *answers                    // of calculators, shared by the pages
	anchors *anchors                    // of all pages, shared by them
	guesses int                         // how many wrong links of the page were compared with the right ones
	wrong   map[source.Span]bool        // values that are refused in their own file
	found   []diagnostic.Diagnostic
	counts  Counts
}

func (c *checker) refuse(rule string, span source.Span, message, hint string) {
	c.found = append(c.found, diagnostic.NewError(rule, span, message, hint))
}

func (c *checker) warn(rule string, span source.Span, message, hint string) {
	c.found = append(c.found, diagnostic.NewWarning(rule, span, message, hint))
}

func (c *checker) count(page *guide.Guide) {
	c.counts.Pages++
	c.counts.Calculators += len(page.Calculators)
	c.counts.Facts += len(page.Facts)
	c.counts.Quantities += len(page.Quantities)
	c.counts.Stops += len(page.StopRefs)
	c.counts.Links += len(page.Links)
	c.counts.Hazards += len(carried(page))
}

// names lists the names of anything, or what else can be said of each.
func names[T, N any](list []T, name func(T) N) []N {
	var out []N
	for _, item := range list {
		out = append(out, name(item))
	}
	return out
}
