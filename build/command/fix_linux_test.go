package command

import (
	"os"
	"runtime"
	"strings"
	"testing"

	"golang.org/x/sys/unix"
)

// forbidden makes a folder one that nobody may write to, root included: the thread gives up its rights over files.
func forbidden(t *testing.T, folder string) {
	t.Helper()
	if err := os.Chmod(folder, 0o555); err != nil {
		t.Fatal(err)
	}
	runtime.LockOSThread()
	before, err := unix.SetfsuidRetUid(os.Getuid())
	if err != nil {
		t.Fatal(err)
	}
	if before == 0 {
		const nobody = 65534
		_, _ = unix.SetfsuidRetUid(nobody)
	}
	t.Cleanup(func() {
		_, _ = unix.SetfsuidRetUid(before)
		runtime.UnlockOSThread()
		_ = os.Chmod(folder, 0o755)
	})
}

// TestFixOfAFileThatCannotBeWritten: one plain line says which, and nothing is lost.
func TestFixOfAFileThatCannotBeWritten(t *testing.T) {
	shop(t)
	leave(t, "content/pages/plain.md", titled(stalePage, "Plain"), 0o644)
	forbidden(t, "content/pages")
	status, out, told := ran(t, nil, "verify", "--fix")
	if status == done || out != "" || strings.Count(told, "\n") != 1 || !strings.Contains(told, "content/pages/plain.md") || !strings.Contains(told, "permission denied") {
		t.Errorf("status %d, out %q, said %q", status, out, told)
	}
	holds(t, "content/pages/plain.md", titled(stalePage, "Plain"))
}
