package bundle

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// TestProseIsLeftOut looks at what is compiled for the phone: no help line, but every label and caution.
func TestProseIsLeftOut(t *testing.T) {
	folder := t.TempDir()
	file := filepath.Join(folder, "calc", "hole", "hole.go")
	source := `package hole

import "blankoff/calc/declare"

var shared = []declare.Input{{ID: "bore", Label: "Bore kept", Help: "help dropped"}}

var other = struct{ Title, Help string }{Title: "title kept", Help: "help kept"}

// Hole is declared.
var Hole = declare.Calculator{
	ID:       "hole",
	Title:    "title dropped",
	Group:    "group dropped",
	Decision: "decision dropped?",
	Inputs: []declare.Input{
		{ID: "a", Label: "Label kept", Help: "help dropped", Because: "because kept"},
	},
	Influences: []declare.Influence{{ID: "i", Text: "influence dropped"}},
	Cautions:   []string{"caution kept"},
	Limits:     []string{"limit dropped"},
	Example:    declare.Example{From: "example dropped"},
}
`
	if err := os.MkdirAll(filepath.Dir(file), 0o700); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(file, []byte(source), 0o600); err != nil {
		t.Fatal(err)
	}
	got, err := strip(file)
	if err != nil {
		t.Fatal(err)
	}
	if strings.Contains(string(got), "dropped") || strings.Count(string(got), "kept") != strings.Count(source, "kept") {
		t.Errorf("got\n%s", got)
	}
	list, err := withoutProse(folder, t.TempDir(), nil)
	if err != nil {
		t.Fatal(err)
	}
	if strings.Contains(string(got), "\n") {
		t.Errorf("more than one line:\n%s", got)
	}
	if text, err := os.ReadFile(list); err != nil || !strings.Contains(string(text), file) {
		t.Errorf("the list is %s, %v", text, err)
	}
}

// TestDirectivesKeepTheirLines: what the compiler is told stays, other comments go, and a line that ended a statement ends it still.
func TestDirectivesKeepTheirLines(t *testing.T) {
	got := string(oneLine([]byte("//go:build wasip1\n\n// A comment.\npackage a\n\nvar b = `raw\nraw` // told\n\n//go:nosplit\nfunc c() int { // why\n\treturn 1 /* two\nlines */\n}\n")))
	want := "\n//go:build wasip1\n package a ; var b = `raw\nraw` ; \n//go:nosplit\n func c ( ) int { return 1 ; } ; "
	if got != want {
		t.Errorf("got %q\nwant %q", got, want)
	}
}

// TestAFileSaysForWhichMachineItIs: a file that is not for the phone must not be compiled for it.
func TestAFileSaysForWhichMachineItIs(t *testing.T) {
	file := filepath.Join(t.TempDir(), "ready.go")
	if err := os.WriteFile(file, []byte("// Told.\n\n//go:build !wasm\n\n// Package a is one.\npackage a\n\n// B is told.\nvar B = 1 // too\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	got, err := strip(file)
	if want := "//go:build !wasm\n\npackage a ; var B = 1 ; "; err != nil || string(got) != want {
		t.Errorf("got %q, %v, want %q", got, err, want)
	}
}
