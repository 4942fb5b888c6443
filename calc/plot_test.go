package calc_test

import (
	"encoding/xml"
	"flag"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"blankoff/calc"
	"blankoff/calc/declare"
	"blankoff/calc/quantity"
)

var update = flag.Bool("update", false, "write the golden plots afresh")

// TestPlotsOfExamples draws the example of every calculator that has a plot: the same bytes as the picture that was looked
// at, well-formed, in words and in a table, and nothing where none was asked for.
func TestPlotsOfExamples(t *testing.T) {
	drawn := 0
	for _, c := range calc.All() {
		request := declare.Request{ID: c.ID, In: c.Example.In}
		if a := c.Answer(request); a.Plot != nil {
			t.Errorf("%s draws without being asked", c.ID)
		}
		request.Plot = true
		a := c.Answer(request)
		if a.Fault != nil {
			t.Errorf("%s: %+v", c.ID, a.Fault)
			continue
		}
		if (a.Plot != nil) != (c.Plot != nil) {
			t.Errorf("%s declares a plot: %t, draws one: %t", c.ID, c.Plot != nil, a.Plot != nil)
		}
		if a.Plot == nil {
			continue
		}
		drawn++
		svg := a.Plot.SVG()
		wellFormed(t, c.ID, svg)
		if !strings.HasPrefix(a.Plot.Words, c.Plot.Title+"; ") || strings.ContainsAny(a.Plot.Words, "{}") {
			t.Errorf("%s in words: %s", c.ID, a.Plot.Words)
		}
		for _, row := range a.Plot.Rows {
			if len(row) != len(a.Plot.Head) {
				t.Errorf("%s: a row of %d under %q", c.ID, len(row), a.Plot.Head)
			}
		}
		golden(t, c.ID, svg)
	}
	if drawn < 6 {
		t.Errorf("only %d calculators draw", drawn)
	}
}

func wellFormed(t *testing.T, name, svg string) {
	t.Helper()
	for decoder := xml.NewDecoder(strings.NewReader(svg)); ; {
		if _, err := decoder.Token(); err == io.EOF {
			return
		} else if err != nil {
			t.Fatalf("%s: %v in %s", name, err, svg)
		}
	}
}

func golden(t *testing.T, name, svg string) {
	t.Helper()
	path := filepath.Join("testdata", "plots", name+".svg")
	svg = strings.ReplaceAll(svg, "><", ">\n<") + "\n"
	if *update {
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(svg), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if string(want) != svg {
		t.Errorf("%s changed; look at it, then run go test ./calc -update\ngot:\n%s", path, svg)
	}
}

// TestAxesFollowTheReader: an axis is in the unit that was written, unless another one is asked for.
func TestAxesFollowTheReader(t *testing.T) {
	const log = "time s,pressure Pa\n0,10\n60,12\n120,14\n180,16\n240,18\n300,20\n360,22\n420,24\n480,26"
	in := []declare.Pair{{Name: "log", Text: log}, {Name: "volume", Text: "24 L"}}
	for _, c := range []struct {
		axes       []declare.Pair
		head       string
		first      string
		faultField string
	}{
		{nil, "time, s; pressure, Pa; on the curve", "0 10 10", ""},
		{[]declare.Pair{{Name: "pressure", Text: "mbar"}}, "time, s; pressure, mbar; on the curve", "0 0.1 0.1", ""},
		{[]declare.Pair{{Name: "pressure", Text: "micron"}, {Name: "time", Text: "min"}, {Name: "temperature", Text: "°F"}}, "time, min; pressure, micron; on the curve", "0 75.01 75.01", ""},
		{[]declare.Pair{{Name: "pressure", Text: "furlong"}}, "", "", "plot"},
		{[]declare.Pair{{Name: "pressure", Text: "min"}}, "", "", "plot"},
		{[]declare.Pair{{Name: "<b>", Text: "Pa"}}, "", "", "plot"},
	} {
		a := calc.Answer(declare.Request{ID: "rise-log", In: in, Plot: true, Axes: c.axes})
		if c.faultField != "" {
			if a.Fault == nil || a.Fault.Field != c.faultField {
				t.Errorf("%v: %+v", c.axes, a.Fault)
			}
			continue
		}
		if a.Fault != nil {
			t.Errorf("%v: %+v", c.axes, a.Fault)
			continue
		}
		if head := strings.Join(a.Plot.Head, "; "); head != c.head || strings.Join(a.Plot.Rows[0], " ") != c.first {
			t.Errorf("%v: %s, %v; want %s, %s", c.axes, head, a.Plot.Rows[0], c.head, c.first)
		}
	}
}

// TestRiseLogPlotTellsWhatWasLeftOut: readings above the ceiling are arrows, and counted.
func TestRiseLogPlotTellsWhatWasLeftOut(t *testing.T) {
	log := "time min,pressure mTorr\n0,300\n1,500\n2,700\n3,900\n4,1100\n5,1300\n6,1500\n7,1700\n8,1900\n9,2100\n10,2150"
	a := calc.Answer(declare.Request{ID: "rise-log", In: []declare.Pair{{Name: "log", Text: log}, {Name: "volume", Text: "24 L"}, {Name: "limit", Text: "20 mTorr/min"}}, Plot: true})
	if a.Fault != nil {
		t.Fatal(a.Fault)
	}
	for _, want := range []string{"readings: 9, 300 mTorr at 0 min to 1,900 mTorr at 8 min", "not used: 2, 2,100 mTorr at 9 min to 2,150 mTorr at 10 min", "limit 20 mTorr/min: 300 mTorr at 0 min to 460 mTorr at 8 min", "curve: a leak: "} {
		if !strings.Contains(a.Plot.Words, want) {
			t.Errorf("%q does not tell %q", a.Plot.Words, want)
		}
	}
	if !strings.Contains(a.Plot.Body, "l4-7l4 7z") {
		t.Errorf("no arrow at the end of the axis: %s", a.Plot.Body)
	}
	if len(a.Plot.Rows) != 11 {
		t.Errorf("%d rows", len(a.Plot.Rows))
	}
}

// TestPlotUnitsAreDeclared: what a declaration says of its axes can be read.
func TestPlotUnitsAreDeclared(t *testing.T) {
	for _, c := range calc.All() {
		if c.Plot == nil {
			continue
		}
		for _, axis := range []*declare.PlotAxis{&c.Plot.X, &c.Plot.Y} {
			if _, ok := quantity.FindUnit(axis.Unit); axis.Label == "" || !ok {
				t.Errorf("%s: an axis %q in %q", c.ID, axis.Label, axis.Unit)
			}
			if axis.Of != "" && c.Input(axis.Of) == nil {
				t.Errorf("%s: an axis of %q, which is no input", c.ID, axis.Of)
			}
		}
	}
}
