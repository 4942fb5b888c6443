package fault

import (
	"math"
	"math/rand/v2"
	"strconv"

	"blankoff/calc/triage"
)

// job is a machine on the bench, with all that could be found out about it drawn beforehand, so that every way of working
// meets the same machine.
type job struct {
	truth   *triage.Model // the machine is drawn from it
	causes  []int         // none: something that the model does not list
	outcome []int         // of each choice
	value   []float64
	works   [][]float64 // of each step's cures: drawn evenly from 0 to 1; the cure works below its chance
}

// drawJob draws a machine from a model. It does not use the reckoning's own rule for two causes at once: each cause draws what it
// would show, and what differs from the usual wins.
func drawJob(m *triage.Model, r *rand.Rand, listed bool) job {
	j := job{truth: m, outcome: make([]int, len(m.Findings)), value: make([]float64, len(m.Findings))}
	if listed {
		j.causes = drawCauses(m, r)
	}
	for f := range m.Findings {
		finding := &m.Findings[f]
		shows := j.causes
		if len(shows) == 0 { // it looks, finding by finding, like any of the listed ones
			shows = []int{r.IntN(len(m.Causes))}
		}
		if len(finding.Cuts) > 0 {
			j.value[f] = drawValue(finding, shows, r)
		} else {
			j.outcome[f] = drawOutcome(finding, shows, r)
		}
	}
	for _, s := range m.Steps {
		row := make([]float64, len(s.Cures))
		for i := range row {
			row[i] = r.Float64()
		}
		j.works = append(j.works, row)
	}
	return j
}

// drawCauses gives one cause, two, or none where it is one that the model does not list.
func drawCauses(m *triage.Model, r *rand.Rand) []int {
	sum := m.Unlisted
	for _, c := range m.Causes {
		sum += c.Weight
	}
	for _, p := range m.Pairs {
		sum += p.Weight
	}
	x := r.Float64() * sum
	for i, c := range m.Causes {
		if x -= c.Weight; x < 0 {
			return []int{i}
		}
	}
	for _, p := range m.Pairs {
		if x -= p.Weight; x < 0 {
			return []int{p.A, p.B}
		}
	}
	return nil
}

// misread is how often an answer is not what was there to see.
const misread = 0.01

func drawOutcome(f *triage.Finding, causes []int, r *rand.Rand) int {
	usual := 0
	for o, p := range f.Sound {
		if p > f.Sound[usual] {
			usual = o
		}
	}
	seen := usual
	for _, c := range causes {
		if o := drawOf(f.Given[c], r); o != usual {
			seen = o
		}
	}
	if r.Float64() < misread {
		return r.IntN(len(f.Sound))
	}
	return seen
}

func drawOf(p []float64, r *rand.Rand) int {
	x := r.Float64()
	for o := range p {
		if x -= p[o]; x < 0 {
			return o
		}
	}
	return len(p) - 1
}

// drawValue reads a meter to two figures.
func drawValue(f *triage.Finding, causes []int, r *rand.Rand) float64 {
	best, far := 0.0, -1.0
	for _, c := range causes {
		x := f.Curve[c].Middle * math.Exp(f.Curve[c].Spread*r.NormFloat64())
		if d := math.Abs(math.Log(x / f.Plain.Middle)); d > far {
			best, far = x, d
		}
	}
	rounded, _ := strconv.ParseFloat(strconv.FormatFloat(best, 'g', 2, 64), 64)
	return rounded
}

// wrong gives a model in which the odds of every probability are off by a factor of up to two either way, weights and cures too. The
// middle of a measured value is moved by up to 0.4 of its spread, which changes the odds of lying above it by two.
func wrong(m *triage.Model, r *rand.Rand) *triage.Model {
	t := *m
	off := func() float64 { return math.Exp((2*r.Float64() - 1) * math.Ln2) }
	t.Causes, t.Pairs = nil, nil
	for _, c := range m.Causes {
		t.Causes = append(t.Causes, triage.Cause{ID: c.ID, Weight: c.Weight * off()})
	}
	for _, p := range m.Pairs {
		t.Pairs = append(t.Pairs, triage.Pair{A: p.A, B: p.B, Weight: p.Weight * off()})
	}
	t.Findings = nil
	for _, f := range m.Findings {
		t.Findings = append(t.Findings, wrongFinding(f, off, r))
	}
	t.Steps = nil
	for _, s := range m.Steps {
		cures := append([]triage.Cure(nil), s.Cures...)
		for i, c := range cures {
			odds := c.Chance / (1 - c.Chance) * off()
			cures[i].Chance = odds / (1 + odds)
		}
		s.Cures = cures
		t.Steps = append(t.Steps, s)
	}
	return &t
}

func wrongFinding(f triage.Finding, off func() float64, r *rand.Rand) triage.Finding {
	if len(f.Cuts) > 0 {
		curves := append([]triage.Curve(nil), f.Curve...)
		for i := range curves {
			curves[i].Middle *= math.Exp(0.4 * curves[i].Spread * (2*r.Float64() - 1))
		}
		f.Curve = curves
		return f
	}
	given := make([][]float64, len(f.Given))
	for c, row := range f.Given {
		sum := 0.0
		for _, p := range row {
			odds := p / math.Max(1-p, 1e-9) * off()
			given[c] = append(given[c], odds/(1+odds))
			sum += given[c][len(given[c])-1]
		}
		for o := range given[c] {
			given[c][o] /= sum
		}
	}
	f.Given = given
	return f
}
