package search_test

import (
	"bytes"
	"compress/gzip"
	"context"
	"fmt"
	"os"
	"path"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"golang.org/x/net/html"

	"blankoff/build/edition"
	"blankoff/build/publish"
	"blankoff/build/search"
)

// query is a labelled one.
type query struct {
	typed string
	right []string // addresses of pages
}

// queries reads a file of testdata: what is typed, " | ", and the right pages.
func queries(t testing.TB, name string) []query {
	t.Helper()
	file, err := os.ReadFile("../../testdata/" + name)
	if err != nil {
		t.Fatal(err)
	}
	var list []query
	for line := range strings.Lines(string(file)) {
		line = strings.TrimSpace(line)
		if line == "" || line[0] == '#' {
			continue
		}
		typed, right, _ := strings.Cut(line, " | ")
		q := query{typed: typed}
		for _, page := range strings.Fields(right) {
			q.right = append(q.right, page+"/")
		}
		list = append(list, q)
	}
	return list
}

// site publishes our own content, without the WebAssembly, and gives its files with the index among them.
func site(t testing.TB) (files []edition.File, index []byte) {
	t.Helper()
	result, err := published()
	if err != nil || !result.Good() {
		t.Fatal(err, result.Diagnostics)
	}
	for _, file := range result.Files {
		if named, _ := path.Match("search.*.bin", file.Path); named {
			index = file.Bytes
		}
	}
	return result.Files, index
}

var published = sync.OnceValues(func() (publish.Result, error) {
	today := time.Date(2026, 11, 27, 0, 0, 0, 0, time.UTC)
	return publish.Site(context.Background(), os.DirFS("../../content"), publish.Options{Name: "content", Today: today})
})

// TestRightPagesComeFirst asks the shipped script the labelled queries. The measure is the mean reciprocal rank of the first
// right page. Weights and synonyms were chosen on the first two files; the others tell what that is worth.
func TestRightPagesComeFirst(t *testing.T) {
	files, index := site(t)
	there := map[string]bool{}
	for _, file := range files {
		there[strings.TrimSuffix(file.Path, "index.html")] = true
	}
	for _, set := range []struct {
		file  string
		count int
		least float64
	}{{"search-queries.txt", 60, 0.9}, {"search-queries-more.txt", 40, 0.75}, {"search-queries-held-out.txt", 20, 0.9}, {"search-queries-blind.txt", 30, 0.65}} {
		list := queries(t, set.file)
		var asks asked
		for _, q := range list {
			asks.Queries = append(asks.Queries, [2]any{0, q.typed})
		}
		sum := 0.0
		for i, answer := range shipped(t, asks, index).Answers {
			q := list[i]
			if answer.Fault != "" || slices.ContainsFunc(q.right, func(page string) bool { return !there[page] }) {
				t.Errorf("%q: %s, or one of %v is no page", q.typed, answer.Fault, q.right)
			}
			rank := 1 + slices.IndexFunc(answer.Found, func(f found) bool { return slices.Contains(q.right, f.Address) })
			if rank > 0 {
				sum += 1 / float64(rank)
			}
			if rank != 1 {
				t.Logf("%q: right page at place %d, first %s", q.typed, rank, first(answer))
			}
		}
		rank := sum / float64(len(list))
		t.Logf("%s: mean reciprocal rank %.3f of %d queries", set.file, rank, len(list))
		if len(list) != set.count || rank <= set.least {
			t.Errorf("%s: %d queries, mean reciprocal rank %.3f; want %d and more than %.2f", set.file, len(list), rank, set.count, set.least)
		}
	}
}

func first(a answer) string {
	if len(a.Found) == 0 {
		return "none"
	}
	return fmt.Sprint(a.Found[0].Address, a.Found[0].Terms)
}

// TestIndexIsSmall: as it is stored, gzipped, it takes at most 15 % of the text that it makes findable, gzipped too.
func TestIndexIsSmall(t *testing.T) {
	files, index := site(t)
	read, err := search.Read(index)
	if err != nil {
		t.Fatal(err)
	}
	var text bytes.Buffer
	for _, file := range files {
		if slices.ContainsFunc(read.Pages, func(p search.Page) bool { return p.Address+"index.html" == file.Path }) {
			text.WriteString(mainText(t, file.Bytes))
		}
	}
	var packed bytes.Buffer
	w, err := gzip.NewWriterLevel(&packed, gzip.BestCompression)
	if err != nil {
		t.Fatal(err)
	}
	w.Write(text.Bytes())
	w.Close()
	share := float64(len(index)) / float64(packed.Len())
	t.Logf("%d pages, %d terms: %d bytes for %d bytes of text, %d gzipped: %.1f %%", len(read.Pages), len(read.Terms), len(index), text.Len(), packed.Len(), 100*share)
	if len(read.Pages) < 150 || share > 0.15 {
		t.Errorf("%d pages, and the index takes %.1f %%", len(read.Pages), 100*share)
	}
}

// mainText is what a reader reads on a page: its main part, without drawings and what is chosen from.
func mainText(t testing.TB, page []byte) string {
	t.Helper()
	root, err := html.Parse(bytes.NewReader(page))
	if err != nil {
		t.Fatal(err)
	}
	var out strings.Builder
	var walk func(n *html.Node, within bool)
	walk = func(n *html.Node, within bool) {
		within = within || n.Data == "main"
		if n.Type == html.TextNode && within {
			out.WriteString(n.Data + " ")
		}
		if n.Data == "svg" || n.Data == "select" || n.Data == "math" {
			return
		}
		for child := range n.ChildNodes() {
			walk(child, within)
		}
	}
	walk(root, false)
	return out.String()
}

// TestScriptAndIndexCutWordsAlike: what the script makes of a text is what the index has of it.
func TestScriptAndIndexCutWordsAlike(t *testing.T) {
	files, index := site(t)
	texts := []string{"Pump's O-RING’s 1/8-27 NPT 1/2/3 11/16in x/y ½ Größe µTorr 10 kΩ naïve", "leaks leaking leaked classes dries dried bus this foxes ready steady"}
	for _, file := range files {
		if strings.HasSuffix(file.Path, ".html") {
			texts = append(texts, mainText(t, file.Bytes))
		}
	}
	words := 0
	for i, stems := range shipped(t, asked{Stems: texts}, index).Stems {
		var want []string
		for _, word := range search.Words(texts[i]) {
			want = append(want, search.Stem(word))
		}
		words += len(want)
		for k := range max(len(want), len(stems)) {
			if k >= len(want) || k >= len(stems) || want[k] != stems[k] {
				t.Fatalf("text %d, word %d: the index has %q, the script %q", i, k, want[min(k, len(want)):min(k+3, len(want))], stems[min(k, len(stems)):min(k+3, len(stems))])
			}
		}
	}
	if words < 50000 {
		t.Errorf("only %d words were compared", words)
	}
}
