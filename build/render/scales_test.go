package render

import (
	"encoding/json"
	"encoding/xml"
	"io"
	"regexp"
	"strings"
	"testing"

	"golang.org/x/net/html"

	"blankoff/build/bundle"
)

// TestEveryScaleIsInEveryUnit: whatever scale stands on a page, the script finds it by the key that it makes of the page, in every unit
// that a reader may choose; what it finds is well formed, names that unit and no other of its kind.
func TestEveryScaleIsInEveryUnit(t *testing.T) {
	pages, err := Pages(demoShop(t), Assets{Drawn: "drawn.css", Pictures: "svg{}", Scales: "scales", Choices: bundle.Choices})
	if err != nil {
		t.Fatal(err)
	}
	var all scales
	file := pages[len(pages)-1]
	if err := json.Unmarshal(file.Bytes, &all); err != nil || !strings.HasPrefix(file.Path, ScalesName+".") {
		t.Fatal(file.Path, err)
	}
	units := []string{"Pa", "mbar", "mTorr", "micron", "Torr", "inHg"}
	used := map[string]int{}
	for _, page := range pages[:len(pages)-1] {
		if !strings.HasSuffix(page.Path, ".html") {
			continue
		}
		root, err := html.Parse(strings.NewReader(string(page.Bytes)))
		if err != nil {
			t.Fatal(err)
		}
		for svg := range root.Descendants() {
			if svg.Type != html.ElementNode || svg.Data != "svg" || within(svg, "answer") {
				continue
			}
			if key := keyOf(svg); key != "" {
				used[key]++
			}
		}
	}
	if len(used) < 6 || len(used) != len(all) {
		t.Errorf("%d scales on the pages, %d in the file", len(used), len(all))
	}
	for key := range used {
		for _, unit := range units {
			drawn := all[key][unit]
			if drawn == "" {
				t.Errorf("there is no scale %q in %s", key, unit)
				continue
			}
			wantWellFormed(t, drawn)
			named := regexp.MustCompile(`(?:>|, )(Pa|mbar|mTorr|micron|Torr|inHg)</text>`).FindAllStringSubmatch(drawn, -1)
			if len(named) != 1 || named[0][1] != unit {
				t.Errorf("the scale %q in %s names %v", key, unit, named)
			}
			if strings.Count(drawn, "<text") < 4 {
				t.Errorf("the scale %q in %s has hardly a number: %s", key, unit, drawn)
			}
		}
	}
}

// keyOf is what scales.ts makes of a picture.
func keyOf(svg *html.Node) string {
	for _, attr := range svg.Attr {
		if attr.Key == "data-scale" {
			return attr.Val
		}
	}
	for part := range svg.Descendants() {
		var values []string
		for _, attr := range part.Attr {
			if strings.HasPrefix(attr.Key, "data-") {
				values = append(values, attr.Val)
			}
		}
		if len(values) > 0 {
			return strings.Join(values, " ")
		}
	}
	return ""
}

func within(node *html.Node, class string) bool {
	for part := range node.Ancestors() {
		for _, attr := range part.Attr {
			if attr.Key == "class" && attr.Val == class {
				return true
			}
		}
	}
	return false
}

func wantWellFormed(t *testing.T, inside string) {
	t.Helper()
	decoder := xml.NewDecoder(strings.NewReader("<svg>" + inside + "</svg>"))
	for {
		if _, err := decoder.Token(); err == io.EOF {
			return
		} else if err != nil {
			t.Errorf("%v in %s", err, inside)
			return
		}
	}
}
