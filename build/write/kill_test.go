package write

import (
	"bufio"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"testing"
)

// The test binary is also the publishing process that gets killed. The child's environment says where it publishes,
// by which way, and at which step it kills itself (0: never; it then publishes for ever and prints a line a step).
const (
	childOut  = "WRITE_TEST_CHILD_OUT"
	childWay  = "WRITE_TEST_CHILD_WAY"
	childStep = "WRITE_TEST_CHILD_STEP"
)

func TestMain(m *testing.M) {
	if out := os.Getenv(childOut); out != "" {
		child(out, os.Getenv(childWay), os.Getenv(childStep))
		return
	}
	os.Exit(m.Run())
}

func child(out, way, step string) {
	last, _ := strconv.Atoi(step)
	steps := make(chan int, 1)
	steps <- 0
	s := swapper{exchange: exchange, at: func(name string) {
		n := <-steps + 1
		if n == last {
			fmt.Println(name)
			self, _ := os.FindProcess(os.Getpid())
			self.Kill()
			select {} // the other writers still run until the signal arrives
		}
		if last == 0 {
			fmt.Println(name)
		}
		steps <- n
	}}
	if way == "renames" {
		s.exchange = unsupported
	}
	for i := 1; ; i++ {
		if err := s.swap(out, made([]string{"even", "odd"}[i%2])); err != nil {
			fmt.Println(err)
			os.Exit(3)
		}
		if last > 0 {
			return // no step with this number: the run came to its end
		}
	}
}

func start(out, way string, step int) *exec.Cmd {
	cmd := exec.Command(os.Args[0])
	cmd.Env = append(os.Environ(), childOut+"="+out, childWay+"="+way, childStep+"="+strconv.Itoa(step))
	return cmd
}

// killedAt runs a child that dies at its n-th step; false if it had fewer.
func killedAt(t *testing.T, out, way string, n int) (step string, killed bool) {
	t.Helper()
	said, err := start(out, way, n).Output()
	exit, failed := err.(*exec.ExitError)
	if failed && exit.ExitCode() == -1 {
		return string(said), true
	}
	if err != nil {
		t.Fatalf("child: %v, %s", err, said)
	}
	return "", false
}

func TestKilledAtEachStepTheSiteIsWhole(t *testing.T) {
	out := filepath.Join(t.TempDir(), "out")
	n := 1
	for ; ; n++ {
		if err := Swap(out, made("old")); err != nil {
			t.Fatal(err)
		}
		step, killed := killedAt(t, out, "exchange", n)
		got := whole(t, out)
		if !killed {
			break
		}
		if got != name(made("old")) && got != name(made("odd")) {
			t.Errorf("killed at %q: edition %s is neither the old nor the new one", step, got)
		}
	}
	if n < 25 {
		t.Errorf("only %d steps were tried", n)
	}
	if got := whole(t, out); got != name(made("odd")) {
		t.Errorf("the run that came to its end did not publish")
	}
	noLeftovers(t, out)
}

func TestKilledBetweenTwoRenamesTheNextRunRestores(t *testing.T) {
	out := filepath.Join(t.TempDir(), "out")
	missing := 0
	for n := 1; ; n++ {
		if err := Swap(out, made("old")); err != nil {
			t.Fatal(err)
		}
		if _, killed := killedAt(t, out, "renames", n); !killed {
			break
		}
		if _, err := os.Lstat(out); err != nil {
			missing++
		}
		// The next run is itself killed right at its beginning, so what is there then was restored, not published.
		killedAt(t, out, "renames", 1)
		if got := whole(t, out); got != name(made("old")) && got != name(made("odd")) {
			t.Errorf("step %d: edition %s is neither the old nor the new one", n, got)
		}
	}
	if missing != 1 {
		t.Errorf("the site was missing at %d steps, want the one between the renames", missing)
	}
}

// Killed from outside, in whatever the child does at that moment: it does not wait for the reader of its lines.
func TestKilledAtRandomMomentsTheSiteIsWhole(t *testing.T) {
	seed := rand.Uint64()
	random := rand.New(rand.NewPCG(seed, 0))
	out := filepath.Join(t.TempDir(), "out")
	if err := Swap(out, made("even")); err != nil {
		t.Fatal(err)
	}
	editions := []string{name(made("even")), name(made("odd"))}
	for run := range 30 {
		cmd := start(out, "exchange", 0)
		pipe, err := cmd.StdoutPipe()
		if err != nil {
			t.Fatal(err)
		}
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		lines := bufio.NewScanner(pipe)
		for range 1 + random.IntN(200) {
			if !lines.Scan() {
				t.Fatalf("the child ended by itself: %v", cmd.Wait())
			}
		}
		if err := cmd.Process.Kill(); err != nil {
			t.Fatal(err)
		}
		cmd.Wait() // its error says that it was killed, which is what we did
		if got := whole(t, out); !slices.Contains(editions, got) {
			t.Errorf("seed %d, run %d: edition %s was never published", seed, run, got)
		}
	}
	if err := Swap(out, made("last")); err != nil {
		t.Fatal(err)
	}
	noLeftovers(t, out)
}
