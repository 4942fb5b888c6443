package quantity

import (
	"math"
	"testing"
)

// TestNoSpellingMeansTwoUnits: a later row of the table must not take a spelling away
// from an earlier one.
func TestNoSpellingMeansTwoUnits(t *testing.T) {
	taken := map[string]string{}
	claim := func(spelling, symbol string) {
		if other, ok := taken[spelling]; ok && other != symbol {
			t.Errorf("%q means %s and %s", spelling, other, symbol)
		}
		taken[spelling] = symbol
	}
	for _, e := range table {
		for _, spelling := range append([]string{e.symbol}, e.also...) {
			claim(spelling, e.symbol)
			for _, p := range e.prefixes {
				claim(string(p)+spelling, string(p)+e.symbol)
			}
		}
	}
	for _, compound := range compounds {
		spelling, symbol := compound.spelling, compound.symbol
		if _, known := FindUnit(symbol); !known {
			t.Errorf("compound %q stands for %q, which is not known", spelling, symbol)
		}
		claim(spelling, MustUnit(symbol).Symbol)
	}
}

func TestEverySpellingIsFound(t *testing.T) {
	for _, e := range table {
		for _, spelling := range append([]string{e.symbol}, e.also...) {
			if u, ok := FindUnit(spelling); !ok || u.Symbol != e.symbol || u.Kind != e.kind {
				t.Errorf("%q: got %q, %v, want %q", spelling, u.Symbol, ok, e.symbol)
			}
			if q, problem := Parse("5 "+spelling, e.kind); problem != nil || q.Unit.Symbol != e.symbol {
				t.Errorf("5 %s: got %+v, %v", spelling, q.Unit, problem)
			}
		}
	}
}

func TestKindsAreComplete(t *testing.T) {
	listed := map[Kind]bool{}
	for _, k := range Kinds() {
		listed[k] = true
	}
	for _, e := range table {
		if !listed[e.kind] {
			t.Errorf("%s is of kind %s, which Kinds() leaves out", e.symbol, e.kind.Name())
		}
	}
}

// A symbol that we print must be one that we read.
func TestPrintedSymbolsAreRead(t *testing.T) {
	for _, text := range append(Symbols(), "mbar L/s", "Pa.m3.s-1", "g/h", "1/s", "/s", "m3/hr", "J/kg", "m2", "mTorr/min", "V/m", "atm cc/s", "Ω·m", "W/m²") {
		u, ok := FindUnit(text)
		if !ok {
			t.Errorf("%q is not known", text)
			continue
		}
		again, ok := FindUnit(u.Symbol)
		if !ok || again.factor != u.factor || again.Dim != u.Dim || again.Symbol != u.Symbol {
			t.Errorf("%q is printed as %q and read as %+v", text, u.Symbol, again)
		}
	}
}

func TestConversionGoesThereAndBack(t *testing.T) {
	for _, symbol := range Symbols() {
		u := MustUnit(symbol)
		for _, x := range []float64{-1e6, -1, 0, 1e-9, 1, 3.14, 1e12} {
			if back := u.From(u.To(x)); math.Abs(back-x) > 1e-15*(math.Abs(x)+4*math.Abs(u.zero/u.factor)) {
				t.Errorf("%v %s comes back as %v", x, symbol, back)
			}
		}
	}
}

func TestMustUnitNamesTheUnit(t *testing.T) {
	defer func() {
		if got, want := recover(), "quantity: unit parsec: unknown"; got != want {
			t.Errorf("got %v, want %s", got, want)
		}
	}()
	MustUnit("parsec")
}

func TestUnitsRefused(t *testing.T) {
	for _, text := range []string{"foo", "mbar/foo", "m^9", "m0", "m^", "m^-", "°C²", "//", "/", "mbar/", "m·m·m·m·m·m·m", "5", "m5m", "½", "±", "(", "mbar)", "\x00", "\xff", "mbar\xff"} {
		if u, ok := FindUnit(text); ok {
			t.Errorf("%q is taken for %q", text, u.Symbol)
		}
	}
}
