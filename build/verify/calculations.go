package verify

import (
	"math"
	"slices"
	"strings"

	"blankoff/build/guide"
	"blankoff/build/load"
	"blankoff/build/source"
	"blankoff/calc"
	"blankoff/calc/declare"
	"blankoff/calc/quantity"
)

// calcRights asks the calculator, once for each machine that its inputs speak of.
func (c *checker) calcRights(page *guide.Guide, fact *guide.Fact) ([]right, bool) {
	ref := fact.Calc
	calculator := c.calculator(ref.ID, ref.IDSpan)
	if calculator == nil || !c.knownInputs(calculator, ref.Inputs) || !c.knownOutput(calculator, ref) || !c.oneOutput(fact) {
		return nil, false
	}
	cases, ok := c.cases(page, ref.Inputs)
	if !ok {
		return nil, false
	}
	var list []right
	for _, in := range cases {
		answer := c.answers.of(ref.ID, in)
		if answer.Fault != nil {
			c.refuse("calc", faultPlace(answer.Fault, ref.Inputs, fact.Span), faultText(calculator, answer.Fault), "change the input so that the calculator takes it")
			return nil, false
		}
		given, found := pick(answer, ref.Out)
		if !found {
			c.refuse("calc", fact.Span, ref.ID+" gives no "+given.ID+" for these inputs", "choose another output with &out=, or give more inputs")
			return nil, false
		}
		if given.Columns != nil {
			c.refuse("calc", fact.Span, given.ID+" of "+ref.ID+" is a table, which no text can equal", "choose another output with &out=")
			return nil, false
		}
		list = append(list, right{measureOf(given), ref.ID})
	}
	return list, true
}

func measureOf(g declare.Given) measure {
	unit, known := quantity.FindUnit(g.Unit)
	if !g.HasValue || !known {
		return measure{Text: g.Text}
	}
	if g.Kind == quantity.TemperatureDifference {
		unit = unit.Difference()
	}
	return given(g.Text, quantity.Quantity{Value: g.SI, U: g.U * math.Abs(unit.Span(1)), HasU: g.HasU, Kind: g.Kind, Unit: unit, Text: g.Text})
}

// pick finds an output of an answer; no name means the calculator's first, whether it was given or not. What was not
// found has its name alone.
func pick(a declare.Answer, name string) (declare.Given, bool) {
	if name == "" {
		name = calc.Find(a.ID).Outputs[0].ID
	}
	for _, g := range a.Out {
		if g.ID == name {
			return g, true
		}
	}
	return declare.Given{ID: name}, false
}

func (c *checker) calculator(id string, span source.Span) *declare.Calculator {
	found := calc.Find(id)
	if found == nil {
		known := names(calc.All(), func(c *declare.Calculator) string { return c.ID })
		c.refuse("unknown-calculator", span, "there is no calculator "+source.Quote(id), source.DidYouMean(id, known))
	}
	return found
}

func (c *checker) knownInputs(calculator *declare.Calculator, presets []guide.Preset) bool {
	known := names(calculator.Inputs, func(in declare.Input) string { return in.ID })
	ok := true
	for i, preset := range presets {
		if !slices.Contains(known, preset.Name) {
			ok = false
			c.refuse("unknown-input", preset.NameSpan, calculator.ID+" has no input "+source.Quote(preset.Name), source.DidYouMean(preset.Name, known))
		}
		if slices.ContainsFunc(presets[:i], func(p guide.Preset) bool { return p.Name == preset.Name }) {
			ok = false
			c.refuse("duplicate-key", preset.NameSpan, "the input "+source.Quote(preset.Name)+" is written twice", "keep one")
		}
	}
	return ok
}

func (c *checker) knownOutput(calculator *declare.Calculator, ref *guide.CalcRef) bool {
	written := ref.OutSpan.File != nil
	if !written || calculator.Output(ref.Out) != nil {
		return true
	}
	known := names(calculator.Outputs, func(out declare.Output) string { return out.ID })
	c.refuse("unknown-output", ref.OutSpan, calculator.ID+" has no output "+source.Quote(ref.Out), source.DidYouMean(ref.Out, known))
	return false
}

// oneOutput refuses a fact that names two outputs.
func (c *checker) oneOutput(fact *guide.Fact) bool {
	_, query, _ := strings.Cut(fact.Target, "?")
	if strings.Count("&"+query, "&out=") < 2 {
		return true
	}
	c.refuse("duplicate-key", fact.Span, "out= is written twice, and a text can equal one output only", "keep one")
	return false
}

// cases gives the inputs with every spec: replaced by the machine's value: one case for each
// machine of the header, or a single one when no input speaks of them.
func (c *checker) cases(page *guide.Guide, presets []guide.Preset) ([][]declare.Pair, bool) {
	machines := []*load.Machine{nil}
	for _, p := range presets {
		if p.Spec != nil && p.Spec.Machine == "" {
			list, ok := c.machinesOf(page, p.Spec)
			if !ok {
				return nil, false
			}
			machines = list
		}
	}
	var cases [][]declare.Pair
	all := true
	for _, m := range machines {
		in, ok := c.filled(page, m, presets)
		all = all && ok
		cases = append(cases, in)
	}
	return cases, all
}

func (c *checker) filled(page *guide.Guide, m *load.Machine, presets []guide.Preset) ([]declare.Pair, bool) {
	var in []declare.Pair
	all := true
	for _, p := range presets {
		text := p.Text
		if p.Spec != nil {
			of := m
			if p.Spec.Machine != "" {
				named, ok := c.machinesOf(page, p.Spec)
				if !ok {
					return nil, false
				}
				of = named[0]
			}
			value, ok := c.specValue(of, p.Spec)
			text, all = value.Text.Text, all && ok
		}
		in = append(in, declare.Pair{Name: p.Name, Text: text})
	}
	return in, all
}

// faultPlace is where the input stands that the calculator refused.
func faultPlace(fault *declare.Fault, presets []guide.Preset, whole source.Span) source.Span {
	for _, p := range presets {
		if p.Name == fault.Field {
			return p.Span
		}
	}
	return whole
}

func faultText(calculator *declare.Calculator, fault *declare.Fault) string {
	return strings.TrimSpace(calculator.ID + " refuses " + fault.Field + ": " + fault.Text)
}
