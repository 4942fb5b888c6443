//go:build unix

package journey

import (
	"errors"
	"os/exec"
	"syscall"
)

// ownGroup gives a process a group of its own, so that what it starts can be ended with it.
func ownGroup(process *exec.Cmd) {
	process.SysProcAttr = &syscall.SysProcAttr{Setpgid: true}
}

func endGroup(process *exec.Cmd) error {
	err := syscall.Kill(-process.Process.Pid, syscall.SIGKILL)
	if errors.Is(err, syscall.ESRCH) {
		return nil // it has ended by itself
	}
	return err
}
