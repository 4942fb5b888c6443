package machine

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"blankoff/build/source"
	"blankoff/calc/fitting"
	"blankoff/calc/quantity"
)

// Problem is what is wrong with a value, and what to do.
type Problem struct {
	Rule          string // value-kind, value-form or value-size
	Message, Hint string
}

// Check looks at the text of a value by itself; nil if it can be true.
func (e Entry) Check(text string) *Problem {
	switch e.Form {
	case Exact, Measure:
		return e.checkOne(text)
	case Range:
		return e.checkRange(text)
	case Choice, Thread:
		return e.oneOf(text, e.Known())
	case Pins:
		return e.checkPins(text)
	}
	return nil
}

// Known are the texts that the value can have, where they are few.
func (e Entry) Known() []string {
	if e.Form == Thread {
		return fitting.Threads()
	}
	return e.Choices
}

func (e Entry) wrong(rule, message, hint string) *Problem {
	return &Problem{Rule: rule, Message: message, Hint: hint}
}

// asIn is the hint for a text that cannot be understood.
func (e Entry) asIn() string { return "write it as in `" + e.Name + ": " + e.Example + "`" }

func (e Entry) checkOne(text string) *Problem {
	value, problem := quantity.Parse(text, e.Kind)
	switch {
	case problem != nil:
		return e.unread(text, problem)
	case value.Over:
		return e.wrong("value-form", e.Name+": a meter shows "+quote(text)+" beyond its range; that is no value", e.asIn())
	case value.Gauge:
		return e.wrong("value-form", e.Name+": "+quote(text)+" is counted from the air outside, which differs from place to place", "write the absolute pressure, "+e.asIn()[len("write it "):])
	case e.Form == Exact && value.HasU:
		return e.wrong("value-form", e.Name+" is one exact figure; ± makes no sense of "+quote(text), "write it without ±")
	case value.HasU && e.Kind != quantity.Temperature && quantity.CoverageFactor*value.U >= math.Abs(value.Value):
		return e.wrong("value-form", e.Name+": what stands behind ± is as large as the value itself", "write the value, then how far it may be off, as in 24.0 L ± 1.0 L")
	}
	return e.checkSize(text, value)
}

// unread says why a text is no such value: another kind, or none at all.
func (e Entry) unread(text string, problem *quantity.Problem) *Problem {
	if r, rangeProblem := quantity.ParseRange(text); rangeProblem == nil && r.Low.Kind == e.Kind {
		return e.wrong("value-form", e.Name+" is one value; "+quote(text)+" is a range", e.asIn())
	}
	if isQuantity(text) {
		return e.wrong("value-kind", e.Name+": "+problem.Text, e.asIn())
	}
	return e.wrong("value-form", e.Name+": "+problem.Text, e.asIn())
}

// isQuantity tells whether a text is a value or a range of any kind.
func isQuantity(text string) bool {
	_, single := quantity.Parse(text)
	_, ranged := quantity.ParseRange(text)
	return single == nil || ranged == nil
}

func (e Entry) checkRange(text string) *Problem {
	value, problem := quantity.ParseRange(text, e.Kind)
	if problem == nil {
		for _, end := range []quantity.Quantity{value.Low, value.High} {
			if wrong := e.checkSize(text, end); wrong != nil {
				return wrong
			}
		}
		return nil
	}
	if _, single := quantity.Parse(text, e.Kind); single == nil {
		return e.wrong("value-form", e.Name+" needs two ends; "+quote(text)+" is one value", e.asIn())
	}
	if isQuantity(text) {
		return e.wrong("value-kind", e.Name+": "+problem.Text, e.asIn())
	}
	return e.wrong("value-form", e.Name+": "+problem.Text, e.asIn())
}

// checkSize holds a value against what is physically possible.
func (e Entry) checkSize(text string, value quantity.Quantity) *Problem {
	least, most := e.bounds()
	const slack = 1e-9 // what binary fractions cannot hold
	size := math.Max(math.Abs(least), math.Abs(most))
	if value.Value >= least-slack*size && value.Value <= most+slack*size {
		return nil
	}
	return e.wrong("value-size", fmt.Sprintf("%s: %s is impossible for a small freeze dryer", e.Name, quote(text)),
		"look at unit and decimal mark; possible is "+e.Least+" to "+e.Most)
}

func (e Entry) bounds() (least, most float64) {
	low, _ := quantity.Parse(e.Least, e.Kind)
	high, _ := quantity.Parse(e.Most, e.Kind)
	return low.Value, high.Value
}

func (e Entry) oneOf(text string, known []string) *Problem {
	if slices.Contains(known, text) {
		return nil
	}
	return e.wrong("value-form", e.Name+": "+quote(text)+" is not known here", "write one of "+strings.Join(known, ", "))
}

func (e Entry) checkPins(text string) *Problem {
	if list := PinsOf(text); len(list) >= 2 {
		return nil
	}
	return e.wrong("value-form", e.Name+": "+quote(text)+" is no list of different pins", e.asIn())
}

// PinsOf reads "1 and 4"; nothing if the text is no list of different pins.
func PinsOf(text string) []int {
	var list []int
	for word := range strings.SplitSeq(text, " and ") {
		n, err := strconv.Atoi(strings.TrimSpace(word))
		if err != nil || n < 1 || n > MostPins || slices.Contains(list, n) {
			return nil
		}
		list = append(list, n)
	}
	return list
}

func quote(text string) string { return source.Quote(text) }
