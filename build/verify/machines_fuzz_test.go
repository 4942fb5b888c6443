package verify

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"
)

// FuzzMachine: whatever machine, family and tube say, loading, checking and fixing them ends without panic, every
// message has a place, and a second fix changes nothing.
func FuzzMachine(f *testing.F) {
	const family, tube = "title: Home\nsummary: Home.\nvalues: {warm-up: 30 min}\n", "title: TQ-4\nconstruction: insulated\npins: {1: heater, 4: heater, 6: couple, 7: couple}\n"
	seed := func(name, text string) {
		switch strings.Split(filepath.ToSlash(name), "/")[0] {
		case "machines":
			f.Add(text, family, tube)
		case "families":
			f.Add("title: X\nsummary: X.\nfamily: home\ntube: tq-4\nvalues: {condenser-temperature: -34 °C}\n", text, tube)
		case "tubes":
			f.Add("title: X\nsummary: X.\ntube: tq-4\n", family, text)
		}
	}
	cases, _ := filepath.Glob("testdata/machine-*.txt")
	for _, name := range cases {
		text, err := os.ReadFile(name)
		if err != nil {
			f.Fatal(err)
		}
		for name, file := range parseArchive(string(text)).files {
			seed(name, file)
		}
	}
	ours, _ := filepath.Glob("../../content/*/*.yaml")
	for _, name := range ours {
		text, err := os.ReadFile(name)
		if err != nil {
			f.Fatal(err)
		}
		at, _ := filepath.Rel("../../content", name)
		seed(at, string(text))
	}
	f.Fuzz(func(t *testing.T, machine, family, tube string) {
		files := map[string]string{"machines/fuzzed.yaml": machine, "families/home.yaml": family, "tubes/tq-4.yaml": tube}
		fsys := archive{files: files}.folder(t)
		library, found := check(t, fsys)
		for _, d := range found {
			if d.Message == "" || d.Rule == "" || d.Span.File == nil || d.Span.End() > len(d.Span.File.Text) {
				t.Fatalf("not a usable message: %+v", d)
			}
		}
		fixed := Fix(library)
		for name, text := range fixed {
			fsys[name] = &fstest.MapFile{Data: text}
		}
		library, _ = check(t, fsys)
		for name, again := range Fix(library) {
			if fixed[name] == nil || !bytes.Equal(again, fixed[name]) {
				t.Fatalf("fix of a fix, %s:\n%s\n%s", name, fixed[name], again)
			}
		}
	})
}
