//go:build !unix

package journey

import (
	"errors"
	"os"
	"os/exec"
)

func ownGroup(*exec.Cmd) {}

func endGroup(process *exec.Cmd) error {
	err := process.Process.Kill()
	if errors.Is(err, os.ErrProcessDone) {
		return nil
	}
	return err
}
