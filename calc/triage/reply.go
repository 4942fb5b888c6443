package triage

import (
	"math"

	"blankoff/calc/declare"
	"blankoff/calc/letters"
	"blankoff/calc/quantity"
)

const (
	shown    = 0.005 // causes below are not listed
	sure     = 0.8   // of one cause, or one group: then the triage has its answer
	ceiling  = 0.95  // no cause is shown as surer: answers are not as independent as the reckoning takes them
	strange  = 0.05  // an answer less probable than this, given the others, is to be checked again
	paired   = 0.1   // a pair above this is mentioned
	mostNext = 6     // steps
	mostTurn = 3
)

// sheaf gathers the tables of an answer. Cells are added one by one in place: they are large, and copies of them weigh.
type sheaf struct {
	*job
	declare.Answer
	steps []Choice
}

// reply puts all that follows into tables.
func (j *job) reply() declare.Answer {
	s := &sheaf{job: j, steps: j.next()}
	s.ID = ID
	s.likely()
	s.groups()
	s.toGo()
	s.nexts()
	s.heard()
	s.doneSoFar()
	s.turns()
	s.Verdict.Is = declare.CannotTell
	s.Verdict.Text = s.verdict()
	s.cautions()
	s.report()
	return s.Answer
}

// table begins one; a name with # before it is that of a column of numbers.
func (s *sheaf) table(id, label, columns string) {
	s.Out = append(s.Out, declare.Given{ID: id, Label: label, Rows: [][]declare.Cell{}})
	g := s.given()
	for _, name := range split(columns, ' ') {
		bare, number := letters.CutPrefix(name, "#")
		g.Columns = append(g.Columns, declare.Column{ID: bare, Label: bare})
		if number {
			g.Columns[len(g.Columns)-1].Kinds = ratio
		}
	}
}

var ratio = []quantity.Kind{quantity.Ratio}

func (s *sheaf) given() *declare.Given { return &s.Out[len(s.Out)-1] }

// row begins a row, with texts.
func (s *sheaf) row(texts ...string) {
	g := s.given()
	g.Rows = append(g.Rows, make([]declare.Cell, 0, len(g.Columns)))
	s.text(texts...)
}

// cell adds a place to the last row.
func (s *sheaf) cell() *declare.Cell {
	g := s.given()
	row := &g.Rows[len(g.Rows)-1]
	*row = append(*row, declare.Cell{})
	return &(*row)[len(*row)-1]
}

// text adds texts: many in one call, which is shorter on the way to a phone.
func (s *sheaf) text(texts ...string) {
	for _, text := range texts {
		s.cell().Text = text
	}
}

// number adds one that is rounded to 1/steps: what lies beyond differs between machines.
func (s *sheaf) number(x, steps float64, text string) {
	c := s.cell()
	c.Value, c.Text, c.IsNumber = math.Round(x*steps)/steps, text, true
}

func (s *sheaf) share(p float64) { s.number(p, 1e6, percent(p)) }

func (s *sheaf) minutes(x float64) { s.number(x, 1e3, whole(x)) }

func whole(x float64) string { return letters.Whole(int(math.Round(x))) }

func percent(p float64) string {
	switch n := math.Round(100 * p); {
	case n < 1:
		return "under 1 %"
	case n > 99:
		return "over 99 %"
	default:
		return whole(n) + " %"
	}
}

// most is how sure a cause is shown.
func most(p float64) float64 { return math.Min(p, ceiling) }

// put writes the words into the places of a sentence that are marked with _.
func put(sentence string, words ...string) string {
	size := len(sentence)
	for i := range words {
		size += len(words[i])
	}
	out := make([]byte, 0, size)
	for i := 0; i < len(sentence); i++ {
		if sentence[i] == '_' {
			out, words = append(out, words[0]...), words[1:]
			continue
		}
		out = append(out, sentence[i])
	}
	return string(out)
}

// ranked gives the numbers 0 to n−1 with the largest first; equal ones stay in their order.
func ranked(n int, of func(int) float64) []int {
	order, size := make([]int, n), make([]float64, n)
	for i := range order {
		order[i], size[i] = i, of(i)
		for k := i; k > 0 && size[order[k]] > size[order[k-1]]+same; k-- {
			order[k], order[k-1] = order[k-1], order[k]
		}
	}
	return order
}

func (s *sheaf) likely() {
	s.table("causes", "Causes", "name title #probability group how")
	last := len(s.Causes)
	for _, c := range ranked(last, func(c int) float64 { return s.now[c] }) {
		if p := s.now[c]; p >= shown {
			s.row(s.Causes[c].ID, s.Titles[c])
			s.share(most(p))
			s.text(s.Groups[c], how(p))
		}
	}
	s.row(NotListed, s.Titles[last])
	s.share(most(s.now[last]))
	s.text("", how(s.now[last]))
}

// how says in a word, ours, and a number how sure one may be.
func how(p float64) string {
	word := "maybe"
	switch {
	case p >= 0.8:
		word = "very likely"
	case p >= 0.5:
		word = "likely"
	case p >= 0.2:
		word = "possible"
	}
	return word + ", " + percent(most(p))
}

// groupNames are the groups, each once, the likeliest first.
func (j *job) groupNames() []string {
	var names, order []string
	for _, name := range j.Groups {
		if among(names, name) < 0 {
			names = append(names, name)
		}
	}
	for _, i := range ranked(len(names), func(i int) float64 { return j.group(names[i]) }) {
		order = append(order, names[i])
	}
	return order
}

func (s *sheaf) groups() {
	s.table("groups", "Groups", "title #probability how")
	for _, name := range s.groupNames() {
		if p := s.group(name); p >= shown {
			s.row(name)
			s.share(most(p))
			s.text(how(p))
		}
	}
}

// heard tells what each answer weighs, and in whose words it was given.
func (s *sheaf) heard() {
	s.table("answers", "Answers", "finding answer #weight #probability sentence ask said recheck")
	leading, _ := s.leader(s.belief)
	for i := range s.told {
		t := &s.told[i]
		w, p, sentence, said, recheck := 0.0, 1.0, "", t.text, ""
		if t.counts < 0 {
			sentence = s.silent(t)
		} else {
			w, p = s.weight(t.counts, leading), s.odd[t.counts].p
			sentence = spoken(w, s.Titles[leading])
			if s.odd[t.counts].strange {
				recheck = put("Recheck this answer: with the other answers it is expected in _ of such jobs.", percent(p))
			}
		}
		if words := s.Says[t.finding]; t.unknown {
			said = "I don't know"
		} else if words != nil {
			said = words[t.answer.Outcome]
		}
		s.row(s.Findings[t.finding].ID, t.text)
		s.number(w, 1e3, declare.With(2, "[]", math.Round(w*10)/10))
		s.share(p)
		s.text(sentence, s.Asks[t.finding], said, recheck)
	}
}

// doneSoFar lists the tests without a result and the repairs that did not help, in the order in which they were told.
func (s *sheaf) doneSoFar() {
	s.table("done", "Done", "step title said")
	for _, step := range s.bench.Done[:s.undone] {
		said := "It did not help."
		if s.plan.isTest(step) {
			said = "Done."
		}
		s.row(s.Steps[step].ID, s.Does[step], said)
	}
}

// silent says why an answer moves nothing.
func (j *job) silent(t *told) string {
	for i := range j.Guards {
		g := &j.Guards[i]
		if t.unknown || g.Finding != t.finding || j.allows(g, false) {
			continue
		}
		var ways []string
		for o, name := range j.Names[g.On] {
			if g.Answers&(1<<o) != 0 {
				ways = append(ways, name)
			}
		}
		return put("It counts only where _ is answered with _.", j.Called[g.On], letters.Join(ways, " or "))
	}
	return "Unknown, so it moves nothing."
}

func spoken(w float64, title string) string {
	sentence := "Says little about “_”."
	factor := math.Pow(10, math.Abs(w)/10)
	switch {
	case w >= 1:
		sentence = "Speaks for “_”: its odds times _."
	case w <= -1:
		sentence = "Speaks against “_”: its odds divided by _."
	}
	return put(sentence, title, declare.With(2, "[]", factor))
}

// turn is an outcome that would put another cause in front.
type turn struct {
	_                       [0]func() // never compared: saves the code for it
	finding, outcome, cause int
	p, then                 float64
}

// turns lists what could still be found that would put another cause in front, the likeliest first.
func (s *sheaf) turns() {
	s.table("turns", "What would change this", "finding answer cause #probability ask said then")
	all := s.turned()
	for n, i := range ranked(len(all), func(i int) float64 { return all[i].p }) {
		if t := &all[i]; n < mostTurn {
			title, then := s.Titles[t.cause], most(t.then)
			s.row(s.Findings[t.finding].ID, s.named(t.finding, t.outcome), title)
			s.share(then)
			s.text(s.Asks[t.finding], s.outcome(t.finding, t.outcome), put("Then: _, _", title, percent(then)))
		}
	}
}

func (j *job) turned() []turn {
	var all []turn
	leading, _ := j.leader(j.belief)
	var seen [MaxFindings]bool
	for s := range j.Steps {
		for _, f := range j.Steps[s].Findings {
			if seen[f] || j.plan.known[f] || !j.plan.open(s) {
				continue
			}
			seen[f] = true
			for o := range j.Findings[f].Sound {
				if c, then, p := j.after(f, o); c != leading && p >= shown {
					all = append(all, turn{finding: f, outcome: o, cause: c, p: p, then: then})
				}
			}
		}
	}
	return all
}

// named is an outcome by the name of its answer, or the part of the range.
func (j *job) named(f, o int) string {
	if names := j.Names[f]; names != nil {
		return names[o]
	}
	return j.outcome(f, o)
}

// outcome is an answer in words, or the part of the range.
func (j *job) outcome(f, o int) string {
	if words := j.Says[f]; words != nil {
		return words[o]
	}
	cuts := j.Findings[f].Cuts
	at := func(i int) string { return declare.With(3, "["+j.Units[f]+"]", cuts[i]) }
	switch o {
	case 0:
		return "under " + at(0)
	case len(cuts):
		return "over " + at(o-1)
	}
	return at(o-1) + " to " + at(o)
}

func (s *sheaf) cautions() {
	for i := range s.told {
		if t := &s.told[i]; t.counts >= 0 && s.odd[t.counts].strange {
			s.caution(put("Recheck this answer: _ = _. With the other answers it is expected in _ of such jobs.",
				s.Called[t.finding], t.text, percent(s.odd[t.counts].p)))
		}
	}
	for i, pair := range s.Pairs {
		if p := s.belief[len(s.Causes)+i]; p >= paired {
			s.caution(put("Two at once are possible: “_” with “_” (_).", s.Titles[pair.A], s.Titles[pair.B], percent(most(p))))
		}
	}
	if len(s.Stops) > 0 {
		s.caution("Ask first, and stop the work at a yes: " + letters.Join(s.Stops, " "))
	}
	s.caution("The weights are the shop's starting values; counts of its own closed jobs shall replace them.")
	s.caution("Time to go counts parts, the proof of a repair and handing over as work. It is what simulated jobs took.")
}

func (s *sheaf) caution(text string) { s.Cautions = append(s.Cautions, text) }
