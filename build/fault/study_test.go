package fault

import (
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"testing"

	"blankoff/build/parallel"
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
	who         string
	share       int // one job of the study in this many
	wrong, none bool
}

var populations = []population{
	{name: "jobs drawn from the model", who: Technician, share: 1},
	{name: "jobs from models whose odds are all wrong, by a factor of up to two either way (a new one every 10 jobs)", who: Technician, share: 1, wrong: true},
	{name: "jobs whose cause is not in the model", who: Technician, share: 5, none: true},
	{name: "jobs drawn from the model, at the customer's", who: Customer, share: 5},
	{name: "jobs at the customer's from models whose odds are all wrong, as above", who: Customer, share: 5, wrong: true},
}

// ways are those of this population. A customer may also call the shop without looking at anything.
func (p population) ways() []way {
	if p.who == Customer {
		return append(ways[:len(ways):len(ways)], way{"call the shop at once", func(*desk, *rand.Rand) int { return triage.HandOver }, 1})
	}
	return ways
}

// tally is a mean in the making.
type tally struct{ n, sum, squares float64 }

func (t *tally) add(x float64) { t.n, t.sum, t.squares = t.n+1, t.sum+x, t.squares+x*x }

func (t tally) mean() float64 { return t.sum / t.n }

// error is the standard error of the mean: what another seed would move it by.
func (t tally) error() float64 {
	return math.Sqrt(math.Max(t.squares/t.n-t.mean()*t.mean(), 0) / t.n)
}

// sums is what one way of working came to over a population.
type sums struct {
	way                                                    string
	minutes, work, parts, tests, repairs, mistaken, called tally
	each                                                   []float64 // the minutes of each job
	ended, before                                          tally     // of the jobs that this worker can end how many were, of the others the work and parts before handing over
}

func (s *sums) add(c course, call float64, can bool) {
	s.each = append(s.each, c.minutes(call))
	s.minutes.add(c.minutes(call))
	s.work.add(c.work)
	s.parts.add(c.parts)
	s.tests.add(float64(c.tests))
	s.repairs.add(float64(c.repairs))
	s.mistaken.add(float64(c.mistaken))
	called := 0.0
	if c.called {
		called = 1
	}
	s.called.add(called)
	if can {
		s.ended.add(1 - called)
	} else {
		s.before.add(c.work + c.parts)
	}
}

// study works n jobs in all ways; the draws are the same for all.
func study(data *Model, p population, n int) []sums {
	m, who := data.For(p.who), Worker(p.who)
	known := &plans{known: map[string]triage.Choice{}}
	jobs := p.draw(m, n)
	courses := make([]course, n*len(p.ways()))
	parallel.Each(len(courses), func(i int) {
		j := jobs[i%n]
		courses[i] = p.ways()[i/n].work(data, who, m, j, known, rand.New(rand.NewPCG(5, uint64(i%n))))
	})
	list := make([]sums, len(p.ways()))
	for w := range list {
		list[w].way = p.ways()[w].name
		for i, c := range courses[w*n : (w+1)*n] {
			list[w].add(c, m.Call, canEnd(m, who, jobs[i].causes))
		}
	}
	return list
}

// draw gives n jobs.
func (p population) draw(m *triage.Model, n int) []job {
	list := make([]job, n)
	truth, draws := m, rand.New(rand.NewPCG(17, 1995))
	for i := range list {
		if p.wrong && i%10 == 0 {
			truth = wrong(m, draws)
		}
		list[i] = drawJob(truth, draws, !p.none)
	}
	return list
}

// canEnd tells whether somebody may do a repair for each of the causes.
func canEnd(m *triage.Model, who triage.Worker, causes []int) bool {
	for _, c := range causes {
		if !slices.ContainsFunc(m.Steps, func(s triage.Step) bool {
			return s.Who&who != 0 && slices.ContainsFunc(s.Cures, func(cure triage.Cure) bool { return cure.Cause == c })
		}) {
			return false
		}
	}
	return len(causes) > 0
}

func table(p population, n int, list []sums) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%d %s\n%-34s%14s%9s%14s%8s%9s%15s%13s\n", n, p.name, "", "minutes", "of work", "of parts", "tests", "repairs", "wrong repairs", "handed over")
	for _, s := range list {
		fmt.Fprintf(&b, "%-34s%8.0f ± %-3.0f%9.0f%8.0f ± %-3.0f%8.1f%9.2f%8.2f ± %.2f%11.0f %%\n", s.way, s.minutes.mean(), s.minutes.error(), s.work.mean(),
			s.parts.mean(), s.parts.error(), s.tests.mean(), s.repairs.mean(), s.mistaken.mean(), s.mistaken.error(), 100*s.called.mean())
	}
	fmt.Fprintf(&b, "fewer minutes than the best of the five: %s; than cheapest test, cheapest chance: %s;\nthan every test, then the likeliest: %s",
		saved(list[0], list[1:6]...), saved(list[0], list[6]), saved(list[0], list[7]))
	if p.who == Customer {
		fmt.Fprintf(&b, "; than calling at once: %s\n%.0f %% of these jobs can be ended by the customer\n%-34s%16s%40s\n", saved(list[0], list[8]),
			100*list[0].ended.n/float64(n), "", "of them ended", "of the others, minutes before the call")
		for _, s := range list {
			fmt.Fprintf(&b, "%-34s%14.0f %%%34.0f ± %-3.0f\n", s.way, 100*s.ended.mean(), s.before.mean(), s.before.error())
		}
		return b.String()
	}
	return b.String() + "\n"
}

// saved is the share of minutes that ours has fewer than the best of the others, with the standard error that follows from
// the differences job by job.
func saved(ours sums, others ...sums) string {
	best := others[0]
	for _, s := range others[1:] {
		if s.minutes.mean() < best.minutes.mean() {
			best = s
		}
	}
	ratio := ours.minutes.mean() / best.minutes.mean()
	var d tally
	for i := range ours.each {
		d.add(ours.each[i] - ratio*best.each[i])
	}
	return fmt.Sprintf("%.1f ± %.1f %%", 100*(1-ratio), 100*d.error()/best.minutes.mean())
}

const about = `Fault finding with the demo's fault model (content/triage.yaml), by somebody who has all tools
(go test ./build/fault -run Study -timeout 0 -update -jobs 10000 writes this file; without -jobs only its last part)

Minutes are work, with parts counted as the work that they are worth, and 12 h for a job that a
technician hands over, 3 h for one that the customer does. Waiting is not counted. After ± stands
the standard error of a mean: what other seeds would move it by.

All ways of working have the same belief and the same rule for handing over: when the best that
could come next, by our own plan (which looks two steps ahead for ours, one for the others), is
expected to cost more. All meet the same machines, drawn with fixed seeds. The checklists are the
tests in the order of the file. A way that goes through tests leaves them for the likeliest repair
as soon as that ends the job with 35 %, which suits them best.
The way of the cheapest chance goes beyond what is done by hand: its repair is the one with the most
chance for its cost. The last way is a checklist, or the cheapest test first, as it is usually meant:
every test is done before the likeliest repair, and the job is handed over when repairing on is
expected to cost more; nobody weighs when to leave the tests. A step that needs another has that
done first. A customer has only what a customer may do, in every way.

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
	data := demo(t)
	holdStudy(t, "triage-study.txt", about, smallStudy, func(n int) string { return tables(data, n) })
}

// holdStudy compares a file of testdata with the small study, worked anew; -update writes it, and -jobs the large one above it.
func holdStudy(t *testing.T, name, about string, small int, tables func(n int) string) {
	t.Helper()
	const mark = "\nThe small study, worked in each test\n\n"
	name = "../../testdata/" + name
	old, _ := os.ReadFile(name)
	large, _, _ := strings.Cut(strings.TrimPrefix(string(old), about), mark)
	if *update && *jobs > 0 {
		large = "\n" + tables(*jobs)
	}
	want := about + large + mark + tables(small)
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
		if n > smallStudy { // it takes long: show how far it is
			fmt.Println(list[len(list)-1])
		}
	}
	return strings.Join(list, "\n")
}
