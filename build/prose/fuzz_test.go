package prose

import (
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

	"blankoff/calc/quantity"
)

// FuzzFind holds what every finding must keep, whatever the text.
func FuzzFind(f *testing.F) {
	for _, c := range marked {
		f.Add(plain(c.text))
	}
	for _, text := range alone {
		f.Add(text.text)
	}
	for _, text := range []string{"", "\xff5 Pa", "5 \xff", "±", "±\xc2", "5 ± ± 5 L", "1e999 Pa", "1e299 MPa", "1e-320 µPa", "((1 ± 2)×10⁵ L", "1/0 in", "5–", "5 - ", "−−5 Pa", "minus", "minus minus 5 °C",
		"or minus 5 °C", "1h2h3h", "5 ft 3 in 2 in", "1 h -30 min", "5' 3\"", "½ in", "1½ in ± ½ in", "5 Pa\n\n6 Pa", "0 L", "5 m\u0663", "1.2.3.4 L", "5×10 L", "5 x 10 10 L", "1,2,3,4 L", "5/6/7 L", "10- to 15-minute",
		"(1 ± 2)×10³ °C", "5 L ± 2 % ± 3 %", "M8x1.25", "M8x", "R 1/8-28", "1/8-27 NPT-2A", "5 mbar / s", "5 mbar L/s", "5 per s", "5 L per s per s", "3 in. Hg", "5 \"", "\"5\" 6\"", "28 inches\n of vacuum", "5 inHg (gauge)", "5 inHg (gauge", "0±+0°C", "0±0±0°C", "0 NPT 1/2", "0BAr L/w 0s", "0-0A+-  0A", "-0min1", "1 001/2A", "0A / A"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		marks, doubts := Find(text)
		last := 0
		for _, m := range marks {
			place(t, text, m.From, m.To, &last)
			sound(t, text, m)
			again(t, text, m)
		}
		last = 0
		for _, d := range doubts {
			place(t, text, d.From, d.To, &last)
			if d.Message == "" || d.Hint == "" || strings.Contains(d.Hint, "#") && !strings.Contains(text[d.From:d.To], "#") {
				t.Errorf("%q: %+v", text, d)
			}
		}
	})
}

// place holds that places are in order, apart, inside the text and between whole characters.
func place(t *testing.T, text string, from, to int, last *int) {
	t.Helper()
	if from < *last || to <= from || to > len(text) || !boundary(text, from) || !boundary(text, to) {
		t.Fatalf("%q: %d:%d after %d", text, from, to, *last)
	}
	*last = to
}

func boundary(text string, at int) bool {
	for i := range text {
		if i >= at {
			return i == at
		}
	}
	return at == len(text)
}

// sound holds what the numbers of a mark keep.
func sound(t *testing.T, text string, m Mark) {
	t.Helper()
	last := m.From
	for _, n := range m.Numbers {
		place(t, text, n.From, n.To, &last)
		if n.UnitTo != 0 {
			place(t, text, n.UnitFrom, n.UnitTo, &last)
		}
		if math.IsNaN(n.SI) || math.IsInf(n.SI, 0) || !(n.Step > 0) || math.IsInf(n.Step, 0) || n.Unit == (quantity.Unit{}) || n.To > m.To || n.UnitTo > m.To {
			t.Fatalf("%q: %+v of %+v", text, n, m)
		}
	}
	if (len(m.Numbers) == 0) != (m.Form == Thread) || (m.Kind == quantity.None) != (m.Form == Thread || m.Form == Count) {
		t.Fatalf("%q: %+v", text, m)
	}
}

// again holds that a mark's own text is found whole and of the same kind, and that calc/quantity reads a value as we do.
// What the words around say (a difference, a range after between, ten thousand ohms) is not in it.
func again(t *testing.T, text string, m Mark) {
	t.Helper()
	own := text[m.From:m.To]
	if m.Form == Range && strings.Contains(own, "and") {
		return
	}
	if marks, _ := Find(own); !leansOnWords(m, own) && (len(marks) != 1 || marks[0].To-marks[0].From != len(own) || marks[0].Kind != m.Kind) {
		t.Errorf("%q: %q by itself gives %+v", text, own, marks)
	}
	if m.Form != Value || wordsOfOurs(own) {
		return
	}
	q, problem := quantity.Parse(own, m.Kind)
	if n := m.Numbers[0]; problem != nil || q.Gauge != n.Gauge || math.Abs(q.Value-n.SI) > 1e-9*math.Abs(n.SI) {
		t.Errorf("%q: %q is %v, but read as %v %+v", text, own, n.SI, q.Value, problem)
	}
}

// leansOnWords tells that the words around decide what a mark is, or whether it is one.
func leansOnWords(m Mark, own string) bool {
	return m.Kind == quantity.Temperature || m.Kind == quantity.TemperatureDifference || strings.HasSuffix(own, "k") || strings.Contains(own, "digit")
}

// wordsOfOurs tells what a reader of one value does not know, but a reader of sentences must: minus 18 °C, 8 mTorr per
// minute, 1½ in, a 30-psig valve, 10⁻³ mbar.
func wordsOfOurs(text string) bool {
	low := strings.ToLower(text)
	for _, unit := range []string{"-psi", "-bar", "-kpa"} {
		if strings.HasSuffix(low, unit+"a") || strings.HasSuffix(low, unit+"g") {
			return true
		}
	}
	for _, part := range strings.Split(strings.ReplaceAll(text, "+-", "±"), "±") {
		if power, bare := strings.CutPrefix(strings.TrimLeft(part, "+-–−/ \u00a0\u202f\u2009\t\r\n"), "10"); bare {
			if r, _ := utf8.DecodeRuneInString(power); strings.ContainsRune("^⁻⁰¹²³⁴⁵⁶⁷⁸⁹", r) {
				return true
			}
		}
	}
	return strings.Contains(text, minusWord) || strings.Contains(text, "per") || strings.ContainsAny(text, "½¼¾⅛⅜⅝⅞")
}

// guides is the text of the shop's guides.
func guides(tb testing.TB) string {
	tb.Helper()
	files, err := filepath.Glob("../../content/*/*.md")
	if err != nil || len(files) == 0 {
		tb.Fatalf("no guides: %v", err)
	}
	all := ""
	for _, path := range files {
		text, err := os.ReadFile(path)
		if err != nil {
			tb.Fatal(err)
		}
		all += string(text)
	}
	return all
}

func BenchmarkFind(b *testing.B) {
	text := guides(b)
	for _, of := range []struct{ name, text string }{
		{"guides", text},
		{"no figures", strings.Repeat("Close the valve, start the clock, leave the pump running. ", 1000)},
		{"figures", strings.Repeat("1 1 1 1 ", 8000)},
	} {
		b.Run(of.name, func(b *testing.B) {
			b.SetBytes(int64(len(of.text)))
			b.ReportAllocs()
			for b.Loop() {
				Find(of.text)
			}
		})
	}
}
