package triage

import (
	"math"
	"math/rand/v2"
	"testing"
)

// process is a model for the reference: every test tells one finding, every repair ends causes.
type process struct {
	Prior   []float64 // of causes, pairs, what is not listed
	Ends    [][]int   // of each of these the causes that must all be ended; none of what is not listed
	Weights []float64 // of the causes
	Call    float64   // minutes
	Sound   [][]float64
	Given   [][][]float64
	Tests   []float64 // minutes, of each finding
	Repairs []float64 // minutes
	Chances [][]float64
}

// A job is a Markov decision process whose states are what has been told and which repairs have been tried. Its least expected minutes are the
// largest root value that no action undercuts: a linear programme (d'Epenoux 1963, from memory), solved by HiGHS in scipy. Values are times the
// probability of the state, so that nothing is divided; they are small where a state is rare, hence the scale.
const policyScript = `
import json, sys
try:
    import numpy as np
    from scipy import sparse
    from scipy.optimize import linprog
except ImportError:
    sys.exit(3)

def shown(q, f, h):
    sound, given, causes = q["Sound"][f], q["Given"][f], q["Ends"][h]
    n = len(sound)
    if len(causes) == 1:
        p = given[causes[0]]
    elif not causes:
        p = [sum(w * g[o] for w, g in zip(q["Weights"], given)) / sum(q["Weights"]) / 2 + 1 / n / 2 for o in range(n)]
    else: # two outcomes, of which the likelier one is usual; a cause that makes it likelier still does not make up for the other
        a, b = given[causes[0]], given[causes[1]]
        u = 0 if sound[0] > sound[1] else 1
        stays = min(a[u] * b[u] / sound[u], a[u], b[u])
        p = [stays if o == u else 1 - stays for o in range(n)]
    return [0.99 * x + 0.01 / n for x in p]

def least(q):
    seen = [[shown(q, f, h) for h in range(len(q["Prior"]))] for f in range(len(q["Sound"]))]
    def weight(told, done):
        total = 0.0
        for h, w in enumerate(q["Prior"]):
            for f, o in enumerate(told):
                if o >= 0:
                    w *= seen[f][h][o]
            ended = 1.0
            for c in q["Ends"][h]:
                kept = 1.0
                for r in done:
                    kept *= 1 - q["Chances"][r][c]
                ended *= 1 - kept
            if q["Ends"][h]:
                w *= 1 - ended
            total += w
        return total
    start = (tuple(-1 for _ in q["Sound"]), frozenset())
    place, queue, rows, limits = {start: 0}, [start], [], []
    def at(state):
        if state not in place:
            place[state] = len(place)
            queue.append(state)
        return place[state]
    for state in queue:
        told, done = state
        w = weight(told, done)
        rows.append({at(state): 1})
        limits.append(w * q["Call"])
        for f, minutes in enumerate(q["Tests"]):
            if told[f] < 0:
                row = {at(state): 1}
                for o in range(len(q["Sound"][f])):
                    row[at((told[:f] + (o,) + told[f + 1:], done))] = -1
                rows.append(row)
                limits.append(w * minutes)
        for r, minutes in enumerate(q["Repairs"]):
            if r not in done:
                rows.append({at(state): 1, at((told, done | {r})): -1})
                limits.append(w * minutes)
    i, j, v = zip(*[(i, j, v) for i, row in enumerate(rows) for j, v in row.items()])
    aim = np.zeros(len(place))
    aim[0] = -1
    scale = 1e4
    said = linprog(aim, sparse.csr_matrix((v, (i, j))), np.array(limits) * scale, bounds=(0, None), method="highs")
    return -said.fun / scale

json.dump([least(q) for q in json.load(sys.stdin)], sys.stdout)
`

// asProcess takes a model apart that small has drawn.
func asProcess(m *Model) process {
	q := process{Prior: m.prior(), Call: m.Call}
	for h := range q.Prior {
		ends := []int{}
		if a, b := m.parts(h); a >= 0 {
			if ends = append(ends, a); b != a {
				ends = append(ends, b)
			}
		}
		q.Ends = append(q.Ends, ends)
	}
	for _, c := range m.Causes {
		q.Weights = append(q.Weights, c.Weight)
	}
	for _, f := range m.Findings {
		q.Sound, q.Given = append(q.Sound, f.Sound), append(q.Given, f.Given)
	}
	for _, s := range m.Steps {
		if len(s.Cures) == 0 {
			q.Tests = append(q.Tests, s.Minutes)
			continue
		}
		chances := make([]float64, len(m.Causes))
		for _, cure := range s.Cures {
			chances[cure.Cause] = cure.Chance
		}
		q.Repairs, q.Chances = append(q.Repairs, s.Minutes), append(q.Chances, chances)
	}
	return q
}

// TestOptimumIsThatOfTheDecisionProcess: the exhaustive search that the plan is held against finds what linear programming finds, and the plan
// is never better. Where the plan is the best, it is so by both.
func TestOptimumIsThatOfTheDecisionProcess(t *testing.T) {
	r := rand.New(rand.NewPCG(1963, 2))
	var models []*Model
	var asked []process
	for range 40 {
		m := small(r)
		models, asked = append(models, m), append(asked, asProcess(m))
	}
	var said []float64
	consult(t, policyScript, "python3-scipy", asked, &said)
	if len(said) != len(asked) {
		t.Fatalf("%d answers to %d questions", len(said), len(asked))
	}
	best := 0
	for i, m := range models {
		begin := state{weight: m.prior()}
		if tried := optimum(m, begin, map[string]float64{}); math.Abs(tried/said[i]-1) > 1e-9 {
			t.Errorf("%d: every order tried gives %v min, linear programming %v", i, tried, said[i])
		}
		over := followed(m, begin, 2)/said[i] - 1
		if over < -1e-9 {
			t.Errorf("%d: the plan takes less than the best by %v", i, -over)
		}
		if over < 1e-9 {
			best++
		}
	}
	t.Logf("the plan is the best way through %d of %d models", best, len(models))
	if best < len(models)/2 {
		t.Errorf("the plan is the best way through %d of %d models only", best, len(models))
	}
}
