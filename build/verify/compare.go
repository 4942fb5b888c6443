package verify

import (
	"strings"

	"blankoff/calc/quantity"
)

// Why a text does not agree with what is right. Empty: it does.
const (
	agrees       = ""
	otherWords   = "differs"
	otherForm    = "is of another form"
	otherKind    = "is of another kind"
	otherFigure  = "differs in its figures"
	noAccuracy   = "states an accuracy that is not known"
	otherCounted = "is counted from another pressure"
	otherSense   = "is a limit of another sense"
)

// disagreement compares what a page says with what is right. A figure is true when the right
// value rounds to it at its last written digit: 0.017 is true for 0.0165 to 0.0175.
func disagreement(said, right measure) string {
	pairs, why := pair(said, right)
	for _, p := range pairs {
		if !p.isTrue() {
			return otherFigure
		}
	}
	return why
}

// claim is a number of a page beside what it should say, both in its unit.
type claim struct {
	number
	want  float64
	known float64 // worth of the last place that the right value is known to; 0 for data
}

func (c claim) isTrue() bool { return near(c.x, c.want, c.worth(c.known), c.zero()) }

// pair sets each number of a page beside what it should say, or tells why that has no meaning.
func pair(said, right measure) ([]claim, string) {
	said = said.as(right)
	switch {
	case sameText(said.Text, right.Text):
		return nil, agrees
	case right.Form == words:
		return nil, otherWords
	case said.Form == words:
		return nil, otherForm
	case said.Low.Over || right.Low.Over: // has no kind
		return nil, sameMeterSign(said.Text, right.Text)
	case said.Form == list || right.Form == list:
		return pairList(said, right)
	}
	if why := sameSort(said.Low, right.Low); why != agrees {
		return nil, why
	}
	if said.Sense != right.Sense {
		return nil, otherSense
	}
	switch {
	case said.Form == value && right.Form == value:
		return pairValue(said, right)
	case said.Form == span:
		return pairSpan(said, right)
	}
	return pairWidth(said, right)
}

// sameSort tells whether two quantities can be compared. A display's counts are no share of anything.
func sameSort(a, b quantity.Quantity) string {
	const counts = "counts"
	switch {
	case a.Kind != b.Kind || a.Unit.Dim != b.Unit.Dim, (a.Unit.Symbol == counts) != (b.Unit.Symbol == counts):
		return otherKind
	case a.Gauge != b.Gauge:
		return otherCounted
	}
	return agrees
}

// sameMeterSign compares the ways in which meters write that a reading is beyond the range.
func sameMeterSign(a, b string) string {
	sign := func(text string) string {
		return strings.Map(func(r rune) rune {
			switch r {
			case '.', ' ':
				return -1
			case '0', 'o':
				return 'O'
			case 'l':
				return 'L'
			}
			return r
		}, text)
	}
	if sign(a) == "OL" && sign(b) == "OL" {
		return agrees
	}
	return otherWords
}

// exact is the claim of a text whose figures cannot be told apart: it is true only for the very value.
func exact(x, want float64, unit quantity.Unit) claim {
	return claim{number: number{unit: unit, x: unit.From(x), figure: figure{fraction: true}}, want: unit.From(want)}
}

func pairValue(said, right measure) ([]claim, string) {
	main, accuracy, ok := numbersOf(said.written, said.Low)
	if !ok {
		claims := []claim{exact(said.Low.Value, right.Low.Value, said.Low.Unit)}
		if said.Low.HasU {
			claims = append(claims, exact(said.Low.U, right.Low.U, said.Low.Unit))
		}
		return claims, agrees
	}
	main.at += said.at
	accuracy.at += said.at
	claims := []claim{main.claim(right.Low.Value, right)}
	if !said.Low.HasU {
		return claims, agrees
	}
	if !right.Low.HasU {
		return claims, noAccuracy
	}
	want := accuracy.accuracy(right.Low)
	known := 0.0
	if right.Computed {
		known = lastPlace(want, 2)
	}
	return append(claims, claim{accuracy, want, known}), agrees
}

// claim sets a number beside an SI value.
func (n number) claim(si float64, right measure) claim {
	want := n.unit.From(si)
	return claim{n, want, right.known(n, want)}
}

// pairSpan compares the ends; a value with an accuracy is the range that it spans.
func pairSpan(said, right measure) ([]claim, string) {
	low, high, ok := right.ends()
	if !ok {
		return nil, otherForm
	}
	lowEnd, highEnd, ok := splitRange(said)
	if !ok {
		return []claim{exact(said.Low.Value, low, said.Low.Unit), exact(said.High.Value, high, said.High.Unit)}, agrees
	}
	return []claim{lowEnd.claim(low, right), highEnd.claim(high, right)}, agrees
}

// splitRange finds the numbers of a range: the split at which both sides say what was read.
func splitRange(m measure) (low, high number, ok bool) {
	text := m.written
	for _, word := range []string{" to ", "…", "..", "–", "—", "−", "-"} {
		for from := 1; from < len(text); from++ {
			at := strings.Index(text[from:], word)
			if at < 0 {
				break
			}
			from += at
			lowText, highText := text[:from], strings.TrimLeft(text[from+len(word):], spaces)
			low, _, lowOK := numbersOf(strings.TrimRight(lowText, spaces), m.Low)
			high, _, highOK := numbersOf(highText, m.High)
			if lowOK && highOK {
				high.at += len(text) - len(highText)
				return low, high, true
			}
		}
	}
	return number{}, number{}, false
}

// pairWidth compares a value with an accuracy with the range that it should span.
func pairWidth(said, right measure) ([]claim, string) {
	low, high, ok := right.ends()
	if !ok || !said.Low.HasU {
		return nil, otherForm
	}
	middle := right.Low
	middle.Value, middle.U, middle.HasU = (low+high)/2, (high-low)/2/quantity.CoverageFactor, true
	return pairValue(said, measure{Low: middle, Form: value})
}

func pairList(said, right measure) ([]claim, string) {
	if said.Form != right.Form || len(said.Items) != len(right.Items) {
		return nil, otherForm
	}
	if said.Joint != right.Joint {
		return nil, otherWords
	}
	var claims []claim
	for i, item := range said.Items {
		if why := sameSort(item.Quantity, right.Items[i].Quantity); why != agrees {
			return nil, why
		}
		one := measure{Low: item.Quantity, Form: value, written: item.text, at: item.at}
		more, _ := pairValue(one, measure{Low: right.Items[i].Quantity, Form: value})
		claims = append(claims, more...)
	}
	return claims, agrees
}
