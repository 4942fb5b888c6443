package pumping

import (
	"math"

	"blankoff/calc/declare"
	"blankoff/calc/letters"
	"blankoff/calc/uncertainty"
)

// written puts a word in place of # and each number (SI) in place of the next unit that stands
// in square brackets: "#: p₁ = [mTorr]". A sentence that is data weighs far less than the code
// that joins its pieces.
func written(x *declare.Numbers, text, word string, list []float64) string {
	return letters.Replace(x.With(4, text, list...), "#", word)
}

// work adds a line of working with such a word and numbers.
func work(r *declare.Result, text, word string, list ...float64) {
	r.Work(written(r.Numbers, text, word, list))
}

// caution adds such a caution.
func caution(r *declare.Result, text, word string, list ...float64) {
	r.Caution(written(r.Numbers, text, word, list))
}

// gaugeToSettle says how good a gauge must be to tell what is off its limit by so much, with
// the standard uncertainty u, of which rest is not the gauge's; "" where none is good enough.
func gaugeToSettle(r *declare.Result, off, u, rest float64) string {
	off /= uncertainty.K
	need := r.In("gauge") * math.Sqrt(max(0, off*off-rest*rest)/(u*u-rest*rest))
	if !(need >= 0.005) { // nor where all is rest
		return ""
	}
	step := 0.01 // never more than it must be, as it is printed
	if need < 0.1 {
		step = 0.001
	}
	return declare.With(2, "A gauge good to [%] of reading would settle it", math.Floor(need/step+1e-9)*step)
}

// cell is a number of a table that was entered; NaN where there is none.
func cell(x *declare.Numbers, table, column string, row int) float64 {
	if list := x.Column(table, column); row < len(list) {
		return list[row]
	}
	return math.NaN()
}

// pairs are the rows of two columns of a table; NaN where a number is missing.
func pairs(x *declare.Numbers, table, first, second string) []point {
	a, b := x.Column(table, first), x.Column(table, second)
	list := make([]point, len(a))
	for i, value := range a {
		list[i] = point{x: value, y: b[i], row: i}
	}
	return list
}

// addRow adds a row of numbers, after a word where there is one; no number is a dash.
func addRow(r *declare.Result, table, word string, list ...float64) {
	cells := make([]declare.Cell, 1+len(list))
	cells[0].Text = word
	for i, x := range list {
		cells[i+1].Value = x
	}
	if word == "" {
		cells = cells[1:]
	}
	r.Row(table, cells...)
}
