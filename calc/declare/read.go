package declare

import (
	"math"

	"blankoff/calc/letters"
	"blankoff/calc/quantity"
)

// read parses and checks every entry. Blank means blank, never zero.
func (n *Numbers) read(pairs []Pair) *Fault {
	c := n.c
	count := len(c.Inputs)
	n.typed, n.pick = make([]quantity.Quantity, count), make([]string, count)
	n.given, n.has, n.assumed = make([]bool, count), make([]bool, count), make([]bool, count)
	n.x = make([]float64, count+len(c.Influences))
	n.tables = make([]*table, count)
	texts := make([]string, count)
	for i := range pairs {
		at := c.inputAt(pairs[i].Name)
		if at < 0 {
			return &Fault{Field: pairs[i].Name, Text: c.ID + " has no input " + quantity.Quote(pairs[i].Name) + "; it has " + c.inputNames()}
		}
		texts[at] = letters.TrimSpace(pairs[i].Text)
	}
	for i := range c.Inputs {
		in := &c.Inputs[i]
		n.typed[i].Unit = quantity.One // of what is blank, or no quantity
		n.given[i] = texts[i] != ""
		if !n.given[i] {
			texts[i] = in.Default
		}
		if wrong := n.readOne(i, texts[i]); wrong != "" {
			return &Fault{Field: in.ID, Text: n.say(in, wrong, texts[i])}
		}
	}
	return nil
}

// readOne reads input i and says what is wrong with it, "" for nothing; see say for the
// names in braces.
func (n *Numbers) readOne(i int, text string) string {
	in := &n.c.Inputs[i]
	switch {
	case text == "" && in.Required:
		return "{label} is blank; write {wanted}"
	case text == "":
		return ""
	}
	n.has[i] = true
	switch {
	case in.Columns != nil:
		return n.readTable(i, text)
	case in.Kinds == nil:
		return n.readChoice(i, text)
	}
	q := &n.typed[i]
	if !n.given[i] {
		*q = in.fallback
	} else {
		var problem *quantity.Problem
		if *q, problem = in.Parse(text); problem != nil {
			q.Unit = quantity.One
			if problem.NoUnit {
				return unitMissing
			}
			wrong := letters.Replace(problem.Text, "{", "(") // nothing typed is a name
			return letters.Replace(wrong, "; write ± 2 K", "; write ± "+n.amount("Δ2 K"))
		}
	}
	if wrong := in.check(q); wrong != "" {
		return wrong
	}
	if !q.HasU && !q.Over && in.Accuracy != "" {
		doubtful, problem := in.Parse(q.Text + " ± " + in.Accuracy)
		if problem != nil {
			return problem.Text // the number was so long that nothing could be added to it
		}
		*q, n.assumed[i] = doubtful, true
	}
	n.x[i] = q.Value
	return ""
}

// Parse reads what was typed for the input, without a look at its range. Where a plain number is wanted, the % of
// "0.0012 ± 1 %" is a share of it.
func (in *Input) Parse(text string) (quantity.Quantity, *quantity.Problem) {
	if in.Unit == "" && len(in.Kinds) == 1 && in.Kinds[0] == quantity.Ratio {
		return quantity.ParseNumber(text)
	}
	return quantity.Parse(text, in.Kinds...)
}

func (n *Numbers) readChoice(i int, text string) string {
	choices := n.c.Inputs[i].Choices
	for j := range choices {
		if quantity.SameWord(text, choices[j].Value) {
			n.pick[i] = choices[j].Value
			return ""
		}
	}
	return "{label} must be {wanted}"
}

// absurd is above every quantity of the trade, in any SI unit: what has no declared
// upper limit ends here, before products of it overflow.
const absurd = 1e30

// unitMissing never guesses: 500 may be mTorr or Pa, and the two differ by 7.5 times.
const unitMissing = "“{typed}” has no unit: write {typed} {units}"

// check refuses what no instrument or machine can give.
func (in *Input) check(q *quantity.Quantity) string {
	switch {
	case math.Abs(q.Value) > absurd || q.U > absurd:
		return "{label} is far above what is possible; check the number and its unit"
	case q.Over && in.MayBeOver:
		return ""
	case q.Over:
		return "OL is a meter's over-range sign; {label} needs a number, such as {sample}"
	case q.Gauge && in.Gauge && !in.most.below(q):
		return ""
	case q.Gauge && !in.Gauge:
		return "{label} must be absolute; turn the gauge reading into an absolute pressure first (calculator pressure)"
	case q.Kind == quantity.Ratio && in.Unit == "" && q.Unit.Symbol != "" && q.Unit.Symbol != "counts":
		return "{label} is a plain number, such as {sample}, not " + q.Unit.Symbol
	case q.Unit.Symbol == "" && in.Unit != "" && q.Kind == quantity.Ratio:
		return unitMissing
	case in.most.below(q):
		return "{label} is above what is possible here ({max}); check the number and its unit"
	case !in.least.above(q):
		return ""
	case q.Kind != quantity.Pressure || q.Value >= 0:
		return "{label} is below what is possible here ({min})"
	case in.Gauge:
		return "an absolute pressure cannot be negative; for a dial that counts from the ambient write “gauge”, as in -28 inHg gauge"
	}
	return "an absolute pressure cannot be negative"
}

// say fills a sentence about an entry in.
func (n *Numbers) say(in *Input, text, typed string) string {
	return fill(text, func(name string) string {
		switch name {
		case "label":
			return in.Label
		case "typed":
			return typed
		case "sample":
			return n.of(in, in.sample())
		case "min":
			return n.of(in, in.Min)
		case "max":
			return n.of(in, in.Max)
		case "units":
			if len(in.Units) == 0 {
				return in.Unit
			}
			return in.Unit + " or " + typed + " " + in.Units[0] + ", whichever it is"
		}
		return n.say(in, in.wanted(), typed)
	})
}

// of writes a quantity of the declaration of an input in the unit of choice.
func (n *Numbers) of(in *Input, text string) string {
	if in.Fixed {
		return text
	}
	if in.Kinds != nil && in.Kinds[0] == quantity.TemperatureDifference {
		text = "Δ" + text
	}
	return n.amount(text)
}

// wanted says what to write: "it with its unit, such as 120 mTorr".
func (in *Input) wanted() string {
	switch {
	case in.Columns != nil:
		return "a first line that names its columns and units, such as “" + in.Header() + "”, and the readings below it"
	case in.Kinds == nil:
		return "one of: " + in.choiceNames()
	case in.Unit == "":
		return "a number, such as {sample}"
	}
	return "it with its unit, such as {sample}"
}

// sample is an entry that would be accepted.
func (in *Input) sample() string {
	switch {
	case in.Default != "":
		return in.Default
	case in.usualLeast.value > 0:
		return in.UsualLow
	case in.UsualHigh != "":
		return in.UsualHigh
	}
	return "1 " + in.Unit
}

func (in *Input) choiceNames() string {
	names := make([]string, len(in.Choices))
	for i := range in.Choices {
		names[i] = in.Choices[i].Value
	}
	return letters.Join(names, ", ")
}

func (c *Calculator) inputNames() string {
	names := make([]string, len(c.Inputs))
	for i := range c.Inputs {
		names[i] = c.Inputs[i].ID
	}
	return letters.Join(names, ", ")
}

// remarks adds to a list what the reader should know about the entries: defaults used,
// accuracies assumed, readings of a comma, values outside the usual range.
func (n *Numbers) remarks(list []string) []string {
	for i := range n.c.Inputs {
		in, q := &n.c.Inputs[i], &n.typed[i]
		if n.assumed[i] {
			list = append(list, in.Label+" given without ±: ± "+n.amount("Δ"+in.Accuracy)+" taken.")
		}
		if n.given[i] && in.Kinds != nil && !q.Over && !q.Gauge {
			above := in.usualMost.below(q)
			if above || in.usualLeast.above(q) {
				list = append(list, in.Label+" is outside its usual range, "+n.of(in, in.UsualLow)+" to "+n.of(in, in.UsualHigh)+"; check number and unit.")
			}
			if q.Note != "" && (above || in.UsualHigh == "") {
				list = append(list, q.Note+".")
			}
		}
		if n.tables[i] != nil {
			list = append(list, n.tables[i].remarks...)
		}
	}
	return n.defaults(list)
}

// defaults says in one line for each reason which entries were filled in.
func (n *Numbers) defaults(list []string) []string {
	told := ""
	for i := range n.c.Inputs {
		because := n.c.Inputs[i].Because
		if because == "" || n.given[i] || because == told {
			continue
		}
		told = because
		text := ""
		for j := i; j < len(n.c.Inputs); j++ {
			if in := &n.c.Inputs[j]; in.Because == because && !n.given[j] {
				if text != "" {
					text += ", "
				}
				text += in.Label + " " + n.of(in, in.Default)
			}
		}
		list = append(list, "Not given, so taken "+because+": "+text+".")
	}
	return list
}
