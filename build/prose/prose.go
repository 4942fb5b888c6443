// Package prose finds quantities in running text, as the trade writes them and without any markup: `hold 200 micron for
// 10–15 min`, `1/8-27 NPT`, `24.0 L ± 1.0 L`. It knows nothing of Markdown or HTML: a caller gives it the text of a
// paragraph and gets places in it.
//
//	marks, doubts := prose.Find("Hold 200 micron for 10–15 min.")
//	// marks[0] is "200 micron", a pressure of 26.66 Pa, known to 1 micron; marks[1] is "10–15 min", one range
//
// Part numbers, dates, model names, serials, references and codes are left alone. What could be read in two ways is no mark
// but a doubt, with what to write instead.
package prose

import "blankoff/calc/quantity"

// Form is how the numbers of a mark belong together.
type Form uint8

// The forms. A thread's designation and a count of things (5 wraps) are never rewritten in other units.
const (
	Value  Form = iota // 340 micron, 24 L ± 1 L, 1h30, 11/16 in
	Range              // 3 to 9 ohm, 8–11 mV, 6.9 Ω to 9.3 Ω
	List               // 100, 200 and 300 mTorr
	Spread             // ± 10 %, ± 2 K: a tolerance that stands by itself
	Thread             // 1/8-27 NPT, R 1/8, M10x1
	Count              // 5 wraps, 3 turns
)

// Mark is one quantity in a text. A tolerance is part of its value: the mark of 24 L ± 1 L has two numbers. Marks of a
// product (10 × 20 cm) do not exist: 2 × 12 mm bolts look the same.
type Mark struct {
	From, To int // bytes of the text
	Form     Form
	Kind     quantity.Kind // None for Thread and Count
	Numbers  []Number      // in the order of the text; none for Thread
}

// Number is one number of a mark. To write a mark in other units, replace From to To and UnitFrom to UnitTo of each of
// its numbers; what stands between them (to, –, ±, and) stays.
//
// A chain (1h30, 5 ft 3 in) is one number whose figures hold its units; Unit is the first of them. In (2.24 ± 0.12)×10⁻⁵ the
// figures hold the brackets and the power. The words gauge and absolute belong to the unit. A count has a plain unit, and its
// noun stands where the unit would.
type Number struct {
	From, To   int     // bytes of its figures in the text, with sign (minus in words too) and power of ten
	SI         float64 // value; a difference (what stands behind ±) in SI as well; a percentage as a ratio
	Step       float64 // what one step of its last meaningful digit is worth, in SI; always above 0
	Difference bool    // stands behind ±
	Percent    bool    // stands behind ± and is a share of the value, whatever the unit
	Gauge      bool    // counted from the air pressure
	Unit       quantity.Unit
	UnitFrom   int // bytes of its unit; both 0 where the unit stands at another number: the 3 of 3 to 9 ohm
	UnitTo     int
}

// Doubt is a place that could be read in two ways. It has no mark, so that nothing rewrites it; a standard flow without
// its reference temperature alone has both.
type Doubt struct {
	From, To int
	Message  string // lower case: what can be meant
	Hint     string // what to write instead
}
