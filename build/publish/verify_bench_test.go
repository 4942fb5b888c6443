//go:build unix

package publish

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"runtime/debug"
	"strings"
	"syscall"
	"testing"
	"testing/fstest"
	"time"

	"blankoff/build/bundle"
	"blankoff/build/diagnostic"
	"blankoff/build/load"
	"blankoff/build/render"
	"blankoff/build/verify"
	"blankoff/build/write"
	"blankoff/calc"
	"blankoff/calc/declare"
	"blankoff/site"
)

const (
	verifiedGuides = 5000
	factsEach      = 20
)

// BenchmarkVerify5000 loads and verifies 5,000 guides with 20 facts each, beside what it takes to publish them: their pages
// made and minified alone, and the whole way to the disk. Verification must cost at most as much as publishing does.
func BenchmarkVerify5000(b *testing.B) {
	defer debug.SetGCPercent(debug.SetGCPercent(400)) // as the program does
	folder := b.TempDir()
	if err := os.CopyFS(filepath.Join(folder, "content"), withFacts(b)); err != nil {
		b.Fatal(err)
	}
	content := os.DirFS(filepath.Join(folder, "content"))
	var loading, verifying, pages, whole time.Duration
	for i := 0; b.Loop(); i++ {
		began := time.Now()
		library, found, err := load.Load(content, "content")
		loaded := time.Now()
		more, counts := verify.Check(library, today)
		verified := time.Now()
		if all := append(found, more...); err != nil || len(all) > 0 || counts.Facts < verifiedGuides*factsEach {
			b.Fatalf("%v, %d facts, %s", err, counts.Facts, diagnostic.List(all[:min(len(all), 5)], diagnostic.Style{}))
		}
		loading, verifying = loading+loaded.Sub(began), verifying+verified.Sub(loaded)
		b.StopTimer()
		pages += pagesAlone(b, library)
		whole += wholePublish(b, content, filepath.Join(folder, fmt.Sprint("site", i)))
		b.StartTimer()
	}
	n := float64(b.N)
	b.ReportMetric(loading.Seconds()/n, "s-load")
	b.ReportMetric(verifying.Seconds()/n, "s-verify")
	b.ReportMetric(pages.Seconds()/n, "s-pages")
	b.ReportMetric(whole.Seconds()/n, "s-publish")
	b.ReportMetric((loading+verifying).Seconds()/(whole-loading-verifying).Seconds(), "of-the-rest-of-publishing")
	b.ReportMetric((loading+verifying).Seconds()/pages.Seconds(), "of-pages")
}

// BenchmarkFix5000 writes one stale fact in each of 5,000 guides anew.
func BenchmarkFix5000(b *testing.B) {
	defer debug.SetGCPercent(debug.SetGCPercent(400))
	content := withFacts(b)
	for name, file := range content {
		if copied.MatchString(name) {
			text := strings.Replace(string(file.Data), "[350 mTorr](spec:", "[351 mTorr](spec:", 1)
			content[name] = &fstest.MapFile{Data: []byte(text)}
		}
	}
	for b.Loop() {
		library, _, err := load.Load(content, "content")
		if err != nil {
			b.Fatal(err)
		}
		if fixed := verify.Fix(library); len(fixed) < verifiedGuides/4 {
			b.Fatalf("only %d guides were fixed", len(fixed))
		}
	}
}

func pagesAlone(b *testing.B, library *load.Library) time.Duration {
	parts, err := bundle.Make(b.Context(), site.Files, bundle.Options{Shop: library.Shop.Name.Text})
	if err != nil {
		b.Fatal(err)
	}
	began := time.Now()
	pages, err := render.Pages(library, assets(parts))
	if err != nil {
		b.Fatal(err)
	}
	if _, err := minified(b.Context(), pages); err != nil {
		b.Fatal(err)
	}
	return time.Since(began)
}

// wholePublish is what the program does but for the WebAssembly, whose compiler takes the same time for any content.
func wholePublish(b *testing.B, content fs.FS, out string) time.Duration {
	syscall.Sync()
	began := time.Now()
	result, err := Site(b.Context(), content, Options{Name: "content", Today: today})
	if err != nil || !result.Good() {
		b.Fatal(err, result.Diagnostics)
	}
	if err := write.Swap(out, result.Files); err != nil {
		b.Fatal(err)
	}
	took := time.Since(began)
	if err := os.RemoveAll(out); err != nil {
		b.Fatal(err)
	}
	return took
}

var fact = regexp.MustCompile(`\[[^][]+\]\((?:spec:[a-z0-9/-]+|<calc:[^<>]+>)\)`)

// withFacts varies our own guides as manyGuides does, and fills each up to 20 facts: its own again, and calculations
// that no other guide asks for, a third of all.
func withFacts(b *testing.B) fstest.MapFS {
	all := manyGuides(b, verifiedGuides)
	number := 0
	for name, file := range all {
		if !copied.MatchString(name) {
			continue
		}
		text := string(file.Data)
		own := fact.FindAllString(text, -1)
		var more []string
		for n := len(own); n < factsEach; n++ {
			number++
			if len(own) > 0 && n%2 == 0 {
				more = append(more, own[n%len(own)])
			} else {
				more = append(more, freshFact(b, number))
			}
		}
		if len(more) > 0 {
			all[name] = &fstest.MapFile{Data: []byte(text + "\n\n## Numbers\n\n- " + strings.Join(more, "\n- ") + "\n")}
		}
	}
	return all
}

// freshFact is a calculation of its own for each number, with its right result.
func freshFact(b *testing.B, number int) string {
	query := fmt.Sprintf("volume=24 L&start=%d mTorr&end=%d mTorr&time=10 min", 100+number/1500, 400+number%1500)
	var in []declare.Pair
	for _, pair := range strings.Split(query, "&") {
		name, text, _ := strings.Cut(pair, "=")
		in = append(in, declare.Pair{Name: name, Text: text})
	}
	answer := calc.Answer(declare.Request{ID: "rise-test", In: in})
	if answer.Fault != nil {
		b.Fatal(answer.Fault)
	}
	value, _, _ := strings.Cut(answer.Out[0].Text, " ± ")
	return fmt.Sprintf("[%s %s](<calc:rise-test?%s>)", value, answer.Out[0].Unit, query)
}
