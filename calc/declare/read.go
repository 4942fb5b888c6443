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
	for _, pair := range pairs {
		in := c.Input(pair.Name)
		if in == nil {
			return &Fault{pair.Name, c.ID + " has no input " + quantity.Quote(pair.Name) + "; it has " + c.inputNames()}
		}
		texts[n.inputIndex(pair.Name)] = letters.TrimSpace(pair.Text)
	}
	for i := range c.Inputs {
		if fault := n.readOne(i, texts[i]); fault != nil {
			return fault
		}
	}
	return nil
}

func (n *Numbers) readOne(i int, text string) *Fault {
	in := &n.c.Inputs[i]
	n.typed[i].Unit = quantity.One // of what is blank, or no quantity
	n.given[i] = text != ""
	if text == "" {
		if text = in.Default; text == "" {
			if in.Required {
				return &Fault{in.ID, in.Label + " is blank; write " + in.wanted()}
			}
			return nil
		}
	}
	n.has[i] = true
	switch {
	case in.Columns != nil:
		return n.readTable(i, text)
	case in.Kinds == nil:
		return n.readChoice(i, text)
	}
	q, problem := in.fallback, (*quantity.Problem)(nil)
	if n.given[i] {
		q, problem = quantity.Parse(text, in.Kinds...)
	}
	if problem != nil {
		if problem.NoUnit {
			return &Fault{in.ID, in.unitMissing(text)}
		}
		return &Fault{in.ID, problem.Text}
	}
	if fault := in.check(&q); fault != nil {
		return fault
	}
	if !q.HasU && !q.Over && in.Accuracy != "" {
		if q, problem = quantity.Parse(q.Text+" ± "+in.Accuracy, in.Kinds...); problem != nil {
			return &Fault{in.ID, problem.Text}
		}
		n.assumed[i] = true
	}
	n.typed[i], n.x[i] = q, q.Value
	return nil
}

func (n *Numbers) readChoice(i int, text string) *Fault {
	in := &n.c.Inputs[i]
	for _, choice := range in.Choices {
		if quantity.SameWord(text, choice.Value) {
			n.pick[i] = choice.Value
			return nil
		}
	}
	return &Fault{in.ID, in.Label + " must be one of: " + in.choiceNames()}
}

// absurd is above every quantity of the trade, in any SI unit: what has no declared
// upper limit ends here, before products of it overflow.
const absurd = 1e30

// check refuses what no instrument or machine can give.
func (in *Input) check(q *quantity.Quantity) *Fault {
	switch {
	case math.Abs(q.Value) > absurd || q.U > absurd:
		return &Fault{in.ID, in.Label + " is far above what is possible; check the number and its unit"}
	case q.Over && in.MayBeOver:
		return nil
	case q.Over:
		return &Fault{in.ID, "OL is a meter's over-range sign; " + in.Label + " needs a number, such as " + in.sample()}
	case q.Gauge && in.Gauge && !in.most.below(q):
		return nil
	case q.Gauge && !in.Gauge:
		return &Fault{in.ID, in.Label + " must be absolute; turn the gauge reading into an absolute pressure first (calculator pressure)"}
	case q.Kind == quantity.Ratio && in.Unit == "" && q.Unit.Symbol != "" && q.Unit.Symbol != "counts":
		return &Fault{in.ID, in.Label + " is a plain number, such as " + in.sample() + ", not " + q.Unit.Symbol}
	case q.Unit.Symbol == "" && in.Unit != "" && q.Kind == quantity.Ratio:
		return &Fault{in.ID, in.unitMissing(q.Text)}
	}
	if in.least.above(q) {
		text := in.Label + " is below what is possible here (" + in.Min + ")"
		if q.Kind == quantity.Pressure && q.Value < 0 {
			text = "an absolute pressure cannot be negative"
			if in.Gauge {
				text += "; for a dial that counts from the ambient write “gauge”, as in -28 inHg gauge"
			}
		}
		return &Fault{in.ID, text}
	}
	if in.most.below(q) {
		return &Fault{in.ID, in.Label + " is above what is possible here (" + in.Max + "); check the number and its unit"}
	}
	return nil
}

// wanted says what to write: "a pressure with its unit, such as 120 mTorr".
func (in *Input) wanted() string {
	switch {
	case in.Columns != nil:
		return "a first line that names its columns and units, such as " + in.header() + ", and the readings below it"
	case in.Kinds == nil:
		return "one of: " + in.choiceNames()
	case in.Unit == "":
		return "a number, such as " + in.sample()
	}
	return "it with its unit, such as " + in.sample()
}

// unitMissing never guesses: 500 may be mTorr or Pa, and the two differ by 7.5 times.
func (in *Input) unitMissing(text string) string {
	said := "“" + text + "” has no unit: write " + text + " " + in.Unit
	if len(in.Units) > 0 {
		said += " or " + text + " " + in.Units[0] + ", whichever it is"
	}
	return said
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
	for i, choice := range in.Choices {
		names[i] = choice.Value
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

// remarks lists what the reader should know about the entries: defaults used,
// accuracies assumed, readings of a comma, values outside the usual range.
func (n *Numbers) remarks() []string {
	var list []string
	for i := range n.c.Inputs {
		in, q := &n.c.Inputs[i], &n.typed[i]
		if n.assumed[i] {
			list = append(list, in.Label+" given without ±: ± "+in.Accuracy+" taken.")
		}
		if n.given[i] && in.Kinds != nil && !q.Over && !q.Gauge {
			list = append(list, in.unusual(q)...)
		}
		if n.tables[i] != nil {
			list = append(list, n.tables[i].remarks...)
		}
	}
	return append(list, n.defaults()...)
}

// defaults says in one line for each reason which entries were filled in.
func (n *Numbers) defaults() []string {
	var list []string
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
				text += in.Label + " " + in.Default
			}
		}
		list = append(list, "Not given, so taken "+because+": "+text+".")
	}
	return list
}

func (in *Input) unusual(q *quantity.Quantity) []string {
	var list []string
	below, above := in.usualLeast.above(q), in.usualMost.below(q)
	if below || above {
		list = append(list, in.Label+" is outside its usual range, "+in.UsualLow+" to "+in.UsualHigh+"; check number and unit.")
	}
	if q.Note != "" && (above || in.UsualHigh == "") {
		list = append(list, q.Note+".")
	}
	return list
}
