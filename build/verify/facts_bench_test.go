package verify

import (
	"fmt"
	"strings"
	"testing"
	"testing/fstest"

	"blankoff/build/load"
)

// manyFacts is a shop of many guides with twenty facts each: most are written as the machine's file has them, some in
// another unit or with fewer figures; the calculations differ from page to page unless they are alike.
func manyFacts(b *testing.B, pages int, alike bool) *load.Library {
	b.Helper()
	fsys := fstest.MapFS{}
	for name, text := range parseArchive(shopText(b)).files {
		fsys[name] = &fstest.MapFile{Data: []byte(text)}
	}
	for i := range pages {
		var page strings.Builder
		fmt.Fprintf(&page, "---\ntitle: Page %d\nreader: shop\nmachines: [cindle-14]\n---\n", i)
		for range 3 {
			page.WriteString("Ready at [350 mTorr](spec:ready-limit), which is [47 Pa](spec:ready-limit) or [0.35 Torr](spec:ready-limit), after [30 min](spec:warm-up); the heater has [6.9 to 9.3 Ω](spec:heater-limits).\n\n")
		}
		for k := range 5 {
			volume := 24.0
			if !alike {
				volume += float64(5*i+k) / 1e6
			}
			fmt.Fprintf(&page, "It leaks [0.019 mbar·L/s](<calc:rise-test?volume=%.6f L&start=120 mTorr&end=480 mTorr&time=10 min>).\n\n", volume)
		}
		fsys[fmt.Sprintf("pages/page-%d.md", i)] = &fstest.MapFile{Data: []byte(page.String())}
	}
	library, found, err := load.Load(fsys, "content")
	if err != nil || len(found) > 0 {
		b.Fatal(err, found)
	}
	return library
}

func BenchmarkFacts(b *testing.B) {
	for _, c := range []struct {
		name  string
		pages int
		alike bool
	}{{"5000Guides", 5000, false}, {"5000GuidesAlike", 5000, true}} {
		b.Run(c.name, func(b *testing.B) {
			library := manyFacts(b, c.pages, c.alike)
			b.ReportAllocs()
			for b.Loop() {
				memo := &answers{}
				for _, page := range library.Guides {
					checker := &checker{library: library, answers: memo}
					checker.facts(page)
					checker.looseFacts(page)
					if len(checker.found) > 0 {
						b.Fatal(said(checker.found))
					}
				}
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N*c.pages*20), "ns/fact")
		})
	}
}

func BenchmarkFix(b *testing.B) {
	library := manyFacts(b, 1000, false)
	for b.Loop() {
		if fixed := Fix(library); len(fixed) > 0 {
			b.Fatal("something was stale")
		}
	}
}
