package command

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"blankoff/build/rules"
)

func TestARuleIsExplained(t *testing.T) {
	status, out, said := ran(t, nil, "verify", "--rule", "fact")
	if status != done || said != "" {
		t.Fatalf("status %d, said %q", status, said)
	}
	parts := []string{
		"fact: The text of a checked fact is true\n\n",
		"\nWrong, content/pages/limits.md\n\n    ---\n    title: Limits\n",
		"\nverify says\n\ncontent/pages/limits.md:6:22: error: the text \"340 mTorr\" is not true",
		"[fact]\n    6 | Ready means at most [340 mTorr]",
		"\nRight, content/pages/limits.md\n",
		"\nverify says nothing.\n",
	}
	for at := 0; len(parts) > 0; parts = parts[1:] {
		i := strings.Index(out[at:], parts[0])
		if i < 0 {
			t.Fatalf("%q does not follow in\n%s", parts[0], out)
		}
		at += i
	}
}

func TestEveryRuleIsToldAndFitsATerminal(t *testing.T) {
	_, list, _ := ran(t, nil, "verify", "--rule", "list")
	for _, rule := range rules.All() {
		if !strings.Contains(list, "\n  "+rule.Name+" ") || !strings.Contains(list, rule.Title) {
			t.Errorf("the list lacks %s", rule.Name)
		}
		status, out, _ := ran(t, nil, "verify", "--rule", rule.Name)
		if status != done || !strings.HasPrefix(out, rule.Name+": ") {
			t.Errorf("%s: status %d", rule.Name, status)
		}
		words, _, _ := strings.Cut(out, "\nWrong, ")
		for line := range strings.Lines(words) {
			if len([]rune(line)) > lineWidth+1 {
				t.Errorf("%s: a line of %d columns: %s", rule.Name, len([]rune(line)), line)
			}
		}
	}
}

func TestRulesThatCannotBeTold(t *testing.T) {
	for _, c := range []struct{ args, want string }{
		{"verify --rule step-expct", `there is no rule "step-expct", did you mean step-expect?`},
		{"verify --rule frobnicate", "there is no rule \"frobnicate\"; `verify --rule list` tells all rules"},
		{"verify --rule", "flag needs an argument: --rule"},
		{"verify --rule=", `there is no rule ""`},
		{"verify --rule fact --fix", "--rule fact explains a rule and looks at no folder"},
		{"verify content --rule fact", "--rule fact explains a rule and looks at no folder"},
	} {
		t.Run(c.args, func(t *testing.T) {
			status, out, said := ran(t, nil, strings.Fields(c.args)...)
			if status != unusable || out != "" || strings.Count(said, "\n") != 1 || !strings.Contains(said, c.want) {
				t.Errorf("status %d, out %q, said %q, want %q", status, out, said, c.want)
			}
		})
	}
}

// TestAThousandErrorsInOneRun: 40 pages with 30 mistakes each are all told, in the order of the files, twice the same.
func TestAThousandErrorsInOneRun(t *testing.T) {
	folder := t.TempDir()
	for _, file := range rules.Shop() {
		put(t, filepath.Join(folder, file.Name), file.Text)
	}
	for i := range 40 {
		page := fmt.Sprintf("---\ntitle: Page %d\nreader: shop\n---\n", i)
		put(t, filepath.Join(folder, "pages", fmt.Sprintf("p%02d.md", i)), page+strings.Repeat("[x](nowhere.md)\n\n", 30))
	}
	status, first, _ := ran(t, nil, "verify", folder)
	if got := strings.Count(first, "error: there is no page \"nowhere.md\" [link]\n"); got != 1200 || status != failed {
		t.Errorf("%d of 1200 errors told, status %d", got, status)
	}
	last := ""
	for line := range strings.Lines(first) {
		if at := strings.Index(line, "/pages/p"); at >= 0 {
			if page := line[at:][:len("/pages/p00")]; page < last {
				t.Fatalf("%s comes behind %s", page, last)
			} else {
				last = page
			}
		}
	}
	if _, again, _ := ran(t, nil, "verify", folder); again != first {
		t.Error("a second run says something else")
	}
}

func put(t *testing.T, name, text string) {
	t.Helper()
	if err := os.MkdirAll(filepath.Dir(name), 0o777); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(name, []byte(text), 0o666); err != nil {
		t.Fatal(err)
	}
}

func TestNoColourWhereNoTerminalReads(t *testing.T) {
	t.Setenv("NO_COLOR", "")
	file, err := os.Create(filepath.Join(t.TempDir(), "out"))
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	if styleOf(file).Colour || styleOf(&bytes.Buffer{}).Colour {
		t.Error("a file gets colours")
	}
}
