//go:build unix

package publish

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"runtime/debug"
	"slices"
	"strings"
	"syscall"
	"testing"
	"testing/fstest"
	"time"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/extension"

	"blankoff/build/bundle"
	"blankoff/build/load"
	"blankoff/build/render"
	"blankoff/build/write"
	"blankoff/site"
)

const benchmarkGuides = 300

// BenchmarkPublish publishes 300 guides into a new folder, without the WebAssembly, beside what the bare libraries take for
// the same pages in the same run. Both use all processors. The floor loads, checks, computes and links nothing, and does not
// ask the disk to keep what it wrote.
func BenchmarkPublish(b *testing.B) {
	defer debug.SetGCPercent(debug.SetGCPercent(400)) // as the program does, here for both
	library := manyGuides(b, benchmarkGuides)
	floor := newFloor(b, library)
	folder := b.TempDir()
	var site, bare time.Duration
	pages := 0
	for i := 0; b.Loop(); i++ {
		out := filepath.Join(folder, fmt.Sprint("site", i))
		b.StopTimer()
		syscall.Sync() // a publish asks the disk to keep its files, and shall not wait for those of the floor
		b.StartTimer()
		began := time.Now()
		result, err := Site(b.Context(), library, Options{Name: "content", Today: today})
		if err != nil || !result.Good() {
			b.Fatal(err, result.Diagnostics)
		}
		if err := write.Swap(out, result.Files); err != nil {
			b.Fatal(err)
		}
		site += time.Since(began)
		pages += result.Counts.Pages
		b.StopTimer()
		began = time.Now()
		floor.run(b, filepath.Join(folder, fmt.Sprint("floor", i)))
		bare += time.Since(began)
		b.StartTimer()
	}
	b.ReportMetric(float64(pages)/site.Seconds(), "pages/s")
	b.ReportMetric(float64(pages)/bare.Seconds(), "floor-pages/s")
	b.ReportMetric(site.Seconds()/bare.Seconds(), "of-floor")
}

var (
	titleLine = regexp.MustCompile(`(?m)^title: .*$`)
	copied    = regexp.MustCompile(`^(procedures|symptoms)/.*\.md$`)
)

// manyGuides varies the names and titles of our own guides; links go on leading to the first of each.
func manyGuides(b *testing.B, n int) fstest.MapFS {
	all := content(b)
	var guides []string
	for name := range all {
		if copied.MatchString(name) {
			guides = append(guides, name)
		}
	}
	slices.Sort(guides)
	for i := len(guides); i < n; i++ {
		from := guides[i%len(guides)]
		text := titleLine.ReplaceAll(all[from].Data, fmt.Appendf(nil, "title: Guide number %d", i))
		all[strings.TrimSuffix(from, ".md")+fmt.Sprintf("-%d.md", i)] = &fstest.MapFile{Data: text}
	}
	return all
}

// floor is the least that any program on these libraries does: Markdown to HTML, minify the whole page, write it.
type floor struct {
	markdown [][]byte
	pages    []bundle.File
}

func newFloor(b *testing.B, content fstest.MapFS) floor {
	library, _, err := load.Load(content, "content")
	if err != nil {
		b.Fatal(err)
	}
	parts, err := bundle.Make(b.Context(), site.Files, bundle.Options{Shop: library.Shop.Name.Text})
	if err != nil {
		b.Fatal(err)
	}
	pages, err := render.Pages(library, assets(parts))
	if err != nil {
		b.Fatal(err)
	}
	f := floor{pages: pages}
	for _, guide := range library.Guides {
		f.markdown = append(f.markdown, guide.Source)
	}
	return f
}

func (f floor) run(b *testing.B, out string) {
	converter := goldmark.New(goldmark.WithExtensions(extension.GFM))
	err := inParallel(b.Context(), len(f.pages), func(i int) error {
		if i < len(f.markdown) {
			var html bytes.Buffer
			if err := converter.Convert(f.markdown[i], &html); err != nil {
				return err
			}
		}
		small, err := minifier().Bytes("text/html", f.pages[i].Bytes)
		if err != nil {
			return err
		}
		name := filepath.Join(out, filepath.FromSlash(f.pages[i].Path))
		if err := os.MkdirAll(filepath.Dir(name), 0o777); err != nil {
			return err
		}
		return os.WriteFile(name, small, 0o666)
	})
	if err != nil {
		b.Fatal(err)
	}
}
