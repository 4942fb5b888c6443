package quantity

import (
	"math"

	"blankoff/calc/letters"
)

// Quantity is a value with its unit, as somebody wrote it.
type Quantity struct {
	_       [0]func() // never compared: saves the code for it
	Value   float64   // SI; meaningless when Over is set
	U       float64   // standard uncertainty, SI; 0 when HasU is false
	HasU    bool      // the writer stated an accuracy
	Kind    Kind
	Unit    Unit
	Gauge   bool   // counted from the ambient pressure: add that to get the absolute value
	Over    bool   // a meter's over-range sign ("OL")
	Figures int    // significant figures written
	Text    string // as written, spaces tidied
	Note    string // what the writer should know about how it was read
}

// Problem says in one sentence what is wrong with a text and where.
type Problem struct {
	_       [0]func() // never compared: saves the code for it
	Text    string
	At      int  // byte offset in the text that was given
	NoUnit  bool // a number without a unit
	IsEmpty bool
}

func problem(at int, text string) *Problem { return &Problem{Text: text, At: at} }

// CoverageFactor turns a standard into an expanded uncertainty of about 95 %
// (JCGM 100:2008, 6.3.3). A stated accuracy is read with the same factor.
const CoverageFactor = 2

// maxLength keeps a pasted file from being read as one number.
const maxLength = 200

// Parse reads one quantity. With kinds given, the unit must be of one of them;
// without, the kind follows from the unit. See the package comment for the forms.
func Parse(text string, kinds ...Kind) (Quantity, *Problem) { return parse(text, kinds, false) }

// ParseNumber reads a plain number, such as how many times one reading is another. A % behind ± is a share of it there:
// "4.5 ± 20 %" is 4.5 ± 0.9. Parse, which does not know what is wanted, lends the sign to both, as in "20 ± 2 %".
func ParseNumber(text string) (Quantity, *Problem) { return parse(text, plainKinds, true) }

var plainKinds = []Kind{Ratio}

func parse(text string, kinds []Kind, number bool) (Quantity, *Problem) {
	if len(text) > maxLength {
		return Quantity{}, problem(0, "this is too long to be one value")
	}
	if q, ok := parsePlain(text, kinds); ok {
		return q, nil
	}
	q, p := parseTidy(tidy(text), kinds, number)
	if p != nil {
		p.At = untidied(text, p.At)
	}
	return q, p
}

// untidied finds the place in a text that a place in the tidied text stems from,
// past the spaces there.
func untidied(text string, at int) int {
	place := 0
	for i := range text {
		if len(tidy(text[:i])) > at {
			return place
		}
		place = i
	}
	return place
}

func parseTidy(s string, kinds []Kind, number bool) (Quantity, *Problem) {
	if s == "" {
		return Quantity{}, &Problem{Text: "nothing is written here", IsEmpty: true}
	}
	if isOver(s) {
		return Quantity{Over: true, Kind: first(kinds), Unit: One, Text: "OL"}, nil
	}
	main, tolerance, hasTolerance := cutTolerance(spreadPower(s))
	if hasTolerance && !(number && isShare(s, tolerance)) {
		main, tolerance = lendUnit(main, tolerance)
	}
	if main == "" {
		return Quantity{}, problem(0, Quote(s)+" has an accuracy but no value before it")
	}
	q, p := parseMain(main, kinds)
	if p != nil {
		return q, p
	}
	q.Text = s
	if hasTolerance {
		p = q.tolerate(tolerance)
	}
	return q, p
}

// tidy turns the signs that keyboards and word processors produce into plain ones.
func tidy(text string) string {
	plain := letters.Map(plainSign, text)
	plain = letters.Replace(letters.Replace(plain, "+/-", "±"), "+-", "±")
	return letters.Tidy(plain)
}

// isOver knows the ways in which meters show that a reading is beyond the range.
// "0.L" and "0L" belong here; they must not be read as zero.
func isOver(s string) bool {
	switch lower(letters.Replace(s, " ", "")) {
	case "ol", "o.l", "o.l.", "ol.", ".ol", "0l", "0.l", "0.l.", ".0l", "∞", "over", "overrange", "over-range", "open", "--", "---", "----":
		return true
	}
	return false
}

func cutTolerance(s string) (main, tolerance string, found bool) {
	main, tolerance, found = letters.Cut(s, "±")
	return letters.TrimSpace(main), letters.TrimSpace(tolerance), found
}

// spreadPower writes "(2.2 ± 0.1)×10⁻⁵ mbar", which is how we print a small value, as
// "2.2×10⁻⁵ ± 0.1×10⁻⁵ mbar".
func spreadPower(s string) string {
	inside, after, closed := letters.Cut(s, ")")
	inside, opened := letters.CutPrefix(inside, "(")
	value, tolerance, has := cutTolerance(inside)
	if !opened || !closed || !has {
		return s
	}
	return value + after[:powerLength(after)] + " ± " + tolerance + after
}

// powerLength is the length of the "×10⁻⁵" that s starts with.
func powerLength(s string) int {
	one := number{value: 1}
	scanExponent(s, &one)
	return one.length
}

// isShare tells "4.5 ± 20 %" from "4.5 ± 1" and from "(450 ± 90) %".
func isShare(s, tolerance string) bool {
	before := letters.TrimSuffix(s, "%")
	return letters.HasSuffix(tolerance, "%") && !(before != s && letters.HasSuffix(letters.TrimSpace(before), ")"))
}

// lendUnit gives a bare main number the unit that stands after the tolerance:
// "24 ± 1 L", "24 ± 2 % L".
func lendUnit(main, tolerance string) (string, string) {
	n, ok := scanNumber(main)
	if !ok || n.length != len(main) {
		return main, tolerance
	}
	t, ok := scanNumber(tolerance)
	if !ok {
		return main, tolerance
	}
	unit := letters.TrimSpace(tolerance[t.length:])
	if rest, percent := letters.CutPrefix(unit, "%"); percent && letters.TrimSpace(rest) != "" {
		return main + " " + letters.TrimSpace(rest), tolerance[:t.length] + " %"
	}
	return main + " " + unit, tolerance
}

func parseMain(s string, kinds []Kind) (Quantity, *Problem) {
	n, ok := scanNumber(s)
	if !ok {
		return Quantity{}, problem(0, Quote(s)+" is not a number with a unit")
	}
	rest := letters.TrimSpace(s[n.length:])
	if looksDouble(rest) {
		return Quantity{}, problem(n.length, Quote(s)+" has a colon; write minutes and seconds as 1 min 30 s, hours as 1h30")
	}
	if q, p, compound := parseCompound(s, n, kinds); compound {
		return q, p
	}
	rest, gauge, absolute := cutReference(rest)
	unit, why := parseUnit(rest)
	if why != "" {
		if why == "unknown" {
			why = Quote(rest) + " is not a unit known here"
			if letters.HasAny(rest[:min(1, len(rest))], "0123456789.,") {
				why = Quote(s) + " holds more than one number"
			}
		}
		return Quantity{}, problem(n.length, why)
	}
	q := Quantity{Kind: unit.Kind, Unit: unit, Figures: n.figures, Note: n.note}
	if p := q.settleKind(s, n.length, rest, kinds); p != nil {
		return q, p
	}
	if (gauge || absolute) && q.Kind != Pressure {
		return q, problem(n.length, Quote(s)+": only a pressure can be gauge or absolute; for a dial reading write inHg, as in -28 inHg gauge")
	}
	q.Gauge = gauge
	q.Value = q.Unit.To(n.value)
	if low := lower(s); gauge && (letters.HasSuffix(low, "vac") || letters.HasSuffix(low, "vacuum")) {
		q.Value = -math.Abs(q.Value)
	}
	if math.IsInf(q.Value, 0) || math.IsNaN(q.Value) {
		return q, problem(0, Quote(s)+" is too large a number")
	}
	return q, nil
}

func looksDouble(rest string) bool { return letters.HasPrefix(rest, ":") }

// settleKind checks the unit against what is wanted, and gives a kelvin or a
// standard flow the wanted meaning where the dimension is the same.
func (q *Quantity) settleKind(s string, at int, unitText string, kinds []Kind) *Problem {
	if len(kinds) == 0 {
		return nil
	}
	for _, k := range kinds {
		if q.Kind == k {
			return nil
		}
		if k == TemperatureDifference && q.Kind == Temperature {
			q.Kind, q.Unit = k, q.Unit.Difference()
			return nil
		}
	}
	if unitText == "" {
		return &Problem{Text: Quote(s) + " has no unit; " + kinds[0].Describe() + " is needed here", At: at, NoUnit: true}
	}
	return problem(at, Quote(s)+" is "+describe(q.Kind, q.Unit.Dim)+"; "+kinds[0].Describe()+" is needed here")
}

// cutReference takes the words that say what a pressure is counted from.
func cutReference(rest string) (unit string, gauge, absolute bool) {
	low := lower(rest)
	for _, word := range []string{" of vacuum", " vacuum", " vac", " gauge", " gage", " (gauge)", "(g)", " g"} {
		if letters.HasSuffix(low, word) && len(low) > len(word) {
			return rest[:len(rest)-len(word)], true, false
		}
	}
	for _, word := range []string{" absolute", " abs", "(a)", " a"} {
		if letters.HasSuffix(low, word) && len(low) > len(word) {
			return rest[:len(rest)-len(word)], false, true
		}
	}
	switch low {
	case "psig", "barg", "kpag":
		return rest[:len(rest)-1], true, false
	case "psia", "bara", "kpaa":
		return rest[:len(rest)-1], false, true
	}
	return rest, false, false
}

// parseCompound reads a chain of numbers with units of one kind, each smaller
// than the one before: "1h30", "10 min 30 s", "5 ft 3 in".
func parseCompound(s string, n number, kinds []Kind) (Quantity, *Problem, bool) {
	total, last := 0.0, One
	rest, count, figures := s, 0, 0
	for rest != "" {
		m := n
		if count > 0 {
			var ok bool
			if m, ok = scanNumber(rest); !ok || m.value < 0 {
				return Quantity{}, nil, false
			}
		}
		rest = letters.TrimSpace(rest[m.length:])
		cut := letters.IndexAny(rest, "0123456789")
		if cut < 0 {
			cut = len(rest)
		}
		symbol := letters.TrimSpace(rest[:cut])
		if symbol == "" && count > 0 && last.Kind == Time {
			symbol = nextSmaller(last) // the 30 of 1h30
		}
		u, why := named(symbol)
		if why != "" || (u.Kind != Time && u.Kind != Length) || (count > 0 && (u.Kind != last.Kind || u.factor >= last.factor)) {
			return Quantity{}, nil, false
		}
		total, last, rest = total+u.To(m.value), u, rest[cut:]
		figures += m.figures
		count++
	}
	if count < 2 {
		return Quantity{}, nil, false
	}
	first, _ := firstUnit(s)
	if s[0] == '-' { // the sign is that of the whole chain
		total = 2*first.To(n.value) - total
	}
	if math.IsInf(total, 0) || math.IsNaN(total) {
		return Quantity{}, problem(0, Quote(s)+" is too large a number"), true
	}
	q := Quantity{Value: total, Kind: last.Kind, Unit: first, Figures: figures}
	return q, q.settleKind(s, 0, s, kinds), true
}

// firstUnit is the largest unit of a chain, in which the whole is shown.
func firstUnit(s string) (Unit, string) {
	n, _ := scanNumber(s)
	rest := letters.TrimSpace(s[n.length:])
	return named(letters.TrimSpace(rest[:letters.IndexAny(rest, "0123456789")]))
}

func nextSmaller(u Unit) string {
	switch u.factor {
	case 86400:
		return "h"
	case 3600:
		return "min"
	}
	return "s"
}

// tolerate adds the accuracy after the ± sign.
func (q *Quantity) tolerate(text string) *Problem {
	at := letters.Index(q.Text, "±")
	n, ok := scanNumber(text)
	if !ok || n.value < 0 {
		return problem(at, Quote(q.Text)+": after ± an accuracy is needed, such as ± 2 %")
	}
	rest := letters.TrimSpace(text[n.length:])
	switch {
	case rest == "%" && q.Kind == Temperature:
		return problem(at, Quote(q.Text)+": a percentage of a temperature has no meaning; write ± 2 K")
	case rest == "%" && q.Unit.Symbol != "%":
		q.U = math.Abs(q.Value) * n.value / 100 / CoverageFactor
	case rest == "":
		q.U = q.Unit.Span(n.value) / CoverageFactor
	default:
		u, why := parseUnit(rest)
		sameKind := u.Kind == q.Kind || u.Dim == Temperature.Dim()
		if why != "" || u.Dim != q.Unit.Dim || !sameKind {
			return problem(at, Quote(q.Text)+": the accuracy after ± needs % or a unit of the same kind as the value")
		}
		q.U = u.Span(n.value) / CoverageFactor
	}
	if math.IsInf(q.U, 0) || math.IsNaN(q.U) {
		return problem(at, Quote(q.Text)+": the accuracy is too large a number")
	}
	q.HasU = true
	return nil
}

func first(kinds []Kind) Kind {
	if len(kinds) == 0 {
		return None
	}
	return kinds[0]
}

// Quote puts a text in quotation marks, shortened so that a message stays short.
func Quote(s string) string {
	runes := []rune(s)
	if len(runes) > 40 {
		s = string(runes[:40]) + "…"
	}
	return "“" + s + "”"
}
