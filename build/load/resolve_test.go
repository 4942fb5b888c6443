package load

import (
	"fmt"
	"strings"
	"testing"

	"blankoff/build/diagnostic"
	"blankoff/build/guide"
	"blankoff/build/source"
)

const tubeText = "title: TQ-4\nconstruction: insulated\nmark: invented\npins: {1: heater, 4: heater, 6: couple, 7: couple}\nvalues: {cross-pair: 1 MΩ, thread: R 1/8}\n"

func loaded(t *testing.T, files map[string]string) *Library {
	t.Helper()
	library, found, err := Load(shop(files), "content")
	if err != nil || len(found) > 0 {
		t.Fatalf("%v\n%s", err, diagnostic.List(found, diagnostic.Style{}))
	}
	return library
}

// TestInheritance: a value comes from the machine, else its tube, else its family, and so on up.
func TestInheritance(t *testing.T) {
	library := loaded(t, map[string]string{
		"tubes/tq-4.yaml":      tubeText,
		"tubes/tx-4.yaml":      strings.NewReplacer("TQ-4", "TX-4", "insulated", "joined", "cross-pair: 1 MΩ, ", "").Replace(tubeText),
		"families/all.yaml":    "title: All\nsummary: All.\ntube: tq-4\nvalues: {warm-up: 30 min, thread: R 1/4, oil-charge: 1 L, supply: 230 V}\n",
		"families/home.yaml":   "title: Home\nsummary: Home.\nfamily: all\nvalues: {warm-up: 20 min, oil-charge: 2 L}\n",
		"machines/small.yaml":  "title: Small\nsummary: S.\nfamily: home\nvalues: {oil-charge: 3 L}\n",
		"machines/bench.yaml":  "title: Bench\nsummary: B.\nfamily: home\ntube: tx-4\n",
		"machines/alone.yaml":  "title: Alone\nsummary: A.\nvalues: {supply: 120 V}\n",
		"families/a.yaml":      "title: A\nsummary: A.\nfamily: b\nvalues: {supply: 1 V}\n",
		"families/b.yaml":      "title: B\nsummary: B.\nfamily: a\nvalues: {warm-up: 1 h}\n",
		"machines/circle.yaml": "title: Circle\nsummary: C.\nfamily: a\n",
	})
	for _, c := range []struct{ machine, value, want string }{
		{"small", "oil-charge", "3 L of machines/small.yaml"},
		{"small", "warm-up", "20 min of families/home.yaml"},
		{"small", "supply", "230 V of families/all.yaml"},
		{"small", "thread", "R 1/4 of families/all.yaml"}, // the family before the family's tube
		{"small", "cross-pair", "1 MΩ of tubes/tq-4.yaml"},
		{"small", "heater-pins", "1 and 4 of tubes/tq-4.yaml"},
		{"bench", "thread", "R 1/8 of tubes/tx-4.yaml"}, // its own tube before any family
		{"bench", "sensor-construction", "joined junction of tubes/tx-4.yaml"},
		{"bench", "cross-pair", ""}, // of a tube that it does not have
		{"alone", "supply", "120 V of machines/alone.yaml"},
		{"alone", "warm-up", ""},
		{"circle", "supply", "1 V of families/a.yaml"},
		{"circle", "warm-up", "1 h of families/b.yaml"},
	} {
		v, found := library.Machine(c.machine).Value(c.value)
		got := ""
		if found {
			got = v.Text.Text + " of " + v.Span.File.Path
		}
		if got != c.want {
			t.Errorf("%s/%s: %q, want %q", c.machine, c.value, got, c.want)
		}
	}
	page := &guide.Guide{Machines: []Text{{Text: "small"}, {Text: "alone"}, {Text: "gone"}}, Families: []Text{{Text: "all"}, {Text: "home"}, {Text: "gone"}}}
	var covered []string
	for _, m := range library.Covered(page) {
		covered = append(covered, m.Name)
	}
	if got := strings.Join(covered, " "); got != "small alone bench" {
		t.Errorf("covered: %s", got)
	}
}

// TestWhereAValueIsKnownFrom: its own mark, else the file's; a calculation is a mark too.
func TestWhereAValueIsKnownFrom(t *testing.T) {
	library := loaded(t, map[string]string{"machines/x.yaml": `title: X
summary: X.
mark: invented
values:
  supply: 120 V
  warm-up: {is: 30 min, mark: common practice, note: warm, source: nobody}
  ice-floor: {is: '187 mTorr', calc: "ice-floor?temperature=-34 °C"}
  oil-charge: {is: "0.55\x20L"}
`})
	m := library.Machine("x")
	for name, want := range map[string]string{
		"supply":     `120 V, invented, "" "", written "120 V"`,
		"warm-up":    `30 min, common practice, "warm" "nobody", written "30 min"`,
		"ice-floor":  `187 mTorr, computed, "" "", written "187 mTorr"`,
		"oil-charge": `0.55 L, invented, "" "", written ""`,
	} {
		v, _ := m.Value(name)
		if got := fmt.Sprintf("%s, %s, %q %q, written %q", v.Text.Text, v.Mark.Text, v.Note.Text, v.Source.Text, v.Place.Text()); got != want {
			t.Errorf("%s:\n got %s\nwant %s", name, got, want)
		}
	}
	v, _ := m.Value("ice-floor")
	if v.Calc == nil || v.Calc.ID != "ice-floor" || v.Calc.IDSpan.Text() != "ice-floor" || v.Calc.Inputs[0].Span.Text() != "-34 °C" {
		t.Errorf("the calculation is %+v", v.Calc)
	}
}

// TestManyFamilies: a chain of any length, and a circle of any length, come to an end; what lies beyond the bound is no
// value of the machine.
func TestManyFamilies(t *testing.T) {
	const many = 300
	for _, last := range []string{"", "family: f-0\n"} {
		files := map[string]string{"machines/x.yaml": "title: X\nsummary: X.\nfamily: f-0\n"}
		for i := range many {
			next := fmt.Sprintf("family: f-%d\n", i+1)
			if i == many-1 {
				next = last
			}
			files[fmt.Sprintf("families/f-%d.yaml", i)] = fmt.Sprintf("title: F\nsummary: F.\n%svalues: {own-%d: text}\n", next, i)
		}
		library := loaded(t, files)
		for i := range many {
			if _, found := library.Machine("x").Value(fmt.Sprintf("own-%d", i)); found != (i < MostAbove) {
				t.Errorf("%q: the value of family %d is found: %v", last, i, found)
			}
		}
	}
}

func TestRewritten(t *testing.T) {
	library := loaded(t, map[string]string{"families/home.yaml": "title: Home\nsummary: H.\nvalues: {supply: 230 V}\n", "machines/x.yaml": "title: X\nsummary: X.\nfamily: home\n"})
	old, _ := library.Machine("x").Value("supply")
	fresh := library.Rewritten(map[source.Span]string{old.Span: "120 V"})
	if v, _ := fresh.Machine("x").Value("supply"); v.Text.Text != "120 V" || len(fresh.Family("home").Machines) != 1 {
		t.Errorf("rewritten: %q", v.Text.Text)
	}
	if v, _ := library.Machine("x").Value("supply"); v.Text.Text != "230 V" {
		t.Error("the library itself has changed")
	}
}
