package triage_test

import (
	"testing"

	"blankoff/calc/triage"
)

// TestQuestionsBeforeLongTests: where a short question and a long test would both pay, and the test tells more, the question
// comes first: by hand, it saves more for each of its minutes.
func TestQuestionsBeforeLongTests(t *testing.T) {
	// Two causes, as likely as each other, each with its repair of 100 min. Wrong first costs 100 min in every second job, 50 on
	// average. The test tells them apart nearly always and saves some 50 min for its 20; the question saves some 30 for its 2.
	model := `triage 1
unlisted	0.001
call	technician	2000
choice	asked	yes no	0.5 0.5
choice	tested	yes no	0.5 0.5
cause	one	One	a	1
shows	asked	0.8 0.2
shows	tested	0.99 0.01
cause	two	Two	a	1
shows	asked	0.2 0.8
shows	tested	0.01 0.99
test	ask	Ask	2	2	technician			asked
test	measure	Measure	20	20	technician			tested
repair	mend-one	Mend one	100	100	technician			one=1
repair	mend-two	Mend two	100	100	technician			two=1
`
	sheet, wrong := triage.ReadSheet(model)
	if wrong != "" {
		t.Fatal(wrong)
	}
	sheet.Call = 2000
	for depth := 1; depth <= triage.Look; depth++ {
		plan := sheet.Plan(triage.Bench{Who: triage.Technician, Tools: ^uint64(0)}, nil, depth)
		if first, second := sheet.Steps[plan[0].Step].ID, sheet.Steps[plan[1].Step].ID; first != "ask" || second != "measure" {
			t.Errorf("looking %d steps ahead: %s, then %s", depth, first, second)
		}
		if depth == 1 && plan[1].Minutes >= plan[0].Minutes {
			t.Errorf("the test alone brings the end in %g min, the question alone in %g: this model proves nothing", plan[1].Minutes, plan[0].Minutes)
		}
	}
}

func BenchmarkPlan(b *testing.B) {
	sheet, wrong := triage.ReadSheet(ours(b))
	if wrong != "" {
		b.Fatal(wrong)
	}
	sheet.Call = 720
	for _, depth := range []int{1, triage.Look} {
		b.Run(string(rune('0'+depth)), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				sheet.Plan(triage.Bench{Who: triage.Technician, Tools: ^uint64(0)}, nil, depth)
			}
		})
	}
}
