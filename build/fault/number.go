package fault

import (
	"fmt"
	"math"
	"strconv"

	"blankoff/build/source"
	"blankoff/calc/quantity"
	"blankoff/calc/triage"
)

// weight reads a plain number above nothing.
func (r *reader) weight(t Text, of string) float64 {
	if t.Text == "" {
		return 0 // said to be missing elsewhere
	}
	q, p := quantity.Parse(t.Text, quantity.Ratio)
	if p != nil || q.Over || q.HasU || q.Unit.Symbol != "" || !(q.Value >= leastWeight && q.Value <= mostWeight) {
		r.refuse("triage-weight", t.Span, "the weight of "+of+" is "+source.Quote(t.Text)+", not a number above 0",
			"write how often it is met beside the others, as a plain number: 2.5")
		return 0
	}
	return q.Value
}

// A weight beyond these beside others is a slip; what a plan reckons with reaches further (triage.Tiny, triage.Huge).
const leastWeight, mostWeight = 1e-6, 1e6

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
	if t.Span.File == nil {
		return 0, false // said to be missing elsewhere
	}
	q, p := quantity.Parse(t.Text, kind)
	switch {
	case p != nil:
		r.refuse("triage-unit", t.Span, of+": "+p.Text, "write it as in `"+exampleOf(f)+"`")
	case q.Over || q.Gauge || q.HasU || math.IsInf(q.Value, 0) || math.IsNaN(q.Value):
		r.refuse("triage-unit", t.Span, of+": "+source.Quote(t.Text)+" is not one plain value", "write it as in `"+exampleOf(f)+"`")
	case math.Abs(q.Value) > triage.Huge:
		r.refuse("triage-unit", t.Span, fmt.Sprintf("%s: %s is beyond all measure; in %s no more than %g", of, source.Quote(t.Text), kind.SI(), triage.Huge), "look at number and unit")
	case q.Value < 0 && !signed[kind]:
		r.refuse("triage-unit", t.Span, of+": "+source.Quote(t.Text)+" is below zero, where nothing is measured as "+kind.Name(), "look at sign and unit")
	default:
		return q.Value, true
	}
	return 0, false
}

// signed are the kinds of which a value below zero has a meaning. A temperature is held in kelvin.
var signed = map[quantity.Kind]bool{
	quantity.Ratio: true, quantity.TemperatureDifference: true, quantity.PressureRate: true, quantity.Current: true, quantity.Voltage: true, quantity.Sensitivity: true,
}

// rounded is a number as a phone gets it: two that differ less are one.
func rounded(x float64) float64 {
	short, _ := strconv.ParseFloat(number(x), 64)
	return short
}

func exampleOf(f *Finding) string {
	if f.Unit.Symbol == "" {
		return "1.4"
	}
	if f.Unit.Kind == quantity.Temperature {
		return "-34 " + f.Unit.Symbol
	}
	return "350 " + f.Unit.Symbol
}
