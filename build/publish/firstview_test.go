package publish

import (
	"bytes"
	"cmp"
	"compress/gzip"
	"path"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// needed is what a page names that a phone waits for before it paints anything: the style sheets of its head without a media query, and
// the page's own script.
var needed = regexp.MustCompile(`<link rel="?stylesheet"? href="?([^" >]+)"?( media)?|<script type="?module"? src="?([^" >]+)"?`)

// light are the pages that somebody opens beside a machine.
var light = regexp.MustCompile(`^(index|(procedures|symptoms|triage|calculators)/([a-z0-9-]+/)?index)\.html$`)

// TestFirstViewIsLight: HTML, style and script of a page come in the first 14 kB that a server may send unasked. The sheet of the
// triage is for printers.
func TestFirstViewIsLight(t *testing.T) {
	const most = 14_000
	files := published(t, content(t), Options{}).Files
	type view struct {
		page string
		size int
	}
	var views []view
	for _, f := range files {
		if !light.MatchString(f.Path) || f.Path == "triage/sheet/index.html" {
			continue
		}
		head, _, _ := bytes.Cut(f.Bytes, []byte("<body>"))
		sum, parts := gzipped(t, f.Bytes), 0
		for _, found := range needed.FindAllSubmatch(head, -1) {
			if len(found[2]) == 0 {
				sum += gzipped(t, file(t, files, path.Base(string(slices.Concat(found[1], found[3])))))
				parts++
			}
		}
		if parts < 2 {
			t.Errorf("%s names %d parts", f.Path, parts)
		}
		views = append(views, view{strings.TrimSuffix(f.Path, "index.html"), sum})
	}
	slices.SortFunc(views, func(a, b view) int { return cmp.Compare(b.size, a.size) })
	if len(views) < 60 {
		t.Fatalf("there are only %d pages", len(views))
	}
	for i, v := range views {
		if i < 10 {
			t.Logf("%6d bytes gzipped: %s", v.size, v.page)
		}
		if v.size > most {
			t.Errorf("%s takes %d bytes gzipped, more than %d", v.page, v.size, most)
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
