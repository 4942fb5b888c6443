//go:build unix

package command

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"
	"unicode"
)

// Hostile content must yield an error at its place, or harmless text, and must cost little: the program is run as its
// users run it, as a process of its own, on a small shop into which the hostile files are put.

const (
	mostMemory = 256 << 20       // bytes resident, of the process that reads hostile content: 120 to 200 as measured, the most where all processors are busy
	mostWork   = 20              // seconds of all processors, only so that a run without end fails
	patience   = 3 * time.Minute // the same for a run that waits
	harmless   = "harmless"
)

// hostileCase is some files and what is to become of them: the name of a rule that must be told, or harmless.
type hostileCase struct {
	name, want string
	files      map[string]string
	prepare    func(t *testing.T, folder string) // for what is no plain file
}

func TestHostileContent(t *testing.T) {
	program := buildProgram(t)
	path := withoutCompiler(t)
	cases := slices.Concat(written(t), generated(), hostileData())
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			folder := hostileShop(t, c)
			verified := program.run(t, folder, path, "verify", "content", "--json")
			told := c.told(t, verified)
			published := program.run(t, folder, path, "publish", "content")
			verified.check(t)
			published.check(t)
			if verified.Status != published.Status {
				t.Errorf("verify gives %d, publish %d", verified.Status, published.Status)
			}
			out := filepath.Join(folder, "out")
			if c.want == harmless {
				lookForHarm(t, out)
			} else if _, err := os.Stat(out); !errors.Is(err, os.ErrNotExist) {
				t.Errorf("something was published: %v", err)
			}
			t.Logf("%d told; verify %v of %v, %d MB; publish %v of %v, %d MB", told,
				verified.Worked.Round(time.Millisecond), verified.Took.Round(time.Millisecond), verified.Memory>>20,
				published.Worked.Round(time.Millisecond), published.Took.Round(time.Millisecond), published.Memory>>20)
		})
	}
}

// told compares what was told with what should be, and counts it.
func (c hostileCase) told(t *testing.T, r ranProgram) int {
	t.Helper()
	var list []struct{ File, Severity, Rule, Message string }
	if err := json.Unmarshal([]byte(r.out), &list); err != nil {
		t.Fatalf("verify --json: %v\n%.500s\n%.500s", err, r.out, r.err)
	}
	var rules []string
	for _, d := range list {
		if d.Severity == "error" {
			rules = append(rules, d.Rule)
		}
		if d.File == "" || d.Message == "" || d.Rule == "" {
			t.Errorf("something is told without its place, message or rule: %+v", d)
		}
	}
	switch {
	case c.want == harmless && len(rules) > 0:
		t.Errorf("it is refused, though it is harmless: %.2000s", r.out)
	case c.want != harmless && !slices.Contains(rules, c.want):
		slices.Sort(rules)
		t.Errorf("%s is not told, only %v: %.2000s", c.want, slices.Compact(rules), r.out)
	}
	return len(list)
}

// ranProgram is a run that has ended.
type ranProgram struct {
	measured
	args, out, err string
}

func (r ranProgram) check(t *testing.T) {
	t.Helper()
	if r.Status != done && r.Status != failed {
		t.Errorf("%s: status %d: %.2000s", r.args, r.Status, r.err)
	}
	for _, text := range []string{r.out, r.err} {
		for _, trace := range []string{"panic:", "goroutine ", "runtime error", "fatal error", "this is a fault in the program"} {
			if strings.Contains(text, trace) {
				t.Errorf("%s: %s: %.2000s", r.args, trace, text)
			}
		}
		if i := strings.IndexFunc(text, steersTerminal); i >= 0 {
			t.Errorf("%s: a character that steers the terminal is told: %q", r.args, text[i:min(i+20, len(text))])
		}
	}
	if r.Memory > mostMemory {
		t.Errorf("%s: %d MB resident", r.args, r.Memory>>20)
	}
}

func steersTerminal(r rune) bool {
	return unicode.IsControl(r) && r != '\n' || unicode.Is(unicode.Bidi_Control, r)
}

// program is the path of the program that was built.
type program string

func buildProgram(t *testing.T) program {
	t.Helper()
	name := filepath.Join(t.TempDir(), "blankoff")
	if said, err := exec.Command("go", "build", "-o", name, "blankoff/build").CombinedOutput(); err != nil {
		t.Fatalf("the program does not build: %v\n%s", err, said)
	}
	return program(name)
}

func (p program) run(t *testing.T, folder, path string, args ...string) ranProgram {
	t.Helper()
	ctx, cancel := context.WithTimeout(t.Context(), patience)
	defer cancel()
	cmd := exec.CommandContext(ctx, os.Args[0], append([]string{string(p)}, args...)...)
	cmd.Dir = folder
	cmd.Env = append(slices.DeleteFunc(os.Environ(), func(entry string) bool {
		return strings.HasPrefix(entry, "GOMEMLIMIT=") || strings.HasPrefix(entry, "GOGC=") || strings.HasPrefix(entry, "PATH=")
	}), "PATH="+path, measuring+"=yes")
	var out, said bytes.Buffer
	cmd.Stdout, cmd.Stderr = &out, &said
	report, err := os.CreateTemp(t.TempDir(), "measured")
	if err != nil {
		t.Fatal(err)
	}
	defer report.Close()
	cmd.ExtraFiles = []*os.File{report}
	err = cmd.Run()
	if ctx.Err() != nil {
		t.Fatalf("%v does not end", args)
	}
	if err != nil {
		t.Fatalf("%v: %v: %s", args, err, said.String())
	}
	r := ranProgram{args: strings.Join(args, " "), out: out.String(), err: said.String()}
	if text, err := os.ReadFile(report.Name()); err != nil || json.Unmarshal(text, &r.measured) != nil {
		t.Fatalf("%v: nothing was measured: %v, %s", args, err, text)
	}
	return r
}

// withoutCompiler gives a PATH whose go command hands out an empty WebAssembly module: the compiler sees nothing of the content,
// takes seconds, and its memory would be counted as the program's.
func withoutCompiler(t *testing.T) string {
	t.Helper()
	folder := t.TempDir()
	const stand = "#!/bin/sh\nwhile [ \"$1\" != -o ]; do shift; done\nprintf '\\000asm\\001\\000\\000\\000' > \"$2\"\n"
	must(t, os.WriteFile(filepath.Join(folder, "go"), []byte(stand), 0o755))
	return folder + string(os.PathListSeparator) + os.Getenv("PATH")
}

// hostileShop is the shop of package rules with the files of a case put in.
func hostileShop(t *testing.T, c hostileCase) string {
	t.Helper()
	text, err := os.ReadFile("../rules/shop.txt")
	if err != nil {
		t.Fatal(err)
	}
	_, files := archived(string(text))
	for name, text := range c.files {
		files[name] = text
	}
	folder := t.TempDir()
	for name, text := range files {
		at := filepath.Join(folder, "content", filepath.FromSlash(name))
		if err := errors.Join(os.MkdirAll(filepath.Dir(at), 0o777), os.WriteFile(at, []byte(text), 0o666)); err != nil {
			t.Fatal(err)
		}
	}
	if c.prepare != nil {
		c.prepare(t, filepath.Join(folder, "content"))
	}
	return folder
}

// written reads the small cases: each a comment, a line that says what is wanted, and files below lines `-- name --`.
func written(t *testing.T) []hostileCase {
	t.Helper()
	names, _ := filepath.Glob("../../testdata/hostile/*.txt")
	if len(names) < 20 {
		t.Fatalf("only %d cases", len(names))
	}
	var cases []hostileCase
	for _, name := range names {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		comment, files := archived(string(text))
		_, want, found := strings.Cut(comment, "\nwant: ")
		if !found || len(files) == 0 {
			t.Fatalf("%s does not say what is wanted, or has no file", name)
		}
		cases = append(cases, hostileCase{name: strings.TrimSuffix(filepath.Base(name), ".txt"), want: strings.TrimSpace(want), files: files})
	}
	return cases
}

func archived(text string) (comment string, files map[string]string) {
	files = map[string]string{}
	name := ""
	for line := range strings.Lines(text) {
		if inner, found := strings.CutPrefix(strings.TrimSpace(line), "-- "); found && strings.HasSuffix(inner, " --") {
			name = strings.TrimSuffix(inner, " --")
			files[name] = ""
		} else if name == "" {
			comment += line
		} else {
			files[name] += line
		}
	}
	return comment, files
}
