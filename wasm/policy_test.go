package main

import (
	"os"
	"os/exec"
	"strings"
	"testing"
)

// What the file that a phone loads must not hold, and why.
// The sizes are of an otherwise empty Go reactor, gzipped (545 kB by itself).
var keptOut = []struct{ path, why string }{
	{"fmt", "200 kB more; strconv and append say the same"},
	{"reflect", "keeps every method of every type from being dropped; comes with fmt and encoding/json"},
	{"encoding/json", "360 kB more; calc/wire is written by hand"},
	{"internal/fmtsort", "is there only if fmt is"},
	{"html/template", "three times the size; the page's script writes what the reader sees"},
	{"text/template", "comes with reflect"},
	{"strings", "20 kB more; calc/letters has what is needed"},
	{"sync", "6 kB more; what is made once is made at the start, and nothing changes after that"},
	{"regexp", "quantities are read by a parser that can say what is wrong"},
	{"net", "the calculators never talk to a network: the host gives them bytes"},
	{"crypto/rand", "the same entries give the same answer, always"},
	{"math/rand", "the same entries give the same answer, always"},
	{"math/rand/v2", "the same entries give the same answer, always"},
	{"log", "a calculator has nobody to tell but its answer; comes with fmt"},
}

func TestNothingHeavyIsLinked(t *testing.T) {
	linked := dependencies(t)
	if !linked["blankoff/calc/wire"] || !linked["runtime"] {
		t.Fatalf("the list is not that of the reactor: %v", linked)
	}
	for _, rule := range keptOut {
		if linked[rule.path] {
			t.Errorf("%s is linked: %s", rule.path, rule.why)
		}
	}
}

// dependencies lists what is linked for wasip1, our own packages included.
func dependencies(t *testing.T) map[string]bool {
	t.Helper()
	cmd := exec.Command("go", "list", "-deps", ".")
	cmd.Env = append(os.Environ(), "GOOS=wasip1", "GOARCH=wasm", "CGO_ENABLED=0")
	said, err := cmd.Output()
	if err != nil {
		t.Fatalf("go list: %v", err)
	}
	linked := map[string]bool{}
	for path := range strings.Lines(string(said)) {
		linked[strings.TrimSpace(path)] = true
	}
	return linked
}
