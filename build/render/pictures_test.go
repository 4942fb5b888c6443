package render

import (
	"os"
	"regexp"
	"strings"
	"testing"

	"blankoff/build/diagnostic"
	"blankoff/build/drawn"
	"blankoff/build/load"
)

func demoShop(t *testing.T) *load.Library {
	t.Helper()
	library, found, err := load.Load(os.DirFS("../../content"), "content")
	if err != nil || len(found) > 0 {
		t.Fatal(err, diagnostic.List(found, diagnostic.Style{}))
	}
	return library
}

// TestEveryPictureOfTheShopDraws: each name that an author is offered, each on two pages at once.
func TestEveryPictureOfTheShopDraws(t *testing.T) {
	library := demoShop(t)
	names := drawn.Names(library)
	if len(names) < 30 {
		t.Fatalf("only %d pictures", len(names))
	}
	for _, name := range names {
		d, err := drawn.Find(library, name)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if untold := d.Untold(d.Title + ": " + d.Words); len(untold) > 0 {
			t.Errorf("%s: its own text leaves out %v", name, untold)
		}
	}
	for _, name := range []string{"", "pins", "pins/", "pins/none", "circuit/none", "thread/none", "rise", "rise/both/none", "rise/both/", "other/tq-4"} {
		if _, err := drawn.Find(library, name); err != drawn.ErrUnknown {
			t.Errorf("%q: %v", name, err)
		}
	}
}

// TestPagesWithPictures: every picture that a page asks for, and every plot, is there, with a text and without what the pages' policy forbids; ids stay
// unique; the style sheet of pictures is linked once, and only where there is one.
func TestPagesWithPictures(t *testing.T) {
	library := demoShop(t)
	pages, err := Pages(library, Assets{Drawn: "drawn.css"})
	if err != nil {
		t.Fatal(err)
	}
	id, svg := regexp.MustCompile(`\sid="([^"]*)"`), regexp.MustCompile(`(?s)<svg class="drawn(?: rungs)?".*?</svg>`)
	const plotted = `<svg class="drawn" width=` // of calc/plot; pictures begin with their view box
	found, allPlots := map[string]int{}, 0
	for _, page := range pages {
		text := string(page.Bytes)
		pictures := svg.FindAllString(text, -1)
		plots := 0
		if links := strings.Count(text, `href="../../drawn.css"`); links != min(len(pictures), 1) {
			t.Errorf("%s has %d pictures and %d links to their style sheet", page.Path, len(pictures), links)
		}
		for _, picture := range pictures {
			if strings.HasPrefix(picture, plotted) {
				plots++
				told := strings.Contains(picture, ` role="img" aria-label="`)
				room := strings.HasSuffix(picture, `"></svg>`) && !strings.HasPrefix(page.Path, "calculators/")
				if told == room || strings.Contains(picture, "style=") {
					t.Errorf("%s: %s", page.Path, picture)
				}
				continue
			}
			if !strings.Contains(picture, "<title>") || !strings.Contains(picture, "<desc>") || strings.Contains(picture, "style=") {
				t.Errorf("%s: %s", page.Path, picture)
			}
		}
		found[strings.TrimSuffix(page.Path, "/index.html")] = len(pictures) - plots
		allPlots += plots
		seen := map[string]bool{}
		for _, match := range id.FindAllStringSubmatch(text, -1) {
			if seen[match[1]] {
				t.Errorf("%s has the id %q twice", page.Path, match[1])
			}
			seen[match[1]] = true
		}
	}
	for _, g := range library.Guides {
		if got := found[g.Path()]; got != len(g.Drawings) {
			t.Errorf("%s asks for %d pictures and has %d", g.Path(), len(g.Drawings), got)
		}
	}
	if allPlots < 20 {
		t.Errorf("only %d plots", allPlots)
	}
	for _, m := range library.Machines {
		if found["machines/"+m.Name] != 2 {
			t.Errorf("the card of %s has %d pictures, want its circuit and its pins", m.Name, found["machines/"+m.Name])
		}
	}
}

// TestABareCardHasNoCircuit: a card that says nothing of the circuit gets no picture of one.
func TestABareCardHasNoCircuit(t *testing.T) {
	texts := rendered(t, bench)
	for path, want := range map[string]bool{"machines/alone/index.html": false, "machines/small/index.html": true} {
		if got := strings.Contains(texts[path], "Drawn from the values"); got != want {
			t.Errorf("%s: pictures %v, want %v: %s", path, got, want, texts[path])
		}
		if strings.Contains(texts[path], "Vacuum circuit") {
			t.Errorf("%s has a circuit", path)
		}
	}
}
