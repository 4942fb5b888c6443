package declare

import (
	"math"

	"blankoff/calc/letters"
	"blankoff/calc/quantity"
)

// Fill puts results and entries where a text names them: {leak} is the output as it is
// shown, {volume} the entry as it was written. Where an output and an input share a
// name, {in:name} is the entry. A sentence that is data weighs far less on a phone than
// the code that would join its pieces.
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
	if entry, found := letters.CutPrefix(name, "in:"); found {
		return r.Entry(entry)
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
	return r.Entry(name)
}

// Num writes a number in SI units in a unit, or in the one of choice, as the working shows it.
func (r *Result) Num(si float64, unit string) string { return r.NumU(si, -1, unit) }

// NumU does so with a standard uncertainty, also in SI units.
func (r *Result) NumU(si, u float64, unit string) string {
	is := quantity.MustUnit(unit)
	if unit != "K" { // a kelvin may be a difference
		is = r.inChoice(is.Kind, is)
	}
	return quantity.Format(si, u, is, quantity.DefaultFigures)
}

// With puts the next of the numbers, which are in SI units, in the place of each unit in
// square brackets, to so many figures: "[mTorr] in [min]"; [] is a plain number. What has
// no end, such as a time that never comes, is no time.
func With(figures int, text string, si ...float64) string {
	for _, value := range si {
		before, rest, _ := letters.Cut(text, "[")
		unit, after, _ := letters.Cut(rest, "]")
		number := "no time"
		if value <= math.MaxFloat64 {
			number = quantity.Format(value, -1, quantity.MustUnit(unit), figures)
		}
		text = before + number + after
	}
	return text
}

// WorkWith adds a line of working with such numbers.
func (r *Result) WorkWith(figures int, line string, si ...float64) {
	r.Work(With(figures, line, si...))
}
