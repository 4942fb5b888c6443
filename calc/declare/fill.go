package declare

import (
	"math"

	"blankoff/calc/letters"
	"blankoff/calc/quantity"
)

// Fill puts results and entries where a text names them: {leak} is the output as it is
// shown, {volume} the entry as it was written. Where an output and an input share a
// name, {in:name} is the entry; as {own:name} it stays in its unit even where that is of a
// default, for a line that would be wrong to redo by hand in another. {2,000 mTorr} is a
// quantity of the text itself, see amount. A sentence that is data weighs far less on a phone
// than the code that would join its pieces.
func (r *Result) Fill(text string) string { return fill(text, r.named) }

// fill puts in place of each name in braces what is meant by it.
func fill(text string, named func(string) string) string {
	start := letters.IndexByte(text, '{')
	if start < 0 {
		return text
	}
	var filled []byte
	for start >= 0 {
		end := start + letters.IndexByte(text[start:], '}')
		filled = append(append(filled, text[:start]...), named(text[start+1:end])...)
		text = text[end+1:]
		start = letters.IndexByte(text, '{')
	}
	return string(append(filled, text...))
}

func (r *Result) named(name string) string {
	if !isID(name) {
		return r.amount(name)
	}
	if entry, found := letters.CutPrefix(name, "in:"); found {
		return r.entry(entry, false)
	}
	if entry, found := letters.CutPrefix(name, "own:"); found {
		return r.entry(entry, true)
	}
	for i := range r.c.Outputs {
		o := &r.c.Outputs[i]
		switch {
		case o.ID != name:
		case o.Kind == quantity.None:
			return r.texts[i]
		default:
			return r.show(i)
		}
	}
	return r.entry(name, false)
}

// Num writes a number in SI units in a unit, or in the one of choice, as the working shows it.
func (r *Result) Num(si float64, unit string) string { return r.NumU(si, -1, unit) }

// NumU does so with a standard uncertainty, also in SI units.
func (r *Result) NumU(si, u float64, unit string) string {
	return quantity.Format(si, u, r.Unit(unit), quantity.DefaultFigures)
}

// With puts the next of the numbers, which are in SI units, in the place of each unit in
// square brackets, to so many figures: "[mTorr] in [min]"; [] is a plain number. Each is in
// the unit of choice for its kind, where the request names one: [mTorr] is a pressure, in
// mTorr unless the reader chose otherwise. [ΔK] is a difference of temperatures; [K] stays,
// as formulas take it, and so does a plain number. What has no end, such as a time that never comes, is no time.
func (n *Numbers) With(figures int, text string, si ...float64) string {
	for _, value := range si {
		before, rest, _ := letters.Cut(text, "[")
		unit, after, _ := letters.Cut(rest, "]")
		number := "no time"
		if value <= math.MaxFloat64 {
			number = quantity.Format(value, -1, n.Unit(unit), figures)
		}
		text = before + number + after
	}
	return text
}

// With does so in the units of the text alone, whatever the reader chose: for a line that would
// be wrong to redo by hand if one of its numbers changed its unit.
func With(figures int, text string, si ...float64) string {
	return asWritten.With(figures, text, si...)
}

// asWritten has no units of choice.
var asWritten Numbers

// Unit is the unit of choice in place of one that a text names.
func (n *Numbers) Unit(symbol string) quantity.Unit {
	name, isDifference := letters.CutPrefix(symbol, "Δ")
	unit := quantity.MustUnit(name)
	if isDifference {
		unit = unit.Difference()
	}
	if symbol == "K" || symbol == "" {
		return unit
	}
	return n.inChoice(unit.Kind, unit)
}

// isID tells a name in braces from a quantity.
func isID(name string) bool { return name[0] >= 'a' && name[0] <= 'z' }

// amount writes a quantity of a text in the unit of choice, as it stands where there is none.
// Δ2 K is a difference of 2 K. Before a bar stands what is written without a choice, as in
// "{250|250 mTorr} and {900 mTorr}".
func (n *Numbers) amount(text string) string {
	text, isDifference := letters.CutPrefix(text, "Δ")
	text, alone, hasBar := letters.Cut(text, "|")
	if n.kinds == nil {
		return text
	}
	if !hasBar {
		alone = text
	}
	q, problem := quantity.Parse(alone)
	if problem != nil {
		return text
	}
	own, value := q.Unit, q.Value
	if isDifference {
		value = own.Span(own.From(value))
		own = own.Difference()
	}
	unit := n.inChoice(own.Kind, own)
	if unit.Symbol == own.Symbol {
		return text
	}
	least := 3 // few limits are known better
	if own.Kind == quantity.Temperature {
		least = 4 // zero lies far off: 850 °C are 1,562 °F
	}
	return quantity.Format(value, -1, unit, max(least, q.Figures))
}

// amounts does so for each quantity in braces.
func (n *Numbers) amounts(text string) string { return fill(text, n.amount) }

// WorkWith adds a line of working with such numbers.
func (r *Result) WorkWith(figures int, line string, si ...float64) {
	r.Work(r.With(figures, line, si...))
}
