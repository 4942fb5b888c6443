package render_test

import (
	"bytes"
	"compress/gzip"
	"flag"
	"html/template"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"blankoff/site"
)

// To look at the sample pages: go test ./build/render -run Look -look /some/folder
var lookFolder = flag.String("look", "", "folder to write the sample pages into, to be looked at")

func TestLookOfEveryPage(t *testing.T) {
	templates := template.Must(template.ParseFS(site.Files, "templates/*.html"))
	folder := *lookFolder
	if folder == "" {
		folder = t.TempDir()
	}
	for _, name := range []string{"look.css", "lists.css", "below.css", "desk.css", "wide.css", "print.css", "signs.svg"} {
		content, err := site.Files.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		write(t, filepath.Join(folder, name), content)
	}
	for path, view := range samples(t, parts(t, templates)) {
		var page bytes.Buffer
		if err := templates.ExecuteTemplate(&page, templateOf(view), view); err != nil {
			t.Errorf("%s: %v", path, err)
		}
		write(t, filepath.Join(folder, path), page.Bytes())
		checkPage(t, path, page.String())
	}
}

func write(t *testing.T, path string, content []byte) {
	t.Helper()
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, content, 0o644); err != nil {
		t.Fatal(err)
	}
}

var (
	ids      = regexp.MustCompile(`\sid="([^"]*)"`)
	pointers = regexp.MustCompile(`\s(?:for|aria-describedby)="([^"]*)"|<use href="#([^"]*)"`)
)

// checkPage looks for what no page may have, and for pointers to nothing.
func checkPage(t *testing.T, path, page string) {
	t.Helper()
	for _, refused := range []string{"ZgotmplZ", " style=", "<style", " onclick=", "http://www.example", "<script>"} {
		if strings.Contains(page, refused) {
			t.Errorf("%s contains %q", path, refused)
		}
	}
	if got := strings.Count(page, "<h1"); got != 1 {
		t.Errorf("%s has %d first headings", path, got)
	}
	known := map[string]bool{}
	for _, id := range ids.FindAllStringSubmatch(page, -1) {
		if known[id[1]] {
			t.Errorf("%s has the id %q twice", path, id[1])
		}
		known[id[1]] = true
	}
	for _, pointer := range pointers.FindAllStringSubmatch(page, -1) {
		for _, id := range strings.Fields(pointer[1] + " " + pointer[2]) {
			if !known[id] {
				t.Errorf("%s points at %q, which it does not have", path, id)
			}
		}
	}
}

// The whole first view has 14 kB; the style sheet may take less than half of it.
func TestLookIsLight(t *testing.T) {
	sheet, err := site.Files.ReadFile("look.css")
	if err != nil {
		t.Fatal(err)
	}
	var small bytes.Buffer
	squeeze, _ := gzip.NewWriterLevel(&small, gzip.BestCompression)
	squeeze.Write(sheet)
	squeeze.Close()
	if small.Len() > 6000 {
		t.Errorf("look.css takes %d bytes gzipped, more than 6,000", small.Len())
	}
}

// Contrast as WCAG 2.2 defines it, 1.4.3 (text: 4.5) and 1.4.11 (shapes and borders: 3).
func TestLookContrast(t *testing.T) {
	light, dark := palettes(t)
	pairs := []struct {
		front, back string
		least       float64
		what        string
	}{
		{"--ink", "--paper", 7, "text"}, {"--ink", "--frost", 7, "text on an instrument"},
		{"--dim", "--paper", 4.5, "quiet text"}, {"--dim", "--frost", 4.5, "help of a field"},
		{"--brass", "--paper", 4.5, "a link"}, {"--brass", "--frost", 4.5, "a link on an instrument"},
		{"--pass", "--paper", 4.5, "pass"}, {"--fail", "--paper", 4.5, "fail"}, {"--fail", "--frost", 4.5, "the fault of a field"},
		{"--ice", "--paper", 4.5, "the ice floor's name"},
		{"--pass", "--frost", 3, "the bar beside a line that is right"},
		{"--on-bar", "--bar", 7, "the bar"}, {"--lit", "--bar", 4.5, "the bar's place"},
		{"#FFF", "#B3001B", 4.5, "DANGER"}, {"#000", "#FF7F11", 4.5, "WARNING"}, {"#000", "#F7CE00", 4.5, "CAUTION"}, {"#FFF", "#0B4F9E", 4.5, "NOTICE"},
	}
	for name, palette := range map[string]map[string]string{"light": light, "dark": dark} {
		for _, pair := range pairs {
			got := contrast(t, colour(palette, pair.front), colour(palette, pair.back))
			if got < pair.least {
				t.Errorf("%s, %s: %s on %s has contrast %.2f, less than %.1f", name, pair.what, pair.front, pair.back, got, pair.least)
			}
		}
	}
}

var setting = regexp.MustCompile(`(--[a-z-]+): (#[0-9A-Fa-f]{3,6});`)

// palettes reads the colours where the browser does; the dark ones replace the light ones of the same name.
func palettes(t *testing.T) (light, dark map[string]string) {
	t.Helper()
	sheet, err := site.Files.ReadFile("look.css")
	if err != nil {
		t.Fatal(err)
	}
	blocks := regexp.MustCompile(`(?s):root \{.*?\n *\}`).FindAllString(string(sheet), 2)
	if len(blocks) != 2 {
		t.Fatal("look.css does not begin with its light and its dark colours")
	}
	light, dark = map[string]string{}, map[string]string{}
	for i, block := range blocks {
		for _, set := range setting.FindAllStringSubmatch(block, -1) {
			if i == 0 {
				light[set[1]] = set[2]
			}
			dark[set[1]] = set[2]
		}
	}
	return light, dark
}

func colour(palette map[string]string, name string) string {
	if strings.HasPrefix(name, "#") {
		return name
	}
	return palette[name]
}

func contrast(t *testing.T, a, b string) float64 {
	first, second := luminance(t, a), luminance(t, b)
	return (max(first, second) + 0.05) / (min(first, second) + 0.05)
}

// luminance is relative luminance of an sRGB colour (WCAG 2.2, definitions).
func luminance(t *testing.T, hex string) float64 {
	t.Helper()
	digits := strings.TrimPrefix(hex, "#")
	if len(digits) == 3 {
		digits = string([]byte{digits[0], digits[0], digits[1], digits[1], digits[2], digits[2]})
	}
	if len(digits) != 6 {
		t.Fatalf("%q is no colour", hex)
	}
	sum := 0.0
	for i, weight := range []float64{0.2126, 0.7152, 0.0722} {
		part, err := strconv.ParseUint(digits[2*i:2*i+2], 16, 8)
		if err != nil {
			t.Fatalf("%q is no colour: %v", hex, err)
		}
		c := float64(part) / 255
		if c <= 0.04045 {
			sum += weight * c / 12.92
		} else {
			sum += weight * math.Pow((c+0.055)/1.055, 2.4)
		}
	}
	return sum
}
