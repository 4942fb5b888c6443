package fault

import (
	"math"

	"blankoff/build/source"
	"blankoff/calc/quantity"
)

// weight reads a plain number above nothing.
func (r *reader) weight(t Text, of string) float64 {
	if t.Text == "" {
		return 0 // said to be missing elsewhere
	}
	q, p := quantity.Parse(t.Text, quantity.Ratio)
	if p != nil || q.Over || q.HasU || q.Unit.Symbol != "" || !(q.Value > 0) || math.IsInf(q.Value, 0) || q.Value > 1e6 {
		r.refuse("triage-weight", t.Span, "the weight of "+of+" is "+source.Quote(t.Text)+", not a number above 0",
			"write how often it is met beside the others, as a plain number: 2.5")
		return 0
	}
	return q.Value
}

// longest bounds what one step can take; a job of a year is a slip of the unit.
const longest = 60 * 24 * 366

// minutes reads a time of work.
func (r *reader) minutes(t Text, of string) float64 {
	if t.Text == "" {
		if t.Span.File != nil {
			r.refuse("triage-unit", t.Span, of+" has no time behind it", "write a number and its unit: 15 min, 4 h")
		}
		return 0
	}
	q, p := quantity.Parse(t.Text, quantity.Time)
	switch {
	case p != nil:
		r.refuse("triage-unit", t.Span, of+": "+p.Text, "write a number and its unit: 15 min, 4 h")
	case q.Over || q.HasU || q.Value < 0 || q.Value > 60*longest:
		r.refuse("triage-unit", t.Span, of+": "+source.Quote(t.Text)+" is no time that work takes", "write one plain time: 15 min, 4 h")
	default:
		return q.Value / 60
	}
	return 0
}

// percent reads a probability.
func (r *reader) percent(t Text, of string) (float64, bool) {
	q, p := quantity.Parse(t.Text, quantity.Ratio)
	if p != nil || q.Over || q.HasU || q.Unit.Symbol != "%" || !(q.Value >= 0 && q.Value <= 1) {
		r.refuse("probability", t.Span, of+": "+source.Quote(t.Text)+" is no probability", "write a percentage from 0 % to 100 %")
		return 0, false
	}
	return q.Value, true
}

// value reads a quantity of a measured finding; in SI.
func (r *reader) value(t Text, of string, f *Finding, kind quantity.Kind) (float64, bool) {
	q, p := quantity.Parse(t.Text, kind)
	switch {
	case p != nil:
		r.refuse("triage-unit", t.Span, of+": "+p.Text, "write it as in `"+exampleOf(f)+"`")
	case q.Over || q.Gauge || q.HasU || math.IsInf(q.Value, 0) || math.IsNaN(q.Value):
		r.refuse("triage-unit", t.Span, of+": "+source.Quote(t.Text)+" is not one plain value", "write it as in `"+exampleOf(f)+"`")
	default:
		return q.Value, true
	}
	return 0, false
}

func exampleOf(f *Finding) string {
	if f.Unit.Symbol == "" {
		return "1.4"
	}
	return "350 " + f.Unit.Symbol
}
