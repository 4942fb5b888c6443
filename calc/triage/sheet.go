package triage

import (
	"blankoff/calc/letters"
	"blankoff/calc/quantity"
)

// Sheet is a model with its words, as one text brings it to a phone: a thing a line, its parts parted by tabs, lists by
// blanks. Findings stand before the causes that show them; steps may need later ones.
//
//	triage 1
//	unlisted	4
//	call	technician	720
//	tool	independent-gauge
//	choice	rise-shape	straight bending within	0.04 0.04 0.92
//	value	rise-size	ratio		3 30	1.6 0.405 log
//	when	rise-shape	straight bending
//	called	how far the rise is over its limit
//	ask	How many times its limit is the rise?
//	cause	seal-worn	The door seal is cut	door	5
//	shows	rise-shape	0.85 0.05 0.1
//	test	rise-test	Chamber rise test	30	30	technician			rise-shape rise-size
//	repair	replace-seal	New door seal	30	135	technician			seal-worn=0.95
//
// A finding without a line `called` is called by its name with blanks for hyphens, and asked for so without a line `ask`. A line
// `said` has the words of an answer: "said	straight	Over the limit and straight." The first number of a step is its own
// time, the second what a plan reckons with: parts and proof counted as minutes.
type Sheet struct {
	Model
	Calls  []Call
	Stops  []string // questions of safety
	Tools  []string // in the order of their bits
	Titles []string // of the causes, and last of what is not listed
	Groups []string // of the causes
	Names  [][]string
	Called []string        // what a sentence calls each finding
	Asks   []string        // the question
	Says   [][]string      // the words of its answers
	Kinds  []quantity.Kind // of each finding; None of a choice
	Units  []string
	Guards []Guard
	Does   []string  // titles of the steps
	Times  []float64 // of the steps, in minutes
	Tells  [][]int   // what each step tells, in the order in which it is asked
}

// Call is what handing over costs somebody, in minutes.
type Call struct {
	_       [0]func() // never compared: saves the code for it
	Who     Worker
	Minutes float64
}

// Guard says that a finding counts only where another was answered in one of some ways.
type Guard struct {
	Finding, On int
	Answers     uint64 // a bit an answer
}

// Bounds of a sheet, so that a plan ends in the time that a reader waits, whatever the sheet holds.
const (
	MaxText       = 256 << 10
	MaxHypotheses = 200 // causes, pairs, and what is not listed
	MaxFindings   = 64
	MaxSteps      = 128
	MaxTools      = 64
	MaxOutcomes   = 8   // answers of a choice, parts of a range
	MaxBranches   = 64  // ways in which one test can end
	MaxLooks      = 400 // of all tests together
	MaxNeeds      = 64  // steps up to a step, itself too
)

// Numbers of a sheet lie between these: far beyond what a shop writes, far from where products overflow.
const Tiny, Huge = 1e-9, 1e9

// Names that mean something else in a request or an answer, so that nothing in a model may have them; a finding has none of
// Entries either.
const (
	Unknown     = "unknown"   // an answer
	NoTool      = "none"      // of the tools at hand
	HandingOver = "hand-over" // a step
	NotListed   = "unlisted"  // a cause
)

// ReadSheet reads a sheet. What is wrong with it comes back as a sentence, empty if nothing is.
func ReadSheet(text string) (*Sheet, string) {
	r := &reader{Sheet: &Sheet{}}
	if len(text) > MaxText {
		r.refuse("it is larger than 256 kB")
	}
	text = letters.TrimSuffix(text, "\n")
	for more := text != ""; more && r.fault == ""; {
		r.at++
		line, end := text, letters.IndexByte(text, '\n')
		if more = end >= 0; more {
			line, text = text[:end], text[end+1:]
		}
		r.parts = parted(r.parts[:0], line, '\t')
		r.line(r.parts)
	}
	r.finish()
	return r.Sheet, r.fault
}

// reader reads a sheet line by line and keeps the first fault.
type reader struct {
	*Sheet
	at     int
	fault  string
	guards []named // the guards of findings, by name
	needs  []named
	after  []int    // of each step how many stand before it; 0 not yet known, −1 being counted
	parts  []string // of the line
	items  []string // of a list in it, until the next one is read
}

// list parts one at its blanks.
func (r *reader) list(text string) []string {
	r.items = parted(r.items[:0], text, ' ')
	return r.items
}

// named is a list that waits for the names that it uses.
type named struct {
	_        [0]func() // never compared: saves the code for it
	of, line int
	on, list string
}

func (r *reader) refuse(text string) {
	if r.fault == "" {
		r.fault = "line " + letters.Whole(r.at) + ": " + text
	}
}

// things are what a line can hold, by its first word, with the number of its parts.
var things = []struct {
	word string
	n    int
}{{"unlisted", 2}, {"call", 3}, {"stop", 2}, {"tool", 2}, {"choice", 4}, {"value", 6}, {"when", 3}, {"cause", 5}, {"shows", 3}, {"pair", 4}, {"test", 9}, {"repair", 9}, {"called", 2}, {"ask", 2}, {"said", 3}}

func (r *reader) line(f []string) {
	if r.at == 1 || len(f) == 0 {
		if len(f) == 0 || f[0] != "triage 1" {
			r.refuse("it does not begin with “triage 1”")
		}
		return
	}
	for i := range things {
		if things[i].word == f[0] {
			if len(f) != things[i].n {
				r.refuse("it has parts too few or too many")
				return
			}
			r.thing(i, f[1:])
			return
		}
	}
	r.refuse("its first word is not known")
}

func (r *reader) thing(i int, f []string) {
	switch i {
	case 0:
		r.Unlisted = r.number(f[0], Tiny, Huge)
	case 1:
		r.Calls = append(r.Calls, Call{Who: r.workers(f[0]), Minutes: r.number(f[1], 0, Huge)})
	case 2:
		r.Stops = append(r.Stops, r.word(f[0]))
	case 3:
		if r.Tools = append(r.Tools, r.word(f[0])); len(r.Tools) > MaxTools {
			r.refuse("there are more than 64 tools")
		}
	case 4:
		r.choice(f)
	case 5:
		r.value(f)
	case 6:
		r.guards = append(r.guards, named{of: len(r.Findings) - 1, line: r.at, on: f[0], list: f[1]})
	case 7:
		r.cause(f)
	case 8:
		r.shows(f)
	case 9:
		r.Pairs = append(r.Pairs, Pair{A: r.causeNamed(f[0]), B: r.causeNamed(f[1]), Weight: r.number(f[2], Tiny, Huge)})
	case 12, 13, 14:
		r.wording(i, f)
	default:
		r.step(f, i == 11)
	}
}

// wording takes the words of the last finding.
func (r *reader) wording(i int, f []string) {
	last := len(r.Called) - 1
	switch {
	case last < 0:
		r.refuse("it calls nothing by a name")
	case i == 12:
		r.Called[last] = r.word(f[0])
	case i == 13:
		r.Asks[last] = r.word(f[0])
	case r.Says[last] == nil:
		r.refuse("it words an answer that is not there")
	default:
		r.Says[last][r.place(r.Names[last], f[0])] = r.word(f[1])
	}
}

func (r *reader) choice(f []string) {
	names := parted(nil, f[1], ' ')
	if len(names) < 2 || len(names) > MaxOutcomes {
		r.refuse("a finding has two to eight answers")
		return
	}
	r.add(Finding{ID: r.word(f[0]), Sound: r.shares(f[2], len(names))}, names, quantity.None, "")
}

func (r *reader) value(f []string) {
	kind := quantity.None
	for _, k := range quantity.Kinds() {
		if k.Name() == f[1] {
			kind = k
		}
	}
	if unit, known := quantity.FindUnit(f[2]); kind == quantity.None || f[2] != "" && (!known || unit.Dim != kind.Dim()) {
		r.refuse("kind and unit do not fit")
	}
	finding := Finding{ID: r.word(f[0]), Plain: r.curve(f[4])}
	for i, text := range r.list(f[3]) {
		cut := r.number(text, -Huge, Huge)
		if i > 0 && cut <= finding.Cuts[i-1] || i == MaxOutcomes-1 {
			r.refuse("the cuts do not rise, or are too many")
			return
		}
		finding.Cuts = append(finding.Cuts, cut)
	}
	if finding.Cuts == nil {
		r.refuse("a value has no cuts")
	}
	r.add(finding, nil, kind, f[2])
}

func (r *reader) add(f Finding, names []string, kind quantity.Kind, unit string) {
	if len(r.Causes) > 0 || len(r.Findings) == MaxFindings || r.finding(f.ID) >= 0 {
		r.refuse("the finding stands behind a cause, is there twice or is one too many")
	}
	r.Findings, r.Names = append(r.Findings, f), append(r.Names, names)
	r.Kinds, r.Units = append(r.Kinds, kind), append(r.Units, unit)
	called := letters.Replace(f.ID, "-", " ")
	r.Called, r.Asks, r.Says = append(r.Called, called), append(r.Asks, called), append(r.Says, append([]string(nil), names...))
}

func (r *reader) cause(f []string) {
	if r.causeAt(f[0]) >= 0 {
		r.refuse("the cause is there twice")
	}
	r.Causes = append(r.Causes, Cause{ID: r.word(f[0]), Weight: r.number(f[3], Tiny, Huge)})
	r.Titles, r.Groups = append(r.Titles, r.word(f[1])), append(r.Groups, r.word(f[2]))
	for i := range r.Findings {
		finding := &r.Findings[i]
		if finding.Cuts == nil {
			finding.Given = append(finding.Given, finding.Sound)
		} else {
			finding.Curve = append(finding.Curve, finding.Plain)
		}
	}
}

func (r *reader) shows(f []string) {
	at, last := r.finding(f[0]), len(r.Causes)-1
	if at < 0 || last < 0 {
		r.refuse("there is no such finding, or no cause to show it")
		return
	}
	if finding := &r.Findings[at]; finding.Cuts == nil {
		finding.Given[last] = r.shares(f[1], len(finding.Sound))
	} else if finding.Curve[last] = r.curve(f[1]); finding.Curve[last].Log != finding.Plain.Log {
		r.refuse("a value is spread by factors in one place and not in the other")
	}
}

func (r *reader) step(f []string, repair bool) {
	if r.stepAt(f[0]) >= 0 {
		r.refuse("the step is there twice")
	}
	s := Step{ID: r.word(f[0]), Minutes: r.number(f[3], 0, Huge), Who: r.workers(f[4])}
	for _, name := range r.list(f[5]) {
		s.Tools |= 1 << r.place(r.Tools, name)
	}
	for _, name := range r.list(f[7]) {
		if !repair {
			s.Findings = append(s.Findings, r.place(nil, name))
			continue
		}
		cause, chance, _ := letters.Cut(name, "=")
		s.Cures = append(s.Cures, Cure{Cause: r.causeNamed(cause), Chance: r.number(chance, Tiny, 1)})
	}
	if len(s.Findings)+len(s.Cures) == 0 {
		r.refuse("the step tells and ends nothing")
	}
	r.Tells = append(r.Tells, s.Findings)
	r.needs = append(r.needs, named{of: len(r.Steps), line: r.at, list: f[6]})
	r.Steps, r.Does, r.Times = append(r.Steps, s), append(r.Does, r.word(f[1])), append(r.Times, r.number(f[2], 0, Huge))
}
