package render

import (
	"encoding/json"
	"html/template"
	"math"
	"slices"
	"strconv"
	"strings"

	"blankoff/build/guide"
	"blankoff/calc"
	"blankoff/calc/declare"
	"blankoff/calc/quantity"
)

func calculators() []*declare.Calculator { return calc.All() }

// placed is the calculator that a block of the text puts on the page.
func (p *page) placed(block *guide.CalculatorBlock) (CalculatorView, bool) {
	c := calc.Find(block.ID)
	if c == nil {
		return CalculatorView{}, false
	}
	var entries []entry
	for _, preset := range block.Presets {
		entries = append(entries, p.preset(preset))
	}
	view := p.calculatorView(c, "c"+strconv.Itoa(block.Index), p.root+"calculators/"+c.ID+"/", entries)
	p.whose(&view, block, entries)
	return view, true
}

// entry is what a guide or an example writes into a field.
type entry struct {
	name, text string
	known      bool     // set by the machine's file, not read off by the reader
	cards      []string // what each machine of the page has there; none where they agree, or where the guide names one machine
	cardsHTML  template.HTML
}

// calculatorKey is what the same calculator has in common wherever it answers the same way.
type calculatorKey struct {
	block, id, href string
	folded          bool
	machines, whose string
	verdict         string
	outputs         string // names of those that it gave
	worked          bool
	working         int // lines
	cautions        int
}

func (p *page) calculator(out *memory, v CalculatorView) {
	a := &v.Answer
	key := calculatorKey{block: v.Block, id: v.ID, href: v.Href, folded: v.Folded != "", whose: v.Whose, worked: a.Worked, working: len(a.Working), cautions: len(a.Cautions)}
	for _, m := range v.Machines {
		key.machines += m.Value + "\n" + m.Label + "\n"
	}
	texts := []any{&v.Sheet, &v.Inputs, &v.More, &a.Plot}
	if a.Verdict != nil {
		key.verdict = a.Verdict.Is
		texts = append(texts, &a.Verdict.Because)
	}
	for i := range a.Outputs {
		o := &a.Outputs[i]
		key.outputs += " " + o.ID
		texts = append(texts, &o.Value, &o.Text, &o.Also, &o.Table)
	}
	a.Working, a.Cautions = slices.Clone(a.Working), slices.Clone(a.Cautions) // the declaration may own them
	for _, lines := range [][]string{a.Working, a.Cautions} {
		for i := range lines {
			texts = append(texts, &lines[i])
		}
	}
	p.fillIn(out, "calculator", &v, key, texts...)
}

// calculatorView fills the form with entries and computes their answer.
func (p *page) calculatorView(c *declare.Calculator, block, href string, entries []entry) CalculatorView {
	view := CalculatorView{Block: block, ID: c.ID, Title: c.Title, Href: href}
	request := declare.Request{ID: c.ID}
	written := map[string]entry{}
	for _, e := range entries {
		request.In = append(request.In, declare.Pair{Name: e.name, Text: e.text})
		written[e.name] = e
	}
	for i := range c.Inputs {
		in, e := &c.Inputs[i], written[c.Inputs[i].ID]
		e.cardsHTML = p.cards(in, e)
		switch {
		case in.Required || e.text != "" || e.cards != nil:
			view.Inputs = append(view.Inputs, p.field(c, in, block, e))
		case href != "": // blank on all pages alike, so they come when somebody asks
			view.Folded = p.root + p.assets.Entries
			continue
		default:
			view.More = append(view.More, p.field(c, in, block, e))
		}
		if in.Choices != nil && e.text == "" && in.Default != "" { // a list of choices always sends one
			request.In = append(request.In, declare.Pair{Name: in.ID, Text: in.Default})
		}
		p.speakOf(in, e.text)
	}
	request.Plot = true
	if c.Plot != nil {
		view.Sheet = p.sheetOfPictures()
	}
	answer := calc.Answer(request)
	view.Labels = labels(c, answer)
	view.Answer = answerView(answer, href == "")
	return view
}

// speakOf marks the pressure of an entry on the ladder.
func (p *page) speakOf(in *declare.Input, text string) {
	if text == "" || in.Kinds == nil {
		return
	}
	if q, problem := quantity.Parse(text, in.Kinds...); problem == nil && q.Kind == quantity.Pressure && !q.Gauge && !q.Over {
		p.speak(q.Value, quantity.Format(q.Value, -1, q.Unit, 4))
	}
}

// help is the sentence below a field, with what stands in for a blank one.
func help(in *declare.Input) string {
	if in.Columns != nil {
		return strings.TrimSpace(in.Help + " First line: " + in.Header())
	}
	if in.Default == "" || in.Kinds == nil {
		return in.Help
	}
	return strings.TrimSpace(in.Help + " Blank: " + in.Default + ".")
}

// unitOptions offers the declared units and the one written. Where none was written
// the first is only an offer for a number that the reader will type: it stands beside
// the field in plain sight.
func unitOptions(in *declare.Input, chosen string) []Option {
	if in.Unit == "" {
		return nil
	}
	units := append([]string{in.Unit}, in.Units...)
	known := chosen == ""
	for _, u := range units {
		known = known || u == chosen
	}
	if !known {
		units = append([]string{chosen}, units...)
	}
	if chosen == "" {
		chosen = in.Unit
	}
	options := make([]Option, len(units))
	for i, u := range units {
		options[i] = Option{Value: u, Label: u, Chosen: u == chosen}
	}
	return options
}

// verdictWords are the words of a verdict as a page says them; answer.ts has the same.
var verdictWords = map[string]struct{ is, word string }{
	declare.Pass:       {"pass", "Pass"},
	declare.Fail:       {"fail", "Fail"},
	declare.CannotTell: {"cannot-tell", "Cannot tell yet"},
}

// answerView is an answer as a page shows it; of working and plot only the room, unless it is to be whole.
func answerView(a declare.Answer, whole bool) AnswerView {
	if a.Fault != nil {
		return AnswerView{Waiting: waitingText}
	}
	view := AnswerView{Worked: len(a.Working) > 0, Cautions: a.Cautions}
	if whole {
		view.Working = a.Working
	}
	if a.Plot != nil {
		view.Plot = roomOf(a.Plot)
		if whole {
			view.Plot = plotted(a.Plot)
		}
	}
	if v, ok := verdictWords[a.Verdict.Is]; ok {
		view.Verdict = &VerdictView{Is: v.is, Word: v.word, Because: a.Verdict.Text}
	}
	for _, g := range a.Out {
		out := OutputView{ID: g.ID, Label: g.Label, Text: g.Text, Also: strings.Join(g.Also, "; ")}
		if g.HasValue {
			out.Value = number(g.Value)
		}
		if g.Columns != nil {
			out.Table = givenTable(&g)
		}
		view.Outputs = append(view.Outputs, out)
	}
	return view
}

// waitingText stands where an answer would, while entries are missing or wrong;
// calculator.ts has the same.
const waitingText = "No answer yet: one entry needs a look."

// number writes a value as a script does (ECMAScript, Number::toString), to 12 figures:
// the static answer and the one that a script makes are compared letter for letter.
func number(x float64) string {
	x, _ = strconv.ParseFloat(strconv.FormatFloat(x, 'g', 12, 64), 64)
	if size := math.Abs(x); size == 0 || size >= 1e-6 && size < 1e21 {
		return strconv.FormatFloat(x, 'f', -1, 64)
	}
	text := strconv.FormatFloat(x, 'e', -1, 64)
	mantissa, exponent, _ := strings.Cut(text, "e")
	sign := exponent[:1]
	return mantissa + "e" + sign + strings.TrimLeft(exponent[1:], "0")
}

// labels are the names of the outputs that an answer does not show, for the page's script, as JSON; the others stand in the
// page. It is empty where all do.
func labels(c *declare.Calculator, a declare.Answer) string {
	names := map[string]string{}
	for _, o := range c.Outputs {
		if !slices.ContainsFunc(a.Out, func(g declare.Given) bool { return g.ID == o.ID }) {
			names[o.ID] = o.Label
		}
	}
	if len(names) == 0 {
		return ""
	}
	text, _ := json.Marshal(names) // a map of texts always has a JSON form
	return string(text)
}
