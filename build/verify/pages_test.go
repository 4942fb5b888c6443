package verify

import (
	"os"
	"slices"
	"strings"
	"testing"

	"blankoff/build/guide"
	"blankoff/build/load"
)

// TestEachOfOurPagesIsWhole asks of every page what its reader must find: with steps, who may do it, how long it takes,
// what can hurt and where unlicensed work ends; with figures, where they come from; in a story of a repair, the hazard of
// that repair and the way to its guide.
func TestEachOfOurPagesIsWhole(t *testing.T) {
	library, found, err := load.Load(os.DirFS("../../content"), "content")
	if err != nil || len(found) > 0 {
		t.Fatal(found, err)
	}
	for _, page := range library.Guides {
		work, story := len(page.Steps) > 0, strings.HasPrefix(page.Name, "case-")
		toGuide := slices.ContainsFunc(page.Links, func(l *guide.Link) bool { return strings.Contains(l.Target, "procedures/") })
		for _, want := range []struct {
			of, has bool
			what    string
		}{
			{work, page.People.Text != "", "who may do it"},
			{work, page.Time.Text != "", "how long it takes"},
			{work || story, len(page.HazardRefs) > 0, "a hazard"},
			{work, len(page.StopRefs) > 0, "a stop for licensed work"},
			{story, toGuide, "a link to the guide of the work"},
			{len(page.Facts)+len(page.Quantities)+len(page.Calculators) > 0, page.Section(sourcesSection) != nil, "where its figures come from"},
			{true, page.Approver.Text != "" && page.Review.Text != "" && page.Revision.Text != "", "revision, approver and review"},
		} {
			if want.of && !want.has {
				t.Errorf("%s lacks %s", page.File.Path, want.what)
			}
		}
	}
}
