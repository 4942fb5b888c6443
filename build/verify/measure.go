package verify

import (
	"math"
	"strings"
	"unicode"
	"unicode/utf8"

	"blankoff/calc/quantity"
)

// measure is a text of the machine data, of a calculator or of a page, understood as
// far as it can be: one value, a range, or plain words.
type measure struct {
	Text      string
	Low, High quantity.Quantity // of one value both are the same
	Form      form
	// Known is the size (SI) of the last place that a computed result is known to. Zeros at the
	// end of a whole number say nothing up to there: 10,800 ± 2,000 needs no 10,848.
	Known float64
}

type form int

const (
	words form = iota
	value
	span
)

// read understands a text. What is neither a value nor a range is words: R 1/8, 1 and 4.
func read(text string) measure {
	m := measure{Text: strings.Join(strings.Fields(text), " ")}
	if q, problem := quantity.Parse(text); problem == nil {
		m.Low, m.High, m.Form = q, q, value
	} else if r, problem := quantity.ParseRange(text); problem == nil {
		m.Low, m.High, m.Form = r.Low, r.High, span
	}
	return m
}

// given is the measure of a calculator's result: known to the second figure of its
// uncertainty, or to the figures that are printed of it when it has none.
func given(text string, q quantity.Quantity) measure {
	last := lastPlace(q.Unit.From(q.Value), quantity.DefaultFigures)
	if q.HasU {
		last = lastPlace(quantity.CoverageFactor*q.U/q.Unit.Span(1), 2)
	}
	return measure{Text: text, Low: q, High: q, Form: value, Known: math.Abs(q.Unit.Span(last))}
}

// lastPlace is the worth of the last of so many significant figures of x.
func lastPlace(x float64, figures int) float64 {
	if x == 0 {
		return 0
	}
	return math.Pow(10, math.Floor(math.Log10(math.Abs(x)))-float64(figures-1))
}

// Why a text does not agree with what is right. Empty: it does.
const (
	agrees       = ""
	otherWords   = "differs"
	otherForm    = "is of another form"
	otherKind    = "is of another kind"
	otherFigure  = "differs in its figures"
	noAccuracy   = "states an accuracy that is not known"
	otherCounted = "is counted from another pressure"
)

// disagreement compares what a page says with what is right. A figure is true when the right
// value rounds to it at its last written digit: 0.017 is true for 0.0165 to 0.0175.
func disagreement(said, right measure) string {
	if sameText(said.Text, right.Text) {
		return agrees
	}
	switch {
	case right.Form == words:
		return otherWords
	case said.Form == words:
		return otherForm
	case said.Low.Over || right.Low.Over: // has no kind
		return otherWords
	case said.Low.Kind != right.Low.Kind:
		return otherKind
	case said.Low.Gauge != right.Low.Gauge:
		return otherCounted
	case said.Form == value && right.Form == value:
		return valueDisagrees(said, right)
	}
	return spanDisagrees(said, right)
}

// sameText tells whether two texts are the same; a word may start a sentence: Insulated junction.
func sameText(a, b string) bool {
	first, n := utf8.DecodeRuneInString(a)
	other, m := utf8.DecodeRuneInString(b)
	return a[n:] == b[m:] && unicode.ToLower(first) == unicode.ToLower(other)
}

func valueDisagrees(said, right measure) string {
	if !sameFigure(said.Text, said.Low, right.Low.Value, right.Known) {
		return otherFigure
	}
	if !said.Low.HasU {
		return agrees
	}
	if !right.Low.HasU {
		return noAccuracy
	}
	if tolerance, ok := readTolerance(said.Text, said.Low); !ok || !tolerance.holds(right.Low) {
		return otherFigure
	}
	return agrees
}

// spanDisagrees compares the ends; a value with an accuracy is the range that it spans.
func spanDisagrees(said, right measure) string {
	lowText, highText, split := splitRange(said.Text)
	if said.Form != span || !split {
		return otherForm
	}
	low, high, ok := right.ends()
	if !ok {
		return otherForm
	}
	if !sameFigure(lowText, said.Low, low, right.Known) || !sameFigure(highText, said.High, high, right.Known) {
		return otherFigure
	}
	return agrees
}

func isNumberRune(r rune) bool { return unicode.IsDigit(r) || strings.ContainsRune("-−+.,' ", r) }

// ends gives the low and the high end in SI.
func (m measure) ends() (low, high float64, ok bool) {
	if m.Form == span {
		return m.Low.Value, m.High.Value, true
	}
	wide := quantity.CoverageFactor * m.Low.U
	return m.Low.Value - wide, m.Low.Value + wide, m.Low.HasU
}

// splitRange parts the text of a range as the trade writes it; each part starts with a digit or a minus.
func splitRange(text string) (low, high string, ok bool) {
	for _, word := range []string{" to ", "…", "..", "–", "—", "-"} {
		for at := 1; at < len(text); at++ {
			if !strings.HasPrefix(text[at:], word) {
				continue
			}
			low, high = strings.TrimSpace(text[:at]), strings.TrimSpace(text[at+len(word):])
			if figureAt(low) >= 0 && figureAt(high) >= 0 {
				return low, high, true
			}
		}
	}
	return "", "", false
}

func figureAt(text string) int { return strings.IndexAny(text, "0123456789") }

// sameFigure tells whether an SI value, written as the text is, would give the same figures.
func sameFigure(text string, q quantity.Quantity, si, known float64) bool {
	x, y := q.Unit.From(q.Value), q.Unit.From(si)
	f := readFigure(text, x)
	return near(x, y, f.worth(known/math.Abs(q.Unit.Span(1))))
}

// near allows half of the last written digit, and what binary fractions cannot hold.
func near(x, y, step float64) bool {
	return math.Abs(x-y) <= step/2+1e-9*math.Max(math.Abs(x), math.Abs(y))
}
