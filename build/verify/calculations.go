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
	if calculator == nil || !c.knownInputs(calculator, ref.Inputs) || !c.knownOutput(calculator, fact) {
		return nil, false
	}
	cases, ok := c.cases(page, ref.Inputs)
	if !ok {
		return nil, false
	}
	var list []right
	for _, one := range cases {
		answer := c.answers.of(ref.ID, one.in)
		if answer.Fault != nil {
			c.refuse("calc", faultPlace(answer.Fault, ref.Inputs, fact.Span), faultText(calculator, answer.Fault), "change the input so that the calculator takes it")
			return nil, false
		}
		given, ok := c.result(fact, calculator, answer)
		if !ok {
			return nil, false
		}
		list = append(list, right{measureOf(given), ref.ID, one.machine})
	}
	return list, true
}

// result picks the output that a fact is about; no name means the calculator's first.
func (c *checker) result(fact *guide.Fact, calculator *declare.Calculator, answer declare.Answer) (declare.Given, bool) {
	name := fact.Calc.Out
	if name == "" {
		name = calculator.Outputs[0].ID
	}
	i := slices.IndexFunc(answer.Out, func(g declare.Given) bool { return g.ID == name })
	switch {
	case i < 0:
		c.refuse("calc", fact.Span, calculator.ID+" gives no "+name+" for these inputs", "choose another output with &out=, or give more inputs")
		return declare.Given{}, false
	case answer.Out[i].Columns != nil:
		c.refuse("calc", fact.Span, name+" of "+calculator.ID+" is a table, which no text can equal", "choose another output with &out=")
		return declare.Given{}, false
	}
	return answer.Out[i], true
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

func (c *checker) knownOutput(calculator *declare.Calculator, fact *guide.Fact) bool {
	ref := fact.Calc
	asked := 0
	_, query, _ := strings.Cut(fact.Target, "?")
	for pair := range strings.SplitSeq(query, "&") {
		if strings.HasPrefix(pair, "out=") {
			asked++
		}
	}
	if asked > 1 {
		c.refuse("duplicate-key", fact.Span, "out= is written twice, and a text can equal one output only", "keep one")
		return false
	}
	if asked == 0 || calculator.Output(ref.Out) != nil {
		return true
	}
	known := names(calculator.Outputs, func(out declare.Output) string { return out.ID })
	c.refuse("unknown-output", ref.OutSpan, calculator.ID+" has no output "+source.Quote(ref.Out), source.DidYouMean(ref.Out, known))
	return false
}

// calculation is what a calculator is asked, and the machine that is spoken of.
type calculation struct {
	in      []declare.Pair
	machine string
}

// cases gives the inputs with every spec: replaced by the machine's value: one case for each
// machine of the header, or a single one when no input speaks of them.
func (c *checker) cases(page *guide.Guide, presets []guide.Preset) ([]calculation, bool) {
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
	var cases []calculation
	all := true
	for _, m := range machines {
		in, ok := c.filled(page, m, presets)
		all = all && ok
		one := calculation{in: in}
		if m != nil {
			one.machine = m.Name
		}
		cases = append(cases, one)
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
			text, all = value, all && ok
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
