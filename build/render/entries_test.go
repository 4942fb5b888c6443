package render

import (
	"strings"
	"testing"

	"golang.org/x/net/html"
)

// TestFoldedEntries: what a guide folds away is in the file that all guides share, blank, once, and under the calculator's name.
func TestFoldedEntries(t *testing.T) {
	doc, err := html.Parse(strings.NewReader(string(Entries())))
	if err != nil {
		t.Fatal(err)
	}
	found := map[string]int{}
	of := ""
	for n := range doc.Descendants() {
		for _, a := range n.Attr {
			switch {
			case n.Data == "section" && a.Key == "data-calculator":
				of = a.Val
			case a.Key == "data-input":
				found[of+"/"+a.Val]++
			case n.Data == "input" && a.Key == "value" && a.Val != "":
				t.Errorf("an entry of %s is not blank: %q", of, a.Val)
			}
		}
	}
	optional := 0
	for _, c := range calculators() {
		for _, in := range c.Inputs {
			want := 1
			if in.Required {
				want = 0
			}
			optional += want
			if got := found[c.ID+"/"+in.ID]; got != want {
				t.Errorf("%s/%s is %d times in the file, want %d", c.ID, in.ID, got, want)
			}
		}
	}
	if len(found) != optional || optional < 50 {
		t.Errorf("%d entries in the file, %d are declared", len(found), optional)
	}
}
