package quantity

import "blankoff/calc/letters"

// exact and folded are every spelling of every named unit, as it is and forgivingly. written holds the compound units that every other answer
// shows, and all named ones, by the symbol that we print, so that they need not be taken apart each time.
var exact, folded, written spellings

func init() {
	for i := range table {
		e := &table[i]
		u := Unit{&measure{Symbol: e.symbol, Kind: e.kind, Dim: e.kind.Dim(), factor: e.factor, zero: e.zero}}
		for _, spelling := range append([]string{e.symbol}, e.also...) {
			addUnit(spelling, u)
			for _, p := range e.prefixes {
				m := *u.measure
				m.Symbol = string(p) + e.symbol
				m.factor = e.factor * prefixFactor(p)
				addUnit(string(p)+spelling, Unit{&m})
			}
		}
	}
	for i := range compounds {
		if u, at := exact.find(compounds[i].symbol, 0); at > 0 {
			exact.set(compounds[i].spelling, u)
		}
	}
	for _, symbol := range common {
		u, _ := parseExpression(symbol)
		written.set(symbol, u)
	}
}

func addUnit(spelling string, u Unit) {
	exact.set(spelling, u)
	folded.add(fold(spelling), u)
	if spelling == u.Symbol {
		written.set(spelling, u)
	}
}

var common = [...]string{"mbar·L/s", "Torr·L/s", "Pa·m³/s", "mTorr/min", "mTorr/s", "Pa/min", "Pa/s", "m³", "ft³", "m³/h", "m³/s", "L/s", "L/min", "g/h", "mm²", "mol/s", "µV/mTorr"}

// fold makes spellings comparable: lower case, u for µ.
func fold(s string) string {
	return letters.Replace(lower(s), "µ", "u")
}

// named finds one unit by its symbol, exactly or by a forgiving spelling.
func named(symbol string) (Unit, string) {
	symbol = letters.Map(plainSign, symbol)
	if u, at := exact.find(symbol, 0); at > 0 {
		return u, ""
	}
	low := fold(symbol)
	found, at := folded.find(low, 0)
	if at == 0 {
		return One, "unknown"
	}
	for {
		u, next := folded.find(low, at)
		if next == 0 {
			return found, ""
		}
		if u.factor != found.factor || u.Kind != found.Kind || u.zero != found.zero {
			return One, `"` + symbol + `" can mean ` + found.Symbol + " or " + u.Symbol + "; write the one you mean"
		}
		at = next
	}
}
