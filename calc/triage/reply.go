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
	look     = 1 // steps ahead
)

// reply puts all that follows into tables.
func (j *job) reply() declare.Answer {
	steps := j.next()
	cautions := j.cautions()
	return declare.Answer{ID: ID, Out: []declare.Given{j.causes(), j.groups(), j.steps(steps), j.heard(), j.turns()}, Verdict: j.verdict(steps), Cautions: cautions}
}

// table makes an empty one; a label with a mark before it is that of a number.
func table(id, label string, columns ...string) declare.Given {
	g := declare.Given{ID: id, Label: label, Rows: [][]declare.Cell{}}
	for _, name := range columns {
		column := declare.Column{ID: name, Label: name}
		if bare, number := letters.CutPrefix(name, "#"); number {
			column = declare.Column{ID: bare, Label: bare, Kinds: []quantity.Kind{quantity.Ratio}}
		}
		g.Columns = append(g.Columns, column)
	}
	return g
}

func add(g *declare.Given, cells ...declare.Cell) { g.Rows = append(g.Rows, cells) }

func text(s string) declare.Cell { return declare.Cell{Text: s} }

// share is a probability in a table, to a millionth: what lies beyond differs between machines.
func share(p float64) declare.Cell {
	return declare.Cell{Value: math.Round(p*1e6) / 1e6, Text: percent(p), IsNumber: true}
}

func minutes(x float64) declare.Cell {
	return declare.Cell{Value: math.Round(x*1e3) / 1e3, Text: whole(x), IsNumber: true}
}

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
	var out []byte
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

func (j *job) causes() declare.Given {
	g := table("causes", "Causes", "name", "title", "#probability", "group")
	last := len(j.Causes)
	for _, c := range ranked(last, func(c int) float64 { return j.of(j.belief, c) }) {
		if p := j.of(j.belief, c); p >= shown {
			add(&g, text(j.Causes[c].ID), text(j.Titles[c]), share(most(p)), text(j.Groups[c]))
		}
	}
	add(&g, text("unlisted"), text(j.Titles[last]), share(most(j.of(j.belief, last))), text(""))
	return g
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

func (j *job) groups() declare.Given {
	g := table("groups", "Groups", "title", "#probability")
	for _, name := range j.groupNames() {
		if p := j.group(name); p >= shown {
			add(&g, text(name), share(most(p)))
		}
	}
	return g
}

// heard tells what each answer weighs.
func (j *job) heard() declare.Given {
	g := table("answers", "Answers", "finding", "answer", "#weight", "#probability", "sentence")
	leading, _ := j.leader(j.belief)
	for i := range j.told {
		t := &j.told[i]
		name, said := text(j.Findings[t.finding].ID), text(t.text)
		if t.counts < 0 {
			add(&g, name, said, declare.Cell{Text: "0", IsNumber: true}, share(1), text(j.silent(t)))
			continue
		}
		w, p := j.weight(t.counts, leading), j.surprise(t.counts)
		weight := declare.Cell{Value: math.Round(w*1e3) / 1e3, Text: declare.With(2, "[]", math.Round(w*10)/10), IsNumber: true}
		add(&g, name, said, weight, share(p), text(j.spoken(t.counts, w, p, j.Titles[leading])))
	}
	return g
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
		return put("It counts only where _ is answered with _.", j.Findings[g.On].ID, letters.Join(ways, " or "))
	}
	return "Unknown, so it moves nothing."
}

func (j *job) spoken(i int, w, p float64, title string) string {
	sentence := "Says little about “_”."
	factor := math.Pow(10, math.Abs(w)/10)
	switch {
	case w >= 1:
		sentence = "Speaks for “_”: its odds times _."
	case w <= -1:
		sentence = "Speaks against “_”: its odds divided by _."
	}
	sentence = put(sentence, title, declare.With(2, "[]", factor))
	if j.strange(i) {
		sentence += put(" Check it again: with the other answers it is expected in _ of such jobs.", percent(p))
	}
	return sentence
}

// turns lists what could still be found that would put another cause in front, the likeliest first.
func (j *job) turns() declare.Given {
	g := table("turns", "What would change this", "finding", "answer", "cause", "#probability")
	type turn struct {
		finding, outcome, cause int
		p, then                 float64
	}
	var turned []turn
	leading, _ := j.leader(j.belief)
	var seen [maxFindings]bool
	for s := range j.Steps {
		if !j.plan.open(s) {
			continue
		}
		for _, f := range j.Steps[s].Findings {
			if seen[f] || j.plan.known[f] {
				continue
			}
			seen[f] = true
			for o := range j.Findings[f].Sound {
				b, p := j.after(f, o)
				if c, then := j.leader(b); c != leading && p >= shown {
					turned = append(turned, turn{f, o, c, p, then})
				}
			}
		}
	}
	for n, i := range ranked(len(turned), func(i int) float64 { return turned[i].p }) {
		if t := turned[i]; n < mostTurn {
			add(&g, text(j.Findings[t.finding].ID), text(j.outcome(t.finding, t.outcome)), text(j.Titles[t.cause]), share(most(t.then)))
		}
	}
	return g
}

// outcome is an answer in words: its name, or the part of the range.
func (j *job) outcome(f, o int) string {
	if names := j.Names[f]; names != nil {
		return names[o]
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

func (j *job) cautions() []string {
	var all []string
	for i := range j.told {
		if t := &j.told[i]; t.counts >= 0 && j.strange(t.counts) {
			all = append(all, put("Recheck this answer: _ = _. With the other answers it is expected in _ of such jobs.",
				j.Findings[t.finding].ID, t.text, percent(j.surprise(t.counts))))
		}
	}
	for i, pair := range j.Pairs {
		if p := j.belief[len(j.Causes)+i]; p >= paired {
			all = append(all, put("Two at once are possible: “_” with “_” (_).", j.Titles[pair.A], j.Titles[pair.B], percent(most(p))))
		}
	}
	if len(j.Stops) > 0 {
		all = append(all, put("Ask first, and stop the work at a yes: _", letters.Join(j.Stops, " ")))
	}
	return append(all, "The weights are the shop's starting values; counts of its own closed jobs shall replace them.",
		"Expected minutes count parts, the proof of a repair and handing over as minutes of work.")
}
