package declare

import (
	"math"

	"blankoff/calc/letters"
	"blankoff/calc/quantity"
)

// Fill puts results and entries where a text names them: {leak} is the output as it is
// shown, {volume} the entry as it was written. Where an output and an input share a
// name, {in:name} is the entry. {own:name} stays in the unit that no choice changes, for a
// line that would be wrong to redo by hand in another; a result follows in that of choice as
// well, where the two differ. {2,000 mTorr} is a quantity of the text itself, see amount.
// A sentence that is data weighs far less on a phone than the code that would join its pieces.
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
		return r.Entry(entry)
	}
	name, own := letters.CutPrefix(name, "own:")
	for i := range r.c.Outputs {
		o := &r.c.Outputs[i]
		switch {
		case o.ID != name:
		case o.Kind == quantity.None:
			return r.texts[i]
		case own && r.own[i].Symbol != r.units[i].Symbol:
			return r.showIn(i, r.own[i]) + " = " + r.show(i)
		default:
			return r.show(i)
		}
	}
	if own {
		return r.entryIn(name, r.Typed(name).Unit)
	}
	return r.Entry(name)
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
// as formulas take it. What has no end, such as a time that never comes, is no time.
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
	return (&Numbers{}).With(figures, text, si...)
}

// Unit is the unit of choice in place of one that a text names.
func (n *Numbers) Unit(symbol string) quantity.Unit {
	name, isDifference := letters.CutPrefix(symbol, "Δ")
	unit := quantity.MustUnit(name)
	if isDifference {
		unit = unit.Difference()
	}
	if symbol == "K" {
		return unit
	}
	return n.inChoice(unit.Kind, unit)
}

// isID tells a name in braces from a quantity.
func isID(name string) bool { return name[0] >= 'a' && letters.IndexByte(name, '|') < 0 && name[0] <= 'z' }

// amount writes a quantity of a text in the unit of choice, as it stands where there is none.
// "± 2 K" is a difference, and so is Δ2 K. Before a bar stands what is written without a
// choice, as in "{7.5|7.5 mTorr} to {750 mTorr}".
func (n *Numbers) amount(text string) string {
	text, alone, hasBar := letters.Cut(text, "|")
	if !hasBar {
		alone = text
	}
	number, isDifference := letters.CutPrefix(alone, "± ")
	lead := ""
	if isDifference {
		lead = "± "
	} else {
		number, isDifference = letters.CutPrefix(alone, "Δ")
	}
	q, problem := quantity.Parse(number)
	if problem != nil {
		return text
	}
	own, value := q.Unit, q.Value
	if isDifference {
		own, value = own.Difference(), own.Span(own.From(value))
	}
	unit := n.inChoice(own.Kind, own)
	if unit.Symbol == own.Symbol {
		return text
	}
	least := 3 // few limits are known better
	if own.Kind == quantity.Temperature {
		least = 4 // zero lies far off: 850 °C are 1,562 °F
	}
	text = lead + quantity.Format(value, -1, unit, max(least, q.Figures))
	if q.Gauge {
		text += " gauge"
	}
	return text
}

// amounts does so for each quantity in braces.
func (n *Numbers) amounts(text string) string { return fill(text, n.amount) }

// WorkWith adds a line of working with such numbers.
func (r *Result) WorkWith(figures int, line string, si ...float64) {
	r.Work(r.With(figures, line, si...))
}
