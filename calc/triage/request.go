package triage

import (
	"blankoff/calc/declare"
	"blankoff/calc/letters"
	"blankoff/calc/quantity"
)

// ID is the name of the request that Reply answers.
const ID = "triage"

// Entries are what a request can hold. `answers` are the findings as they were told, "jumps=yes; gauge-ratio=3.2 ± 20 %;
// slow=unknown"; of two to one finding the later counts. `done` are tests without a result and repairs that did not help.
// `who` is the customer unless it says technician. `tools` are those at hand: all where it is empty, none with "none". `pick` is
// the step that the reader prefers to the best one.
var Entries = []string{"model", "answers", "done", "who", "tools", "pick"}

// Known is a fault model that was read before it is asked for. It does not change, so that several may ask at once.
type Known struct {
	_     [0]func() // never compared: saves the code for it
	sheet *Sheet
	wrong string
}

// Know reads a fault model. What is wrong with it is told to those who ask.
func Know(text string) (k *Known) {
	defer func() {
		if recover() != nil {
			k = &Known{wrong: "please report it"}
		}
	}()
	sheet, wrong := ReadSheet(text)
	return &Known{sheet: sheet, wrong: wrong}
}

// Reply answers a request: what is likely, what to do next and why, what each answer weighs. It never panics and keeps
// nothing from one request to the next.
func Reply(request declare.Request) declare.Answer { return (*Known)(nil).Reply(request) }

// Reply does so by the known model, unless the request brings one of its own. The answer is the same as if it had brought this one.
func (k *Known) Reply(request declare.Request) (answer declare.Answer) {
	defer func() {
		if recover() != nil {
			answer = declare.Answer{ID: ID, Fault: &declare.Fault{Text: "these entries cannot be weighed; please report it"}}
		}
	}()
	j, fault := k.read(request)
	if fault != nil {
		return declare.Answer{ID: ID, Fault: fault}
	}
	j.weigh()
	return j.reply()
}

func (k *Known) read(request declare.Request) (*job, *declare.Fault) {
	var in [6]string
	for _, pair := range request.In {
		at := among(Entries, pair.Name)
		if at < 0 {
			return nil, &declare.Fault{Field: pair.Name, Text: "triage has no entry " + quantity.Quote(pair.Name) + "; it has " + letters.Join(Entries, ", ")}
		}
		in[at] = pair.Text
		if at == 0 {
			k = nil
		}
	}
	if len(request.Out) > 0 {
		return nil, &declare.Fault{Field: request.Out[0].Name, Text: "triage gives nothing in another unit; leave this out"}
	}
	if k == nil {
		k = Know(in[0])
	}
	if k.wrong != "" {
		return nil, &declare.Fault{Field: "model", Text: "the fault model cannot be read, " + k.wrong}
	}
	sheet := *k.sheet // what handing over costs depends on who asks
	j := &job{Sheet: &sheet, pick: HandOver}
	for at, take := range [...]func(string) string{nil, j.takeAnswers, j.takeDone, j.takeWho, j.takeTools, j.takePick} {
		if take == nil {
			continue
		}
		if text := take(in[at]); text != "" {
			return nil, &declare.Fault{Field: Entries[at], Text: text}
		}
	}
	return j, nil
}

// list parts an entry into its items, without blanks around them; empty ones are nothing.
func list(text string, by byte) []string {
	var items []string
	for _, line := range split(text, '\n') {
		for _, item := range split(line, by) {
			if item = letters.TrimSpace(item); item != "" {
				items = append(items, item)
			}
		}
	}
	return items
}

func (j *job) takeAnswers(text string) string {
	for _, item := range list(text, ';') {
		name, said, parted := letters.Cut(item, "=")
		if !parted {
			return quantity.Quote(item) + " is not of the form finding=answer"
		}
		finding := j.finding(letters.TrimSpace(name))
		if finding < 0 {
			return "there is no finding " + quantity.Quote(letters.TrimSpace(name)) + instead(name, len(j.Findings), func(i int) string { return j.Findings[i].ID })
		}
		t := told{finding: finding, text: letters.TrimSpace(said)}
		if wrong := j.understand(&t); wrong != "" {
			return wrong
		}
		if before := j.answered(finding); before != nil {
			*before = t
		} else {
			j.told = append(j.told, t)
		}
	}
	return ""
}

// understand reads what was said to one finding.
func (j *job) understand(t *told) string {
	name := j.Findings[t.finding].ID
	t.answer.Finding = t.finding
	if quantity.SameWord(t.text, Unknown) {
		t.unknown = true
		return ""
	}
	if names := j.Names[t.finding]; names != nil {
		for i := range names {
			if quantity.SameWord(names[i], t.text) {
				t.answer.Outcome, t.text = i, names[i]
				return ""
			}
		}
		return name + " has no answer " + quantity.Quote(t.text) + "; it has " + letters.Join(names, ", ") + ", " + Unknown
	}
	value, wrong := ReadValue(t.text, j.Kinds[t.finding], j.Units[t.finding])
	if wrong != "" {
		return j.Called[t.finding] + ": " + wrong
	}
	t.answer.Value, t.answer.U = value.Value, value.U
	return ""
}

// ReadValue reads what was said of a finding that is measured as a kind in a unit, "" for a plain number; in SI units. What
// is wrong with it comes back as a sentence.
func ReadValue(text string, kind quantity.Kind, unit string) (quantity.Quantity, string) {
	var q quantity.Quantity
	var problem *quantity.Problem
	if kind == quantity.Ratio && unit == "" {
		q, problem = quantity.ParseNumber(text)
	} else {
		q, problem = quantity.Parse(text, kind)
	}
	switch {
	case problem != nil:
		return q, problem.Text
	case q.Over || q.Gauge:
		return q, quantity.Quote(text) + " is no plain value; say unknown if none can be read"
	case unit != "" && q.Unit.Symbol == "":
		return q, quantity.Quote(text) + " has no unit; write it in " + unit
	}
	return q, ""
}

func (j *job) takeDone(text string) string {
	for _, name := range list(text, ',') {
		for _, name := range list(name, ';') {
			step, wrong := j.stepNamed(name)
			if wrong != "" {
				return wrong
			}
			if !in(j.bench.Done, step) {
				j.bench.Done = append(j.bench.Done, step)
			}
		}
	}
	return ""
}

func (j *job) stepNamed(name string) (int, string) {
	step := j.stepAt(name)
	if step < 0 {
		return step, "there is no test or repair " + quantity.Quote(name) + instead(name, len(j.Steps), func(i int) string { return j.Steps[i].ID })
	}
	return step, ""
}

func (j *job) takePick(text string) (wrong string) {
	if text = letters.TrimSpace(text); text != "" {
		j.pick, wrong = j.stepNamed(text)
	}
	return wrong
}

func in(list []int, x int) bool {
	for _, y := range list {
		if y == x {
			return true
		}
	}
	return false
}

func (j *job) takeWho(text string) string {
	if text = letters.TrimSpace(text); text == "" {
		text = workerNames[0]
	}
	at := among(workerNames, text)
	for _, call := range j.Calls {
		if at >= 0 && call.Who == 1<<at {
			j.bench.Who, j.Call = call.Who, call.Minutes
			return ""
		}
	}
	return "nobody is called " + quantity.Quote(text) + " here; write customer or technician"
}

func (j *job) takeTools(text string) string {
	names := list(text, ',')
	if len(names) == 0 {
		j.bench.Tools = ^uint64(0)
		return ""
	}
	for _, name := range names {
		name = letters.Replace(name, " ", "-")
		at := among(j.Tools, name)
		if at >= 0 {
			j.bench.Tools |= 1 << at
		} else if name != NoTool {
			return "no step needs a tool " + quantity.Quote(name) + instead(name, len(j.Tools), func(i int) string { return j.Tools[i] })
		}
	}
	return ""
}

// instead offers the nearest name, if one is near, else lists them all.
func instead(name string, n int, of func(int) string) string {
	best, least := "", 3
	all := make([]string, n)
	for i := range all {
		all[i] = of(i)
		if d := apart(name, all[i]); d < least {
			best, least = all[i], d
		}
	}
	if best != "" {
		return "; did you mean " + best + "?"
	}
	return "; there are " + letters.Join(all, ", ")
}

// apart counts the letters to add, drop or change between two short names (Levenshtein's distance); long ones are far apart.
func apart(a, b string) int {
	const longest = 40
	if len(a) > longest || len(b) > longest {
		return longest
	}
	var row [longest + 1]int
	for i := range row {
		row[i] = i
	}
	for i := 0; i < len(a); i++ {
		diagonal := row[0]
		row[0] = i + 1
		for k := 0; k < len(b); k++ {
			cost := diagonal
			if a[i] != b[k] {
				cost = 1 + min(diagonal, row[k], row[k+1])
			}
			diagonal, row[k+1] = row[k+1], cost
		}
	}
	return row[len(b)]
}
