package triage

import "math"

// job is a sheet with what was told of one machine.
type job struct {
	*Sheet
	bench   Bench
	pick    int // the step that the reader prefers, or HandOver
	undone  int // so many of what is done were told so; the others are tests with all their answers
	told    []told
	answers []Answer // those that count
	support [][]float64
	held    []float64 // of each hypothesis the logarithm of its share when nothing is known but that the repairs so far have not helped
	rest    []Belief  // without each of the answers
	odd     []oddness // of each of the answers
	plan    *planner
	belief  Belief
	now     []float64 // how sure one may be of each cause
}

// oddness is how probable an answer was, given the others and the repairs, and whether it does not go with them.
type oddness struct {
	_       [0]func() // never compared: saves the code for it
	p       float64
	strange bool
}

// told is an answer as it was given.
type told struct {
	_       [0]func() // never compared: saves the code for it
	finding int
	text    string
	unknown bool
	answer  Answer
	counts  int // its place among those that count, or −1
}

// weigh works out what is to be believed.
func (j *job) weigh() {
	for i := range j.told {
		t := &j.told[i]
		if t.counts = -1; t.unknown || !j.counts(t.finding) {
			j.bench.Asked = append(j.bench.Asked, t.finding)
			continue
		}
		t.counts = len(j.answers)
		j.answers = append(j.answers, t.answer)
	}
	j.ruledOut()
	j.undone = len(j.bench.Done)
	j.tested()
	j.plan = j.planner(j.bench, j.answers)
	j.support = make([][]float64, len(j.answers))
	for i, a := range j.answers {
		j.support[i] = make([]float64, j.hypotheses())
		for h := range j.support[i] {
			j.support[i][h] = j.Model.support(a, h)
		}
	}
	j.held = make([]float64, j.hypotheses())
	for h := range j.held {
		j.held[h] = 1 / float64(len(j.held))
	}
	for h, share := range j.plan.start(j.held) {
		j.held[h] = j.before[h] + math.Log(math.Max(share, 1e-300))
	}
	j.belief = j.without(-1)
	j.rest = make([]Belief, len(j.answers))
	j.odd = make([]oddness, len(j.answers))
	for i := range j.rest {
		j.rest[i] = j.without(i)
		j.odd[i] = j.oddness(i)
	}
	j.now = j.each(make([]float64, len(j.Causes)+1), j.belief)
}

// answered finds what was told of a finding, or gives nil.
func (j *job) answered(finding int) *told {
	for i := range j.told {
		if j.told[i].finding == finding {
			return &j.told[i]
		}
	}
	return nil
}

// counts tells whether the answers to other findings let this one count.
func (j *job) counts(finding int) bool {
	for i := range j.Guards {
		if g := &j.Guards[i]; g.Finding == finding && !j.allows(g, false) {
			return false
		}
	}
	return true
}

// allows tells whether a guard is met; of a finding that is still open, whatever is said.
func (j *job) allows(g *Guard, open bool) bool {
	on := j.answered(g.On)
	if on == nil {
		return open
	}
	return !on.unknown && g.Answers&(1<<on.answer.Outcome) != 0
}

// ruledOut leaves out of the plan what can no longer count.
func (j *job) ruledOut() {
	for i := range j.Guards {
		if g := &j.Guards[i]; !j.allows(g, true) {
			j.bench.Asked = append(j.bench.Asked, g.Finding)
		}
	}
}

// tested notes the tests of which everything is told: repairs that need one may follow. What somebody could not tell
// has not been tested.
func (j *job) tested() {
	for s := range j.Steps {
		all := len(j.Steps[s].Cures) == 0
		for _, f := range j.Steps[s].Findings {
			t := j.answered(f)
			all = all && t != nil && !t.unknown
		}
		if all {
			j.bench.Done = append(j.bench.Done, s)
		}
	}
}

// without is the belief without one of the answers that count.
func (j *job) without(skip int) Belief {
	share := append(Belief(nil), j.held...)
	for i, support := range j.support {
		if i == skip {
			continue
		}
		for h := range share {
			share[h] += support[h]
		}
	}
	return settled(share)
}

// each is how sure one may be of each cause, and behind the last one of what is not listed.
func (j *job) each(p []float64, b Belief) []float64 {
	n := len(j.Causes)
	copy(p, b[:n])
	for i, pair := range j.Pairs {
		p[pair.A] += b[n+i]
		p[pair.B] += b[n+i]
	}
	p[n] = b[len(b)-1]
	return p
}

// same is how close two probabilities are that count as equal, so that the order of a list is that of the sheet on all
// machines.
const same = 1e-9

// leader is the likeliest cause.
func (j *job) leader(b Belief) (cause int, p float64) {
	for c, q := range j.each(j.plan.room.list(len(j.Causes)+1), b) {
		if q > p+same {
			cause, p = c, q
		}
	}
	j.plan.room.back(1)
	return cause, p
}

// group is how sure one may be that something of a group is there.
func (j *job) group(name string) float64 {
	sum := 0.0
	for h := range j.belief {
		a, b := j.parts(h)
		if a >= 0 && (j.Groups[a] == name || j.Groups[b] == name) {
			sum += j.belief[h]
		}
	}
	return math.Min(sum, 1)
}

// after is the likeliest cause after one more outcome, how sure it is then, and how probable that outcome is.
func (j *job) after(finding, outcome int) (cause int, lead, p float64) {
	next, sum := j.plan.room.list(len(j.belief)), 0.0
	chance := j.chances[finding][outcome]
	for h, share := range j.belief {
		next[h] = share * chance[h]
		sum += next[h]
	}
	cause, lead = j.leader(normal(next))
	j.plan.room.back(1)
	return cause, lead, sum
}

// oddness finds out whether an answer does not go with the others: it is improbable with them, and less than half as probable
// as with nothing known. What is rare by itself is no sign of a mistake.
func (j *job) oddness(i int) oddness {
	p := j.expected(i, j.rest[i])
	return oddness{p: p, strange: p < strange && p < j.expected(i, j.prior())/2}
}

func (j *job) expected(i int, b Belief) float64 {
	a := j.answers[i]
	sum := 0.0
	for h, share := range b {
		if j.Names[a.Finding] != nil {
			sum += share * j.chance(a.Finding, a.Outcome, h)
		} else {
			sum += share * j.tail(a, h)
		}
	}
	return sum
}

// weight is by how many tenths of a ban an answer, given all others, raises the odds of a cause.
func (j *job) weight(i, cause int) float64 {
	rest := j.each(j.plan.room.list(len(j.now)), j.rest[i])[cause]
	j.plan.room.back(1)
	return (odds(j.now[cause]) - odds(rest)) * 10 / math.Ln10
}

// unfinished is the test that the last answer comes from, if more of it is still to be told, or HandOver.
func (j *job) unfinished() int {
	if len(j.told) == 0 || j.told[len(j.told)-1].unknown {
		return HandOver
	}
	for s, tells := range j.Tells {
		if !in(tells, j.told[len(j.told)-1].finding) || j.Steps[s].Who&j.bench.Who == 0 {
			continue
		}
		if f := j.question(s); f >= 0 && f != tells[0] {
			return s
		}
	}
	return HandOver
}

// question is the first finding of a test that is to be asked for now, or −1.
func (j *job) question(step int) int {
	for _, f := range j.Tells[step] {
		if j.answered(f) == nil && j.counts(f) {
			return f
		}
	}
	return -1
}
