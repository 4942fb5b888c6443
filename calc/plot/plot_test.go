package plot

import (
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"math/rand/v2"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"blankoff/calc/quantity"
)

func axes(p *Plot) *Plot {
	p.X.Label, p.X.Unit = "time", quantity.MustUnit("min")
	p.Y.Label, p.Y.Unit = "pressure", quantity.MustUnit("mTorr")
	return p
}

func labels(a *Axis) (list []string) {
	for i := range a.ticks {
		if a.ticks[i].label != "" {
			list = append(list, a.ticks[i].label)
		}
	}
	return list
}

// TestEvenNumbers: Heckbert's article labels data from 105 to 543 loosely by 100, 200 … 600, with about five lines (from
// memory: Graphics Gems, 1990, p. 61 to 63). The others were worked by hand with his rule.
func TestEvenNumbers(t *testing.T) {
	for _, c := range []struct {
		low, high float64
		about     int
		want      string
	}{
		{105, 543, 5, "100 200 300 400 500 600"},
		{0, 10, 6, "0 2 4 6 8 10"},
		{327, 2506, 5, "0 1,000 2,000 3,000"},
		{-34.2, -33.8, 5, "−34.2 −34.1 −34 −33.9 −33.8"},
		{0, 1e-9, 6, "0 2×10⁻¹⁰ 4×10⁻¹⁰ 6×10⁻¹⁰ 8×10⁻¹⁰ 1×10⁻⁹"},
	} {
		a := Axis{from: 0, to: 3000}
		a.even(c.low, c.high, c.about)
		if got := strings.Join(labels(&a), " "); got != c.want {
			t.Errorf("%g to %g: %s, want %s", c.low, c.high, got, c.want)
		}
	}
}

func TestNice(t *testing.T) {
	for _, c := range []struct {
		x       float64
		nearest bool
		want    float64
	}{{438, false, 500}, {125, true, 100}, {1.4, true, 1}, {1.6, true, 2}, {2.9, true, 2}, {3.1, true, 5}, {6.9, true, 5}, {7.1, true, 10}, {1, false, 1}, {1.01, false, 2}, {1000, false, 1000}, {5.1, false, 10}} {
		times, power := nice(c.x, c.nearest)
		if got := times * math.Pow10(power); math.Abs(got/c.want-1) > 1e-12 {
			t.Errorf("%g: %g, want %g", c.x, got, c.want)
		}
	}
}

func TestLogarithmicNumbers(t *testing.T) {
	for _, c := range []struct {
		low, high float64
		want      string
	}{
		{47, 760000, "20 100 300 1,000 3,000 10,000 30,000 100,000 300,000 1,000,000"},
		{92, 410, "50 100 200 300 500"},
		{300, 330, "300 310 320 330"},
		{1e-3, 1e8, "0.001 0.1 10 1,000 100,000 1×10⁷"},
	} {
		a := Axis{Log: true, Unit: quantity.One, from: bottom, to: top, low: math.MaxFloat64, high: -math.MaxFloat64}
		a.take(c.low)
		a.take(c.high)
		a.settle()
		if got := strings.Join(labels(&a), " "); got != c.want {
			t.Errorf("%g to %g: %s, want %s", c.low, c.high, got, c.want)
		}
		if a.low > c.low*(1+1e-9) || a.high < c.high*(1-1e-9) || len(labels(&a)) < 3 {
			t.Errorf("%g to %g: from %g to %g with %q", c.low, c.high, a.low, a.high, labels(&a))
		}
	}
}

// TestAnyPlot draws plots of all sorts and sizes and reads them back.
func TestAnyPlot(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 8))
	for range 1500 {
		p := anyPlot(random)
		lists := make([]int, len(p.Parts))
		for i, part := range p.Parts {
			lists[i] = len(part.Points)
		}
		name := fmt.Sprintf("%v, log %t %t, most %g, %v points", p.Title, p.X.Log, p.Y.Log, p.Y.Most, lists)
		check(t, name, p)
		if t.Failed() {
			return
		}
	}
}

func anyPlot(random *rand.Rand) *Plot {
	p := axes(&Plot{Title: `<a href="x">&`})
	p.X.Log, p.Y.Log = random.IntN(3) == 0, random.IntN(2) == 0
	size := math.Pow(10, -20+40*random.Float64())
	odd := []float64{0, -1, math.NaN(), math.Inf(1), math.Inf(-1), 1e300, -1e300, 1e-300, 1e31}
	value := func() float64 {
		switch random.IntN(40) {
		case 0:
			return odd[random.IntN(len(odd))]
		case 1:
			return size
		}
		return size * (1 + math.Pow(10, -3+6*random.Float64()))
	}
	for kind := Band; kind < kinds; kind++ {
		n := []int{0, 1, 2, 3, 10, 60, 240, 241, 700}[random.IntN(9)]
		part := p.Part(kind, strings.Repeat("n", random.IntN(3)*10))
		part.Free = random.IntN(4) == 0
		x := value()
		for range n {
			x += math.Abs(value()) / 10
			at := part.Add(x, value())
			if random.IntN(2) == 0 {
				at.Bar(value())
			}
		}
	}
	if random.IntN(3) == 0 {
		p.Y.Most = size * 10
	}
	if random.IntN(2) == 0 {
		p.On = func(float64) float64 { return value() }
	}
	return p
}

// box is the room of a text, or of a path, which has none.
type box struct {
	left, top, right, bottom float64
	text                     string
}

var figure = regexp.MustCompile(`-?[0-9.]+|[A-Za-z]`)

// check holds what is true of every plot: well-formed XML without style, ids and references, nothing outside of the picture,
// no text on another, no mark outside of the field.
func check(t *testing.T, name string, p *Plot) {
	t.Helper()
	d := p.Draw()
	svg := d.SVG()
	if !utf8.ValidString(svg) || strings.Contains(svg, "NaN") || strings.Contains(svg, "Inf") {
		t.Errorf("%s: not a text of numbers: %.300s", name, svg)
	}
	if len(svg) > 60_000 {
		t.Errorf("%s: %d bytes", name, len(svg))
	}
	var texts []box
	var last *box
	for decoder := xml.NewDecoder(strings.NewReader(svg)); ; {
		token, err := decoder.Token()
		if err == io.EOF {
			break
		}
		if err != nil {
			t.Fatalf("%s: %v in %s", name, err, svg)
		}
		switch token := token.(type) {
		case xml.StartElement:
			last = nil
			attributes := map[string]string{}
			for _, a := range token.Attr {
				attributes[a.Name.Local] = a.Value
				if a.Name.Local == "style" || a.Name.Local == "id" || strings.HasPrefix(a.Name.Local, "on") || strings.HasSuffix(a.Name.Local, "href") {
					t.Errorf("%s: an attribute %s", name, a.Name.Local)
				}
			}
			switch token.Name.Local {
			case "text":
				x, _ := strconv.ParseFloat(attributes["x"], 64)
				y, _ := strconv.ParseFloat(attributes["y"], 64)
				texts = append(texts, box{left: x, top: y - 10, bottom: y + 3, text: attributes["text-anchor"]})
				last = &texts[len(texts)-1]
			case "path":
				within(t, name, attributes["d"], d.Height)
			}
		case xml.CharData:
			if last != nil {
				w := width(string(token))
				switch last.text {
				case "middle":
					last.left -= w / 2
				case "end":
					last.left -= w
				}
				last.right, last.text = last.left+w, string(token)
			}
		}
	}
	for i, a := range texts {
		if a.left < 0 || a.top < 0 || a.right > Width+0.5 || a.bottom > d.Height {
			t.Errorf("%s: %q does not fit into the picture: %+v", name, a.text, a)
		}
		for _, b := range texts[:i] {
			if a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom {
				t.Errorf("%s: %q lies on %q", name, a.text, b.text)
			}
		}
	}
	for _, a := range []*Axis{&p.X, &p.Y} {
		monotone(t, name, a)
	}
	for _, row := range d.Rows {
		if len(row) != len(d.Head) {
			t.Errorf("%s: a row of %d under a head of %d", name, len(row), len(d.Head))
		}
	}
	if len(d.Rows) > 2*longest+2 {
		t.Errorf("%s: a table of %d rows", name, len(d.Rows))
	}
}

// within follows a path with its relative steps.
func within(t *testing.T, name, d string, height float64) {
	t.Helper()
	x, y, command := 0.0, 0.0, ""
	tokens := figure.FindAllString(d, -1)
	for i := 0; i < len(tokens); {
		if tokens[i][0] >= 'A' {
			command = tokens[i]
			i++
			if command == "z" {
				continue
			}
		}
		number := func() float64 {
			v, err := strconv.ParseFloat(tokens[i], 64)
			if err != nil {
				t.Fatalf("%s: %v in %s", name, err, d)
			}
			i++
			return v
		}
		switch command {
		case "M", "L":
			x, y = number(), number()
		case "m", "l":
			x, y = x+number(), y+number()
		case "H":
			x = number()
		case "V":
			y = number()
		case "h":
			x += number()
		case "v":
			y += number()
		default:
			t.Fatalf("%s: a command %s in %s", name, command, d)
		}
		if x < 0 || y < 0 || x > Width || y > height {
			t.Errorf("%s: a path at %g, %g is outside of the picture: %.200s", name, x, y, d)
			return
		}
	}
}

// monotone: the numbers of an axis grow, each at its place, and are round.
func monotone(t *testing.T, name string, a *Axis) {
	t.Helper()
	if !(a.low < a.high) || a.Log && !(a.low > 0) {
		t.Errorf("%s: an axis from %g to %g", name, a.low, a.high)
	}
	for i := range a.ticks {
		at := a.ticks[i].at
		if i > 0 && at <= a.ticks[i-1].at {
			t.Errorf("%s: %g comes after %g", name, at, a.ticks[i-1].at)
		}
		if (a.place(at)-a.from)/(a.to-a.from) < -1e-6 || (a.place(at)-a.from)/(a.to-a.from) > 1+1e-6 {
			t.Errorf("%s: the line at %g stands at %g, outside of %g to %g", name, at, a.place(at), a.from, a.to)
		}
		digits := strings.TrimRight(strings.Replace(strconv.FormatFloat(math.Abs(at), 'e', 9, 64)[:11], ".", "", 1), "0")
		if len(digits) > 7 {
			t.Errorf("%s: %g is not round", name, at)
		}
	}
	if n := len(labels(a)); n < 2 && !a.Log {
		t.Errorf("%s: %d numbers", name, n)
	}
}

// TestThinningKeepsPeaks: of 20,000 readings few are drawn, but the lowest and the highest are, and the words count all.
func TestThinningKeepsPeaks(t *testing.T) {
	for _, n := range []int{1, 2, 3, 100, 240, 241, 5000, 20000} {
		p := axes(&Plot{Title: "many"})
		part := p.Part(Readings, "readings")
		for i := range n {
			y := 20 + math.Sin(float64(i))
			if i == n/3 {
				y = 500
			}
			if i == n/2 && n > 3 {
				y = 1
			}
			part.Add(float64(i), y)
		}
		p.Y.from, p.Y.to = bottom, top
		f := field{Plot: p}
		f.measure()
		high, low := math.Inf(1), math.Inf(-1)
		points := f.placed(part)
		for _, at := range points {
			high, low = min(high, at.Y), max(low, at.Y)
		}
		if want := p.Y.of(500); math.Abs(high-want) > 1e-9 {
			t.Errorf("%d readings: the highest is drawn at %g, want %g", n, high, want)
		}
		if want := p.Y.of(1); n > 3 && math.Abs(low-want) > 1e-9 {
			t.Errorf("%d readings: the lowest is drawn at %g, want %g", n, low, want)
		}
		if n <= most && len(points) != n || len(points) > 2*int(Width/step)+2 {
			t.Errorf("%d readings: %d are drawn", n, len(points))
		}
		d := p.Draw()
		if words := number(float64(n)) + ", "; !strings.Contains(d.Words, words) {
			t.Errorf("%q does not say %q", d.Words, words)
		}
		if n > most && !strings.Contains(d.Body, "highs and lows") {
			t.Errorf("%d readings: nothing says that not all are drawn", n)
		}
		check(t, strconv.Itoa(n), p)
	}
}

// TestHalvesOfATenth: a coordinate in the middle between two tenths, as a native build and WebAssembly may see it.
func TestHalvesOfATenth(t *testing.T) {
	for _, x := range []float64{0, 16.75, 100.05, 318, 0.35, 199.95} {
		var want string
		for i, off := range []float64{-1e-12, 0, 1e-12} {
			c := canvas{}
			c.px(x + off)
			if i > 0 && string(c.out) != want {
				t.Errorf("%g: %s and %s", x, want, c.out)
			}
			want = string(c.out)
		}
	}
	c := canvas{}
	c.px(-3.25)
	if string(c.out) != "-3.2" {
		t.Errorf("-3.25 is %s", c.out)
	}
}

// BenchmarkRedraw is a log that grows: `go test -bench Redraw ./calc/plot`.
func BenchmarkRedraw(b *testing.B) {
	for _, n := range []int{10, 600, 20000} {
		b.Run(strconv.Itoa(n), func(b *testing.B) {
			for b.Loop() {
				p := axes(&Plot{Title: "growing"})
				part := p.Part(Readings, "readings")
				for i := range n {
					part.Add(float64(i), 20+float64(i%7))
				}
				p.Draw().SVG()
			}
		})
	}
}

// TestABandIsCutWhereItLeaves: one that leaves the field half-way goes straight to that place and along the wall from there. By hand: its
// upper end rises from 0 to 20 in a field that ends at 10.
func TestABandIsCutWhereItLeaves(t *testing.T) {
	p := Plot{X: Axis{Unit: quantity.One}, Y: Axis{Unit: quantity.One}}
	p.Line(Curve, "", 0, 0, 10, 10)
	band := p.Line(Band, "", 0, 0, 10, 10)
	band.Free = true
	band.Points[1].Bar(10)
	body := p.Draw().Body
	left, right := p.X.place(0), p.X.place(10)
	c := canvas{}
	c.path("band")
	c.to("M", left, bottom)
	for _, at := range [][2]float64{{(left + right) / 2, top}, {right, top}, {right, bottom}, {left, bottom}} {
		c.to("L", at[0], at[1])
	}
	c.end()
	if want := string(c.out); !strings.Contains(body, want) {
		t.Errorf("want %s in\n%s", want, body)
	}
}
