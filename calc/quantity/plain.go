package quantity

import (
	"math"

	"blankoff/calc/letters"
)

// parsePlain reads the form in which nearly every entry comes, `120 mTorr` or
// `24 L ± 1 L`, without the patience that all the others need: digits, one space, a unit
// as we print it. What it takes it reads as the long way would (a fuzz target compares
// the two); at the first doubt it leaves the text to that.
func parsePlain(text string, kinds []Kind) (Quantity, bool) {
	main, tolerance, has := letters.Cut(text, " ± ")
	x, unit, ok := plainPair(main)
	if !ok {
		return Quantity{}, false
	}
	q := Quantity{Value: unit.To(x), Kind: unit.Kind, Unit: unit, Text: text}
	if !fits(unit.Kind, kinds) || x == 0 && unit.Symbol == "L" { // 0 L is how some meters write OL
		return Quantity{}, false
	}
	q.Figures = countFigures(letters.TrimPrefix(main[:letters.IndexByte(main, ' ')], "-"))
	if has {
		t, span, ok := plainPair(tolerance)
		switch {
		case !ok || t < 0 || unit.Kind == Temperature:
			return Quantity{}, false
		case span.Kind == unit.Kind:
			q.U = span.Span(t) / CoverageFactor
		case span.Symbol == "%":
			q.U = math.Abs(q.Value) * t / 100 / CoverageFactor
		default:
			return Quantity{}, false
		}
		q.HasU = true
	}
	return q, true
}

// plainPair reads a number of digits and its unit.
func plainPair(text string) (float64, Unit, bool) {
	space := letters.IndexByte(text, ' ')
	if space < 1 || space > 15 {
		return 0, One, false
	}
	for i := 0; i < space; i++ {
		c := text[i]
		if !isDigit(c) && (c != '.' || i == 0 || i == space-1) && (c != '-' || i > 0 || space == 1) {
			return 0, One, false
		}
	}
	if text[0] == '-' && text[1] == '.' {
		return 0, One, false
	}
	x, ok := letters.Float(text[:space])
	unit, at := written.find(text[space+1:], 0)
	return x, unit, at > 0 && ok
}

func fits(kind Kind, kinds []Kind) bool {
	for _, k := range kinds {
		if k == kind {
			return true
		}
	}
	return len(kinds) == 0 && kind != None
}
