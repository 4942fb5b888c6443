package picture

import (
	"encoding/xml"
	"flag"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"blankoff/calc/fitting"
)

var update = flag.Bool("update", false, "write the golden files anew")

var insulated = Base{Name: "TQ-4", Positions: 8, Pins: []Pin{{1, "heater"}, {4, "heater"}, {6, "couple"}, {7, "couple"}}}

func full(s Separation) Circuit {
	return Circuit{Machine: "Cindle 14", Chamber: "24.0 L", Trap: "-34 °C", Drain: "6 mm", Bore: "12 mm", Length: "1.20 m", Pump: "5.1 m³/h", Tube: "TQ-4", Thread: "R 1/8", Separation: s}
}

// samples are pictures of every kind, with data that strain them.
func samples(t *testing.T) map[string]*Drawing {
	t.Helper()
	must := func(d *Drawing, err error) *Drawing {
		if err != nil {
			t.Fatal(err)
		}
		return d
	}
	long := strings.Repeat("very long ", 9)
	all := map[string]*Drawing{
		"pins": must(Pins(insulated)), "circuit-tee": full(Tee).Draw(), "circuit-valve": full(Valve).Draw(), "circuit-bare": Circuit{Machine: "X"}.Draw(),
		"circuit-hostile": Circuit{Machine: `<script>"&'`, Chamber: "<b>", Pump: `"onload="x`, Tube: "&#0;", Separation: Valve}.Draw(),
		"rise-hostile":    must(Rise{"straight", 20, `<script>"&'`}.Draw()),
		"circuit-long":    Circuit{long, long, long, long, long, long, long, long, long, Valve}.Draw(),
		"pins-odd":        must(Pins(Base{Name: "X", Positions: 7, Joined: true, Pins: []Pin{{1, "heater"}, {2, "case"}, {4, "a very long role"}, {7, "none"}}})),
	}
	for n := 3; n <= 14; n++ {
		var pins []Pin
		for i := range n {
			pins = append(pins, Pin{i + 1, "heater"})
		}
		all["pins-"+count(float64(n))] = must(Pins(Base{Name: "X", Positions: n, Pins: pins}))
	}
	for _, name := range fitting.Threads() {
		p, known := fitting.FindProfile(name)
		if !known {
			t.Fatalf("the list has no profile of its own %s", name)
		}
		all["thread-"+strings.NewReplacer(" ", "-", "/", "-").Replace(name)] = Thread(p)
	}
	for _, shape := range Shapes {
		for _, limit := range []float64{0, 0.01, 8, 20, 5000} {
			all["rise-"+shape+"-"+count(limit)] = must(Rise{shape, limit, "Cindle 14"}.Draw())
		}
	}
	return all
}

func TestPictures(t *testing.T) {
	for name, d := range samples(t) {
		svg := d.SVG("Title & co", "words <b>")
		for _, attribute := range wellFormed(t, name, svg) {
			if attribute == "style" || attribute == "id" || strings.HasPrefix(attribute, "on") || strings.HasSuffix(attribute, "href") {
				t.Errorf("%s has an attribute %s", name, attribute)
			}
		}
		for i, a := range d.texts {
			if a.left < 0 || a.top < 0 || a.right > d.width || a.bottom > d.height {
				t.Errorf("%s: %q does not fit into the picture", name, a.text)
			}
			for _, b := range d.texts[:i] {
				if a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom {
					t.Errorf("%s: %q lies on %q", name, a.text, b.text)
				}
			}
		}
		if untold := d.Untold(d.Title + ": " + d.Words); len(untold) > 0 {
			t.Errorf("%s: its own words leave out %v", name, untold)
		}
		if len(d.Tells) > 0 && len(d.Untold("a picture")) == 0 {
			t.Errorf("%s: a text that tells nothing passes", name)
		}
		if len(svg) > 6000 {
			t.Errorf("%s takes %d bytes", name, len(svg))
		}
		golden(t, name, svg)
	}
}

// golden compares the pictures that people see; the others are there to be strained.
func golden(t *testing.T, name, svg string) {
	t.Helper()
	switch name {
	case "pins", "pins-odd", "circuit-tee", "circuit-valve", "thread-R-1-8", "thread-1-8-NPT", "rise-straight-20", "rise-bending-20", "rise-both-8":
	default:
		return
	}
	path := filepath.Join("testdata", name+".svg")
	svg = strings.ReplaceAll(svg, "><", ">\n<") + "\n"
	if *update {
		if err := os.WriteFile(path, []byte(svg), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if string(want) != svg {
		t.Errorf("%s changed; look at it, then run go test ./build/picture -update\ngot:\n%s", path, svg)
	}
}

// wellFormed reads an SVG as XML and lists its attributes.
func wellFormed(t *testing.T, name, svg string) []string {
	t.Helper()
	var names []string
	for d := xml.NewDecoder(strings.NewReader(svg)); ; {
		token, err := d.Token()
		if err == io.EOF {
			return names
		}
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		if e, ok := token.(xml.StartElement); ok {
			for _, a := range e.Attr {
				names = append(names, a.Name.Local)
			}
		}
	}
}

func TestRefusedBases(t *testing.T) {
	for _, b := range []Base{{Positions: 2}, {Positions: 15}, {Positions: 8}, {Positions: 8, Pins: []Pin{{9, "heater"}}}, {Positions: 8, Pins: []Pin{{0, "heater"}}}} {
		if _, err := Pins(b); err == nil {
			t.Errorf("%+v was drawn", b)
		}
	}
	if _, err := (Rise{Shape: "falling"}).Draw(); err == nil {
		t.Error("a shape that nobody knows was drawn")
	}
}

func TestLogs(t *testing.T) {
	for text, want := range map[string]string{
		"min 2 3 4\nmTorr 447 583 724\n":               "",
		"# film\n\ns 0 1 2\nmTorr 212 47,300 760000\n": "",
		"h 1\nPa 5":                      "",
		"":                               "there are not two lines of readings",
		"min 1 2":                        "there are not two lines of readings",
		"mTorr 1 2\nmin 1 2":             "the first line is in mTorr, not in a unit of time",
		"min 1 2\nmTorr 1":               "there are 2 times and 1 readings",
		"min 1 2\nmTorr 1 x":             `"x" is no number`,
		"min 1 2\n<b> 1 2":               `"<b>" is no unit that is known here`,
		"min 2 2\nmTorr 1 2":             "the time 2 does not come after 2",
		"min 1 2\nmTorr 1 2\nPa 1 2":     "there is a third line",
		"min 1 NaN 3\nmTorr 1 Inf 1e308": "the time NaN does not come after 1",
		"min 1 2 3\nmTorr 1 Inf 1e308":   "",
	} {
		d, err := Log{Text: text}.Draw()
		if err != nil {
			if err.Error() != want {
				t.Errorf("%q: %v, want %q", text, err, want)
			}
			continue
		}
		if want != "" {
			t.Errorf("%q was drawn; want %s", text, want)
		}
		wellFormed(t, text, d.SVG())
	}
	d, err := Log{Text: "s 0 1 2\nmTorr 212 47300 209"}.Draw()
	if err != nil || d.Words != "Readings by time; readings: 3, 212 mTorr at 0 s to 209 mTorr at 2 s, lowest 209 mTorr at 2 s, highest 47,300 mTorr at 1 s" {
		t.Errorf("%v, %+v", err, d)
	}
}

func TestUntold(t *testing.T) {
	d := Drawing{Tells: []string{"1", "couple", "valve"}}
	for text, want := range map[string]string{
		"Couple on 1. Two valves": "", "11, couples, VALVE": "1", "coupling on 1": "couple valve", "": "1 couple valve",
	} {
		if got := strings.Join(d.Untold(text), " "); got != want {
			t.Errorf("%q leaves out %q, want %q", text, got, want)
		}
	}
}

// Profiles are held against ASME B1.20.1 and ISO 7-1 as the calculator knows them: thread height 0.8 p at 60°, 0.640327 p at 55°; the
// pitch of R 1/8 is 0.907 mm and its height 0.581 mm (published tables, as transcribed in testdata/reference/13_threads.csv; the height from memory).
func TestTeethClose(t *testing.T) {
	for _, name := range fitting.Threads() {
		p, _ := fitting.FindProfile(name)
		tooth := toothOf(p)
		if sum := 2*tooth.flat + 2*tooth.run; tooth.flat <= 0 || sum < turn-1e-9 || sum > turn+1e-9 {
			t.Errorf("%s: a tooth of %g in a turn of %g", name, sum, turn)
		}
	}
	if p, _ := fitting.FindProfile("R 1/8"); p.Pitch < 0.9065 || p.Pitch > 0.9075 || p.Depth < 0.5805 || p.Depth > 0.5815 {
		t.Errorf("R 1/8: %+v", p)
	}
	if _, known := fitting.FindProfile("M 10"); known {
		t.Error("M 10 is in the list of pipe threads")
	}
}
