package fault

import (
	"errors"
	"strconv"
	"strings"
	"unicode"

	"blankoff/build/source"
	"blankoff/calc/triage"
)

// Text is the model as the calculators read it on a phone and in the terminal (triage.Sheet), with the guides and texts
// left to the pages. A model that they would refuse gives an error.
func (m *Model) Text() (string, error) {
	if !m.Usable() {
		return "", errors.New("triage.yaml has faults")
	}
	text, _ := m.sheet()
	if _, wrong := triage.ReadSheet(text); wrong != "" {
		return "", errors.New("triage.yaml cannot be reckoned with: " + wrong)
	}
	return text, nil
}

// sheet is the text, with the place from which each of its lines comes.
func (m *Model) sheet() (string, []source.Span) {
	w := sheet{at: m.File.Whole()}
	w.line("triage 1")
	w.line("unlisted", number(m.Unlisted))
	for _, over := range m.HandOver {
		w.at = over.Reader.Span
		w.line("call", over.Reader.Text, number(over.Minutes))
	}
	for _, stop := range m.RuleOuts {
		w.at = stop.NameSpan
		w.line("stop", stop.Ask.Text)
	}
	for _, tool := range m.Tools() {
		w.line("tool", Tool(tool))
	}
	for _, f := range m.Findings {
		w.finding(f)
	}
	for _, c := range m.Causes {
		w.cause(m, c)
	}
	for _, p := range m.Pairs {
		w.at = p.Span
		w.line("pair", p.Causes[0].Text, p.Causes[1].Text, number(p.Weight))
	}
	for _, s := range m.Steps() {
		w.step(m, s)
	}
	return w.String(), w.places
}

// reckoned puts the model to the calculators' own reader, which has the last word on what can be reckoned with.
func (r *reader) reckoned() {
	text, places := r.model.sheet()
	_, wrong := triage.ReadSheet(text)
	if wrong == "" {
		return
	}
	at := r.model.File.Whole()
	where, what, _ := strings.Cut(wrong, ": ")
	if n, err := strconv.Atoi(strings.TrimPrefix(where, "line ")); err == nil && n >= 1 && n <= len(places) {
		at = places[n-1]
	}
	r.refuse("triage-size", at, "the calculators cannot reckon with this: "+what, "make it simpler, or its numbers rounder")
}

// Tool is the name of a tool in a request: without blanks, commas and semicolons, which part names there.
func Tool(name string) string { return strings.Join(strings.FieldsFunc(name, parting), "-") }

func parting(r rune) bool { return r == ',' || r == ';' || unicode.IsSpace(r) }

// sheet writes lines whose parts are parted by tabs.
type sheet struct {
	strings.Builder
	at     source.Span   // what is written now
	places []source.Span // of each line
}

func (w *sheet) line(parts ...string) {
	w.places = append(w.places, w.at)
	for i, part := range parts {
		parts[i] = strings.Join(strings.Fields(part), " ")
	}
	w.WriteString(strings.Join(parts, "\t") + "\n")
}

func (w *sheet) finding(f *Finding) {
	w.at = f.NameSpan
	if f.Measured() {
		w.line("value", f.Name, f.Kind.Name(), f.Unit.Symbol, numbers(f.Cuts), curveText(f.Plain))
	} else {
		w.line("choice", f.Name, strings.Join(f.answerNames(), " "), numbers(f.Usual))
	}
	if f.Called.Text != "" {
		w.line("called", f.Called.Text)
	}
	w.line("ask", f.Title.Text)
	for _, a := range f.Answers {
		if a.Text != "" {
			w.line("said", a.Name, a.Text)
		}
	}
	for _, g := range f.When {
		w.line("when", g.Finding.Text, names(g.Answers))
	}
}

func (w *sheet) cause(m *Model, c *Cause) {
	w.at = c.NameSpan
	w.line("cause", c.Name, c.Title.Text, c.Group.Text, number(c.Weight))
	for _, s := range c.Shows {
		shown := numbers(s.Given)
		if m.Finding(s.Finding.Text).Measured() {
			shown = curveText(s.Curve)
		}
		w.at = s.Finding.Span
		w.line("shows", s.Finding.Text, shown)
	}
}

func (w *sheet) step(m *Model, s *Step) {
	word, minutes, tells := "test", s.Minutes+m.Costs[s.Cost.Text], names(s.Tells)
	if len(s.Cures) > 0 {
		word, minutes = "repair", minutes+m.Proof
		var cures []string
		for _, cure := range s.Cures {
			cures = append(cures, cure.Cause.Text+"="+number(cure.Chance))
		}
		tells = strings.Join(cures, " ")
	}
	var tools []string
	for _, tool := range s.Tools {
		tools = append(tools, Tool(tool.Text))
	}
	w.at = s.NameSpan
	w.line(word, s.Name, s.Title.Text, number(s.Minutes), number(minutes), names(s.Who), strings.Join(tools, " "), names(s.Needs), tells)
}

// number writes nine figures: more than anybody knows of these, and small on the wire.
func number(x float64) string { return strconv.FormatFloat(x, 'g', 9, 64) }

func numbers(list []float64) string {
	var all []string
	for _, x := range list {
		all = append(all, number(x))
	}
	return strings.Join(all, " ")
}

func curveText(c triage.Curve) string {
	text := number(c.Middle) + " " + number(c.Spread)
	if c.Log {
		text += " log"
	}
	return text
}

func names(list []Text) string {
	var all []string
	for _, t := range list {
		all = append(all, t.Text)
	}
	return strings.Join(all, " ")
}
