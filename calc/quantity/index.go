package quantity

import "blankoff/calc/letters"

type index struct {
	exact  map[string]Unit
	folded map[string][]Unit
}

// units is every spelling of every named unit.
var units = newIndex()

func newIndex() index {
	x := index{make(map[string]Unit, 256), make(map[string][]Unit, 256)}
	add := func(spelling string, u Unit) {
		x.exact[spelling] = u
		low := fold(spelling)
		x.folded[low] = append(x.folded[low], u)
	}
	for _, e := range table {
		u := Unit{&measure{e.symbol, e.kind, e.kind.Dim(), e.factor, e.zero}}
		for _, spelling := range append([]string{e.symbol}, e.also...) {
			add(spelling, u)
			for _, p := range e.prefixes {
				m := *u.measure
				m.Symbol = string(p) + e.symbol
				m.factor = e.factor * prefixFactor(p)
				add(string(p)+spelling, Unit{&m})
			}
		}
	}
	for i := range compounds {
		if u, ok := x.exact[compounds[i].symbol]; ok {
			x.exact[compounds[i].spelling] = u
		}
	}
	return x
}

// written holds the compound units that every other answer shows, and all named ones, by
// the symbol that we print, so that they need not be taken apart each time.
var written = newWritten()

func newWritten() map[string]Unit {
	known := make(map[string]Unit, 256)
	for spelling, u := range units.exact {
		if spelling == u.Symbol {
			known[spelling] = u
		}
	}
	for _, symbol := range common {
		known[symbol], _ = parseExpression(symbol)
	}
	return known
}

var common = [...]string{"mbar·L/s", "Torr·L/s", "Pa·m³/s", "mTorr/min", "mTorr/s", "Pa/min", "Pa/s", "m³", "ft³", "m³/h", "m³/s", "L/s", "L/min", "g/h", "mm²", "mol/s", "µV/mTorr"}

// fold makes spellings comparable: lower case, u for µ.
func fold(s string) string {
	return letters.Replace(lower(s), "µ", "u")
}

// named finds one unit by its symbol, exactly or by a forgiving spelling.
func named(symbol string) (Unit, string) {
	symbol = letters.Map(plainSign, symbol)
	if u, ok := units.exact[symbol]; ok {
		return u, ""
	}
	found := units.folded[fold(symbol)]
	if len(found) == 0 {
		return One, "unknown"
	}
	for _, u := range found[1:] {
		if u.factor != found[0].factor || u.Kind != found[0].Kind || u.zero != found[0].zero {
			return One, `"` + symbol + `" can mean ` + found[0].Symbol + " or " + u.Symbol + "; write the one you mean"
		}
	}
	return found[0], ""
}
