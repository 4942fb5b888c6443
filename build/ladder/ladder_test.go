package ladder

import (
	"encoding/xml"
	"flag"
	"io"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"blankoff/calc/quantity"
)

var update = flag.Bool("update", false, "write the golden files anew")

var mTorr = quantity.MustUnit("mTorr")

// cindle is the demo shop's home machine at 430 m, with the pressures of one page.
func cindle() Ladder {
	return Ladder{
		Scale: Scale{TopPa: 96266, BottomPa: mTorr.To(10), Unit: mTorr},
		Rungs: []Rung{
			{Pa: 96266, Label: "air here, 430 m", Short: "air", Kind: Air},
			{Pa: 611.657, Label: "triple point of water", Short: "triple point", Kind: TriplePoint},
			{Pa: mTorr.To(350), Label: "ready limit", Short: "ready", Kind: Limit},
			{Pa: mTorr.To(187), Label: "ice floor, trap −34 °C", Short: "ice floor", Kind: IceFloor},
			{Pa: mTorr.To(25), Label: "pump blanked off", Short: "blank-off", Kind: Floor},
		},
		Band: Band{FromPa: mTorr.To(600), ToPa: mTorr.To(187), Label: "working band"},
		Marks: []Mark{
			{Pa: mTorr.To(350), Label: "350 mTorr"},
			{Pa: mTorr.To(120), Label: "120 mTorr"},
			{Pa: mTorr.To(2000), Label: "2,000 mTorr"},
			{Pa: mTorr.To(120), Label: "120 mTorr"},
		},
	}
}

func TestGolden(t *testing.T) {
	drawing, err := Draw(cindle())
	if err != nil {
		t.Fatal(err)
	}
	for name, got := range map[string]string{"tall.svg": drawing.Tall, "strip.svg": drawing.Strip} {
		path := filepath.Join("testdata", name)
		got = strings.ReplaceAll(got, "><", ">\n<") + "\n"
		if *update {
			if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		if got != string(want) {
			t.Errorf("%s changed; look at it, then run go test ./build/ladder -update\ngot:\n%s", path, got)
		}
	}
}

func TestUnfitScale(t *testing.T) {
	cases := map[string]Scale{
		"upside down":     {TopPa: 1, BottomPa: 100, Unit: mTorr},
		"nothing between": {TopPa: 1, BottomPa: 1, Unit: mTorr},
		"bottom is zero":  {TopPa: 1e5, BottomPa: 0, Unit: mTorr},
		"no number":       {TopPa: math.NaN(), BottomPa: 1, Unit: mTorr},
		"endless":         {TopPa: math.Inf(1), BottomPa: 1, Unit: mTorr},
		"not a pressure":  {TopPa: 1e5, BottomPa: 1, Unit: quantity.MustUnit("L")},
		"no unit":         {TopPa: 1e5, BottomPa: 1},
	}
	for name, scale := range cases {
		if _, err := Draw(Ladder{Scale: scale}); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
}

func TestWhatIsShown(t *testing.T) {
	at := func(pa float64) Mark { return Mark{Pa: pa, Label: "here"} }
	cases := []struct {
		name  string
		mark  Mark
		shown bool
	}{
		{"in the middle", at(100), true},
		{"at the top", at(96266), true},
		{"at the bottom", at(mTorr.To(10)), true},
		{"above the air", at(2e5), false},
		{"below the blank-off", at(0.1), false},
		{"zero", at(0), false},
		{"negative", at(-5), false},
		{"no number", at(math.NaN()), false},
	}
	for _, c := range cases {
		l := cindle()
		l.Marks = []Mark{c.mark}
		drawing, err := Draw(l)
		if err != nil {
			t.Fatal(err)
		}
		for _, svg := range []string{drawing.Tall, drawing.Strip} {
			if got := strings.Contains(svg, `class="pointer"`); got != c.shown {
				t.Errorf("%s: shown %t, want %t", c.name, got, c.shown)
			}
		}
	}
}

func TestNumbersAreComplete(t *testing.T) {
	cases := []struct {
		unit    string
		numbers []string
	}{
		{"mTorr", []string{">100,000<", ">10,000<", ">1,000<", ">100<", ">10<"}},
		{"Pa", []string{">10,000<", ">1,000<", ">100<", ">10<"}},
		{"mbar", []string{">100<", ">10<", ">1<", ">0.1<"}},
		{"Torr", []string{">100<", ">1<", ">0.01<"}},
	}
	for _, c := range cases {
		l := cindle()
		l.Scale.Unit = quantity.MustUnit(c.unit)
		drawing, err := Draw(l)
		if err != nil {
			t.Fatal(err)
		}
		for _, number := range c.numbers {
			if !strings.Contains(drawing.Tall, number) {
				t.Errorf("%s: no %s in the tall ladder", c.unit, number)
			}
		}
		if !strings.Contains(drawing.Strip, ">"+c.unit+"<") {
			t.Errorf("%s: the strip does not name its unit", c.unit)
		}
	}
}

// crowd is more labels than the drawing's own size has room for, all at the bottom, one of them long.
func crowd() Ladder {
	l := cindle()
	for i := range 60 {
		l.Marks = append(l.Marks, Mark{Pa: mTorr.To(11 + 0.1*float64(i)), Label: "reading " + strings.Repeat("x", i%9)})
	}
	l.Rungs[3].Label = "ice floor while the trap is far too warm for a load such as this one"
	return l
}

func TestNoLabelIsCutOrCoversAnother(t *testing.T) {
	for name, l := range map[string]Ladder{"cindle": cindle(), "crowd": crowd()} {
		drawing, err := Draw(l)
		if err != nil {
			t.Fatal(err)
		}
		for kind, svg := range map[string]string{"tall": drawing.Tall, "strip": drawing.Strip} {
			boxes, whole := boxesOf(t, svg)
			for i, a := range boxes {
				if a.left < -0.1 || a.top < -0.1 || a.right > whole.right+0.1 || a.bottom > whole.bottom+0.1 {
					t.Errorf("%s, %s: %q is cut: %+v in %+v", name, kind, a.text, a, whole)
				}
				for _, b := range boxes[i+1:] {
					if a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom {
						t.Errorf("%s, %s: %q covers %q", name, kind, a.text, b.text)
					}
				}
			}
		}
	}
}

type box struct {
	text                     string
	left, top, right, bottom float64
}

// boxesOf reads a drawing as a browser does and gives the room that its texts take, by the widths of a wide system font.
func boxesOf(t *testing.T, svg string) (boxes []box, whole box) {
	t.Helper()
	type span struct {
		X    float64 `xml:"x,attr"`
		Y    float64 `xml:"y,attr"`
		Text string  `xml:",chardata"`
	}
	var drawing struct {
		Width  float64 `xml:"width,attr"`
		Height float64 `xml:"height,attr"`
		Texts  []struct {
			Size   float64 `xml:"font-size,attr"`
			Anchor string  `xml:"text-anchor,attr"`
			Spans  []span  `xml:"tspan"`
		} `xml:"text"`
	}
	if err := xml.Unmarshal([]byte(svg), &drawing); err != nil {
		t.Fatalf("not well formed: %v\n%s", err, svg)
	}
	for _, text := range drawing.Texts {
		for _, s := range text.Spans {
			room := width(s.Text, text.Size, 0.58)
			left := s.X - map[string]float64{"start": 0, "middle": room / 2, "end": room}[text.Anchor]
			boxes = append(boxes, box{s.Text, left, s.Y - 0.76*text.Size, left + room, s.Y + 0.24*text.Size})
		}
	}
	return boxes, box{right: drawing.Width, bottom: drawing.Height}
}

func TestStripNamesStandNearTheirRungs(t *testing.T) {
	l := cindle()
	l.Scale.BottomPa = mTorr.To(1)
	l.Rungs = append(l.Rungs, Rung{Pa: mTorr.To(150), Label: "empty and dry limit", Short: "dry limit", Kind: Limit}, Rung{Pa: mTorr.To(1), Label: "sensor's floor", Short: "sensor", Kind: Floor})
	drawing, err := Draw(l)
	if err != nil {
		t.Fatal(err)
	}
	for name, shown := range map[string]bool{"air": true, "ready": true, "ice floor": true, "blank-off": true, "dry limit": false, "sensor": false} {
		if got := strings.Contains(drawing.Strip, ">"+name+"<"); got != shown {
			t.Errorf("%s: shown %t, want %t", name, got, shown)
		}
	}
}

func TestTextIsEscaped(t *testing.T) {
	l := cindle()
	l.Marks = []Mark{{Pa: 50, Label: `<script>"&'`}}
	drawing, err := Draw(l)
	if err != nil {
		t.Fatal(err)
	}
	for _, svg := range []string{drawing.Tall, drawing.Strip} {
		if strings.Contains(svg, "<script") {
			t.Errorf("a label came through as it was: %s", svg)
		}
		if err := xml.NewDecoder(strings.NewReader(svg)).Decode(new(struct{})); err != nil && err != io.EOF {
			t.Errorf("not well formed: %v", err)
		}
	}
}

func TestFigure(t *testing.T) {
	l := cindle()
	l.Marks = []Mark{{Pa: 50, Label: `<script>"&'`}}
	p, err := Figure(l)
	if err != nil {
		t.Fatal(err)
	}
	svg := "<svg>" + p.Body + "</svg>"
	for decoder := xml.NewDecoder(strings.NewReader(svg)); ; {
		if _, err := decoder.Token(); err == io.EOF {
			break
		} else if err != nil {
			t.Fatalf("%v in %s", err, svg)
		}
	}
	for _, word := range p.Tells {
		if !strings.Contains(strings.ToLower(p.Words), word) {
			t.Errorf("its own words leave out %q: %s", word, p.Words)
		}
	}
	if len(p.Tells) < 3 || strings.Contains(p.Body, "cursor") || p.Width < 100 || p.Width > 336 || p.Height < figureHeight {
		t.Errorf("%.0f × %.0f, tells %q", p.Width, p.Height, p.Tells)
	}
	if _, err := Figure(Ladder{}); err == nil {
		t.Error("a ladder without a scale was drawn")
	}
}

func TestSpread(t *testing.T) {
	cases := []struct {
		name      string
		wants     []want
		low, high float64
		middles   []float64
	}{
		{"none", nil, 0, 100, nil},
		{"room enough", []want{{20, 10}, {60, 10}}, 0, 100, []float64{20, 60}},
		{"the same place", []want{{50, 10}, {50, 10}}, 0, 100, []float64{45, 55}},
		{"touching stays", []want{{45, 10}, {55, 10}}, 0, 100, []float64{45, 55}},
		{"a group meets a third", []want{{50, 10}, {50, 10}, {56, 10}}, 0, 100, []float64{42, 52, 62}},
		{"at the low end", []want{{1, 10}, {2, 10}}, 0, 100, []float64{5, 15}},
		{"at the high end", []want{{99, 10}, {99, 20}}, 0, 100, []float64{75, 90}},
		{"unequal sizes", []want{{50, 10}, {50, 30}}, 0, 100, []float64{40, 60}},
	}
	for _, c := range cases {
		got := spread(c.wants, c.low, c.high)
		if len(got) != len(c.middles) {
			t.Errorf("%s: %v, want %v", c.name, got, c.middles)
			continue
		}
		for i := range got {
			if math.Abs(got[i]-c.middles[i]) > 1e-9 {
				t.Errorf("%s: %v, want %v", c.name, got, c.middles)
				break
			}
		}
	}
}

func TestAmount(t *testing.T) {
	cases := map[float64]string{
		mTorr.To(722050): "722,000 mTorr", mTorr.To(187): "187 mTorr", mTorr.To(25): "25 mTorr",
		mTorr.To(4587.9): "4,590 mTorr", mTorr.To(76.7): "76.7 mTorr", mTorr.To(0.5): "0.5 mTorr",
	}
	for pa, want := range cases {
		if got := (Scale{Unit: mTorr}).amount(pa); got != want {
			t.Errorf("%g Pa: %q, want %q", pa, got, want)
		}
	}
}
