package guide_test

import (
	"bytes"
	"fmt"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/renderer/html"

	"blankoff/build/guide"
	"blankoff/build/source"
)

// The specification's text (CommonMark 0.31.2, CC BY-SA 4.0, by its authors) comes as an npm package and is not kept
// here. COMMONMARK_SPEC names a copy of its spec.txt that is there already; else the test fetches it.
const (
	specPackage  = "commonmark-spec@0.31.2"
	specVariable = "COMMONMARK_SPEC"
	specExamples = 652
)

// differencesFile says where a page may differ from the specification, and why. Each line: the example's number, the way
// ("bare", "page" or "both"), the reason.
const differencesFile = "testdata/commonmark-differences.txt"

// example is one of the specification: a text and its HTML.
type example struct {
	number         int
	markdown, html string
}

// way names one of the two ways that each example goes.
type way struct {
	number int
	name   string
}

// TestCommonMark holds every example of the specification against two ways: the bare reader and renderer, letter for
// letter, and the whole way of a page through loading, shaping and rendering, node for node. The differences must be
// those of the list, no more and no fewer.
func TestCommonMark(t *testing.T) {
	all := specification(t)
	pages := pagesOf(t, all)
	found := map[way]string{}
	for _, e := range all {
		if got := bare(t, e.markdown); got != e.html {
			found[way{e.number, "bare"}] = fmt.Sprintf("%q\n got %q\nwant %q", e.markdown, got, e.html)
		}
		if got, want := pages[e.number], outlineOf(t, e.html); got != want {
			found[way{e.number, "page"}] = fmt.Sprintf("%q\n got %s\nwant %s", e.markdown, got, want)
		}
	}
	listed := listedDifferences(t)
	for _, w := range slices.SortedFunc(maps.Keys(found), byNumber) {
		if listed[w] == "" {
			t.Errorf("example %d, %s: differs, and %s gives no reason:\n%s", w.number, w.name, differencesFile, found[w])
		}
	}
	for _, w := range slices.SortedFunc(maps.Keys(listed), byNumber) {
		if found[w] == "" {
			t.Errorf("example %d, %s: does not differ any more; take it out of %s", w.number, w.name, differencesFile)
		}
	}
}

// TestOmittedHTMLIsKnown: wherever HTML is not passed through, the page knows of it, and verification refuses it.
func TestOmittedHTMLIsKnown(t *testing.T) {
	listed := listedDifferences(t)
	seen := 0
	for _, e := range specification(t) {
		if !strings.HasPrefix(listed[way{e.number, "bare"}], "raw HTML") {
			continue
		}
		seen++
		g, _ := guide.Parse(&source.File{Name: "page.md", Path: "pages/page.md", Text: pageText(e)}, guide.Page)
		if len(g.RawHTML) == 0 {
			t.Errorf("example %d: nothing is told of the HTML in\n%s", e.number, e.markdown)
		}
	}
	if seen == 0 {
		t.Error("no difference is about HTML")
	}
}

// bare is our reader with goldmark's own renderer. The specification writes <br /> where HTML needs no more than <br>.
func bare(t *testing.T, markdown string) string {
	t.Helper()
	var out bytes.Buffer
	if err := guide.Markdown(goldmark.WithRendererOptions(html.WithXHTML())).Convert([]byte(markdown), &out); err != nil {
		t.Fatal(err)
	}
	return out.String()
}

func byNumber(a, b way) int {
	if a.number != b.number {
		return a.number - b.number
	}
	return strings.Compare(a.name, b.name)
}

func listedDifferences(t *testing.T) map[way]string {
	t.Helper()
	text, err := os.ReadFile(differencesFile)
	if err != nil {
		t.Fatal(err)
	}
	listed := map[way]string{}
	for line := range strings.Lines(string(text)) {
		words := strings.Fields(line)
		if len(words) == 0 || strings.HasPrefix(line, "#") {
			continue
		}
		number, err := strconv.Atoi(words[0])
		if err != nil || len(words) < 3 || !slices.Contains([]string{"bare", "page", "both"}, words[1]) {
			t.Fatalf("%s: no difference: %q", differencesFile, line)
		}
		for _, name := range []string{"bare", "page"} {
			if words[1] == name || words[1] == "both" {
				listed[way{number, name}] = strings.Join(words[2:], " ")
			}
		}
	}
	return listed
}

var exampleForm = regexp.MustCompile("(?m)^`{32} example\n((?s:.*?))^\\.\n((?s:.*?))^`{32}$")

// specification gives all examples, in their order. An arrow stands for a tabulator in them.
func specification(t *testing.T) []example {
	t.Helper()
	text, err := os.ReadFile(specificationFile(t))
	if err != nil {
		t.Fatal(err)
	}
	var all []example
	for i, parts := range exampleForm.FindAllStringSubmatch(strings.ReplaceAll(string(text), "→", "\t"), -1) {
		all = append(all, example{i + 1, parts[1], parts[2]})
	}
	if len(all) != specExamples {
		t.Fatalf("%d examples found, not %d", len(all), specExamples)
	}
	return all
}

func specificationFile(t *testing.T) string {
	t.Helper()
	if name := os.Getenv(specVariable); name != "" {
		return name
	}
	folder := t.TempDir()
	install := exec.Command("npm", "install", "--silent", "--no-save", "--no-audit", "--no-fund", "--prefix", folder, specPackage)
	if said, err := install.CombinedOutput(); err != nil {
		t.Fatalf("npm cannot fetch %s: %v\n%s\nset %s to a copy of its spec.txt", specPackage, err, said, specVariable)
	}
	return filepath.Join(folder, "node_modules", "commonmark-spec", "spec.txt")
}
