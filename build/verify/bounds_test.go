package verify

import (
	"fmt"
	"strings"
	"testing"

	explained "blankoff/build/rules"
	"blankoff/calc/triage"
)

// TestBoundsAreTold: the page of the rule names the bounds that the calculators have.
func TestBoundsAreTold(t *testing.T) {
	rule, _ := explained.Find("triage-size")
	for _, want := range []string{
		fmt.Sprintf("%d findings", triage.MaxFindings), fmt.Sprintf("%d causes and pairs", triage.MaxHypotheses-1),
		fmt.Sprintf("%d tests and repairs", triage.MaxSteps), fmt.Sprintf("%d tools", triage.MaxTools),
		fmt.Sprintf("end in %d ways", triage.MaxBranches), fmt.Sprintf("together in %d", triage.MaxLooks), fmt.Sprintf("stand at most %d", triage.MaxNeeds),
	} {
		if !strings.Contains(rule.Text, want) {
			t.Errorf("the page does not say %q", want)
		}
	}
	names, _ := explained.Find("triage-name")
	for _, want := range append([]string{triage.Unknown, triage.NoTool, triage.HandingOver, triage.NotListed}, triage.Entries...) {
		if !strings.Contains(names.Text, "`"+want+"`") {
			t.Errorf("the page does not say that %q means something else", want)
		}
	}
	if triage.MaxOutcomes != 8 || !strings.Contains(rule.Text, "eight answers") {
		t.Error("the page tells another number of answers")
	}
}
