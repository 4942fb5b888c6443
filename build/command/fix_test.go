package command

import (
	"bytes"
	"os"
	"strings"
	"testing"
)

// pages of a shop on disk, as other systems leave them.
const (
	limits    = "content/pages/limits.md"
	windows   = "content/pages/windows.md"
	stalePage = "---\ntitle: %\nreader: shop\nmachines: [cindle-14]\n---\nReady means [340 mTorr](spec:ready-limit) or [1&#8239;900 mTorr](spec:gauge-ceiling),\nin short **[0,30&nbsp;Torr](spec:ready-limit)**.\n"
	freshPage = "---\ntitle: %\nreader: shop\nmachines: [cindle-14]\n---\nReady means [350 mTorr](spec:ready-limit) or [2&#8239;000 mTorr](spec:gauge-ceiling),\nin short **[0,35&nbsp;Torr](spec:ready-limit)**.\n"
)

func titled(page, title string) string { return strings.Replace(page, "%", title, 1) }

func leave(t *testing.T, name, text string, mode os.FileMode) {
	t.Helper()
	if err := os.WriteFile(name, []byte(text), mode); err != nil {
		t.Fatal(err)
	}
	if err := os.Chmod(name, mode); err != nil { // whatever the mask
		t.Fatal(err)
	}
}

func holds(t *testing.T, name, want string) {
	t.Helper()
	if text, err := os.ReadFile(name); err != nil || string(text) != want {
		t.Errorf("%s: %v\n%q, want\n%q", name, err, text, want)
	}
}

// TestFixOnDisk: figures change, and nothing else of the file: line ends, byte order mark, permissions.
func TestFixOnDisk(t *testing.T) {
	shop(t)
	crlf := func(text string) string { return "\ufeff" + strings.ReplaceAll(text, "\n", "\r\n") }
	os.Remove(limits + ".txt")
	leave(t, "content/pages/plain.md", titled(stalePage, "Plain"), 0o640)
	leave(t, windows, crlf(titled(stalePage, "Windows")), 0o604)
	before, err := os.Stat(limits)
	if err != nil {
		t.Fatal(err)
	}
	status, out, told := ran(t, nil, "verify", "--fix")
	if status != done || strings.Count(told, "\n") != 2 || !strings.Contains(told, windows+": stale facts written anew") || !strings.Contains(out, "0 errors") {
		t.Errorf("status %d\n%s%s", status, out, told)
	}
	holds(t, "content/pages/plain.md", titled(freshPage, "Plain"))
	holds(t, windows, crlf(titled(freshPage, "Windows")))
	for name, mode := range map[string]os.FileMode{"content/pages/plain.md": 0o640, windows: 0o604} {
		if info, err := os.Stat(name); err != nil || info.Mode().Perm() != mode {
			t.Errorf("%s: %v %v, want %v", name, info.Mode(), err, mode)
		}
	}
	if after, err := os.Stat(limits); err != nil || !os.SameFile(before, after) {
		t.Error("a page without stale facts was written anew")
	}
	if status, _, told := ran(t, nil, "verify", "--fix"); status != done || told != "" {
		t.Errorf("a second time: status %d, %s", status, told)
	}
}

// TestFixLeavesLinks: a page that is a link to another place is refused, and what it points at stays as it was.
func TestFixLeavesLinks(t *testing.T) {
	shop(t)
	leave(t, "elsewhere.md", titled(stalePage, "Elsewhere"), 0o644)
	if err := os.Symlink("../../elsewhere.md", "content/pages/elsewhere.md"); err != nil {
		t.Fatal(err)
	}
	status, out, told := ran(t, nil, "verify", "--fix")
	if status != failed || told != "" || !strings.Contains(out, "link to another place") {
		t.Errorf("status %d\n%s%s", status, out, told)
	}
	holds(t, "elsewhere.md", titled(stalePage, "Elsewhere"))
}

// TestFixOfWhatCannotBeMended tells what is left and touches nothing.
func TestFixOfWhatCannotBeMended(t *testing.T) {
	shop(t)
	page := "---\ntitle: Left\nreader: shop\nmachines: [cindle-14]\n---\nThread [R 1/4](spec:thread), warm after [1h30](spec:warm-up).\n"
	leave(t, "content/pages/left.md", page, 0o644)
	status, out, told := ran(t, nil, "verify", "--fix")
	if status != failed || told != "" || strings.Count(out, "is not true") != 2 {
		t.Errorf("status %d\n%s%s", status, out, told)
	}
	holds(t, "content/pages/left.md", page)
}

// TestFixLeavesNothingBehind: no half-written file stays in the folder.
func TestFixLeavesNothingBehind(t *testing.T) {
	shop(t)
	leave(t, "content/pages/plain.md", titled(stalePage, "Plain"), 0o644)
	ran(t, nil, "verify", "--fix")
	entries, err := os.ReadDir("content/pages")
	if err != nil {
		t.Fatal(err)
	}
	var names bytes.Buffer
	for _, entry := range entries {
		names.WriteString(entry.Name() + " ")
	}
	if strings.Contains(names.String(), ".new") {
		t.Error(names.String())
	}
}
