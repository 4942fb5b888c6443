package main

import (
	"encoding/json"
	"os"
	"os/exec"
	"slices"
	"strings"
	"testing"
)

// Who may import whom, and why. The first rule whose packages match counts. A pattern ending in /... means a package and all below it.
var directions = []direction{
	{"blankoff/calc/...", []string{"blankoff/calc/..."}, false,
		[]string{"fmt", "reflect", "encoding/json", "os", "os/...", "io/fs", "net", "net/...", "time", "syscall", "log", "log/...", "math/rand", "math/rand/v2", "crypto/...", "embed"},
		"a computation knows no page, file, network or clock, and goes to every phone: see the sizes in wasm/policy_test.go"},
	{"blankoff/wasm", []string{"blankoff/calc/..."}, false, []string{"fmt", "reflect", "encoding/json", "os", "net"},
		"the file that a phone loads holds the calculators and nothing else"},
	{"blankoff/site", nil, false, []string{"os", "net"},
		"what a browser gets is data; who fills it in is not its business"},
	{"blankoff/build/ladder", []string{"blankoff/calc/..."}, false, nil,
		"the pressure ladder is drawn from pressures, not from pages"},
	{"blankoff/build/picture", []string{"blankoff/calc/..."}, false, nil,
		"a picture is drawn from data, whatever page or card it stands on"},
	{"blankoff/build/prose", []string{"blankoff/calc/..."}, false, nil,
		"quantities are found in plain text, whatever page it stands on"},
	{"blankoff/build/machine", []string{"blankoff/calc/...", "blankoff/build/source"}, false, nil,
		"what machine data can say does not depend on the files and pages that say it"},
	{"blankoff/build/fault", []string{"blankoff/calc/...", "blankoff/build/source", "blankoff/build/parallel"}, false, nil,
		"a fault model is one file, whatever pages there are; those who have the pages check it against them"},
	{"blankoff/build/search", []string{"blankoff/calc/...", "blankoff/build/edition", "blankoff/build/parallel"}, true, nil,
		"what is found is what a finished page shows, however it was made"},
	{"blankoff/build/edition", nil, false, nil, "what an edition is does not depend on what makes one"},
	{"blankoff/build/write", []string{"blankoff/build/edition"}, true, nil, "files are swapped in the same way, whatever they hold"},
	{"blankoff/build/rules", nil, false, nil, "the explanations of rules are data; verify looks names up in them, so they cannot look anything up in verify"},
	{"blankoff/build/...", []string{"blankoff/calc/...", "blankoff/site", "blankoff/build/..."}, true, nil,
		"the pipeline uses the computations and the page's parts, never the other way round"},
}

type direction struct {
	packages string
	ours     []string // of our own packages, only these
	foreign  bool     // whether packages of other people may be imported
	refused  []string // of the standard library, not these
	why      string
}

// listed is what `go list -json` tells of a package.
type listed struct {
	ImportPath                         string
	Imports, TestImports, XTestImports []string
}

func TestImportsGoOneWay(t *testing.T) {
	packages := append(list(t, nil, "../..."), list(t, []string{"GOOS=wasip1", "GOARCH=wasm"}, "../wasm", "../calc/...")...)
	for _, of := range packages {
		i := slices.IndexFunc(directions, func(rule direction) bool { return matches(rule.packages, of.ImportPath) })
		if i < 0 {
			t.Errorf("no rule for %s: say in the table what it may import", of.ImportPath)
			continue
		}
		rule := directions[i]
		for _, path := range of.Imports {
			if wrong := rule.fault(path); wrong != "" {
				t.Errorf("%s imports %s, %s: %s", of.ImportPath, path, wrong, rule.why)
			}
		}
		rule.foreign, rule.refused = true, nil // a test may use more of others, but of ours it goes the same way
		rule.ours = append(slices.Clone(rule.ours), rule.packages)
		if rule.packages == "blankoff/wasm" {
			rule.ours = append(rule.ours, "blankoff/build/bundle") // so that the very file that ships is tested
		}
		if rule.packages == "blankoff/build/search" {
			rule.ours = append(rule.ours, "blankoff/site", "blankoff/build/bundle", "blankoff/build/publish") // so that the script and the site that ship are asked
		}
		for _, path := range append(of.TestImports, of.XTestImports...) {
			if wrong := rule.fault(path); wrong != "" {
				t.Errorf("a test of %s imports %s, %s: %s", of.ImportPath, path, wrong, rule.why)
			}
		}
	}
}

// fault says what speaks against an import; empty if nothing does.
func (d direction) fault(path string) string {
	among := func(patterns []string) bool {
		return slices.ContainsFunc(patterns, func(pattern string) bool { return matches(pattern, path) })
	}
	first, _, _ := strings.Cut(path, "/")
	switch {
	case matches("blankoff/...", path):
		if !among(d.ours) {
			return "against the direction"
		}
	case strings.Contains(first, "."):
		if !d.foreign {
			return "which is not ours"
		}
	case among(d.refused):
		return "which is kept out"
	}
	return ""
}

func matches(pattern, path string) bool {
	tree, below := strings.CutSuffix(pattern, "/...")
	return path == tree || below && strings.HasPrefix(path, tree+"/")
}

func list(t *testing.T, env []string, patterns ...string) []listed {
	t.Helper()
	cmd := exec.Command("go", append([]string{"list", "-json=ImportPath,Imports,TestImports,XTestImports"}, patterns...)...)
	cmd.Env = append(os.Environ(), env...)
	said, err := cmd.Output()
	if err != nil {
		t.Fatalf("go list: %v", err)
	}
	var all []listed
	for decoder := json.NewDecoder(strings.NewReader(string(said))); decoder.More(); {
		var one listed
		if err := decoder.Decode(&one); err != nil {
			t.Fatal(err)
		}
		all = append(all, one)
	}
	return all
}

func TestDirectionsRefuse(t *testing.T) {
	for _, test := range []struct{ from, path, want string }{
		{"blankoff/calc/...", "blankoff/build/load", "against the direction"},
		{"blankoff/calc/...", "example.org/units", "which is not ours"},
		{"blankoff/calc/...", "fmt", "which is kept out"},
		{"blankoff/calc/...", "os/exec", "which is kept out"},
		{"blankoff/calc/...", "math", ""},
		{"blankoff/site", "blankoff/calc", "against the direction"},
		{"blankoff/wasm", "blankoff/site", "against the direction"},
		{"blankoff/build/...", "blankoff/wasm", "against the direction"},
		{"blankoff/build/...", "blankoffice/x", ""},
		{"blankoff/build/ladder", "blankoff/build/load", "against the direction"},
	} {
		i := slices.IndexFunc(directions, func(rule direction) bool { return rule.packages == test.from })
		if got := directions[i].fault(test.path); got != test.want {
			t.Errorf("%s imports %s: got %q, want %q", test.from, test.path, got, test.want)
		}
	}
}
