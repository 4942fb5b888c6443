package command

import (
	"bufio"
	"bytes"
	"encoding/json"
	"errors"
	"flag"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"testing/iotest"
	"time"

	"blankoff/calc"
	"blankoff/calc/declare"
	"blankoff/calc/wire"
)

// today stands still, so that the reviews of our own guides never come due in a test.
var today = time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC)

var update = flag.Bool("update", false, "write the golden files anew")

// ran runs the program as the terminal does.
func ran(t *testing.T, in io.Reader, args ...string) (status int, out, err string) {
	t.Helper()
	var stdout, stderr bytes.Buffer
	status = run(t.Context(), args, terminal{in, &stdout, &stderr, today})
	return status, stdout.String(), stderr.String()
}

func golden(t *testing.T, name, got string) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if *update {
		if err := errors.Join(os.MkdirAll("testdata", 0o777), os.WriteFile(path, []byte(got), 0o666)); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("differs from %s (-update writes it anew):\n%s", path, got)
	}
}

func TestHelp(t *testing.T) {
	for name, args := range map[string][]string{
		"help.txt":         {"help"},
		"help-calc.txt":    {"help", "calc"},
		"help-view.txt":    {"view", "--help"},
		"help-publish.txt": {"publish", "-h"},
		"help-verify.txt":  {"help", "verify"},
	} {
		t.Run(name, func(t *testing.T) {
			status, out, err := ran(t, nil, args...)
			if status != 0 || err != "" {
				t.Errorf("status %d, said %q", status, err)
			}
			golden(t, name, out)
		})
	}
}

// The answer is made up, so that only its look is tested here; what calculators say is tested where they are.
func TestAnAnswerForPeople(t *testing.T) {
	golden(t, "answer.txt", plain("Chamber rise test", declare.Answer{
		Out: []declare.Given{
			{Label: "Gas entering", Text: "0.0224 ± 0.0012 mbar·L/s", Also: []string{"0.0168 ± 0.0009 Torr·L/s", "0.00224 ± 0.00012 Pa·m³/s"}},
			{Label: "Größe", Text: "medium vacuum"},
		},
		Verdict:  declare.Verdict{Is: declare.CannotTell, Text: "Run the test for 14 min more."},
		Working:  []string{"Q = V (p₂ − p₁) / t"},
		Cautions: []string{"Two readings cannot tell a leak from vapour.", "Never put a vacuum chamber under pressure."},
	}))
	bare := plain("Pressure", declare.Answer{Out: []declare.Given{{Label: "Absolute", Text: "1 Pa"}}})
	if bare != "Pressure\n  Absolute  1 Pa\n" {
		t.Errorf("without verdict, working and cautions: %q", bare)
	}
}

func TestTheListNamesAllThatGoesInAndComesOut(t *testing.T) {
	_, all, _ := ran(t, nil, "calc", "--list")
	for _, calculator := range calc.All() {
		_, one, _ := ran(t, nil, "calc", "--list", calculator.ID)
		if !strings.Contains(all, one) || !strings.HasPrefix(one, calculator.ID+": "+calculator.Title+"\n") {
			t.Errorf("%s: %s", calculator.ID, one)
		}
		for _, input := range calculator.Inputs {
			if !regexp.MustCompile(`(?m)^  in   ` + input.ID + ` +` + regexp.QuoteMeta(input.Label) + `.*` + regexp.QuoteMeta(input.Unit)).MatchString(one) {
				t.Errorf("%s: lacks %s", calculator.ID, input.ID)
			}
		}
		for _, output := range calculator.Outputs {
			if !regexp.MustCompile(`(?m)^  out  ` + output.ID + ` +` + regexp.QuoteMeta(output.Label)).MatchString(one) {
				t.Errorf("%s: lacks %s", calculator.ID, output.ID)
			}
		}
	}
}

func TestCalcJSONIsTheAnswerOfTheWire(t *testing.T) {
	for _, test := range []struct {
		request string
		args    []string
		status  int
	}{
		{`{"id":"pressure","in":{"value":"340 micron"},"out":{"absolute":"Pa"}}`, []string{"pressure", "value=340 micron", "--unit", "absolute=Pa"}, 0},
		{`{"id":"pressure","in":{"value":"a=b"}}`, []string{"pressure", "value=a=b"}, 1},
		{`{"id":"pressure","in":{}}`, []string{"pressure"}, 1},
		{`{"id":"presure","in":{}}`, []string{"presure"}, 2},
	} {
		status, out, _ := ran(t, nil, append([]string{"calc", "--json"}, test.args...)...)
		if want := string(wire.Serve(nil, []byte(test.request))) + "\n"; out != want || status != test.status {
			t.Errorf("%v: status %d, want %d\n got %s\nwant %s", test.args, status, test.status, out, want)
		}
	}
}

func TestEveryExampleRunsInTheTerminal(t *testing.T) {
	for _, calculator := range calc.All() {
		args := []string{"calc", calculator.ID}
		for _, pair := range calculator.Example.In {
			args = append(args, pair.Name+"="+pair.Text)
		}
		status, out, err := ran(t, nil, args...)
		if status != 0 || err != "" {
			t.Errorf("%v: status %d, %s", args, status, err)
		}
		for _, want := range calculator.Example.Want {
			if !strings.Contains(out, want.Text) {
				t.Errorf("%v: lacks %q in\n%s", args, want.Text, out)
			}
		}
	}
}

func TestTheListAsJSONNamesAll(t *testing.T) {
	status, out, _ := ran(t, nil, "calc", "--list", "--json")
	var list []listedCalculator
	if err := json.Unmarshal([]byte(out), &list); err != nil || status != 0 {
		t.Fatal(status, err)
	}
	for i, calculator := range calc.All() {
		got := list[i]
		if got.ID != calculator.ID || len(got.Inputs) != len(calculator.Inputs) || len(got.Outputs) != len(calculator.Outputs) {
			t.Errorf("got %+v for %s", got, calculator.ID)
		}
	}
}

func TestLinesAnswersEachLineAndNeverStops(t *testing.T) {
	good := `{"id":"pressure","in":{"value":"340 micron"}}`
	lines := []string{good, "", "{", "\x00\xff", `{"id":"none"}`, `[1]`, strings.Repeat("x", 3<<20), good + "\r", good}
	status, out, _ := ran(t, strings.NewReader(strings.Join(lines, "\n")), "calc", "--lines")
	answers := strings.Split(strings.TrimSuffix(out, "\n"), "\n")
	if status != failed || len(answers) != len(lines) {
		t.Fatalf("status %d, %d answers to %d lines", status, len(answers), len(lines))
	}
	for i, line := range lines {
		if want := string(wire.Serve(nil, []byte(strings.TrimSuffix(line, "\r")))); answers[i] != want {
			t.Errorf("line %d: got %s, want %s", i+1, answers[i], want)
		}
	}
}

func TestLinesStatus(t *testing.T) {
	good := `{"id":"pressure","in":{"value":"340 micron"}}` + "\n"
	for _, test := range []struct {
		name  string
		in    io.Reader
		lines int
		want  int
	}{
		{"nothing to do", strings.NewReader(""), 0, 0},
		{"all good", strings.NewReader(good + good), 2, 0},
		{"in pieces", iotest.OneByteReader(strings.NewReader(good + good)), 2, 0},
		{"one bad", strings.NewReader("x\n" + good), 2, 1},
		{"the input breaks off", io.MultiReader(strings.NewReader(good), iotest.ErrReader(errors.New("cable pulled"))), 1, 2},
	} {
		status, out, err := ran(t, test.in, "calc", "--lines")
		if got := strings.Count(out, "\n"); status != test.want || got != test.lines {
			t.Errorf("%s: status %d, %d lines, %q; want %d, %d", test.name, status, got, err, test.want, test.lines)
		}
	}
}

// Each answer can be had before the next request is written: a program that asks one by one would else wait for ever.
func TestLinesAnswersAtOnce(t *testing.T) {
	askIn, ask := io.Pipe()
	answer, answerOut := io.Pipe()
	ended := make(chan int, 1)
	go func() {
		ended <- run(t.Context(), []string{"calc", "--lines"}, terminal{askIn, answerOut, io.Discard, today})
		answerOut.Close()
	}()
	decoder := json.NewDecoder(answer)
	for range 3 {
		if _, err := io.WriteString(ask, `{"id":"pressure","in":{"value":"1 Pa"}}`+"\n"); err != nil {
			t.Fatal(err)
		}
		var one struct{ ID string }
		if err := decoder.Decode(&one); err != nil || one.ID != "pressure" {
			t.Fatal(one, err)
		}
	}
	ask.Close()
	if status := <-ended; status != 0 {
		t.Errorf("status %d", status)
	}
}

// Ten times as many bytes as are held at once, in lines as long as a request may be.
func TestLongLinesAreNotHeldTogether(t *testing.T) {
	line := strings.Repeat("x", wire.MaxRequest-1) + "\n"
	in := bufio.NewReaderSize(strings.NewReader(strings.Repeat(line, 10*mostHeld/len(line))), 256<<10)
	lines, err := waitingLines(in)
	if held := len(lines) * len(line); err != nil || held > mostHeld+len(line) {
		t.Errorf("%d bytes held, %v", held, err)
	}
}

func TestLinesTakeNoTable(t *testing.T) {
	status, out, said := ran(t, strings.NewReader("{}\n"), "calc", "--lines", "--log", "rise.csv")
	if status != unusable || out != "" || !strings.Contains(said, "standard input") {
		t.Errorf("status %d, %q, %q", status, out, said)
	}
}
