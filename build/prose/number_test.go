package prose

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"blankoff/calc/quantity"
)

const torr = 101325.0 / 760 // in pascals; NIST SP 811, appendix B

// What one step of the last meaningful digit is worth follows from the rule beside figures.step alone; values in SI follow
// from the definitions in NIST SP 811, worked out by hand.
func TestNumbers(t *testing.T) {
	for _, c := range []struct {
		text  string
		parts string // the figures and units, as they are cut
		si    []float64
		step  []float64
	}{
		{"2,000 mTorr", "2,000|mTorr", []float64{2 * torr}, []float64{0.01 * torr}},
		{"350 Pa", "350|Pa", []float64{350}, []float64{1}},
		{"200 Pa", "200|Pa", []float64{200}, []float64{1}},
		{"30 min", "30|min", []float64{1800}, []float64{60}},
		{"12,345 Pa", "12,345|Pa", []float64{12345}, []float64{1}},
		{"10,000 Pa", "10,000|Pa", []float64{10000}, []float64{100}},
		{"1,230,000 Pa", "1,230,000|Pa", []float64{1230000}, []float64{10000}},
		{"1,234,000 Pa", "1,234,000|Pa", []float64{1234000}, []float64{1000}},
		{"12.0 L", "12.0|L", []float64{0.012}, []float64{0.0001}},
		{"0,020 mbar", "0,020|mbar", []float64{2}, []float64{0.1}},
		{"0 Pa", "0|Pa", []float64{0}, []float64{1}},
		{"4.1×10⁻⁵ mbar·L/s", "4.1×10⁻⁵|mbar·L/s", []float64{4.1e-6}, []float64{1e-7}},
		{"1e-5 mbar", "1e-5|mbar", []float64{1e-3}, []float64{1e-3}},
		{"11/16 in", "11/16|in", []float64{0.0174625}, []float64{0.0254 / 64}},
		{"1-1/8 in", "1-1/8|in", []float64{0.028575}, []float64{0.0254 / 64}},
		{"1h30", "1h30", []float64{5400}, []float64{60}},
		{"1 min 30 s", "1 min 30 s", []float64{90}, []float64{1}},
		{"5 ft 3 in", "5 ft 3 in", []float64{63 * 0.0254}, []float64{0.0254}},
		{"-35 °C", "-35|°C", []float64{238.15}, []float64{1}},
		{"50 °F", "50|°F", []float64{283.15}, []float64{5.0 / 9}},
		{"minus 18 °C", "minus 18|°C", []float64{255.15}, []float64{1}},
		{"24.0 L ± 1.0 L", "24.0|L|1.0|L", []float64{0.024, 0.001}, []float64{1e-4, 1e-4}},
		{"24 ± 1 L", "24|1|L", []float64{0.024, 0.001}, []float64{1e-3, 1e-3}},
		{"28 L ± 2 %", "28|L|2|%", []float64{0.028, 0.02}, []float64{1e-3, 0.01}},
		{"20 °C ± 1.5 K", "20|°C|1.5|K", []float64{293.15, 1.5}, []float64{1, 0.1}},
		{"± 9 °F", "9|°F", []float64{5}, []float64{5.0 / 9}},
		{"(2.24 ± 0.12)×10⁻⁵ mbar·L/s", "(2.24|0.12)×10⁻⁵|mbar·L/s", []float64{2.24e-6, 0.12e-6}, []float64{1e-8, 1e-8}},
		{"3 to 9 ohm", "3|9|ohm", []float64{3, 9}, []float64{1, 1}},
		{"500 mΩ to 2 Ω", "500|mΩ|2|Ω", []float64{0.5, 2}, []float64{0.001, 1}},
		{"-28 inHg gauge", "-28|inHg gauge", []float64{-28 * 3386.388640341}, []float64{3386.388640341}}, // inHg: conventional mercury
		{"5 psig", "5|psig", []float64{5 * 6894.757293168}, []float64{6894.757293168}},
		{"100, 200 and 300 Pa", "100|200|300|Pa", []float64{100, 200, 300}, []float64{1, 1, 1}},
		{"12-mm bore", "12|mm", []float64{0.012}, []float64{0.001}},
		{"1 to 1½ turns", "1|1½|turns", []float64{1, 1.5}, []float64{1, 1.0 / 64}},
	} {
		marks, _ := Find(c.text)
		if len(marks) != 1 || len(marks[0].Numbers) != len(c.si) {
			t.Errorf("%q: %+v", c.text, marks)
			continue
		}
		var parts []string
		for i, n := range marks[0].Numbers {
			parts = append(parts, c.text[n.From:n.To])
			if n.UnitTo > 0 {
				parts = append(parts, c.text[n.UnitFrom:n.UnitTo])
			}
			if !near(n.SI, c.si[i]) || !near(n.Step, c.step[i]) {
				t.Errorf("%q: number %d is %v to %v, want %v to %v", c.text, i, n.SI, n.Step, c.si[i], c.step[i])
			}
		}
		if got := strings.Join(parts, "|"); got != c.parts {
			t.Errorf("%q is cut into %q, want %q", c.text, got, c.parts)
		}
	}
}

func near(got, want float64) bool { return math.Abs(got-want) <= 1e-12*math.Abs(want)+1e-18 }

// TestFlags holds what a number says of itself besides its value.
func TestFlags(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"24 L ± 1 L", "L, L difference"},
		{"24 L ± 2 %", "L, % difference percent"},
		{"± 10 %", "% difference percent"},
		{"80 % ± 5 %", "%, % difference"}, // points of a percentage, not a share of it
		{"20 °C ± 1 K", "°C, K difference"},
		{"± 2 °C", "°C difference"},
		{"by 5 °C", "°C"},
		{"-28 to -26 inHg gauge", "inHg gauge, inHg gauge"},
		{"-28 inHg gauge ± 1 inHg", "inHg gauge, inHg difference"},
		{"5 wraps", ""},
	} {
		marks, _ := Find(c.text)
		var said []string
		for _, m := range marks {
			for _, n := range m.Numbers {
				word := n.Unit.Symbol
				for flag, name := range map[*bool]string{&n.Gauge: " gauge", &n.Difference: " difference"} {
					if *flag {
						word += name
					}
				}
				if n.Percent {
					word += " percent"
				}
				if n.Difference && n.Unit.Affine() {
					t.Errorf("%q: a difference in a unit with a zero of its own", c.text)
				}
				said = append(said, word)
			}
		}
		if got := strings.Join(said, ", "); got != c.want {
			t.Errorf("%q: %q, want %q", c.text, got, c.want)
		}
	}
	if marks, _ := Find("it rose by 5 °C"); len(marks) != 1 || marks[0].Kind != quantity.TemperatureDifference || marks[0].Numbers[0].SI != 5 {
		t.Errorf("a change of temperature is %+v", marks)
	}
}

// TestGuidesAreClear: the shop's own pages hold no doubt, and many quantities. Figures that are checked against a card or a
// calculator, and code, are left out, as they are when pages are searched.
func TestGuidesAreClear(t *testing.T) {
	files, err := filepath.Glob("../../content/*/*.md")
	if err != nil {
		t.Fatal(err)
	}
	yaml, err := filepath.Glob("../../content/*.yaml")
	if err != nil {
		t.Fatal(err)
	}
	found := 0
	for _, path := range append(files, yaml...) {
		text, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		for n, line := range strings.Split(withoutCode(withoutFacts(string(text))), "\n") {
			marks, doubts := Find(line)
			found += len(marks)
			for _, d := range doubts {
				t.Errorf("%s: %q: %s, in %q", fmt.Sprint(path, ":", n+1), line[d.From:d.To], d.Message, line)
			}
		}
	}
	if found < 100 {
		t.Errorf("%d quantities in the guides; there are more", found)
	}
}

// withoutFacts takes the texts and targets of links to spec: and calc: out.
func withoutFacts(text string) string {
	for _, scheme := range []string{"](spec:", "](calc:", "](<calc:"} {
		for {
			at := strings.Index(text, scheme)
			if at < 0 {
				break
			}
			open := strings.LastIndexByte(text[:at], '[')
			end := at + 2 + strings.IndexByte(text[at+2:], ')')
			text = text[:open] + text[end+1:]
		}
	}
	return text
}

// withoutCode takes out what stands between backticks, listings included.
func withoutCode(text string) string {
	var plain strings.Builder
	for i, part := range strings.Split(text, "`") {
		if i%2 == 0 {
			plain.WriteString(part)
		} else {
			plain.WriteString(strings.Repeat("\n", strings.Count(part, "\n")))
		}
	}
	return plain.String()
}

// TestLongLines: hostile lines of 128 kB. Work that grows with the square of the length would take minutes here.
func TestLongLines(t *testing.T) {
	for _, part := range []string{"1", "1 ", "1,", "1, ", "1/", "1-", "1 - ", "1.", "1 m ", "5 min, ", "1 psi vacuum ", "5\" ", "'5' ", "a1", "1a", "1 a·", "1 Pa a", "±", "± 1 ", "(1 ± 1)", "1 and ", "5 to 6 ", "10:", "R 1/", "1h", "5 inches of ", "minus ", "1 in ", "\xff1", "1×10", "1 000 ", "5 deg "} {
		text := strings.Repeat(part, 1<<17/len(part))
		marks, doubts := Find(text)
		last := 0
		for _, m := range marks {
			if m.From < last || m.To > len(text) {
				t.Fatalf("%q: %+v after %d", part, m, last)
			}
			last = m.To
		}
		_ = doubts
	}
}
