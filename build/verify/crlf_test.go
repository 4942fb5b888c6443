package verify

import (
	"os"
	"strings"
	"testing"
	"testing/fstest"
)

// TestFixKeepsLineEnds: a page with other line ends, a byte order mark and tabs is mended as its plain sister is.
func TestFixKeepsLineEnds(t *testing.T) {
	text, err := os.ReadFile("testdata/facts-markup.txt")
	if err != nil {
		t.Fatal(err)
	}
	a := parseArchive(string(text))
	const page = "pages/markup.md"
	for name, turn := range map[string]func(string) string{
		"CRLF":            func(s string) string { return strings.ReplaceAll(s, "\n", "\r\n") },
		"byte order mark": func(s string) string { return "\ufeff" + s },
		"both":            func(s string) string { return "\ufeff" + strings.ReplaceAll(s, "\n", "\r\n") },
		"tabs":            func(s string) string { return strings.ReplaceAll(s, "- A list [", "-\tA list\t[") },
	} {
		fsys := a.folder(t)
		fsys[page] = &fstest.MapFile{Data: []byte(turn(a.files[page]))}
		library, _ := check(t, fsys)
		if got, want := string(Fix(library)[page]), turn(a.files["fixed "+page]); got != want {
			t.Errorf("%s: %s", name, difference(got, want))
		}
	}
}
