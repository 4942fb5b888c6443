package journey

import (
	"fmt"
	"testing"
)

// moves counts what moved on a page while it loaded, as Chromium sees it (Layout Instability, W3C draft): a list of what, from where, to where.
const moves = `
	return new Promise((done) => {
		new PerformanceObserver((list) => done(list.getEntries().flatMap(({ sources, hadRecentInput }) => hadRecentInput ? [] : sources.map(({ node, previousRect: was, currentRect: is }) =>
			(node?.outerHTML ?? node?.data ?? "gone").slice(0, 60) + " from " + [was.x, was.y] + " to " + [is.x, is.y])))).observe({ type: "layout-shift", buffered: true });
		requestAnimationFrame(() => setTimeout(done, 100, []));
	});`

// TestNothingMoves while a page loads, gets its scripts and is kept for work without a network: who reads it already would lose the line.
func TestNothingMoves(t *testing.T) {
	t.Parallel()
	h := serveAt(t, "/", filesOf(t, publish(t))) // where the page for wrong addresses finds its parts
	for _, view := range []View{Phone, {Width: 1280, Height: 900, Density: 1}} {
		b := open(t, Chromium(), view) // the first page is seen while the site is kept, the others after
		for _, path := range []string{"", "procedures/rise-test/", "symptoms/reading-jumps/", "calculators/rise-test/", "machines/cindle-14/", "triage/", "search/", "pages/limits/", "404.html"} {
			t.Run(fmt.Sprint(view.Width, "/", path), func(t *testing.T) {
				must(t, b.Open(h.address+path))
				must(t, b.Until("its scripts have run", func() (ran bool, err error) {
					err = b.Script(&ran, `return !document.querySelector("fieldset:disabled, nav.thumb button:disabled, .search form[hidden]") && (!document.querySelector("main[data-model]") || !!document.querySelector(".now h2"))`)
					return ran, err
				}))
				b.untilText(t, "p.saved[data-saved=ready]", "Works offline")
				var moved []string
				must(t, b.Script(&moved, moves))
				for _, what := range moved {
					t.Error(what)
				}
			})
		}
	}
}

// TestCalculatorsWaitUntilTheyAreNear: to compile and to start them takes a slow phone a while, in which it would not scroll.
func TestCalculatorsWaitUntilTheyAreNear(t *testing.T) {
	t.Parallel()
	h := serve(t, filesOf(t, publish(t)))
	b := phone(t)
	must(t, b.Open(h.address+"procedures/rise-test/"))
	untilAtRest(t, b)
	b.untilText(t, "p.saved[data-saved=ready]", "Works offline")
	fetched := func() (n int) {
		must(t, b.Script(&n, `return performance.getEntriesByType("resource").filter(({ name }) => name === new URL(document.documentElement.dataset.calc, location).href).length`))
		return n
	}
	if n := fetched(); n != 0 {
		t.Fatalf("the calculators were fetched %d times before a reader came near", n)
	}
	must(t, b.Script(nil, `document.querySelector("section.calculator").scrollIntoView()`))
	must(t, b.Until("the calculators are fetched", func() (bool, error) { return fetched() == 1, nil }))
}
