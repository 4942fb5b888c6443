package verify

import (
	"math"
	"strconv"
	"strings"
	"unicode"

	"blankoff/calc/quantity"
)

// figure is the run of digits in which a number is written, with its place in the text.
type figure struct {
	from, to int     // bytes of the text, without sign and exponent
	digits   int     // significant digits
	decimals int     // digits behind the decimal mark
	zeros    int     // at the end of a whole number
	step     float64 // worth of the last digit; 0 where the number is no plain decimal: 11/16, 1h30
	scale    float64 // worth of the written number's 1: 1e-3 in 1.2×10⁻³
	decimal  string  // the decimal mark used, "" if none
	group    string  // the thousands mark used, "" if none
}

const groupMarks = ",'’ \u00a0\u2009\u202f"

// readFigure finds how the number x is written at the start of a text. The worth of a digit
// follows from the number itself, so it does not matter whether a comma stands for
// thousands or decimals: 2,000 with x = 2000 has steps of 1.
func readFigure(text string, x float64) figure {
	f := figure{from: strings.IndexFunc(text, unicode.IsDigit), scale: 1}
	if f.from < 0 {
		return figure{}
	}
	var all, mark string
	f.to = f.from
	for i, r := range text[f.from:] {
		next := f.from + i + len(string(r))
		if r >= '0' && r <= '9' {
			all += string(r)
			f.to = next
			continue
		}
		if !strings.ContainsRune(groupMarks+".", r) || figureAt(text[next:]) != 0 {
			break
		}
		if mark != "" && mark != string(r) {
			f.group = mark
		}
		mark = string(r)
	}
	f.finish(text, all, mark, math.Abs(x))
	return f
}

// finish works out what one step of the last digit is worth.
func (f *figure) finish(text, all, mark string, x float64) {
	f.digits = max(len(strings.TrimLeft(all, "0")), 1)
	written := text[f.from:f.to]
	behind := 0
	if mark != "" {
		behind = len(written) - strings.LastIndex(written, mark) - len(mark)
	}
	n, _ := strconv.ParseFloat(all, 64)
	if n == 0 || x == 0 {
		f.decimals, f.decimal, f.step = behind, mark, math.Pow10(-behind)
		return
	}
	power := math.Round(math.Log10(x / n))
	if step := math.Pow(10, power); near(x, n*step, 0) {
		f.step = step
	}
	switch {
	case mark != "" && (int(power) == -behind || hasExponent(text[f.to:])):
		f.decimals, f.decimal = behind, mark
	case mark != "":
		f.group = mark
	}
	f.scale = f.step * math.Pow10(f.decimals)
	if f.decimals == 0 {
		f.zeros = len(all) - len(strings.TrimRight(all, "0"))
	}
}

// worth is the worth of the last digit that says something, where zeros at the end say nothing up to
// the place that is known.
func (f figure) worth(known float64) float64 {
	return max(f.step, min(f.step*math.Pow10(f.zeros), known))
}

func hasExponent(rest string) bool {
	rest = strings.TrimLeft(rest, " ")
	if strings.HasPrefix(rest, "e") || strings.HasPrefix(rest, "E") {
		return len(rest) > 1 && strings.ContainsAny(rest[1:2], "0123456789-+−")
	}
	for _, mark := range []string{"×10", "× 10", "x10", "x 10", "·10", "*10"} {
		if strings.HasPrefix(rest, mark) {
			return true
		}
	}
	return false
}

// write gives a number in the style of the figure: as many significant digits, but never
// fewer than its whole part is known to; the same marks.
func (f figure) write(y, known float64) string {
	if worth := f.worth(known); worth > f.step && f.step > 0 {
		y = math.Round(y/worth) * worth
	}
	m := math.Abs(y) / f.scale
	decimals := f.decimals
	if m != 0 {
		decimals = min(max(f.digits-1-int(math.Floor(math.Log10(m))), 0), 15)
	}
	text := strconv.FormatFloat(m, 'f', decimals, 64)
	whole, fraction, _ := strings.Cut(text, ".")
	decimal := f.decimal
	if decimal == "" {
		decimal = "."
	}
	group := f.group
	if group == "" && len(whole) > 4 && f.digits < 4 && decimal == "." {
		group = "," // the old number was too short to show how it groups
	}
	for i := len(whole) - 3; i > 0 && group != ""; i -= 3 {
		whole = whole[:i] + group + whole[i:]
	}
	if fraction == "" {
		return whole
	}
	return whole + decimal + fraction
}

// tolerance is what stands behind ±: a figure in its own measure.
type tolerance struct {
	text    string
	from    int // where the text starts in the whole
	figure  figure
	x       float64
	measure func(quantity.Quantity) float64 // the expanded uncertainty of a quantity, in that measure
}

func (t tolerance) holds(right quantity.Quantity) bool {
	return near(t.x, t.measure(right), t.figure.step)
}

// readTolerance reads what stands behind ± in the text of a quantity.
func readTolerance(text string, q quantity.Quantity) (tolerance, bool) {
	at := strings.Index(text, "±")
	width := len("±")
	if i := strings.Index(text, "+/-"); at < 0 && i >= 0 {
		at, width = i, len("+/-")
	}
	if at < 0 {
		return tolerance{}, false
	}
	t := tolerance{text: text[at+width:], from: at + width}
	unit := strings.TrimSpace(strings.TrimLeftFunc(t.text, isNumberRune))
	expanded := func(q quantity.Quantity) float64 { return quantity.CoverageFactor * q.U }
	own := q.Unit
	if u, known := quantity.FindUnit(unit); known && unit != "" && u.Dim == q.Unit.Dim {
		own = u
	}
	t.measure = func(q quantity.Quantity) float64 { return expanded(q) / own.Span(1) }
	if strings.HasPrefix(unit, "%") && q.Unit.Symbol != "%" {
		t.measure = func(q quantity.Quantity) float64 { return 100 * expanded(q) / math.Abs(q.Value) }
	}
	t.x = t.measure(q)
	t.figure = readFigure(t.text, t.x)
	return t, true
}

// restate writes a text anew with the right figures, keeping everything else. It fails where
// the figures cannot be told apart from the rest, or would not come out true.
func restate(text string, right measure) (string, bool) {
	said := read(text)
	why := disagreement(said, right)
	if why != otherFigure {
		return text, why == agrees
	}
	fresh := text
	switch said.Form {
	case span:
		low, high, ok := right.ends()
		lowText, highText, split := splitRange(text)
		at := strings.LastIndex(text, highText)
		if !ok || !split || at < len(lowText) {
			return text, false
		}
		fresh = replaceFigure(lowText, said.Low.Unit, said.Low.Value, low, right.Known) +
			text[len(lowText):at] + replaceFigure(highText, said.High.Unit, said.High.Value, high, right.Known)
	default:
		fresh = replaceFigure(text, said.Low.Unit, said.Low.Value, right.Low.Value, right.Known)
		if said.Low.HasU && right.Low.HasU {
			fresh = restateTolerance(text, fresh, said.Low, right.Low)
		}
	}
	return fresh, disagreement(read(fresh), right) == agrees
}

// replaceFigure puts the figures of the SI value y in place of those of x.
func replaceFigure(text string, unit quantity.Unit, x, y, known float64) string {
	from, to := unit.From(x), unit.From(y)
	f := readFigure(text, from)
	if f.step == 0 || from < 0 != (to < 0) {
		return text
	}
	return text[:f.from] + f.write(to, known/math.Abs(unit.Span(1))) + text[f.to:]
}

// restateTolerance takes what stands behind ± from the old text, with the right figures, and puts
// it behind the fresh value.
func restateTolerance(old, fresh string, said, right quantity.Quantity) string {
	t, ok := readTolerance(old, said)
	at := strings.LastIndex(fresh, t.text)
	if !ok || at < 0 || t.figure.step == 0 || t.holds(right) {
		return fresh
	}
	return fresh[:at] + t.text[:t.figure.from] + t.figure.write(t.measure(right), 0) + t.text[t.figure.to:]
}
