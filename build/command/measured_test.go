//go:build unix

package command

import (
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"runtime"
	"syscall"
	"testing"
	"time"
)

// measuring turns this test's program into one that runs another and tells what that cost. A system counts the memory of
// a process from the moment when it is still a copy of its parent: so a small parent is needed, and this test is a large one.
const measuring = "BLANKOFF_MEASURES"

// measured is what a run cost and came to. A status of -1 is a signal.
type measured struct {
	Status int
	Took   time.Duration
	Worked time.Duration // of all processors; what else the machine does is not in it
	Memory int64         // resident at most, in bytes
}

func TestMain(m *testing.M) {
	if os.Getenv(measuring) == "" {
		os.Exit(m.Run())
	}
	if err := measure(os.Args[1], os.Args[2:]...); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

// measure runs a program and writes what it cost to the file that the parent has opened as the fourth.
func measure(name string, args ...string) error {
	cmd := exec.Command(name, args...)
	cmd.Stdout, cmd.Stderr = os.Stdout, os.Stderr
	// A run without end is killed by the time it works, not by how long that takes beside what else the machine does.
	if err := syscall.Setrlimit(syscall.RLIMIT_CPU, &syscall.Rlimit{Cur: mostWork, Max: mostWork}); err != nil {
		return err
	}
	began := time.Now()
	err := cmd.Run()
	took := time.Since(began)
	var exit *exec.ExitError
	if err != nil && !errors.As(err, &exit) {
		return err
	}
	return json.NewEncoder(os.NewFile(3, "measured")).Encode(measured{cmd.ProcessState.ExitCode(), took, cmd.ProcessState.UserTime() + cmd.ProcessState.SystemTime(), resident(cmd.ProcessState)})
}

func resident(state *os.ProcessState) int64 {
	most := int64(state.SysUsage().(*syscall.Rusage).Maxrss)
	if runtime.GOOS == "darwin" { // tells bytes, the others kilobytes
		return most
	}
	return most << 10
}
