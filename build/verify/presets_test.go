package verify

import (
	"testing"
	"testing/fstest"
)

// TestPresetOfAnotherMachine: a preset that names a machine leaves the page's own machines as they stand in its header,
// which decide what its facts must say and what its head shows.
func TestPresetOfAnotherMachine(t *testing.T) {
	const name = "procedures/joints.md"
	fsys := copyOf(t, "../../content")
	fsys[name] = &fstest.MapFile{Data: []byte("---\ntitle: Two machines\nreader: technician\nmachines: [cindle-14, torrask-38]\nrevision: 1\n---\nOf two.\n\n" +
		"```calculator pressure\nvalue: spec:torrask-38/ready-limit\n```\n")}
	library, _ := check(t, fsys)
	for _, page := range library.Guides {
		if page.File.Path != name {
			continue
		}
		for i, m := range library.Covered(page) {
			if want := page.Machines[i].Text; m.Name != want {
				t.Errorf("machine %d of the page is %s, want %s", i+1, m.Name, want)
			}
		}
		return
	}
	t.Fatal("no page")
}
