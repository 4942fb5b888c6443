package journey

import (
	"maps"
	"strings"
	"testing"
)

// What a browser has thrown away is said plainly: no endless redirect, and no header that promises what is gone.
func TestSavedFilesThatTheBrowserRemoved(t *testing.T) {
	t.Parallel()
	h := serve(t, smallSite(t, "e1"))
	b := phone(t)
	must(t, b.Open(h.address))
	b.untilText(t, "p.saved[data-saved=ready]", "Works offline")
	must(t, b.Script(nil, `return caches.keys().then((names) => Promise.all(names.map((name) => caches.delete(name))))`))
	must(t, b.Reload())
	b.untilText(t, "p.saved[data-saved=none]", "Needs a network")
	h.stop()
	must(t, b.Open(h.address+"other/"))
	b.untilText(t, "body", "The browser has removed what was saved. Open this page once with a network.")
}

// An edition of which not all arrived must not push out the one that pages still use.
func TestABrokenOffEditionLeavesTheOneBefore(t *testing.T) {
	t.Parallel()
	h := serve(t, smallSite(t, "e1"))
	b := phone(t)
	must(t, b.Open(h.address))
	b.untilText(t, "p.saved[data-saved=ready]", "Works offline")
	used := untilEditions(t, b, "one", func(kept []string) bool { return len(kept) == 1 })[0]

	h.replace(spoil(smallSite(t, "e2"), "other/index.html"))
	must(t, b.Reload())
	broken := untilEditions(t, b, "the begun one too", func(kept []string) bool { return len(kept) == 2 })[1]
	h.replace(smallSite(t, "e3"))
	must(t, b.Reload())
	b.untilText(t, "p.saved[data-saved=new]", "New edition ready: use it")
	tap(t, b, "p.saved button")
	must(t, b.Until("the third edition is shown", func() (bool, error) {
		return b.title(t) == "index.html of e3", nil
	}))
	untilEditions(t, b, "the one used before and the new one", func(kept []string) bool {
		return len(kept) == 2 && kept[0] == used && kept[1] != broken
	})
}

// untilEditions waits until the browser keeps what is wanted; it gives the names in the order in which they were begun.
func untilEditions(t *testing.T, b *Browser, what string, wanted func(kept []string) bool) (kept []string) {
	t.Helper()
	err := b.Until("the browser keeps "+what, func() (bool, error) {
		err := b.Script(&kept, "return caches.keys()")
		return wanted(kept), err
	})
	if err != nil {
		t.Fatalf("%v; it keeps %q", err, kept)
	}
	return kept
}

// Without its script a calculator keeps the worked example and says why nothing can be entered.
func TestACalculatorWhoseScriptIsMissing(t *testing.T) {
	t.Parallel()
	files := filesOf(t, publish(t))
	maps.DeleteFunc(files, func(path string, _ []byte) bool { return strings.HasPrefix(path, "start.") })
	h := serve(t, files)
	b := phone(t)
	must(t, b.Open(h.address+"calculators/rise-test/"))
	b.untilText(t, ".calculator > .waiting", "The calculators did not load, so this is the worked example only. Load the page again, with a network.")
	b.untilText(t, ".calculator .verdict strong", "Pass")
}
