package guide

import (
	"testing"

	"blankoff/build/source"
)

func TestDrawings(t *testing.T) {
	for _, test := range []struct{ what, body, name, said, fault string }{
		{"alone", "![Pins: 1 and 4](drawn:pins/tq-4)\n", "pins/tq-4", "Pins: 1 and 4", ""},
		{"in angle brackets", "![Pins](<drawn:pins/tq-4>)\n", "pins/tq-4", "Pins", ""},
		{"by reference", "![Pins][a]\n\n[a]: drawn:pins/tq-4\n", "pins/tq-4", "Pins", ""},
		{"no name", "![Pins](drawn:)\n", "", "Pins", ""},
		{"in a step", "## Steps\n\n1. Count.\n   - Expect: four.\n   - If not: again.\n\n   ![Pins](drawn:pins/tq-4)\n", "pins/tq-4", "Pins", ""},
		{"in an answer", "## Steps\n\n1. Count.\n   - Expect: four.\n\n     ![Pins](drawn:pins/tq-4)\n   - If not: again.\n", "pins/tq-4", "Pins", "drawn"},
		{"amid text", "See ![Pins](drawn:pins/tq-4) here.\n", "", "", ""},
		{"a file", "![Pins](../pictures/a.svg)\n", "", "", ""},
	} {
		text := "---\ntitle: A\nreader: customer\n---\n" + test.body
		g, faults := Parse(&source.File{Name: "pages/a.md", Path: "pages/a.md", Text: text}, Page)
		fault := ""
		for _, f := range faults {
			fault += f.Rule
		}
		if fault != test.fault {
			t.Errorf("%s: faults %q, want %q", test.what, fault, test.fault)
		}
		if test.said == "" {
			if len(g.Drawings) != 0 || len(g.Links) != 1 {
				t.Errorf("%s: %d drawings, %d links", test.what, len(g.Drawings), len(g.Links))
			}
			continue
		}
		if len(g.Drawings) != 1 || len(g.Links) != 0 {
			t.Errorf("%s: %d drawings, %d links", test.what, len(g.Drawings), len(g.Links))
			continue
		}
		d := g.Drawings[0]
		if d.Name != test.name || d.Said != test.said || d.NameSpan.Len == 0 {
			t.Errorf("%s: %q %q at %v", test.what, d.Name, d.Said, d.NameSpan)
		}
	}
}

func TestCaption(t *testing.T) {
	for said, want := range map[string][2]string{
		"Pins of the TQ-4: heater on 1: left": {"Pins of the TQ-4", "heater on 1: left"}, "Taper 1:16": {"Taper 1:16", ""}, "": {},
	} {
		if title, words := (&Drawing{Said: said}).Caption(); title != want[0] || words != want[1] {
			t.Errorf("%q: %q, %q", said, title, words)
		}
	}
}
