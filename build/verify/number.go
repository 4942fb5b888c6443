package verify

import (
	"math"
	"strings"

	"blankoff/calc/quantity"
)

// number is a figure in its unit, as a page says it: to be compared, and to be written anew.
type number struct {
	figure
	at    int           // where its text starts in the whole text
	unit  quantity.Unit // in which it counts; of an accuracy only the size of one matters
	x     float64       // what it says, in the unit
	step  float64       // worth of the last digit; 0: it is exact, as a fraction is
	scale float64       // what the written number's 1 is worth: 1e-5 in (2.2 ± 0.1)×10⁻⁵, −1 in 28 inHg vacuum
	share bool          // an accuracy in percent of the value
	chain []link        // 1h30: numbers of one value, each smaller than the one before
}

// numbersOf finds the number of a text that was read as one value, and the number behind its ±. Where the two ways of
// reading do not agree, ok is false.
func numbersOf(text string, q quantity.Quantity) (main, accuracy number, ok bool) {
	mainText, accuracyText, at := cutAccuracy(text)
	from, scale := 0, 1.0
	if strings.HasPrefix(mainText, "(") { // (2.2 ± 0.1)×10⁻⁵ mbar·L/s
		from = 1
		_, behind, _ := strings.Cut(accuracyText, ")")
		var common figure
		common.readPower(behind)
		scale = math.Pow10(common.power.value)
	}
	main = number{at: from, unit: q.Unit, x: q.Unit.From(q.Value), scale: scale}
	ok = main.scan(mainText[from:])
	if q.HasU && ok {
		accuracy, ok = accuracyOf(accuracyText, q, scale)
		accuracy.at = at
	}
	return main, accuracy, ok
}

// cutAccuracy parts a text at ±; at is where the second part starts.
func cutAccuracy(text string) (main, accuracy string, at int) {
	for _, sign := range []string{"±", "+/-", "+-", "+/−", "+−"} {
		if i := strings.Index(text, sign); i >= 0 {
			at = i + len(sign)
			accuracy = strings.TrimLeft(text[at:], spaces)
			return text[:i], accuracy, len(text) - len(accuracy)
		}
	}
	return text, "", len(text)
}

const spaces = " \t\n\u00a0\u2009\u202f"

// accuracyOf reads what stands behind ±, in its own unit or in percent.
func accuracyOf(text string, q quantity.Quantity, scale float64) (number, bool) {
	n := number{unit: q.Unit, scale: scale}
	f, ok := scanFigure(text)
	if !ok {
		return n, false
	}
	unit := strings.Trim(text[f.end:], spaces)
	n.share = strings.HasPrefix(unit, "%") && q.Unit.Symbol != "%"
	if u, known := quantity.FindUnit(strings.Join(strings.Fields(unit), " ")); known && u.Dim == q.Unit.Dim && u.Symbol != "" {
		n.unit = u
	}
	n.x = n.accuracy(q)
	return n, n.scan(text[:f.end])
}

// accuracy is the accuracy of a quantity in the number's unit or in percent.
func (n number) accuracy(q quantity.Quantity) float64 {
	expanded := quantity.CoverageFactor * q.U
	if n.share {
		return 100 * expanded / math.Abs(q.Value)
	}
	return expanded / math.Abs(n.unit.Span(1))
}

// scan reads how the number is written, and tells whether that is what it says.
func (n *number) scan(text string) bool {
	f, ok := scanFigure(text)
	n.figure = f
	switch {
	case !ok:
		return false
	case f.fraction:
		return true
	case n.unit.Kind == quantity.Time || n.unit.Kind == quantity.Length:
		if strings.ContainsAny(text[f.end:], "0123456789") {
			return n.scanChain(text)
		}
	}
	if f.value > 0 && n.x < 0 { // 28 inHg vacuum
		n.scale = -n.scale
	}
	n.step = math.Abs(f.step() * n.scale)
	return near(f.value*n.scale, n.x, 0, n.zero())
}

// zero is how far the zero of the unit's scale lies from that of SI: what conversion may cost is a share of it.
func (n number) zero() float64 { return math.Abs(n.unit.From(0)) }

// worth is the worth of the last digit that says something, where zeros at the end of a whole number say nothing up
// to the place that is known.
func (n number) worth(known float64) float64 {
	return max(n.step, min(n.step*math.Pow10(n.zeros), known))
}

// near allows half of the last written digit, and what binary fractions cannot hold of a scale with its zero elsewhere.
func near(x, y, step, zero float64) bool {
	size := max(math.Abs(x), math.Abs(y), zero)
	if step == 0 {
		return math.Abs(x-y) <= 1e-9*size
	}
	return math.Abs(x-y) <= step*(0.5+1e-9)+1e-12*size
}

// link is one number of a chain such as 1 h 30 min.
type link struct {
	figure
	size float64 // SI size of its unit
	bare bool    // the 30 of 1h30
}

// scanChain reads the numbers of a chain, the places counted from the start of the whole number. The last of them has
// the last digit.
func (n *number) scanChain(text string) bool {
	total, at := 0.0, 0
	for at < len(text) {
		f, ok := scanFigure(text[at:])
		if !ok {
			return false
		}
		rest := text[at+f.end:]
		next := strings.IndexAny(rest, "0123456789")
		if next < 0 {
			next = len(rest)
		}
		l := link{figure: f, size: n.linkSize(strings.Trim(rest[:next], spaces))}
		l.bare = strings.Trim(rest[:next], spaces) == ""
		l.from, l.to = at+f.from, at+f.to
		total += math.Abs(f.value) * l.size
		n.chain = append(n.chain, l)
		at += f.end + next
	}
	last := n.chain[len(n.chain)-1]
	n.step = last.figure.step() * last.size / n.unit.Span(1)
	return near(total, math.Abs(n.unit.To(n.x)), 0, 0)
}

// linkSize is the SI size of one of a chain's units; without a unit it is the next smaller one, as in 1h30.
func (n *number) linkSize(symbol string) float64 {
	if symbol == "" && len(n.chain) > 0 {
		switch n.chain[len(n.chain)-1].size {
		case 86400:
			return 3600
		case 3600:
			return 60
		}
		return 1
	}
	u, _ := quantity.FindUnit(symbol)
	return u.Span(1)
}
