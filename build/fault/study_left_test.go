package fault

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"blankoff/build/parallel"
	"blankoff/calc/triage"
)

const aboutLeft = `What a triage says is left to do, and what simulated jobs then took (content/triage.yaml)
(go test ./build/fault -run Left -timeout 0 -update -jobs 10000 writes this file; without -jobs only its last part)

The jobs are those of triage-study.txt, worked our way. "Planned" is the mean of what the plan expects, "said" that of what a
reader is told (triage.LeftFor), "taken" that of what the jobs took from there, with its standard error. All are minutes of work,
parts and handing over counted as such. A reader is also told between which times half of such jobs end; "inside" is how many did.
`

// at is a stage of which a reader may ask how much is left.
type at struct {
	name string
	is   func(s stage) bool
}

var stagesTold = []at{
	{"at the start", func(s stage) bool { return s.told == 0 && s.repairs == 0 }},
	{"after 3 answers", func(s stage) bool { return s.told == 3 && s.repairs == 0 }},
	{"after 6 answers", func(s stage) bool { return s.told == 6 && s.repairs == 0 }},
	{"after 9 answers", func(s stage) bool { return s.told == 9 && s.repairs == 0 }},
	{"after a repair in vain", func(s stage) bool { return s.repairs == 1 }},
}

// left is what was said and what was taken at one stage.
type left struct {
	at
	planned, said, taken, inside tally
}

// follow works n jobs our way and holds what is said against what is taken. Of a job the first step of each stage counts.
func follow(data *Model, p population, n int) []left {
	m, who := data.For(p.who), Worker(p.who)
	known := &plans{known: map[string]triage.Choice{}}
	jobs := p.draw(m, n)
	courses := make([]course, n)
	parallel.Each(n, func(i int) {
		courses[i] = ways[0].work(data, who, m, jobs[i], known, rand.New(rand.NewPCG(5, uint64(i))))
	})
	list := make([]left, len(stagesTold))
	for k := range list {
		list[k].at = stagesTold[k]
		for _, c := range courses {
			for _, s := range c.stages {
				if list[k].is(s) {
					list[k].add(s, who, len(m.Findings), c.minutes(m.Call)-s.spent)
					break
				}
			}
		}
	}
	return list
}

func (l *left) add(s stage, who triage.Worker, findings int, taken float64) {
	says := triage.LeftFor(who, float64(s.told)/float64(findings), s.repairs)
	l.planned.add(s.expected)
	l.said.add(says.Mean * s.expected)
	l.taken.add(taken)
	inside := 0.0
	if taken >= says.Low*s.expected && taken <= says.High*s.expected {
		inside = 1
	}
	l.inside.add(inside)
}

// within is how many end between the bounds. A customer is told none.
func (l *left) within(p population) string {
	if p.who == Customer {
		return "-"
	}
	return fmt.Sprintf("%.0f %%", 100*l.inside.mean())
}

// mostOff is how far what is said may lie from what is taken, on average.
const mostOff = 0.15

// TestLeft: what is said to be left is what jobs take, at the start and after three answers, and half of them end between the bounds.
func TestLeft(t *testing.T) {
	data := demo(t)
	holdStudy(t, "triage-left.txt", aboutLeft, 300, func(n int) string { return leftTables(t, data, n) })
}

func leftTables(t *testing.T, data *Model, n int) string {
	var b strings.Builder
	for i, p := range populations {
		if p.none {
			continue // nobody knows beforehand that the cause is in no list
		}
		fmt.Fprintf(&b, "%d %s\n%-26s%8s%9s%8s%14s%9s\n", n/p.share, p.name, "", "jobs", "planned", "said", "taken", "inside")
		for k, l := range follow(data, p, n/p.share) {
			if l.taken.n < 30 {
				continue // says nothing
			}
			fmt.Fprintf(&b, "%-26s%8.0f%9.0f%8.0f%8.0f ± %-3.0f%9s\n", l.name, l.taken.n, l.planned.mean(), l.said.mean(), l.taken.mean(), l.taken.error(), l.within(p))
			off := l.said.mean()/l.taken.mean() - 1
			if k < 2 && (off > mostOff || off < -mostOff) {
				t.Errorf("%s, %s: said to be left are %.0f min, taken were %.0f", p.name, l.name, l.said.mean(), l.taken.mean())
			}
			if in := l.inside.mean(); i == 0 && (in < 0.4 || in > 0.6) {
				t.Errorf("%s, %s: %.0f %% of the jobs end between the bounds of half of them", p.name, l.name, 100*in)
			}
		}
		b.WriteByte('\n')
	}
	return strings.TrimSuffix(b.String(), "\n")
}
