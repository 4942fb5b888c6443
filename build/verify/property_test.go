package verify

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"blankoff/calc/quantity"
)

// style is a way of writing a number, made up by chance.
type style struct {
	digits                int
	decimal, group, minus string
	power                 string // %d where the exponent goes; "" for none
	raised                bool
	space, sign           string // before the unit; for ±
	joint                 string // of a range
}

func pick1[T any](r *rand.Rand, of ...T) T { return of[r.IntN(len(of))] }

func randomStyle(r *rand.Rand) style {
	s := style{
		digits: 1 + r.IntN(6), decimal: pick1(r, ".", ".", ","), minus: pick1(r, "-", "−", "–"),
		space: pick1(r, " ", "\u00a0", "\u202f", ""), sign: pick1(r, " ± ", "±", "\u00a0±\u00a0", " +/- "), joint: pick1(r, " to ", "…", "–", " – ", "-"),
	}
	s.group = pick1(r, "", "", ",", "'", "’", " ", "\u00a0", "\u202f", "\u2009")
	if s.decimal == "," && s.group == "," {
		s.group = ""
	}
	if r.IntN(4) == 0 {
		s.power, s.group = pick1(r, "e%d", "E%d", "×10^%d", "x10^%d", " × 10%s", "×10%s", "·10%s"), ""
		s.raised = strings.Contains(s.power, "%s")
	}
	return s
}

// write writes a number, rounded to the style's digits; step is what one of the last is worth. It shares nothing with
// what it tests.
func (s style) write(x float64) (text string, step float64) {
	if s.power == "" { // noughts up to the mark are written, and count
		s.digits = max(s.digits, int(math.Log10(math.Abs(x)))+1)
	}
	mantissa, exponent, _ := strings.Cut(strconv.FormatFloat(math.Abs(x), 'e', s.digits-1, 64), "e")
	n, _ := strconv.Atoi(exponent)
	step = math.Pow(10, float64(n-s.digits+1))
	body := mantissa
	if s.power == "" {
		rounded, _ := strconv.ParseFloat(mantissa+"e"+exponent, 64)
		body = strconv.FormatFloat(rounded, 'f', max(s.digits-1-n, 0), 64)
	}
	whole, fraction, _ := strings.Cut(body, ".")
	decimal := s.decimal
	if len(fraction) == 3 && decimal == "," && whole != "0" { // would read as thousands
		decimal = "."
	}
	for i := len(whole) - 3; i > 0; i -= 3 {
		whole = whole[:i] + s.group + whole[i:]
	}
	if fraction != "" {
		whole += decimal + fraction
	}
	switch {
	case s.raised:
		whole += fmt.Sprintf(s.power, raise(n))
	case s.power != "":
		whole += fmt.Sprintf(s.power, n)
	}
	if x < 0 {
		whole = s.minus + whole
	}
	return whole, step
}

func raise(n int) string {
	return strings.NewReplacer("-", "⁻", "0", "⁰", "1", "¹", "2", "²", "3", "³", "4", "⁴", "5", "⁵", "6", "⁶", "7", "⁷", "8", "⁸", "9", "⁹").Replace(strconv.Itoa(n))
}

// families are units that stand for one another.
var families = [][]string{
	{"mTorr", "micron", "Pa", "mbar", "Torr", "kPa", "inHg", "psi"}, {"mbar·L/s", "Pa·m³/s", "Torr·L/s", "lusec"}, {"L", "mL", "cm³", "gal"},
	{"min", "s", "h"}, {"mm", "in", "cm", "ft"}, {"Ω", "kΩ", "MΩ"}, {"mTorr/min", "Pa/s"}, {"L/s", "m³/h", "cfm"}, {"W", "kW"}, {"%", "ppm"}, {"kg", "g", "lb"},
}

var scales = []string{"°C", "°F", "K"}

func mustUnit(t *testing.T, symbol string) quantity.Unit {
	unit, known := quantity.FindUnit(symbol)
	if !known {
		t.Fatal(symbol)
	}
	return unit
}

// sample is a text with the value that it was written from, and how far that may move before the text is false.
type sample struct {
	text  string
	right measure
	moved func(times float64) measure // the value moved by so many steps of the text's last digit
}

// data is a value as it is kept: with twelve figures, in the unit given.
func data(si float64, unit quantity.Unit) measure {
	return read(strconv.FormatFloat(unit.From(si), 'e', 14, 64) + " " + unit.Symbol)
}

func randomValue(t *testing.T, r *rand.Rand) sample {
	s := randomStyle(r)
	family := pick1(r, families...)
	x := math.Exp(math.Log(1e-6) + r.Float64()*math.Log(1e12))
	if r.IntN(4) == 0 {
		family, x = scales, 20+r.Float64()*1000
		s.power, s.raised = "", false
	}
	shown, kept := mustUnit(t, pick1(r, family...)), mustUnit(t, pick1(r, family...))
	text, step := s.write(x)
	moved := func(times float64) measure { return data(shown.To(x+times*step), kept) }
	return sample{text + s.space + shown.Symbol, moved(0), moved}
}

// TestWrittenFromItsValue: a text written from a value, in any unit and style, is true; when the value leaves what rounds
// to the text it is false, what is written anew is true, only figures differ, and a second time changes nothing.
func TestWrittenFromItsValue(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	mended := 0
	const all = 6000
	for range all {
		s := randomValue(t, r)
		if why := disagreement(read(s.text), s.right); why != agrees {
			t.Fatalf("%q is written from %s, and %s", s.text, s.right.Text, why)
		}
		times := 1.01 + r.ExpFloat64()*pick1(r, 1.0, 10, 1000)
		right := s.moved(times)
		if why := disagreement(read(s.text), right); why != otherFigure {
			t.Fatalf("%q is told to agree with %s, %v steps off: %q", s.text, right.Text, times, why)
		}
		fresh, ok := restate(s.text, right)
		if !ok {
			t.Fatalf("%q is not written anew for %s", s.text, right.Text)
		}
		mended++
		settled(t, s.text, fresh, right)
	}
	if mended != all {
		t.Errorf("%d of %d were written anew", mended, all)
	}
}

// settled holds what a text that was written anew must keep.
func settled(t *testing.T, old, fresh string, right measure) {
	t.Helper()
	if why := disagreement(read(fresh), right); why != agrees {
		t.Fatalf("%q becomes %q for %s, which %s", old, fresh, right.Text, why)
	}
	if again, ok := restate(fresh, right); !ok || again != fresh {
		t.Fatalf("%q becomes %q, then %q (%v)", old, fresh, again, ok)
	}
	if a, b := withoutFigures(old), withoutFigures(fresh); a != b {
		t.Fatalf("%q becomes %q for %s: more than figures changed", old, fresh, right.Text)
	}
}

// withoutFigures leaves out what figures consist of, signs excepted.
func withoutFigures(text string) string {
	return strings.Map(func(r rune) rune {
		if strings.ContainsRune("0123456789⁰¹²³⁴⁵⁶⁷⁸⁹.,'’ \u00a0\u202f\u2009", r) {
			return -1
		}
		if r == '⁻' { // of a power of ten
			return -1
		}
		return r
	}, strings.NewReplacer("e-", "e", "E-", "E", "^-", "^").Replace(text))
}

// TestWrittenWithOthers does the same with accuracies, ranges, lists and limits.
func TestWrittenWithOthers(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for range 4000 {
		s := randomStyle(r)
		s.power, s.raised = "", false
		family := pick1(r, families...)
		shown, kept := mustUnit(t, pick1(r, family...)), mustUnit(t, pick1(r, family...))
		low := math.Exp(math.Log(1e-3) + r.Float64()*math.Log(1e6))
		high := low * (1.5 + r.Float64()*10)
		lowText, lowStep := s.write(low)
		highText, highStep := s.write(high)
		from := func(f string, a, b float64) measure {
			plain := func(x float64) string { return strconv.FormatFloat(kept.From(shown.To(x)), 'e', 14, 64) }
			return read(fmt.Sprintf(f, plain(a), plain(b)) + " " + kept.Symbol)
		}
		var text, form string
		switch r.IntN(4) {
		case 0:
			text, form = highText+s.space+shown.Symbol+s.sign+lowText+s.space+shown.Symbol, "%[2]s ± %[1]s"
		case 1:
			text, form = lowText+s.joint+highText+s.space+shown.Symbol, "%s to %s"
		case 2:
			text, form = lowText+pick1(r, " and ", ", ")+highText+s.space+shown.Symbol, "%s and %s"
		default:
			text, form = pick1(r, "at least ", "≥ ", "no less than ")+lowText+s.space+shown.Symbol, "%.0[2]s%[1]s or more"
			right := read("≥ " + strconv.FormatFloat(kept.From(shown.To(low)), 'e', 14, 64) + " " + kept.Symbol)
			if why := disagreement(read(text), right); why != agrees {
				t.Fatalf("%q is written from %s, and %s", text, right.Text, why)
			}
			continue
		}
		right := from(form, low, high)
		if why := disagreement(read(text), right); why != agrees {
			t.Fatalf("%q is written from %s, and %s", text, right.Text, why)
		}
		right = from(form, low+1.01*lowStep*float64(r.IntN(2)), high+(1.01+r.ExpFloat64())*highStep)
		if why := disagreement(read(text), right); why != otherFigure {
			t.Fatalf("%q is told to agree with %s: %q", text, right.Text, why)
		}
		fresh, ok := restate(text, right)
		if !ok {
			t.Fatalf("%q is not written anew for %s", text, right.Text)
		}
		settled(t, text, fresh, right)
	}
}

// FuzzFact: whatever a fact and its value are, nothing panics; a text agrees with itself; two that cannot be compared
// cannot be compared the other way round; what is written anew is true and stays.
func FuzzFact(f *testing.F) {
	for _, c := range attacks {
		f.Add(c.said, c.right)
	}
	for _, c := range restatements {
		f.Add(c.said, c.right)
	}
	f.Fuzz(func(t *testing.T, said, right string) {
		if len(said) > 400 || len(right) > 400 {
			return
		}
		a, b := read(said), read(right)
		if why := disagreement(a, a); why != agrees {
			t.Fatalf("%q disagrees with itself: %s", said, why)
		}
		there, back := disagreement(a, b), disagreement(b, a)
		for _, why := range []string{otherKind, otherCounted} {
			if (there == why) != (back == why) {
				t.Fatalf("%q and %q: %q there, %q back", said, right, there, back)
			}
		}
		if fresh, ok := restate(said, b); ok {
			if there != agrees && there != otherFigure {
				t.Fatalf("%q is written anew for %q though it %s", said, right, there)
			}
			settled(t, said, fresh, b)
		}
	})
}
