package verify

import (
	"os"
	"strings"
	"testing"

	"blankoff/build/load"
)

// TestDemandsOfOurActs holds what each act of our own catalogue demands: taking a hazard away from an act is a
// decision to be seen in a diff.
func TestDemandsOfOurActs(t *testing.T) {
	library, found, err := load.Load(os.DirFS("../../content"), "content")
	if err != nil || len(found) > 0 {
		t.Fatal(found, err)
	}
	var got strings.Builder
	for _, act := range library.Catalogue.Acts {
		got.WriteString(act.Name + ":")
		for _, hazard := range act.Hazards {
			got.WriteString(" " + hazard.Text)
		}
		got.WriteString("\n")
	}
	const golden = "testdata/acts.golden"
	if *update {
		if err := os.WriteFile(golden, []byte(got.String()), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	if got.String() != string(want) {
		t.Errorf("the acts demand other hazards (read the difference, then -update):\n%s", got.String())
	}
}
