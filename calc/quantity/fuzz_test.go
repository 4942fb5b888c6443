package quantity_test

import (
	"math"
	"strings"
	"testing"
	"unicode/utf8"

	. "blankoff/calc/quantity"
)

func seed(f *testing.F) {
	for _, c := range read {
		f.Add(c.text)
	}
	for _, text := range []string{"", "-28 inHg gauge", "OL", "0.L", "28 inHg vac", "5 psig", "6.9 to 9.3 Ω", "8–11 mV", "1:30", "NaN", "Inf Pa", "1e309 Pa", "9e299 MPa",
		"(2.24 ± 0.12)×10⁻⁵ mbar·L/s", "(", "(1", "(1)×10", "±", "5 ± ± 5", "1/0 in", "1-1/1 in", "5 m^-4/m^-4", "5 /s", "1 d 1", "½ in", "\xff", "−−5 Pa", "5 ·°C", "0*sCCm", "0-0A2", "5 A0", "5 Pa" + strings.Repeat(" ", 200), "5 °C.", "1h3", "5 µmHg", "999999999e299 MPa"} {
		f.Add(text)
	}
}

// sound holds what every reading must keep, whatever was written.
func sound(t *testing.T, text string, q Quantity, problem *Problem) {
	t.Helper()
	if problem != nil {
		if problem.Text == "" || problem.At < 0 || problem.At > len(text) {
			t.Errorf("%q: problem %+v", text, problem)
		}
		return
	}
	if q.Over {
		return
	}
	if q.Kind == None && q.Unit.Dim == (Dim{}) || math.IsNaN(q.Value) || math.IsInf(q.Value, 0) || math.IsNaN(q.U) || math.IsInf(q.U, 0) || q.U < 0 || q.Figures < 1 {
		t.Fatalf("%q is read as %+v", text, q)
	}
	for _, u := range []float64{-1, q.U} {
		if shown := Format(q.Value, u, q.Unit, q.Figures); strings.Contains(shown, "NaN") || strings.Contains(shown, "Inf") {
			t.Errorf("%q is printed as %q", text, shown)
		}
	}
}

func FuzzParse(f *testing.F) {
	seed(f)
	f.Fuzz(func(t *testing.T, text string) {
		q, problem := Parse(text)
		sound(t, text, q, problem)
		for _, k := range Kinds() {
			wanted, problem := Parse(text, k)
			sound(t, text, wanted, problem)
			if problem == nil && wanted.Kind != k {
				t.Errorf("%q: a %s was wanted, a %s was read", text, k.Name(), wanted.Kind.Name())
			}
		}
		plain, wrong := ParseNumber(text)
		sound(t, text, plain, wrong)
		if problem != nil || q.Over || q.Gauge || q.HasU || !printable(q) {
			return
		}
		shown := Format(q.Value, -1, q.Unit, 12)
		again, problem := Parse(shown, q.Kind)
		if problem != nil || math.Abs(again.Value-q.Value) > 1e-11*math.Abs(q.Value-q.Unit.To(0))+1e-11*math.Abs(q.Value) {
			t.Errorf("%q is printed as %q and read as %v (%+v), want %v", text, shown, again.Value, problem, q.Value)
		}
	})
}

// printable: units of no kind of ours, and values at the edge of what a float holds,
// are not printed by any calculator.
func printable(q Quantity) bool {
	known := false
	for _, k := range Kinds() {
		known = known || k == q.Kind
	}
	x := math.Abs(q.Unit.From(q.Value))
	return known && q.Kind != TemperatureDifference && (x == 0 || x > 1e-280 && x < 1e280)
}

func FuzzParseRange(f *testing.F) {
	seed(f)
	f.Fuzz(func(t *testing.T, text string) {
		r, problem := ParseRange(text)
		if problem != nil {
			if problem.Text == "" {
				t.Errorf("%q: refused without a sentence", text)
			}
			return
		}
		sound(t, text, r.Low, nil)
		sound(t, text, r.High, nil)
		if r.Low.Over || r.High.Over || r.Low.Kind.Name() != r.High.Kind.Name() || r.Low.Unit.Dim != r.High.Unit.Dim || r.Low.Value > r.High.Value {
			t.Errorf("%q is read as %+v", text, r)
		}
	})
}

func FuzzFindUnit(f *testing.F) {
	for _, symbol := range Symbols() {
		f.Add(symbol)
	}
	for _, text := range []string{"mbar·L/s", "Pa m3/s", "atm cc/s", "std cc/min", "m^-4", "s⁻¹", "1/s", "/", "·", "m-", "-m", "°C/min", "Ω·m", "\xff", "µ", "m\u0663"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		u, ok := FindUnit(text)
		if !ok {
			return
		}
		if one := u.Span(1); u.Kind == None && u.Dim == (Dim{}) || !(one > 0) || math.IsInf(one, 0) || !utf8.ValidString(u.Symbol) {
			t.Fatalf("%q is taken for %+v", text, u)
		}
		if again, ok := FindUnit(u.Symbol); !ok || again.Symbol != u.Symbol || again.Dim != u.Dim || math.Abs(again.Span(1)-u.Span(1)) > 1e-14*u.Span(1) {
			t.Errorf("%q is printed as %q and read as %+v", text, u.Symbol, again)
		}
	})
}

func FuzzSplitText(f *testing.F) {
	seed(f)
	f.Fuzz(func(t *testing.T, text string) {
		value, unit := SplitText(text)
		if unit == "" {
			return
		}
		// The form joins the two again; what was meant must be what is sent.
		meant, problem := Parse(text)
		joined, problemOfJoined := Parse(value + " " + unit)
		if problem != nil || problemOfJoined != nil || joined.Value != meant.Value || joined.Kind.Name() != meant.Kind.Name() || joined.Unit.Dim != meant.Unit.Dim || joined.HasU != meant.HasU || joined.U != meant.U {
			t.Errorf("%q: %q and %q join to %+v (%+v), want %+v (%+v)", text, value, unit, joined, problemOfJoined, meant, problem)
		}
	})
}

func BenchmarkParse(b *testing.B) {
	for _, text := range []string{"340 micron", "24 L ± 1 L", "0.0107 mbar·L/s", "1h30", "-28 inHg gauge", "three litres"} {
		b.Run(text, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				Parse(text)
			}
		})
	}
}

func BenchmarkFormat(b *testing.B) {
	unit := MustUnit("mbar·L/s")
	b.ReportAllocs()
	for b.Loop() {
		Format(0.00224, 0.00006, unit, 4)
	}
}
