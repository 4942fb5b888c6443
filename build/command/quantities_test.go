package command

import (
	"encoding/json"
	"path/filepath"
	"strings"
	"testing"

	"blankoff/build/rules"
)

func TestQuantitiesAreListed(t *testing.T) {
	folder := t.TempDir()
	for _, file := range rules.Shop() {
		put(t, filepath.Join(folder, file.Name), file.Text)
	}
	put(t, filepath.Join(folder, "pages", "oil.md"), "---\ntitle: About oil\nreader: shop\n---\nWait 30 min, then pump to 200 micron.\n\nThe thread is 1/8-27 NPT, sealed with 5 wraps.\nRead 28 inHg there.\n")
	_, out, said := ran(t, nil, "verify", folder, "--quantities")
	for i, want := range []string{
		"/pages/oil.md:5:6: 30 min, time", "/pages/oil.md:5:27: 200 micron, pressure", "/pages/oil.md:7:15: 1/8-27 NPT, thread",
		"/pages/oil.md:7:39: 5 wraps, count", "/pages/oil.md:8:6: 28 inHg, in doubt: ",
	} {
		line := ""
		if lines := strings.Split(out, "\n"); i < len(lines) {
			line = lines[i]
		}
		if !strings.Contains(line, want) {
			t.Errorf("line %d: %q, want %q", i+1, line, want)
		}
	}
	if said != "" {
		t.Errorf("said %q", said)
	}
	var list []foundQuantity
	_, out, _ = ran(t, nil, "verify", folder, "--quantities", "--json")
	if err := json.Unmarshal([]byte(out), &list); err != nil || len(list) != 5 {
		t.Fatalf("%v: %s", err, out)
	}
	if q := list[0]; q.Line != 5 || q.Column != 6 || q.EndColumn != 12 || len(q.SI) != 1 || q.SI[0] != 1800 {
		t.Errorf("%+v", q)
	}
}

func TestQuantitiesOfNothingAreAnEmptyList(t *testing.T) {
	folder := t.TempDir()
	for _, file := range rules.Shop() {
		put(t, filepath.Join(folder, file.Name), file.Text)
	}
	if status, out, _ := ran(t, nil, "verify", folder, "--quantities", "--json"); status != done || out != "[]\n" {
		t.Errorf("status %d, %q", status, out)
	}
}
