package load

import (
	"strings"
	"testing"
	"testing/fstest"
)

// TestWith: pages put on a library that was read before are read as they are together with it.
func TestWith(t *testing.T) {
	base, found, err := Load(shop(nil), "content")
	if err != nil || len(found) > 0 {
		t.Fatal(found, err)
	}
	files := map[string]string{
		"pages/home.md": "---\ntitle: Home\nreader: shop\n---\nx\n", "symptoms/Bad Name.md": "x", "procedures/torn.md": "\x07", "pictures/door.svg": "<svg/>",
	}
	pages := fstest.MapFS{"procedures/rise-test.md": shop(nil)["procedures/rise-test.md"]}
	for name, text := range files {
		pages[name] = &fstest.MapFile{Data: []byte(text)}
	}
	got, told, err := base.With(pages)
	if err != nil {
		t.Fatal(err)
	}
	want, toldOfAll, err := Load(shop(files), "content")
	if err != nil {
		t.Fatal(err)
	}
	if short(told) != short(toldOfAll) {
		t.Errorf("told %s\nwant %s", short(told), short(toldOfAll))
	}
	if a, b := content(got), content(want); a != b {
		t.Errorf("holds %s\n want %s", a, b)
	}
	if content(base) != "procedures/rise-test | cindle-14" {
		t.Errorf("the first library changed: %s", content(base))
	}
}

func content(l *Library) string {
	var parts []string
	for _, g := range l.Guides {
		parts = append(parts, g.Path())
	}
	for _, p := range l.Pictures {
		parts = append(parts, p.Path)
	}
	return strings.Join(append(parts, l.Unread...), " ") + " | " + strings.Join(l.MachineNames(), " ")
}

func TestOnPages(t *testing.T) {
	for path, want := range map[string]bool{
		"pages/a.md": true, "procedures/a.md": true, "symptoms/a.md": true, "pictures/a.svg": true,
		"shop.yaml": false, "machines/a.yaml": false, "pages": false, "pages/": false, "page/a.md": false,
	} {
		if OnPages(path) != want {
			t.Errorf("%s: %v", path, !want)
		}
	}
}
