package temperature

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// lines reads a table of testdata/reference without its first line.
func lines(t *testing.T, name string) [][]string {
	t.Helper()
	file, err := os.Open(filepath.Join("..", "..", "testdata", "reference", name))
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	all, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	return all[1:]
}

func parsed(t *testing.T, text string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	return x
}

// TestCoefficientsAreThoseOfTheSource, every bit of every one.
func TestCoefficientsAreThoseOfTheSource(t *testing.T) {
	met := 0
	for _, f := range lines(t, "09_thermocouple_coefficients.csv") {
		kind, index, name, value := f[0], int(parsed(t, f[2]))-1, f[7], parsed(t, f[9])
		if f[1] != "forward" {
			continue // the inverse is taken of the forward function itself
		}
		c := findCouple(kind)
		s := c.spans[index]
		if s.low != parsed(t, f[3]) || s.high != parsed(t, f[4]) {
			t.Errorf("type %s, span %d is from %v to %v", kind, index, s.low, s.high)
		}
		got := math.NaN()
		switch name {
		case "a0":
			got = bumpSize
		case "a1":
			got = bumpWidth
		case "a2":
			got = bumpPlace
		default:
			got = s.coefficients[int(parsed(t, f[8]))]
			met++
		}
		if got != value {
			t.Errorf("type %s, span %d, %s is %v, the source has %v", kind, index, name, got, value)
		}
	}
	have := 0
	for _, c := range couples {
		have += len(c.spans[0].coefficients) + len(c.spans[1].coefficients)
	}
	if met != have || met != 105 {
		t.Errorf("%d coefficients compared, %d are here, 105 are in the source", met, have)
	}
}

// TestTableEntries: forward to the last digit of the printed table, backward within the
// 0.05 °C that was promised beside what that last digit leaves open.
func TestTableEntries(t *testing.T) {
	entries := 0
	for _, f := range lines(t, "09_thermocouples.csv") {
		if f[1] != "thermocouple_emf" {
			continue
		}
		in := map[string]string{}
		for _, part := range strings.Split(f[2], ";") {
			name, value, _ := strings.Cut(part, "=")
			in[name], _, _ = strings.Cut(value, " ")
		}
		c, at, mV := findCouple(in["type"]), parsed(t, in["t"]), parsed(t, f[3])
		got, slope := c.emf(at)
		if math.Abs(got-mV) > rounding {
			t.Errorf("%s: type %s at %v °C gives %.6f mV, the table %v", f[0], c.name, at, got, mV)
		}
		if back := c.celsius(mV); !(math.Abs(back-at) <= 0.05+rounding/slope) {
			t.Errorf("%s: type %s at %v mV gives %.4f °C, the table %v", f[0], c.name, mV, back, at)
		}
		entries++
	}
	if entries != 80 {
		t.Errorf("%d entries compared, want 80", entries)
	}
}

// TestThereAndBack in steps of 0.1 °C over the whole range: monotone, the slope that of
// the curve, and the inverse good to a millionth of a degree.
func TestThereAndBack(t *testing.T) {
	for i := range couples {
		c := &couples[i]
		last := math.Inf(-1)
		for k := 0; ; k++ {
			at := c.lowest() + 0.1*float64(k)
			if at > c.highest() {
				break
			}
			mV, slope := c.emf(at)
			if mV <= last || slope <= 0 {
				t.Fatalf("type %s does not rise at %v °C: %v mV, slope %v", c.name, at, mV, slope)
			}
			last = mV
			if back := c.celsius(mV); !(math.Abs(back-at) < 1e-6) {
				t.Errorf("type %s: %v °C gives %v mV, and back %v °C", c.name, at, mV, back)
			}
			const d = 1e-3
			up, _ := c.emf(at + d)
			down, _ := c.emf(at - d)
			join := math.Abs(at-c.spans[0].high) < 0.01
			if !join && math.Abs((up-down)/(2*d)-slope) > 1e-6 {
				t.Errorf("type %s at %v °C: slope %v, by differences %v", c.name, at, slope, (up-down)/(2*d))
			}
		}
	}
}

// TestSpansJoin: NIST's two polynomials meet to much less than the last printed digit.
func TestSpansJoin(t *testing.T) {
	for i := range couples {
		c := &couples[i]
		join := c.spans[0].high
		if c.spans[1].low != join {
			t.Errorf("type %s has a gap at %v °C", c.name, join)
		}
		below, _ := c.emf(join)
		above, _ := c.emf(join + 1e-9)
		if math.Abs(above-below) > 1e-5 {
			t.Errorf("type %s jumps from %v to %v mV at %v °C", c.name, below, above, join)
		}
	}
}

func TestInverseEndsWithTheRange(t *testing.T) {
	for i := range couples {
		c := &couples[i]
		least, _ := c.emf(c.lowest())
		most, _ := c.emf(c.highest())
		for _, mV := range []float64{least - 0.001, most + 0.001, math.NaN(), math.Inf(1), math.Inf(-1)} {
			if got := c.celsius(mV); !math.IsNaN(got) {
				t.Errorf("type %s: %v mV gives %v °C, outside its range", c.name, mV, got)
			}
		}
		if low, high := c.celsius(least), c.celsius(most); math.Abs(low-c.lowest()) > 1e-6 || math.Abs(high-c.highest()) > 1e-6 {
			t.Errorf("type %s: its ends come back as %v and %v °C", c.name, low, high)
		}
	}
}

// TestClassLimits: the rules of the classes as recalled, at a fixed and a proportional
// temperature, and silent outside.
func TestClassLimits(t *testing.T) {
	for _, c := range []struct {
		kind   string
		class  int
		t      float64
		kelvin float64
		ok     bool
	}{
		{"K", 1, 20, 1.5, true}, {"K", 2, 20, 2.5, true}, {"K", 2, 1000, 7.5, true}, {"K", 3, -100, 2.5, true}, {"K", 3, -200, 3, true},
		{"T", 1, -40, 0.5, true}, {"T", 2, 300, 2.25, true}, {"T", 3, -52, 1, true}, {"T", 2, -52, 0, false}, {"T", 1, 351, 0, false},
		{"J", 2, 0, 2.5, true}, {"J", 3, 0, 0, false}, {"E", 1, 800, 3.2, true}, {"E", 3, 41, 0, false}, {"N", 3, -180, 2.7, true},
	} {
		kelvin, ok := findCouple(c.kind).allowed(c.class, c.t)
		if ok != c.ok || math.Abs(kelvin-c.kelvin) > 1e-12 {
			t.Errorf("type %s class %d at %v °C: %v K, %v; want %v, %v", c.kind, c.class, c.t, kelvin, ok, c.kelvin, c.ok)
		}
	}
	if findCouple("S") != nil {
		t.Error("type S is found, and is not here")
	}
}

func BenchmarkCelsius(b *testing.B) {
	c := findCouple("K")
	for b.Loop() {
		c.celsius(-6.4)
	}
}
