package verify

import (
	"math"
	"slices"
	"strconv"
	"strings"
)

// edit puts other letters in place of some of a text.
type edit struct {
	from, to int
	text     string
}

// restate writes a text anew with the right figures, keeping everything else. It fails where
// the figures cannot be told apart from the rest, or would not come out true.
func restate(text string, right measure) (string, bool) {
	edits, ok := amend(text, right)
	if !ok {
		return text, false
	}
	return apply(text, edits), true
}

// amend gives the edits that make a text true, from its start to its end; none if it is true.
func amend(text string, right measure) ([]edit, bool) {
	claims, why := pair(read(text), right)
	if why != agrees {
		return nil, false
	}
	var edits []edit
	for _, c := range claims {
		if c.isTrue() {
			continue
		}
		more, ok := c.rewrite()
		if !ok {
			return nil, false
		}
		edits = append(edits, more...)
	}
	return edits, disagreement(read(apply(text, edits)), right) == agrees
}

func apply(text string, edits []edit) string {
	for _, e := range slices.Backward(edits) {
		text = text[:e.from] + e.text + text[e.to:]
	}
	return text
}

// rewrite writes the number that is wanted in the style of the old one. A turned sign is the author's to think about.
func (c claim) rewrite() ([]edit, bool) {
	switch {
	case c.fraction, c.x < 0 != (c.want < 0):
		return nil, false
	case c.chain != nil:
		return c.rewriteChain()
	}
	want := c.want
	if worth := c.worth(c.known); worth > c.step {
		want = math.Round(want/worth) * worth
	}
	mantissa := math.Abs(want / c.scale / math.Pow10(c.power.value))
	places := c.places(mantissa)
	var edits []edit
	if shift := c.shift(mantissa); shift != 0 {
		mantissa, places = mantissa/math.Pow10(shift), c.decimals
		edits = append(edits, edit{c.at + c.power.from, c.at + c.power.to, c.powerText(c.power.value + shift)})
	}
	text := c.style(mantissa, places)
	if strings.Trim(text, "0.,") == "" && c.x < 0 {
		return nil, false // no page says −0
	}
	return append([]edit{{c.at + c.from, c.at + c.to, text}}, edits...), true
}

// shift is by how much the power of ten must change so that one digit stands before the mark again.
func (c claim) shift(mantissa float64) int {
	if c.power.to == 0 || mantissa == 0 || c.mantissa < 1 || c.mantissa >= 10 {
		return 0
	}
	return magnitude(mantissa, c.digits)
}

// magnitude is the power of ten of x, rounded to so many digits.
func magnitude(x float64, digits int) int {
	_, exponent, _ := strings.Cut(strconv.FormatFloat(x, 'e', digits-1, 64), "e")
	n, _ := strconv.Atoi(exponent)
	return n
}

func (c claim) powerText(n int) string {
	text := strconv.Itoa(n)
	if !c.power.raised {
		return text
	}
	return strings.Map(func(r rune) rune {
		if r == '-' {
			return '⁻'
		}
		return []rune(raisedDigits)[r-'0']
	}, text)
}

// places is how many digits stand behind the mark: as many significant digits as before, but no further than a computed
// result is known, unless the old text went there. On a scale with its own zero, and beside a nought, the place stays.
func (c claim) places(mantissa float64) int {
	if mantissa == 0 || c.x == 0 || c.unit.Affine() {
		return c.decimals
	}
	n := c.digits - 1 - int(math.Floor(math.Log10(mantissa)))
	if c.known > 0 {
		finest := min(c.known, c.step) / math.Abs(c.scale) / math.Pow10(c.power.value)
		n = min(n, int(math.Ceil(-math.Log10(finest)-1e-9)))
	}
	return min(max(n, 0), 15)
}

// style writes a number with the marks of the old one.
func (c claim) style(x float64, decimals int) string {
	whole, fraction, _ := strings.Cut(rounded(x, decimals), ".")
	if c.decimal != "" && plainMark([]rune(c.decimal)[0]) == ',' && decimals == 3 && len(whole) < 4 && whole != "0" {
		return c.style(x, 4) // a comma before three digits would group thousands
	}
	group := c.group
	if group == "" && c.decimal != "," && c.digits < 4 && c.decimals == 0 {
		group = "," // the old number was too short to show how it groups; this site prints commas
	}
	for i := len(whole) - 3; i > 0 && group != ""; i -= 3 {
		whole = whole[:i] + group + whole[i:]
	}
	decimal := c.decimal
	if decimal == "" {
		decimal = "."
	}
	if fraction == "" {
		return whole
	}
	return whole + decimal + fraction
}

// rounded writes x with so many decimals. What binary fractions cannot hold is cut off first: 0.0165 is no 0.01649….
func rounded(x float64, decimals int) string {
	settled, _ := strconv.ParseFloat(strconv.FormatFloat(x, 'e', 11, 64), 64)
	digits := strconv.FormatFloat(settled, 'e', -1, 64)
	mantissa, exponent, _ := strings.Cut(digits, "e")
	n, _ := strconv.Atoi(exponent)
	whole, err := strconv.ParseFloat(mantissa+"e"+strconv.Itoa(n+decimals), 64)
	if err != nil || whole >= 1e15 {
		return strconv.FormatFloat(settled, 'f', decimals, 64)
	}
	text := strconv.FormatFloat(math.RoundToEven(whole), 'f', 0, 64)
	if decimals == 0 {
		return text
	}
	if len(text) <= decimals {
		text = strings.Repeat("0", decimals-len(text)+1) + text
	}
	return text[:len(text)-decimals] + "." + text[len(text)-decimals:]
}

// rewriteChain writes 1h30 anew as 1h35. Where its first number would vanish, the author has to choose other units.
func (c claim) rewriteChain() ([]edit, bool) {
	last := c.chain[len(c.chain)-1]
	step := last.figure.step() * last.size
	rest := math.Round(math.Abs(c.unit.To(c.want))/step) * step
	var edits []edit
	for i, l := range c.chain {
		x, decimals := rest/l.size, 0
		if i == len(c.chain)-1 {
			decimals = l.decimals
		} else {
			x = math.Floor(x + 1e-9)
		}
		rest -= x * l.size
		text := rounded(math.Abs(x), decimals)
		if i == 0 && text == "0" || l.power.to != 0 {
			return nil, false
		}
		if l.bare && l.to-l.from == 2 && len(text) == 1 {
			text = "0" + text // 1h05
		}
		edits = append(edits, edit{c.at + l.from, c.at + l.to, text})
	}
	return edits, true
}
