package verify

import (
	"sync"

	"blankoff/build/guide"
)

// anchors remembers for one run which places each page has: thousands of links may lead to one page of thousands of steps.
type anchors struct{ known sync.Map }

// has tells whether a page has a place that a link can name.
func (a *anchors) has(page *guide.Guide, anchor string) bool {
	known, found := a.known.Load(page)
	if !found {
		all := map[string]bool{}
		for _, name := range page.Anchors() {
			all[name] = true
		}
		known, _ = a.known.LoadOrStore(page, all)
	}
	return known.(map[string]bool)[anchor]
}
