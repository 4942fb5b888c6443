package triage

import (
	"bytes"
	"encoding/json"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"slices"
	"testing"
)

// network is a model and what was told, as the reference library gets them: weights and probabilities as a shop writes them. Hypotheses,
// slips, two causes at once and what is not listed are put together there, anew.
type network struct {
	Weights, PairWeights []float64
	Unlisted             float64
	Pairs                [][2]int
	Sound                [][]float64   // of each finding the probability of each outcome
	Given                [][][]float64 // of each finding, each cause
	Told                 []int         // of each finding the outcome, or −1
}

// judged is what the library says: the belief, and of each finding that was told how probable the answer was, given all others.
type judged struct{ Belief, Surprise []float64 }

// The library passes messages between neighbours, which is exact on trees, so all is asked as trees: what two causes make of a finding as three
// roots (one for what is usual, one for each cause) of which any shows it (Pearl's noisy-or); a cause that is not listed as two roots, whether it
// is like another and like which; and the belief as a star around the cause, with a slip behind each finding.
const networkScript = `
import json, sys
try:
    from pomegranate import BayesianNetwork, ConditionalProbabilityTable, DiscreteDistribution, Node
except ImportError:
    sys.exit(3)

def root(row):
    return DiscreteDistribution({str(i): p for i, p in enumerate(row)})

def below(parents, sizes, rule, outcomes):
    rows = [[]]
    for n in sizes:
        rows = [r + [i] for r in rows for i in range(n)]
    table = [[str(i) for i in r] + [str(o), rule(r, o)] for r in rows for o in range(outcomes)]
    return ConditionalProbabilityTable(table, parents)

def wire(nodes):
    net = BayesianNetwork()
    made = {n: Node(d, name=n) for n, d, _ in nodes}
    net.add_nodes(*made.values())
    for n, _, parents in nodes:
        for p in parents:
            net.add_edge(made[p], made[n])
    net.bake()
    def ask(seen, name):
        said = net.predict_proba(seen)[list(made).index(name)].parameters[0]
        return [said[str(i)] for i in range(len(said))]
    return ask

def two(sound, a, b): # outcome 0 is shown, 1 is usual; each root tells whether it shows the finding
    roots = [root([p, 1 - p]) for p in (sound[1], a[1] / sound[1], b[1] / sound[1])]
    shown = below(roots, [2, 2, 2], lambda r, o: float((1 in r) == (o == 0)), 2)
    return wire([("usual", roots[0], []), ("a", roots[1], []), ("b", roots[2], []), ("shown", shown, ["usual", "a", "b"])])({}, "shown")

def unlisted(weights, given):
    n = len(given[0])
    alike, which = root([0.5, 0.5]), root([w / sum(weights) for w in weights])
    shown = below([alike, which], [2, len(weights)], lambda r, o: given[r[1]][o] if r[0] == 0 else 1 / n, n)
    return wire([("alike", alike, []), ("which", which, []), ("shown", shown, ["alike", "which"])])({}, "shown")

out = []
for q in json.load(sys.stdin):
    prior = q["Weights"] + (q["PairWeights"] or []) + [q["Unlisted"]]
    cause = root([w / sum(prior) for w in prior])
    nodes, seen = [("cause", cause, [])], {}
    for f, given in enumerate(q["Given"]):
        sound, n = q["Sound"][f], len(q["Sound"][f])
        rows = given + [two(sound, given[a], given[b]) for a, b in (q["Pairs"] or [])] + [unlisted(q["Weights"], given)]
        clear = below([cause], [len(rows)], lambda r, o: rows[r[0]][o], n)
        told = below([clear], [n], lambda r, o: 0.99 * (r[0] == o) + 0.01 / n, n)
        nodes += [("clear%d" % f, clear, ["cause"]), ("told%d" % f, told, ["clear%d" % f])]
        if q["Told"][f] >= 0:
            seen["told%d" % f] = str(q["Told"][f])
    ask = wire(nodes)
    answer = {"Belief": ask(seen, "cause"), "Surprise": []}
    for f, o in enumerate(q["Told"]):
        if o >= 0:
            others = {k: v for k, v in seen.items() if k != "told%d" % f}
            answer["Surprise"].append(ask(others, "told%d" % f)[o])
    out.append(answer)
json.dump(out, sys.stdout)
`

// consult runs a script of Debian's Python, for which the Debian packages are installed.
func consult(t *testing.T, script, debian string, questions, answers any) {
	t.Helper()
	in, err := json.Marshal(questions)
	if err != nil {
		t.Fatal(err)
	}
	var complaint bytes.Buffer
	cmd := exec.Command("/usr/bin/python3", "-I", "-c", script)
	cmd.Env = append(os.Environ(), "LC_ALL=C", "OPENBLAS_NUM_THREADS=1")
	cmd.Stdin, cmd.Stderr = bytes.NewReader(in), &complaint
	said, err := cmd.Output()
	if cmd.ProcessState == nil || cmd.ProcessState.ExitCode() == 3 {
		t.Fatalf("nothing to check against: install the package %s (Debian: apt-get install %[1]s)", debian)
	}
	if err != nil {
		t.Fatalf("python3: %v\n%s", err, complaint.Bytes())
	}
	if err := json.Unmarshal(said, answers); err != nil {
		t.Fatalf("python3: %v", err)
	}
}

// drawn is a random share of each of n outcomes.
func drawn(r *rand.Rand, n int) []float64 {
	list, sum := make([]float64, n), 0.0
	for i := range list {
		list[i] = 0.01 + math.Pow(r.Float64(), 3)
		sum += list[i]
	}
	for i := range list {
		list[i] /= sum
	}
	return list
}

// wired draws a network. With pairs each finding has two outcomes and each cause makes the first one likelier, which is where the rule for two
// causes is the noisy-or; without, up to five outcomes of any probability.
func wired(r *rand.Rand, pairs bool) network {
	n := 3 + r.IntN(3)
	q := network{Unlisted: 0.05 + r.Float64()}
	for range n {
		q.Weights = append(q.Weights, 0.1+5*r.Float64())
	}
	for a := range n {
		for b := range a {
			if pairs && r.IntN(2) == 0 {
				q.Pairs = append(q.Pairs, [2]int{b, a})
				q.PairWeights = append(q.PairWeights, 0.05+r.Float64())
			}
		}
	}
	for range 3 + r.IntN(3) {
		outcomes := 2
		if !pairs {
			outcomes += r.IntN(4)
		}
		sound := drawn(r, outcomes)
		if pairs {
			sound = pairOf(0.2 * r.Float64())
		}
		var given [][]float64
		for range n {
			row := drawn(r, outcomes)
			if pairs {
				row = pairOf(sound[0] + r.Float64()*(0.99-sound[0]))
			}
			given = append(given, row)
		}
		q.Sound, q.Given, q.Told = append(q.Sound, sound), append(q.Given, given), append(q.Told, r.IntN(outcomes+1)-1)
	}
	return q
}

// ours is the same model, and the answers.
func (q network) ours() (*Model, []Answer) {
	m := causes(q.Weights...)
	m.Unlisted = q.Unlisted
	for i, pair := range q.Pairs {
		m.Pairs = append(m.Pairs, Pair{A: pair[0], B: pair[1], Weight: q.PairWeights[i]})
	}
	var answers []Answer
	for f := range q.Sound {
		m.Findings = append(m.Findings, Finding{Sound: q.Sound[f], Given: q.Given[f]})
		if q.Told[f] >= 0 {
			answers = append(answers, Answer{Finding: f, Outcome: q.Told[f]})
		}
	}
	m.Prepare()
	return m, answers
}

// TestBeliefAgreesWithPomegranate: the belief and the surprise of each answer on random models, half of them with pairs, are those that the
// Bayesian networks of pomegranate (0.14.8, Debian's python3-pomegranate) give.
func TestBeliefAgreesWithPomegranate(t *testing.T) {
	r := rand.New(rand.NewPCG(1988, 43))
	var asked []network
	for i := range 50 {
		asked = append(asked, wired(r, i%2 == 0))
	}
	var said []judged
	consult(t, networkScript, "python3-pomegranate", asked, &said)
	if len(said) != len(asked) {
		t.Fatalf("%d answers to %d questions", len(said), len(asked))
	}
	near := func(a, b float64) bool { return math.Abs(a-b) <= 1e-9 }
	for i, q := range asked {
		m, answers := q.ours()
		if got := m.Belief(answers); !slices.EqualFunc(got, said[i].Belief, near) {
			t.Errorf("%d: a belief of %v, pomegranate says %v; %+v", i, got, said[i].Belief, q)
		}
		var surprise []float64
		for a := range answers {
			surprise = append(surprise, m.Surprise(answers, a))
		}
		if !slices.EqualFunc(surprise, said[i].Surprise, near) {
			t.Errorf("%d: answers as probable as %v, pomegranate says %v; %+v", i, surprise, said[i].Surprise, q)
		}
	}
}
