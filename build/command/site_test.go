package command

import (
	"context"
	"encoding/json"
	"errors"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"blankoff/build/edition"
)

// shop is a copy of our own content, in a folder that the program is run from.
func shop(t *testing.T) {
	t.Helper()
	folder := t.TempDir()
	if err := os.CopyFS(filepath.Join(folder, "content"), os.DirFS("../../content")); err != nil {
		t.Fatal(err)
	}
	t.Chdir(folder)
}

const guideFile = "content/procedures/rise-test.md"

// change replaces a text in a file of the shop once.
func change(t *testing.T, name, old, new string) {
	t.Helper()
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(string(text), old) {
		t.Fatalf("%s has no %q to change", name, old)
	}
	if err := os.WriteFile(name, []byte(strings.Replace(string(text), old, new, 1)), 0o666); err != nil {
		t.Fatal(err)
	}
}

func marker(t *testing.T, out string) string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(out, edition.Marker))
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

func TestPublishWithoutAnyArgument(t *testing.T) {
	shop(t)
	status, out, err := ran(t, nil)
	if status != done || err != "" {
		t.Fatalf("status %d, %s", status, err)
	}
	if record, ours := edition.Read([]byte(marker(t, "out"))); !ours || len(record.Files) < 10 {
		t.Errorf("published %+v", record)
	}
	for _, want := range []string{`^Published out in \d+ ms\.`, `pages +\d+\n`, `calculators +\d+, in \d+ places`, `facts +\d+ checked`,
		`hazards +\d+ stated`, `size +\d+ kB, of which WebAssembly \d+ kB`, `go run \./build view\n$`} {
		if !regexp.MustCompile(want).MatchString(out) {
			t.Errorf("the summary lacks %s:\n%s", want, out)
		}
	}
}

func TestPublishElsewhere(t *testing.T) {
	shop(t)
	if err := os.Rename("content", "ours"); err != nil {
		t.Fatal(err)
	}
	for _, args := range [][]string{{"publish", "ours", "--out", "a/site"}, {"publish", "--out=a/site", "ours"}} {
		if status, _, err := ran(t, nil, args...); status != done {
			t.Errorf("%v: status %d, %s", args, status, err)
		}
	}
	marker(t, "a/site")
}

func TestAnErrorInTheContentLeavesTheSite(t *testing.T) {
	shop(t)
	if status, _, err := ran(t, nil, "publish"); status != done {
		t.Fatal(err)
	}
	before := marker(t, "out")
	change(t, guideFile, "\n---\n", "\n---\nSee [this](none.md). ")
	status, out, err := ran(t, nil, "publish")
	if status != failed || out != "" || !strings.Contains(err, guideFile+":") || !strings.HasSuffix(err, "nothing was published, and out is as it was.\n") {
		t.Errorf("status %d, out %q, said %s", status, out, err)
	}
	if marker(t, "out") != before {
		t.Errorf("the site changed")
	}
}

func TestAForeignFolderIsLeftAlone(t *testing.T) {
	shop(t)
	if err := errors.Join(os.Mkdir("out", 0o777), os.WriteFile("out/letter.txt", nil, 0o666)); err != nil {
		t.Fatal(err)
	}
	status, _, err := ran(t, nil, "publish")
	if status != unusable || !strings.Contains(err, "left alone") || strings.Count(err, "\n") != 1 {
		t.Errorf("status %d, said %q", status, err)
	}
	if _, err := os.Stat("out/letter.txt"); err != nil {
		t.Error(err)
	}
}

func TestVerify(t *testing.T) {
	shop(t)
	if status, out, err := ran(t, nil, "verify", "--strict"); status != done || err != "" || !strings.Contains(out, "content: 0 errors, 0 warnings; ") {
		t.Fatalf("our own content: status %d, %s%s", status, out, err)
	}
	change(t, guideFile, "\n---\n", "\n---\nSee [this](none.md). ")
	status, out, _ := ran(t, nil, "verify")
	if status != failed || !regexp.MustCompile(`(?m)^content/procedures/rise-test\.md:\d+:\d+: error: `).MatchString(out) || !strings.Contains(out, "content: 1 error, 0 warnings; ") {
		t.Errorf("status %d, %s", status, out)
	}
	status, out, _ = ran(t, nil, "verify", "content", "--json")
	var list []struct {
		File           string
		Line, Column   int
		Severity, Rule string
	}
	if err := json.Unmarshal([]byte(out), &list); err != nil || status != failed || len(list) != 1 {
		t.Fatalf("status %d, %v, %s", status, err, out)
	}
	if got := list[0]; got.File != guideFile || got.Line < 2 || got.Column < 2 || got.Severity != "error" || got.Rule == "" {
		t.Errorf("got %+v", got)
	}
}

func TestWarningsCountWhenStrict(t *testing.T) {
	shop(t)
	if err := os.WriteFile("content/notes.txt", nil, 0o666); err != nil {
		t.Fatal(err)
	}
	if status, out, _ := ran(t, nil, "verify"); status != done || !strings.Contains(out, "0 errors, 1 warning;") {
		t.Errorf("status %d, %s", status, out)
	}
	if status, _, _ := ran(t, nil, "verify", "--strict"); status != failed {
		t.Errorf("strict: status %d", status)
	}
}

func TestFixWritesTheRightValue(t *testing.T) {
	shop(t)
	before, err := os.ReadFile(guideFile)
	if err != nil {
		t.Fatal(err)
	}
	fact := regexp.MustCompile(`\[([1-8])(\d* [^\d\]]*\]\(spec:)`).FindSubmatch(before)
	if fact == nil {
		t.Fatalf("%s has no checked fact", guideFile)
	}
	change(t, guideFile, string(fact[0]), "[9"+string(fact[2])) // as many figures as before, and one of them wrong
	if status, out, _ := ran(t, nil, "verify"); status != failed {
		t.Fatalf("a wrong value was not found: %s", out)
	}
	status, out, said := ran(t, nil, "verify", "--fix")
	if status != done || said != guideFile+": stale facts written anew\n" {
		t.Errorf("status %d, %s%s", status, out, said)
	}
	if after, _ := os.ReadFile(guideFile); string(after) != string(before) {
		t.Errorf("the file is not as it was before the change")
	}
}

func TestAFileThatCannotBeReadIsOneLine(t *testing.T) {
	shop(t)
	if err := os.Chmod(guideFile, 0); err != nil {
		t.Fatal(err)
	}
	status, _, err := ran(t, nil, "publish")
	if os.Geteuid() == 0 { // nothing is forbidden to root; the tests of load have a file system that forbids
		if status != done {
			t.Errorf("as root: status %d, %s", status, err)
		}
	} else if status != unusable || strings.Count(err, "\n") != 1 {
		t.Errorf("status %d, %s", status, err)
	}
}

func TestAFileThatIsNoTextIsAnErrorInTheContent(t *testing.T) {
	shop(t)
	if err := os.WriteFile(guideFile, []byte{0xff, 0xfe, 0}, 0o666); err != nil {
		t.Fatal(err)
	}
	if status, _, err := ran(t, nil, "publish"); status != failed || !strings.Contains(err, guideFile+":") {
		t.Errorf("status %d, %s", status, err)
	}
}

// address catches where the site is served.
type address chan string

func (c address) Write(text []byte) (int, error) {
	if found := regexp.MustCompile(`http://127\.0\.0\.1:\d+/`).FindString(string(text)); found != "" {
		c <- found
	}
	return len(text), nil
}

func TestViewServesUntilInterrupted(t *testing.T) {
	shop(t)
	ctx, interrupt := context.WithCancel(t.Context())
	said, ended := make(address, 1), make(chan int, 1)
	go func() { ended <- run(ctx, []string{"view"}, terminal{nil, said, io.Discard, today}) }()
	response, err := http.Get(<-said + "procedures/rise-test/")
	if err != nil {
		t.Fatal(err)
	}
	defer response.Body.Close()
	page, err := io.ReadAll(response.Body)
	if err != nil || response.StatusCode != http.StatusOK || !strings.Contains(string(page), "<h1") {
		t.Errorf("status %d, %v, %.100s", response.StatusCode, err, page)
	}
	interrupt()
	if status := <-ended; status != done {
		t.Errorf("status %d", status)
	}
	if _, err := os.Stat("out"); err == nil {
		t.Errorf("the preview was written to out")
	}
}

func TestOutIsLookedAtBehindItsLinks(t *testing.T) {
	shop(t)
	if err := os.Symlink(filepath.Join("content", "pages"), "elsewhere"); err != nil {
		t.Fatal(err)
	}
	for _, args := range [][]string{{"publish", "--out", "elsewhere"}, {"publish", "--out", "elsewhere/site"}, {"publish", "--out="}} {
		status, _, err := ran(t, nil, args...)
		if status != unusable || strings.Count(err, "\n") != 1 {
			t.Errorf("%v: status %d, %s", args, status, err)
		}
	}
}
