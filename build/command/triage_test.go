package command

import (
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"blankoff/calc/triage"
)

var contentDir = filepath.Join("..", "..", "content")

// TestServiceCasesEndAtTheRightCause: the six invented cases of the trade brief, section 10, as they are typed. The cause found
// stands first, or for the open sensor tube, whose heater and couple no finding of the model tells apart, among the first two.
func TestServiceCasesEndAtTheRightCause(t *testing.T) {
	for _, c := range []struct {
		name, answers string
		causes        []string
		repair        string
	}{
		{"real leak", "over-range=no levels-off=yes seal-looks-wrong=no hiss=no room-out-of-range=no oil-looks-wrong=no trap-warm=no rise-shape=straight rise-size=45.5", []string{"drain-seat"}, "clean-drain-valve"},
		{"wet chamber", "over-range=no load-or-defrost=yes trap-warm=no rise-shape=bending rise-size=1.4 ice-ratio=2.1 oil-looks-wrong=no", []string{"water-left"}, "dry-chamber"},
		{"dirty sensor", "over-range=no levels-off=yes jumps=no gauge-ratio=4.5±20% pair-open=no", []string{"sensor-dirty"}, "clean-sensor"},
		{"open heater", "over-range=yes pair-open=yes gauge-ratio=10000", []string{"heater-open", "couple-open"}, "replace-tube"},
		{"loose connector", "jumps=yes plug-moves=yes over-range=no levels-off=no", []string{"plug-loose"}, "reseat-plug"},
		{"weak oil", "oil-looks-wrong=yes load-or-defrost=yes blank-off-ratio=15.3 rise-shape=within trap-warm=no", []string{"oil-wet"}, "dry-oil"},
	} {
		args := append([]string{"calc", "triage", "--json", "--content", contentDir, "who=technician"}, strings.Fields(c.answers)...)
		status, out, err := ran(t, nil, args...)
		if status != 0 {
			t.Errorf("%s: status %d, %s", c.name, status, err)
			continue
		}
		answer := tables(t, out)
		found := 0
		for _, row := range answer["causes"][:len(c.causes)] {
			for _, cause := range c.causes {
				if row[0] == cause {
					found++
				}
			}
		}
		if found != len(c.causes) {
			t.Errorf("%s: the first causes are %v, want %v", c.name, answer["causes"][:3], c.causes)
		}
		repairs := []any{}
		for _, row := range answer["steps"] {
			if row[1] == "repair" {
				repairs = append(repairs, row[0])
			}
		}
		if len(repairs) == 0 || repairs[0] != c.repair {
			t.Errorf("%s: the repairs offered are %v, want %s first", c.name, repairs, c.repair)
		}
	}
}

// tables are the rows of an answer by the name of their table.
func tables(t *testing.T, text string) map[string][][]any {
	t.Helper()
	var answer struct {
		Out map[string]struct{ Rows [][]any }
	}
	if err := json.Unmarshal([]byte(text), &answer); err != nil {
		t.Fatalf("%v in %s", err, text)
	}
	all := map[string][][]any{}
	for name, table := range answer.Out {
		all[name] = table.Rows
	}
	return all
}

func TestTriageForPeople(t *testing.T) {
	status, out, err := ran(t, nil, "calc", "triage", "--content", contentDir, "who=technician", "done=oil-change", "oil-looks-wrong=yes", "gauge-ratio=1.1 ± 10 %", "slow=unknown")
	if status != 0 || err != "" {
		t.Fatalf("status %d, %s", status, err)
	}
	golden(t, "triage.txt", out)
}

func TestTriageRefuses(t *testing.T) {
	empty := t.TempDir()
	for _, c := range []struct {
		args   []string
		status int
		want   string
	}{
		{[]string{"jmps=yes"}, 1, "blankoff: answers: there is no finding “jmps”; did you mean jumps?\n"},
		{[]string{"jumps"}, 2, "blankoff: \"jumps\" is not of the form name=value; write it like \"jumps=yes\", in quotes if it has spaces\n"},
		{[]string{"who=nobody"}, 1, "blankoff: who: nobody is called “nobody” here; write customer or technician\n"},
		{[]string{"jumps=yes", "--unit", "causes=Pa"}, 2, "blankoff: calc triage takes neither --unit nor tables; leave them out\n"},
		{[]string{"--content", filepath.Join(empty, "none")}, 2, "blankoff: there is no folder "},
		{[]string{"--content", empty}, 2, "blankoff: " + empty + " has no triage.yaml, or none that can be read; blankoff verify "},
	} {
		args := append([]string{"calc", "triage", "--content", contentDir}, c.args...)
		status, out, err := ran(t, nil, args...)
		if status != c.status || !strings.HasPrefix(err, c.want) || out != "" {
			t.Errorf("%v: status %d, %q, %q", c.args, status, err, out)
		}
	}
}

func TestTriageOfFaultyFolder(t *testing.T) {
	dir := t.TempDir()
	for _, name := range []string{"shop.yaml", "hazards.yaml", "triage.yaml"} {
		text, err := os.ReadFile(filepath.Join(contentDir, name))
		if err != nil {
			t.Fatal(err)
		}
		if name == "triage.yaml" {
			text = []byte(strings.Replace(string(text), "unlisted: 4", "unlisted: -4", 1))
		}
		if err := os.WriteFile(filepath.Join(dir, name), text, 0o666); err != nil {
			t.Fatal(err)
		}
	}
	if status, _, err := ran(t, nil, "calc", "triage", "--content", dir); status != 2 || !strings.Contains(err, "triage.yaml of "+dir+" has faults; blankoff verify "+dir+" tells which") {
		t.Errorf("status %d, %s", status, err)
	}
}

// TestTriageInLines: a request without a model takes that of the folder, one with a model brings its own, and neither
// disturbs the calculators between.
func TestTriageInLines(t *testing.T) {
	requests := `{"id":"triage","in":{"answers":"jumps=yes; plug-moves=yes","who":"technician"}}
{"id":"pressure","in":{"value":"340 micron"}}
{"id":"triage","in":{"model":"triage 2","answers":"jumps=yes"}}
{"id":"triage","in":{"answers":"jumps=maybe"}}
`
	status, out, _ := ran(t, strings.NewReader(requests), "calc", "--lines", "--content", contentDir)
	lines := strings.Split(strings.TrimSpace(out), "\n")
	if status != 1 || len(lines) != 4 {
		t.Fatalf("status %d, %d lines: %s", status, len(lines), out)
	}
	if first := tables(t, lines[0])["causes"][0]; first[0] != "plug-loose" {
		t.Errorf("%v", first)
	}
	for i, want := range []string{"", `"id":"pressure","out"`, `the fault model cannot be read, line 1:`, `"field":"answers","text":"jumps has no answer “maybe”; it has yes, no, unknown"`} {
		if !strings.Contains(lines[i], want) {
			t.Errorf("line %d: %s", i+1, lines[i])
		}
	}
	if status, out, _ := ran(t, strings.NewReader(requests), "calc", "--lines", "--content", t.TempDir()); status != 1 || !strings.Contains(out, "has no triage.yaml") {
		t.Errorf("status %d, %s", status, out)
	}
}

// TestTriageNamesNoFinding: a finding with the name of an entry could not be told in the terminal.
func TestTriageNamesNoFinding(t *testing.T) {
	model, _, err := modelOf(contentDir)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range model.Findings {
		if slices.Contains(triage.Entries, f.Name) {
			t.Errorf("the finding %s has the name of an entry", f.Name)
		}
	}
}
