package triage

import (
	"math"

	"blankoff/calc/letters"
)

func (r *reader) number(text string, low, high float64) float64 {
	x, ok := letters.Float(text)
	if !ok || !(x >= low && x <= high) {
		r.refuse("a number does not fit")
		return 1
	}
	return x
}

func (r *reader) word(text string) string {
	if text == "" {
		r.refuse("something has no name")
	}
	return text
}

// shares reads probabilities that come to 1.
func (r *reader) shares(text string, n int) []float64 {
	list := make([]float64, 0, n)
	sum := 0.0
	for _, part := range r.list(text) {
		list = append(list, r.number(part, 0, 1))
		sum += list[len(list)-1]
	}
	if len(list) != n || math.Abs(sum-1) > 1e-6 {
		r.refuse("the probabilities are not one for each answer, or do not come to 1")
	}
	return list
}

// curve reads "3 0.64 log", or "80 5".
func (r *reader) curve(text string) Curve {
	part := r.list(text)
	if len(part) < 2 || len(part) > 3 || len(part) == 3 && part[2] != "log" {
		r.refuse("it has no distribution")
		return Curve{}
	}
	c := Curve{Middle: r.number(part[0], -Huge, Huge), Spread: r.number(part[1], Tiny, Huge), Log: len(part) == 3}
	if c.Log && c.Middle < Tiny {
		r.refuse("what is spread by factors has its middle above 0")
	}
	return c
}

var workerNames = []string{"customer", "technician", "licensed"}

func (r *reader) workers(text string) Worker {
	var who Worker
	for _, name := range r.list(text) {
		who |= 1 << r.place(workerNames, name)
	}
	return who
}

// place finds a name in a list, or without a list that of a finding.
func (r *reader) place(list []string, name string) int {
	at := among(list, name)
	if list == nil {
		at = r.finding(name)
	}
	if at < 0 {
		r.refuse("it uses a name that is not known")
		return 0
	}
	return at
}

func (r *reader) causeNamed(name string) int {
	at := r.causeAt(name)
	if at < 0 {
		r.refuse("it names a cause that is not there")
		return 0
	}
	return at
}

func among(list []string, name string) int {
	for i := range list {
		if list[i] == name {
			return i
		}
	}
	return -1
}

func (s *Sheet) finding(name string) int {
	for i := range s.Findings {
		if s.Findings[i].ID == name {
			return i
		}
	}
	return -1
}

func (s *Sheet) causeAt(name string) int {
	for i := range s.Causes {
		if s.Causes[i].ID == name {
			return i
		}
	}
	return -1
}

func (s *Sheet) stepAt(name string) int {
	for i := range s.Steps {
		if s.Steps[i].ID == name {
			return i
		}
	}
	return -1
}

// split parts a text; of blanks several count as one, and none at the ends.
func split(text string, by byte) []string { return parted(nil, text, by) }

// parted appends the parts of a text to a list.
func parted(list []string, text string, by byte) []string {
	if text == "" {
		return list
	}
	start := 0
	for i := 0; i <= len(text); i++ {
		if i < len(text) && text[i] != by {
			continue
		}
		if by != ' ' || i > start {
			list = append(list, text[start:i])
		}
		start = i + 1
	}
	return list
}

// finish looks up the names that may stand before their thing, and asks that a plan can be made.
func (r *reader) finish() {
	if r.fault != "" {
		return
	}
	for i := range r.guards {
		r.guard(&r.guards[i])
	}
	r.after = make([]int, len(r.Steps))
	for i := range r.needs {
		r.at = r.needs[i].line
		for _, name := range r.list(r.needs[i].list) {
			at := r.stepAt(name)
			if at < 0 {
				r.refuse("it needs a step that is not there")
				return
			}
			r.Steps[i].Needs = append(r.Steps[i].Needs, at)
		}
	}
	looks := 0
	for i := range r.Steps {
		r.at = r.needs[i].line
		r.before(i)
		looks += r.plainly(&r.Steps[i])
	}
	if r.Unlisted == 0 || len(r.Calls) == 0 || len(r.Causes) == 0 || len(r.Findings) == 0 || len(r.Steps) > MaxSteps || looks > MaxLooks || r.hypotheses() > MaxHypotheses {
		r.refuse("it lacks a part, or has more causes or steps than a plan can weigh")
	}
	if r.fault == "" {
		r.Titles = append(r.Titles, "Something that is not listed")
		r.Prepare()
	}
}

func (r *reader) guard(g *named) {
	r.at = g.line
	on := r.finding(g.on)
	if g.of < 0 || on < 0 || on == g.of || r.Names[on] == nil {
		r.refuse("it counts by a finding without answers")
		return
	}
	guard := Guard{Finding: g.of, On: on}
	for _, name := range r.list(g.list) {
		guard.Answers |= 1 << r.place(r.Names[on], name)
	}
	r.Guards = append(r.Guards, guard)
}

// before counts the steps that stand before a step, and refuses those that wait for themselves.
func (r *reader) before(s int) int {
	if r.after[s] != 0 {
		if r.after[s] < 0 {
			r.refuse("the step waits for itself")
			return MaxNeeds
		}
		return r.after[s]
	}
	r.after[s] = -1
	n := 1
	for _, need := range r.Steps[s].Needs {
		if n += r.before(need); n > MaxNeeds {
			r.refuse("too many steps stand before it")
			break
		}
	}
	r.after[s] = min(n, MaxNeeds)
	return r.after[s]
}

// plainly takes from a test the findings that refine another one that it tells: a plan would take the two for
// independent, and expect a size even of what is within its limit. It gives the number of ways in which the test can end.
func (r *reader) plainly(s *Step) int {
	var kept []int
	ways := 1
	for _, f := range s.Findings {
		if r.refines(f, s.Findings) {
			continue
		}
		kept = append(kept, f)
		ways *= max(len(r.Names[f]), len(r.Findings[f].Cuts)+1)
		if ways > MaxBranches {
			r.refuse("the test can end in too many ways")
			break
		}
	}
	if kept == nil && s.Findings != nil {
		r.refuse("all that the test tells waits for itself")
	}
	s.Findings = kept
	return ways
}

func (r *reader) refines(f int, told []int) bool {
	for i := range r.Guards {
		if r.Guards[i].Finding != f {
			continue
		}
		for _, other := range told {
			if other == r.Guards[i].On {
				return true
			}
		}
	}
	return false
}
