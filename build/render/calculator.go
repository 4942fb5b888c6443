package render

import (
	"html/template"
	"strconv"
	"strings"

	"blankoff/build/guide"
	"blankoff/calc"
	"blankoff/calc/declare"
	"blankoff/calc/quantity"
	"blankoff/calc/show"
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

// calculatorKey is what the same calculator has in common wherever it stands.
type calculatorKey struct {
	block, id, href string
	folded          bool
	machines, whose string
}

func (p *page) calculator(out *memory, v CalculatorView) {
	key := calculatorKey{block: v.Block, id: v.ID, href: v.Href, folded: v.Folded != "", whose: v.Whose}
	for _, m := range v.Machines {
		key.machines += m.Value + "\n" + m.Label + "\n"
	}
	p.fillIn(out, "calculator", &v, key, &v.Sheet, &v.Inputs, &v.More, &v.Answer)
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
	view.Answer = answered(&answer, href != "")
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

// answered is an answer as a page shows it; of working and plot only the rooms, unless it is to be whole.
func answered(a *declare.Answer, rooms bool) template.HTML {
	if a.Fault != nil {
		return template.HTML(show.Waiting(waitingText))
	}
	if rooms {
		return template.HTML(show.Rooms(a))
	}
	return template.HTML(show.Answer(a))
}

// waitingText also stands in calculator.ts.
const waitingText = "No answer yet: one entry needs a look."
