package search_test

import (
	"strings"
	"testing"

	"blankoff/build/edition"
	"blankoff/build/search"
)

// BenchmarkMake makes the index of our own site: `go test -run '^$' -bench Make ./build/search`.
func BenchmarkMake(b *testing.B) {
	files, _ := site(b)
	var pages []edition.File
	for _, file := range files {
		if strings.HasSuffix(file.Path, ".html") {
			pages = append(pages, file)
		}
	}
	for b.Loop() {
		if _, err := search.Make(pages, nil); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(len(pages)*b.N)/b.Elapsed().Seconds(), "pages/s")
}
