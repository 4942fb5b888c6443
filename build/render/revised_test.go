package render_test

import (
	"io/fs"
	"maps"
	"os"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"

	"blankoff/build/load"
	"blankoff/build/render"
)

// digestsOf gives the digest of the text of each page that has one, by its path.
func digestsOf(t *testing.T, content fstest.MapFS, assets render.Assets) map[string]string {
	t.Helper()
	library, _, err := load.Load(content, "content")
	if err != nil {
		t.Fatal(err)
	}
	files, err := render.Pages(library, assets)
	if err != nil {
		t.Fatal(err)
	}
	found := map[string]string{}
	for _, file := range files {
		if digest := regexp.MustCompile(`<main[^>]* data-text="(\w{8})"`).FindSubmatch(file.Bytes); digest != nil {
			found[file.Path] = string(digest[1])
		}
	}
	return found
}

// TestADigestIsOfWhatAPageSays: names of files do not count, a word, a value from a card and a hazard do, and only for the pages that say them.
func TestADigestIsOfWhatAPageSays(t *testing.T) {
	content := demoContent(t)
	assets := render.Assets{Style: "look.1.css", Drawn: "drawn.1.css", Script: "page.1.js", Calc: "calc.1.bin", Edition: "one"}
	before := digestsOf(t, content, assets)
	for _, path := range []string{"procedures/rise-test/index.html", "symptoms/hiss/index.html", "calculators/rise-test/index.html", "record/index.html"} {
		if before[path] == "" {
			t.Fatalf("%s has no digest", path)
		}
	}
	other := render.Assets{Style: "look.22.css", Drawn: "drawn.22.css", Script: "page.22.js", Calc: "calc.22.bin", Edition: "another"}
	if after := digestsOf(t, content, other); !maps.Equal(before, after) {
		t.Errorf("names of files changed the digests of %v", changed(before, after))
	}
	for _, c := range []struct{ name, file, old, new, changes, leaves string }{
		{"a word", "procedures/door-seal.md", "A single hair", "One hair", "procedures/door-seal/index.html", "procedures/rise-test/index.html"},
		{"a value of a card", "machines/cindle-14.yaml", "24.0 L", "25.0 L", "procedures/rise-test/index.html", "procedures/door-seal/index.html"},
		{"a hazard", "hazards.yaml", "Look across it before each run.", "Look across it.", "procedures/rise-test/index.html", "calculators/thread/index.html"},
		{"a revision", "procedures/rise-test.md", "revision: 3", "revision: 4", "procedures/rise-test/index.html", "calculators/rise-test/index.html"},
	} {
		t.Run(c.name, func(t *testing.T) {
			text := string(content[c.file].Data)
			if !strings.Contains(text, c.old) {
				t.Fatalf("%s holds no %q any more", c.file, c.old)
			}
			edited := maps.Clone(content)
			edited[c.file] = &fstest.MapFile{Data: []byte(strings.Replace(text, c.old, c.new, 1))}
			after := digestsOf(t, edited, assets)
			if after[c.changes] == before[c.changes] {
				t.Errorf("%s did not change with it; changed: %v", c.changes, changed(before, after))
			}
			if after[c.leaves] != before[c.leaves] {
				t.Errorf("%s changed with it", c.leaves)
			}
		})
	}
}

func changed(before, after map[string]string) (paths []string) {
	for path := range before {
		if before[path] != after[path] {
			paths = append(paths, path)
		}
	}
	return paths
}

// demoContent is the demo shop, in memory so that a test may change it.
func demoContent(t *testing.T) fstest.MapFS {
	t.Helper()
	content := fstest.MapFS{}
	root := os.DirFS("../../content")
	err := fs.WalkDir(root, ".", func(path string, entry fs.DirEntry, err error) error {
		if err == nil && !entry.IsDir() {
			var data []byte
			data, err = fs.ReadFile(root, path)
			content[path] = &fstest.MapFile{Data: data}
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return content
}
