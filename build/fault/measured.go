package fault

import (
	"fmt"
	"math"

	"blankoff/build/source"
	"blankoff/calc/quantity"
	"blankoff/calc/triage"
)

// measured reads a finding whose answer is a value.
func (r *reader) measured(f *Finding, m *source.Mapping, kind Text) {
	f.Kind = kindOf(kind.Text)
	if f.Kind == quantity.None {
		r.refuse("triage-unit", kind.Span, "nothing is measured as "+source.Quote(kind.Text), r.meant(kind.Text, kindNames()))
		return
	}
	if unit := text(m, "unit"); unit.Text != "" {
		u, known := quantity.FindUnit(unit.Text)
		if f.Kind == quantity.TemperatureDifference && !u.Affine() {
			u = u.Difference()
		}
		if !known || u.Kind != f.Kind {
			r.refuse("triage-unit", unit.Span, source.Quote(unit.Text)+" is no unit of "+f.Kind.Describe(), unitHint(f.Kind))
			return
		}
		f.Unit = u
	} else if f.Kind != quantity.Ratio {
		r.refuse("missing-key", kind.Span, "a finding measured as "+kind.Text+" needs the key unit", unitHint(f.Kind))
		return
	}
	if usual := m.Text("usual"); usual.Shape == source.Nested { // else it is told with the other keys
		f.Plain, _ = r.curve(usual, f)
	}
	for _, cut := range m.Text("cuts").Items {
		x, ok := r.value(textOf(cut), "cuts", f, f.Kind)
		if n := len(f.Cuts); ok && n > 0 && !(rounded(x) > rounded(f.Cuts[n-1])) {
			r.refuse("triage-unit", cut.Span, "the cuts of "+source.Quote(f.Name)+" do not rise here", "write them from the smallest to the largest")
		}
		f.Cuts = append(f.Cuts, x)
	}
	if cuts := m.Text("cuts").Shape; cuts != source.List && cuts != source.Empty {
		return // said where shapes are looked at
	}
	if n := len(f.Cuts); n == 0 || n >= triage.MaxOutcomes {
		r.refuse("triage-unit", f.NameSpan, fmt.Sprintf("the measured finding %s has %d cuts", source.Quote(f.Name), n),
			fmt.Sprintf("write one to %d values at which something else would be done: `cuts: [%s]`", triage.MaxOutcomes-1, exampleOf(f)))
	}
}

// unitHint offers the unit in which readers see such a value.
func unitHint(kind quantity.Kind) string {
	usual := map[quantity.Kind]string{
		quantity.Pressure: "mTorr", quantity.PressureRate: "mTorr/min", quantity.Throughput: "mbar·L/s", quantity.StandardFlow: "sccm",
		quantity.Temperature: "°C", quantity.Time: "min", quantity.Volume: "L", quantity.Length: "mm", quantity.Ratio: "\"%\"",
	}
	if usual[kind] == "" {
		usual[kind] = kind.SI()
	}
	hint := "write the unit that a reader is asked for: `unit: " + usual[kind] + "`"
	if kind == quantity.Ratio {
		hint += ", or leave it out of a plain number"
	}
	return hint
}

// curve reads a distribution: a median, and a standard deviation or, for what is spread by factors, the factor by which
// two thirds of all values lie off at most.
func (r *reader) curve(v source.Value, f *Finding) (triage.Curve, bool) {
	if v.Shape != source.Nested {
		r.refuse("shape", v.Span, f.Name+" holds "+v.Shape.String()+", not a distribution", "write `{middle: 3, factor: 2}`, or `{middle: 80 K, spread: 5 K}`")
		return triage.Curve{}, false
	}
	r.check(v.Map, "a distribution", CurveFields)
	spread, factor := text(v.Map, "spread"), text(v.Map, "factor")
	middle, ok := r.value(text(v.Map, "middle"), "middle", f, f.Kind)
	switch {
	case !ok:
		return triage.Curve{}, false
	case (spread.Text == "") == (factor.Text == ""):
		r.refuse("triage-unit", v.Span, "a distribution has one of spread and factor", "write `factor: 2` for what is spread by factors, `spread:` with a unit for the rest")
		return triage.Curve{}, false
	case factor.Text != "":
		return r.byFactor(middle, text(v.Map, "middle"), factor)
	}
	s, ok := r.value(spread, "spread", f, difference(f.Kind))
	if ok && !(s >= triage.Tiny) {
		r.refuse("triage-unit", spread.Span, "the spread "+source.Quote(spread.Text)+" is not above 0", "write the standard deviation; for what is very small in SI units a factor")
	}
	return triage.Curve{Middle: middle, Spread: s}, ok && s >= triage.Tiny
}

// A factor closer to 1 is no spread, one beyond a million no knowledge.
const leastFactor, mostFactor = 1.0001, 1e6

func (r *reader) byFactor(middle float64, at, factor Text) (triage.Curve, bool) {
	q, p := quantity.Parse(factor.Text, quantity.Ratio)
	if p != nil || q.Over || q.HasU || q.Unit.Symbol != "" || !(q.Value >= leastFactor && q.Value <= mostFactor) {
		r.refuse("triage-unit", factor.Span, "the factor "+source.Quote(factor.Text)+" is not a plain number above 1, up to a million", "write `factor: 2` where two thirds lie between half and twice the middle")
		return triage.Curve{}, false
	}
	if !(middle >= triage.Tiny) {
		r.refuse("triage-unit", at.Span, fmt.Sprintf("the middle of what is spread by factors is above 0, in SI units no less than %g", triage.Tiny), "write the median, or a spread in place of the factor")
		return triage.Curve{}, false
	}
	return triage.Curve{Middle: middle, Spread: math.Log(q.Value), Log: true}, true
}

func difference(k quantity.Kind) quantity.Kind {
	if k == quantity.Temperature {
		return quantity.TemperatureDifference
	}
	return k
}

func kindOf(name string) quantity.Kind {
	for _, k := range quantity.Kinds() {
		if k.Name() == name {
			return k
		}
	}
	return quantity.None
}

func kindNames() []string {
	var names []string
	for _, k := range quantity.Kinds() {
		names = append(names, k.Name())
	}
	return names
}
