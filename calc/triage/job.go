package triage

import "math"

// job is a sheet with what was told of one machine.
type job struct {
	*Sheet
	bench   Bench
	told    []told
	answers []Answer // those that count
	support [][]float64
	held    []float64 // of each hypothesis the logarithm of how probable it is that the repairs so far have not helped
	plan    *planner
	belief  Belief
	now     []float64 // how sure one may be of each cause
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
		j.held[h] = math.Log(math.Max(share, 1e-300))
	}
	j.belief = j.without(-1)
	j.now = j.each(j.belief)
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
	share := j.prior()
	for h := range share {
		share[h] = math.Log(share[h]) + j.held[h]
		for i := range j.support {
			if i != skip {
				share[h] += j.support[i][h]
			}
		}
	}
	return settled(share)
}

// each is how sure one may be of each cause, and behind the last one of what is not listed.
func (j *job) each(b Belief) []float64 {
	n := len(j.Causes)
	p := append(make([]float64, 0, n+1), b[:n]...)
	for i, pair := range j.Pairs {
		p[pair.A] += b[n+i]
		p[pair.B] += b[n+i]
	}
	return append(p, b[len(b)-1])
}

// same is how close two probabilities are that count as equal, so that the order of a list is that of the sheet on all
// machines.
const same = 1e-9

// leader is the likeliest cause.
func (j *job) leader(b Belief) (cause int, p float64) {
	for c, q := range j.each(b) {
		if q > p+same {
			cause, p = c, q
		}
	}
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

// after is the belief after one more outcome, and how probable that is.
func (j *job) after(finding, outcome int) (Belief, float64) {
	next, sum := make(Belief, len(j.belief)), 0.0
	for h := range next {
		next[h] = j.belief[h] * j.chance(finding, outcome, h)
		sum += next[h]
	}
	return normal(next), sum
}

// surprise is how probable an answer was, given the others and the repairs.
func (j *job) surprise(i int) float64 { return j.expected(i, j.without(i)) }

// strange tells whether an answer does not go with the others: it is improbable with them, and less than half as probable as
// with nothing known. What is rare by itself is no sign of a mistake.
func (j *job) strange(i int) bool {
	p := j.surprise(i)
	return p < strange && p < j.expected(i, j.prior())/2
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
	return (odds(j.now[cause]) - odds(j.each(j.without(i))[cause])) * 10 / math.Ln10
}

// asks is the first finding that a test still has to tell, or −1.
func (j *job) asks(step int) int {
	for _, f := range j.Steps[step].Findings {
		if !j.plan.known[f] {
			return f
		}
	}
	return -1
}
