package publish

import (
	"bytes"
	"compress/gzip"
	"path"
	"regexp"
	"slices"
	"testing"
)

// needed is what a page names that a phone waits for: style sheets without a media query, and the page's own script.
var needed = regexp.MustCompile(`<link rel="?stylesheet"? href="?([^" >]+)"?( media)?|<script type="?module"? src="?([^" >]+)"?`)

// TestFirstViewIsLight: the first page and that of the fault model come whole in the first 14 kB that a server may send unasked.
func TestFirstViewIsLight(t *testing.T) {
	const most = 14_000
	files := published(t, content(t), Options{}).Files
	for _, page := range []string{"index.html", "triage/index.html"} {
		html := file(t, files, page)
		sum, parts := gzipped(t, html), []string{}
		for _, found := range needed.FindAllSubmatch(html, -1) {
			if len(found[2]) == 0 {
				name := path.Base(string(slices.Concat(found[1], found[3])))
				sum += gzipped(t, file(t, files, name))
				parts = append(parts, name)
			}
		}
		t.Logf("%s with %q: %d bytes", page, parts, sum)
		if len(parts) < 2 || sum > most {
			t.Errorf("%s with %q takes %d bytes gzipped, more than %d", page, parts, sum, most)
		}
	}
}

func gzipped(t *testing.T, content []byte) int {
	t.Helper()
	var small bytes.Buffer
	w, err := gzip.NewWriterLevel(&small, gzip.BestCompression)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := w.Write(content); err != nil {
		t.Fatal(err)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return small.Len()
}
