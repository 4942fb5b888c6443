package quantity

import "blankoff/calc/letters"

// Range is a low and a high value of one kind: a card limit such as 6.9 to 9.3 Ω.
type Range struct{ Low, High Quantity }

// ParseRange reads "6.9 to 9.3 Ω", "8–11 mV", "-34 to -30 °C"; a single value with
// a tolerance gives its two ends. The unit may stand once, at the end.
func ParseRange(text string, kinds ...Kind) (Range, *Problem) {
	s := tidy(text)
	low, high, ok := cutRange(s)
	if q, p := Parse(s, kinds...); !ok && p == nil && q.HasU {
		return around(q), nil
	}
	if !ok {
		return Range{}, problem(0, Quote(s)+" is not a range; write two values, such as 6.9 to 9.3 Ω")
	}
	h, p := Parse(high, kinds...)
	if p != nil {
		return Range{}, p
	}
	l, p := Parse(low, kinds...)
	if p != nil || l.Unit.Symbol == "" && h.Unit.Symbol != "" {
		if n, bare := scanNumber(low); bare && n.length == len(low) {
			l, p = Parse(low+" "+unitText(high), kinds...)
		}
	}
	switch {
	case p != nil:
		return Range{}, p
	case l.Over || h.Over:
		return Range{}, problem(0, Quote(s)+": a range needs two numbers, not OL")
	case l.Gauge != h.Gauge:
		return Range{}, problem(0, Quote(s)+": one end is gauge, the other absolute")
	case l.Kind != h.Kind || l.Unit.Dim != h.Unit.Dim:
		return Range{}, problem(0, Quote(s)+": the two ends are of different kinds")
	case l.Value > h.Value:
		return Range{}, problem(0, Quote(s)+": the low end is above the high end")
	}
	return Range{l, h}, nil
}

// around gives the two ends of a value with a tolerance.
func around(q Quantity) Range {
	low, high := q, q
	low.Value, high.Value = q.Value-CoverageFactor*q.U, q.Value+CoverageFactor*q.U
	low.U, low.HasU, high.U, high.HasU = 0, false, 0, false
	return Range{low, high}
}

// cutRange splits at "to", "…" or a dash between two numbers.
func cutRange(s string) (low, high string, ok bool) {
	for _, word := range []string{" to ", " … ", "…", " .. "} {
		if low, high, ok = letters.Cut(s, word); ok {
			low, high = letters.TrimSpace(low), letters.TrimSpace(high)
			return low, high, low != "" && high != ""
		}
	}
	n, scanned := scanNumber(s)
	if !scanned {
		return "", "", false
	}
	// After the first number (and perhaps its unit) a dash ends the low value.
	if at := letters.IndexByte(s[n.length:], '-'); at >= 0 {
		at += n.length
		return letters.TrimSpace(s[:at]), letters.TrimSpace(s[at+1:]), at+1 < len(s)
	}
	return "", "", false
}

func unitText(s string) string {
	n, _ := scanNumber(s)
	return letters.TrimSpace(s[n.length:])
}

// SplitText parts a value from its unit for a form that shows them in two places:
// "24 L ± 1 L" gives "24 ± 1" and "L". Where that would lose something (a gauge
// word, a percentage, a chain of units) it gives the whole text and no unit.
func SplitText(text string) (value, unit string) {
	s := tidy(text)
	q, p := Parse(text)
	if p != nil || q.Over || q.Gauge || q.Unit.Symbol == "" {
		return s, ""
	}
	main, tolerance, hasTolerance := cutTolerance(s)
	n, _ := scanNumber(main)
	unit = letters.TrimSpace(main[n.length:])
	if u, known := FindUnit(unit); !known || u.Symbol != q.Unit.Symbol {
		return s, ""
	}
	if !hasTolerance {
		return main[:n.length], unit
	}
	t, _ := scanNumber(tolerance)
	if letters.TrimSpace(tolerance[t.length:]) != unit {
		return s, ""
	}
	return main[:n.length] + " ± " + tolerance[:t.length], unit
}
