package verify

import (
	"math"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"blankoff/calc/quantity"
)

// measure is a text of the machine data, of a calculator or of a page, understood as far as it can be: a value, a
// range, a list of values, or plain words.
type measure struct {
	Text      string            // with single spaces
	Low, High quantity.Quantity // of one value both are the same
	Form      form
	Items     []item // of a list
	Joint     string // and, or: what stands before the last of a list
	Sense     sense  // of a value that is a limit: > 1 MΩ
	// Computed: a calculator's result, known to the second figure of its uncertainty. Zeros at the end of a whole
	// number say nothing up to there: 10,800 ± 2,000 needs no 10,848.
	Computed bool
	written  string // the text as it stands, without the words of a limit
	at       int    // where that starts in the text as it stands
}

type form int

const (
	words form = iota
	value
	span
	list
)

// read understands a text. What is neither value nor range nor list is words: R 1/8.
func read(text string) measure {
	m := measure{Text: strings.Join(strings.Fields(text), " "), written: text}
	if q, problem := quantity.Parse(text); problem == nil {
		m.Low, m.High, m.Form = q, q, value
	} else if r, problem := quantity.ParseRange(text); problem == nil {
		if !r.Low.HasU && !r.High.HasU { // an accuracy of a range's end has no meaning here
			m.Low, m.High, m.Form = r.Low, r.High, span
		}
	} else if !m.readBound(text) {
		m.readList(text)
	}
	return m
}

// given is the measure of a calculator's result.
func given(text string, q quantity.Quantity) measure {
	return measure{Text: text, Low: q, High: q, Form: value, Computed: true, written: text}
}

// as reads the text once more where the right value says how: a kelvin of a difference is no temperature.
func (m measure) as(right measure) measure {
	const difference = quantity.TemperatureDifference
	if right.Low.Kind != difference {
		return m
	}
	if q, problem := quantity.Parse(m.written, difference); problem == nil && m.Form == value {
		m.Low, m.High = q, q
	} else if r, problem := quantity.ParseRange(m.written, difference); problem == nil && m.Form == span {
		m.Low, m.High = r.Low, r.High
	}
	return m
}

// known is the worth of the last place, in the unit of a number, that a computed result is known to; 0 for data.
func (m measure) known(n number, want float64) float64 {
	switch {
	case !m.Computed:
		return 0
	case m.Low.HasU:
		return lastPlace(quantity.CoverageFactor*m.Low.U/n.unit.Span(1), 2)
	}
	return lastPlace(want, quantity.DefaultFigures)
}

// lastPlace is the worth of the last of so many significant figures of x, as it is printed: 0.0996 to two is 0.10.
func lastPlace(x float64, figures int) float64 {
	if x == 0 {
		return 0
	}
	_, exponent, _ := strings.Cut(strconv.FormatFloat(math.Abs(x), 'e', figures-1, 64), "e")
	n, _ := strconv.Atoi(exponent)
	return math.Pow10(n - figures + 1)
}

// ends gives the low and the high end in SI: of a range, or of a value with an accuracy.
func (m measure) ends() (low, high float64, ok bool) {
	if m.Form == span {
		return m.Low.Value, m.High.Value, true
	}
	wide := quantity.CoverageFactor * m.Low.U
	return m.Low.Value - wide, m.Low.Value + wide, m.Form == value && m.Low.HasU
}

// sameText tells whether two texts are the same words: dashes and spaces may be of any sort, and a word may start a
// sentence: Insulated junction. A designation keeps its case: R 1/8.
func sameText(a, b string) bool {
	if a == b {
		return true
	}
	a, b = plainWords(a), plainWords(b)
	first, n := utf8.DecodeRuneInString(a)
	other, m := utf8.DecodeRuneInString(b)
	return a[n:] == b[m:] && (first == other || unicode.ToLower(first) == unicode.ToLower(other) && startsWithPlainWord(a[n:]))
}

// plainWords turns the dashes that look alike into one, and all spaces.
func plainWords(text string) string {
	text = strings.Join(strings.Fields(text), " ")
	return strings.Map(func(r rune) rune {
		switch r {
		case '‐', '‑', '–', '−':
			return '-'
		}
		return r
	}, text)
}

// startsWithPlainWord tells whether what follows the first letter makes it a word of the language.
func startsWithPlainWord(rest string) bool {
	end := strings.IndexFunc(rest, func(r rune) bool { return !unicode.IsLower(r) })
	if end < 0 {
		end = len(rest)
	}
	behind, _ := utf8.DecodeRuneInString(rest[end:])
	return end > 0 && !unicode.IsDigit(behind) && !unicode.IsUpper(behind)
}
