package verify

import (
	"fmt"
	"slices"
	"strings"

	"blankoff/build/guide"
	"blankoff/build/load"
	"blankoff/build/source"
)

// tools compares what the steps take into the hand with what the header tells to bring. Words of tools and supplies are
// those of words.yaml; of a supply that stands in no list, the last word of its name counts.
func (c *checker) tools(page *guide.Guide) {
	if len(page.Steps) == 0 {
		return
	}
	c.unlistedTools(page)
	c.unusedSupplies(page)
}

func (c *checker) unlistedTools(page *guide.Guide) {
	listed := map[*load.Word]bool{}
	for _, item := range broughtAlong(page) {
		for _, w := range c.wordsIn(item.Text) {
			listed[w] = true
		}
	}
	for _, p := range c.text {
		if p.step == nil {
			continue
		}
		for _, m := range c.words.tools.mentions(p.words) {
			if listed[m.of] {
				continue
			}
			listed[m.of] = true // said once a page
			key := "tools"
			if slices.Contains(c.library.Words.Supplies, m.of) {
				key = "supplies"
			}
			if misread(page, key) {
				continue
			}
			c.refuse("tool-unlisted", p.span(page.File, m.from, m.to), fmt.Sprintf("step %d uses %s, which the header does not list", p.step.Number, source.Quote(m.of.Name)),
				"add it to `"+key+":` in the header, so that it is brought along")
		}
	}
}

// wordsIn finds the tools and supplies that an item of a header names.
func (c *checker) wordsIn(item string) []*load.Word {
	return names(c.words.tools.search(wordsOf(item), true), func(m match[*load.Word]) *load.Word { return m.of })
}

// unusedSupplies asks that the page, or what a hazard on it asks for, speaks of each supply.
func (c *checker) unusedSupplies(page *guide.Guide) {
	wanted := newPhrases[int]()
	for i, supply := range page.Supplies {
		known := c.wordsIn(supply.Text)
		for _, w := range known {
			for _, text := range w.Spellings() {
				wanted.add(text, i)
			}
		}
		if len(known) == 0 {
			wanted.add(headNoun(supply.Text), i)
		}
	}
	used := map[int]bool{}
	use := func(words []word) {
		for _, m := range wanted.mentions(words) {
			used[m.of] = true
		}
	}
	for _, p := range c.text {
		if !p.heading {
			use(p.words)
		}
	}
	for _, name := range carried(page) {
		use(c.words.avoid[name])
	}
	for i, supply := range page.Supplies {
		if !used[i] {
			c.refuse("supply-unused", supply.Span, "nothing on the page uses the supply "+source.Quote(supply.Text),
				"say in a step where it is used, or take it out of `supplies:`")
		}
	}
}

// headNoun is the word for the thing itself: "cloth" of "clean dry cloth without lint".
func headNoun(item string) string {
	words := wordsOf(item)
	for i, w := range words {
		if i > 0 && (w.gap != beside || prepositions[w.text]) {
			return words[i-1].text
		}
	}
	if len(words) == 0 {
		return strings.TrimSpace(item)
	}
	return words[len(words)-1].text
}

var prepositions = wordSet("for of with without in on at to from that which who by per or and")
