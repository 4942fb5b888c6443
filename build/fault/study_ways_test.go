package fault

import (
	"math/rand/v2"
	"strconv"
	"sync"

	"blankoff/calc/triage"
)

// way is a way of working: the next step. It is asked only while going on pays at all.
type way struct {
	name  string
	next  func(d *desk, r *rand.Rand) int
	depth int // that our plan looks ahead before it hands over; 0: next hands over by itself
}

// desk is a job under way, as whoever works on it sees it.
type desk struct {
	data    *Model
	model   *triage.Model
	answers []triage.Answer
	bench   triage.Bench
	known   map[int]bool
	repairs []triage.Choice // that could come next, the likeliest first
	rest    float64         // minutes that repairing on is expected to take
	plans   *plans
}

// likelier is how probable the success of a repair must be before a list of tests is left for it; of 0.2, 0.35, 0.5 and 0.7
// it is what suits those ways best.
const likelier = 0.35

// quick are the questions and looks that need no tool, in the order of the file.
const quick = 11

const ours = "ours"

var ways = []way{
	{ours, func(d *desk, r *rand.Rand) int { return d.plan(triage.Look) }, triage.Look},
	{"fixed checklist, all tests", func(d *desk, r *rand.Rand) int { return d.listed(len(d.data.Tests)) }, 1},
	{"fixed checklist, quick questions", func(d *desk, r *rand.Rand) int { return d.listed(quick) }, 1},
	{"most likely cause first", func(d *desk, r *rand.Rand) int { return d.likeliest() }, 1},
	{"cheapest test first", func(d *desk, r *rand.Rand) int { return d.cheapest() }, 1},
	{"random order", (*desk).any, 1},
	{"cheapest test, cheapest chance", func(d *desk, r *rand.Rand) int { return d.thrifty() }, 1},
	{toTheEnd, func(d *desk, r *rand.Rand) int { return d.whole() }, 0},
}

// toTheEnd is a checklist as it is usually meant, or the cheapest test first: when all tests are done their order is the same.
const toTheEnd = "every test, then the likeliest"

// whole does every test, then the likeliest repair, and hands over when repairing on is expected to cost more.
func (d *desk) whole() int {
	for test := range d.data.Tests {
		if d.open(test) {
			return test
		}
	}
	if d.rest >= d.model.Call {
		return triage.HandOver
	}
	return d.likeliest()
}

func (d *desk) isTest(step int) bool { return step >= 0 && step < len(d.data.Tests) }

// open tells whether a test has something to tell.
func (d *desk) open(test int) bool {
	for _, done := range d.bench.Done {
		if done == test {
			return false
		}
	}
	return d.model.Steps[test].Who&d.bench.Who != 0
}

// listed goes through the first tests of the file in their order, until a repair is likely enough.
func (d *desk) listed(n int) int {
	for test := range n {
		if !d.sure() && d.open(test) {
			return test
		}
	}
	return d.likeliest()
}

func (d *desk) sure() bool { return len(d.repairs) > 0 && d.repairs[0].Ends > likelier }

func (d *desk) likeliest() int {
	if len(d.repairs) == 0 {
		return triage.HandOver
	}
	return d.repairs[0].Step
}

func (d *desk) cheapest() int {
	best := triage.HandOver
	for test := range d.data.Tests {
		if d.open(test) && (best < 0 || d.model.Steps[test].Minutes < d.model.Steps[best].Minutes) {
			best = test
		}
	}
	if best < 0 || d.sure() {
		return d.likeliest()
	}
	return best
}

// thrifty is more than people do by hand: cheapest test first, then the repair with the most probability for its cost.
func (d *desk) thrifty() int {
	step := d.cheapest()
	if d.isTest(step) {
		return step
	}
	best := 0.0
	for _, c := range d.repairs {
		if c.Ends > best*c.Minutes {
			step, best = c.Step, c.Ends/c.Minutes
		}
	}
	return step
}

func (d *desk) any(r *rand.Rand) int {
	var open []int
	for test := range d.data.Tests {
		if d.open(test) {
			open = append(open, test)
		}
	}
	for _, c := range d.repairs {
		open = append(open, c.Step)
	}
	if len(open) == 0 || d.sure() {
		return d.likeliest()
	}
	return open[r.IntN(len(open))]
}

// plans remembers what was planned in a state, since many jobs begin alike.
type plans struct {
	sync.Mutex
	known map[string]triage.Choice
}

func (d *desk) plan(depth int) int { return d.best(depth).Step }

func (d *desk) best(depth int) triage.Choice {
	key := d.key(depth)
	d.plans.Lock()
	best, found := d.plans.known[key]
	d.plans.Unlock()
	if !found {
		best = d.model.Plan(d.bench, d.answers, depth)[0]
		d.plans.Lock()
		d.plans.known[key] = best
		d.plans.Unlock()
	}
	return best
}

// key tells a state of a job from all others.
func (d *desk) key(depth int) string {
	b := []byte{byte(depth)}
	for _, a := range d.answers {
		b = strconv.AppendFloat(append(b, byte(a.Finding), byte(a.Outcome)), a.Value, 'g', -1, 64)
	}
	b = append(b, ';')
	for _, s := range d.bench.Done {
		b = append(b, byte(s))
	}
	return string(b)
}

// over is the rule for handing over: the best that could come next costs more. Where repairing on pays, the tests need not be
// looked at. Ours looks two steps ahead for that, the others one, so that they hand over a little earlier.
func (d *desk) over(depth int) bool {
	return d.rest >= d.model.Call && d.plan(depth) == triage.HandOver
}

// course is what a job came to.
type course struct {
	work, parts    float64 // minutes, and parts in minutes
	tests, repairs int
	mistaken       int // repairs that ended nothing that was there
	called         bool
	stages         []stage // of our own way
}

// stage is what our plan expects on the way.
type stage struct {
	told, repairs   int // findings, and repairs in vain
	expected, spent float64
}

func (c course) minutes(call float64) float64 {
	if c.called {
		return c.work + c.parts + call
	}
	return c.work + c.parts
}

// work goes through one job.
func (w way) work(data *Model, who triage.Worker, m *triage.Model, j job, known *plans, r *rand.Rand) course {
	d := &desk{data: data, model: m, bench: triage.Bench{Who: who, Tools: ^uint64(0)}, known: map[int]bool{}, plans: known}
	steps := data.Steps()
	left := map[int]bool{}
	for _, c := range j.causes {
		left[c] = true
	}
	var c course
	for {
		d.repairs, d.rest = d.model.Repairs(d.bench, d.answers)
		if w.name == ours {
			c.stages = append(c.stages, stage{len(d.answers), c.repairs, d.best(w.depth).Minutes, c.minutes(0)})
		}
		step := triage.HandOver
		if w.depth == 0 || !d.over(w.depth) {
			step = w.next(d, r)
		}
		if step < 0 {
			c.called = true
			return c
		}
		step = d.first(step)
		parts := data.Costs[steps[step].Cost.Text]
		c.parts += parts
		c.work += m.Steps[step].Minutes - parts
		d.bench.Done = append(d.bench.Done, step)
		if d.isTest(step) {
			c.tests++
			d.see(steps[step], j)
			continue
		}
		c.repairs++
		if !mend(j.truth.Steps[step], j.works[step], left, j.causes, &c) {
			continue
		}
		if len(j.causes) > 0 && len(left) == 0 {
			return c
		}
	}
}

// first is what a step needs before it, or the step.
func (d *desk) first(step int) int {
	for _, need := range d.model.Steps[step].Needs {
		done := false
		for _, s := range d.bench.Done {
			done = done || s == need
		}
		if !done {
			return d.first(need)
		}
	}
	return step
}

// see takes down what a test tells.
func (d *desk) see(s *Step, j job) {
	for _, t := range s.Tells {
		f := d.data.findingAt(t.Text)
		if d.known[f] || !d.counts(f, j) {
			continue
		}
		d.known[f] = true
		d.answers = append(d.answers, triage.Answer{Finding: f, Outcome: j.outcome[f], Value: j.value[f]})
	}
}

func (d *desk) counts(f int, j job) bool {
	said := map[string]string{}
	for g := range d.known {
		if on := d.data.Findings[g]; !on.Measured() {
			said[on.Name] = on.Answers[j.outcome[g]].Name
		}
	}
	return d.data.Findings[f].counts(said)
}

// mend does a repair, and tells whether it ended anything.
func mend(s triage.Step, works []float64, left map[int]bool, causes []int, c *course) bool {
	meant, ended := false, false
	for i, cure := range s.Cures {
		for _, cause := range causes {
			meant = meant || cause == cure.Cause
		}
		if left[cure.Cause] && works[i] < cure.Chance {
			delete(left, cure.Cause)
			ended = true
		}
	}
	if !meant {
		c.mistaken++
	}
	return ended
}
