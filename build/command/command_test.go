package command

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func TestUnusableArgumentsAreOneLineAndStatus2(t *testing.T) {
	file := filepath.Join(t.TempDir(), "file")
	if err := os.WriteFile(file, nil, 0o666); err != nil {
		t.Fatal(err)
	}
	empty := t.TempDir()
	for _, test := range []struct{ args, want string }{
		{"publsh", `there is no verb "publsh", did you mean publish?`},
		{"frobnicate", `there is no verb "frobnicate"; see blankoff help`},
		{"help frobnicate", `there is no verb "frobnicate"`},
		{"completion", `there is no verb "completion"`},
		{"publish --frob", "unknown flag: --frob; see blankoff help publish"},
		{"--frob", "unknown flag: --frob; see blankoff help"},
		{"view --port many", "--port"},
		{"view --port 99999", "--port"},
		{"publish a b", "takes one folder, and there are 2: a, b"},
		{"publish " + empty + "/none", "there is no folder " + empty + "/none; name the folder that holds shop.yaml"},
		{"verify " + empty + "/none", "there is no folder"},
		{"view " + empty + "/none", "there is no folder"},
		{"verify " + file, "is a file; name the folder that holds shop.yaml"},
		{"publish " + empty + " --out " + empty, "lie in one another"},
		{"publish " + empty + " --out " + empty + "/site", "lie in one another"},
		{"calc", "name a calculator: pressure, throughput, rise-test, rise-log, "},
		{"calc pressure 340", `"340" is not of the form name=value`},
		{"calc pressure =340", "is not of the form name=value"},
		{"calc pressure --unit Pa", "--unit leak=mbar·L/s"},
		{"calc presure", "there is no calculator"},
		{"calc --list presure", "there is no calculator"},
		{"calc --lines pressure", "takes its requests from the standard input"},
		{"calc --lines --list", "lines"},
	} {
		t.Run(test.args, func(t *testing.T) {
			status, out, err := ran(t, strings.NewReader(""), strings.Fields(test.args)...)
			if status != unusable || out != "" || strings.Count(err, "\n") != 1 || !strings.Contains(err, test.want) {
				t.Errorf("status %d, out %q, said %q, want %q", status, out, err, test.want)
			}
		})
	}
}

func TestAFailedRequestIsOneLineAndStatus1(t *testing.T) {
	status, out, err := ran(t, nil, "calc", "rise-test", "volume=28 Pa")
	if status != failed || out != "" || !strings.HasPrefix(err, "blankoff: volume: ") || strings.Count(err, "\n") != 1 {
		t.Errorf("status %d, out %q, said %q", status, out, err)
	}
}

func TestEveryVerbHasAnExample(t *testing.T) {
	for _, verb := range verbs(terminal{}).Commands() {
		if verb.Example == "" || verb.Long == "" || verb.Short == "" {
			t.Errorf("%s lacks its example or explanation", verb.Name())
		}
		if status, out, _ := ran(t, nil, "help", verb.Name()); status != 0 || !strings.Contains(out, verb.Example) {
			t.Errorf("help %s: status %d, %s", verb.Name(), status, out)
		}
	}
}

func TestLyingInOneAnother(t *testing.T) {
	for _, test := range []struct {
		content, out string
		apart        bool
	}{
		{"content", "out", true},
		{"content", "content", false},
		{"content", "content/out", false},
		{"content", "./content/../content/x/y", false},
		{"out/content", "out", false},
		{"content", "content-out", true},
		{".", "out", false},
		{"content", "..", false},
		{"content", "../out", true},
	} {
		if err := apart(test.content, test.out); (err == nil) != test.apart {
			t.Errorf("%s and %s: %v", test.content, test.out, err)
		}
	}
}
