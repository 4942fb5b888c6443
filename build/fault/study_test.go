package fault

import (
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"strings"
	"sync"
	"testing"

	"blankoff/build/source"
	"blankoff/calc/triage"
)

var (
	update = flag.Bool("update", false, "write testdata/triage-study.txt afresh")
	jobs   = flag.Int("jobs", 0, "with -update: how many jobs the study works; 10000 take half an hour")
)

func demo(t testing.TB) *Model {
	t.Helper()
	data, err := os.ReadFile("../../content/triage.yaml")
	if err != nil {
		t.Fatal(err)
	}
	return read(t, string(data))
}

func read(t testing.TB, text string) *Model {
	t.Helper()
	model, faults := readText(text)
	for _, f := range faults {
		t.Errorf("%v: %s (%s)", f.Span.Position(), f.Message, f.Rule)
	}
	if len(faults) > 0 {
		t.FailNow()
	}
	return model
}

func readText(text string) (*Model, []source.Fault) {
	file := &source.File{Name: "content/triage.yaml", Path: "triage.yaml", Text: text}
	mapping, faults := source.ParseMapping(file, file.Span(0, len(text)))
	model, more := Read(file, mapping)
	return model, append(faults, more...)
}

// population is a kind of jobs.
type population struct {
	name        string
	share       int // one job of the study in this many
	wrong, none bool
}

var populations = []population{
	{name: "jobs drawn from the model", share: 1},
	{name: "jobs from models whose odds are all wrong, by a factor of up to two either way (a new one every 10 jobs)", share: 1, wrong: true},
	{name: "jobs whose cause is not in the model", share: 5, none: true},
}

// sums is what one way of working came to over a population.
type sums struct {
	minutes, work, parts             float64
	tests, repairs, mistaken, called float64
}

func study(data *Model, p population, n int) []sums {
	m := data.For(Technician)
	known := &plans{known: map[string][]triage.Choice{}}
	list := make([]sums, len(ways))
	var group sync.WaitGroup
	for i := range ways {
		group.Go(func() { list[i] = p.run(ways[i], data, m, n, known) })
	}
	group.Wait()
	return list
}

// run works n jobs in one way; the draws are the same for all ways.
func (p population) run(w way, data *Model, m *triage.Model, n int, known *plans) sums {
	var s sums
	truth := m
	draws, luck := rand.New(rand.NewPCG(17, 1995)), rand.New(rand.NewPCG(5, 9))
	for i := range n {
		if p.wrong && i%10 == 0 {
			truth = wrong(m, draws)
		}
		c := w.work(data, m, truth, drawJob(truth, draws, !p.none), known, luck)
		s.minutes += c.minutes(m.Call) / float64(n)
		s.work += c.work / float64(n)
		s.parts += c.parts / float64(n)
		s.tests += float64(c.tests) / float64(n)
		s.repairs += float64(c.repairs) / float64(n)
		s.mistaken += float64(c.mistaken) / float64(n)
		if c.called {
			s.called += 1 / float64(n)
		}
	}
	return s
}

func table(p population, n int, list []sums) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%d %s\n%-36s%9s%9s%9s%8s%9s%15s%13s\n", n, p.name, "", "minutes", "of work", "of parts", "tests", "repairs", "wrong repairs", "handed over")
	for i, s := range list {
		fmt.Fprintf(&b, "%-36s%9.0f%9.0f%9.0f%8.1f%9.2f%15.2f%11.0f %%\n", ways[i].name, s.minutes, s.work, s.parts, s.tests, s.repairs, s.mistaken, 100*s.called)
	}
	return b.String() + fmt.Sprintf("fewer minutes than the best of the five: %.0f %%; than the last: %.0f %%\n", 100*saved(list[:6]), 100*saved([]sums{list[0], list[6]}))
}

// saved is the share of minutes that ours, the first in the list, has fewer than the best of the others.
func saved(list []sums) float64 {
	best := list[1].minutes
	for _, s := range list[1:] {
		best = min(best, s.minutes)
	}
	return 1 - list[0].minutes/best
}

const about = `Fault finding with the demo's fault model (content/triage.yaml), by a technician who has all tools
(go test ./build/fault -run Study -update -jobs 10000 writes this file; without -jobs only its last part)

Minutes are work, with parts counted as the work that they are worth, and 12 h for a job that is
handed over. Waiting is not counted.

All ways of working have the same belief and the same rule for handing over: when the best that
could come next, by our own plan, is expected to cost more. All meet the same machines, drawn with
fixed seeds. The checklists are the tests in the order of the file. A way that goes through tests
leaves them for the likeliest repair as soon as that ends the job with 35 %, which suits them best.
The last way goes beyond what is done by hand: its repair is the one with the most chance for its
cost. A step that needs another has that done first.

One answer in a hundred is a slip. Of two causes at once each draws what it would show, and what
differs from the usual is seen. A cause that the model does not list looks, finding by finding, like
any of those listed, and only handing over ends it. A repair is wrong when it could not end anything
that was there.

The model, its weights and its times are from memory. So the figures say what planning brings if the
model is right, or wrong by as much as the second table says; they say nothing of how right it is.
Against the best possible order of all steps, on models small enough to try every order, see
TestNearTheOptimum in calc/triage.
`

const smallStudy = 30

// TestStudy works the first jobs of the study anew and asks for the very same tables, so that the file cannot fall behind
// the program or the demo's model.
func TestStudy(t *testing.T) {
	const name, mark = "../../testdata/triage-study.txt", "\nThe small study, worked in each test\n\n"
	old, _ := os.ReadFile(name)
	large, _, _ := strings.Cut(strings.TrimPrefix(string(old), about), mark)
	data := demo(t)
	if *update && *jobs > 0 {
		large = "\n" + tables(data, *jobs)
	}
	want := about + large + mark + tables(data, smallStudy)
	if *update {
		if err := os.WriteFile(name, []byte(want), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	if string(old) != want {
		t.Errorf("the study has changed: look at the difference after -update\n%s", want)
	}
}

func tables(data *Model, n int) string {
	var list []string
	for _, p := range populations {
		list = append(list, table(p, n/p.share, study(data, p, n/p.share)))
	}
	return strings.Join(list, "\n")
}
