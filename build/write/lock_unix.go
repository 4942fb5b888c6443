//go:build unix && !solaris && !aix

package write

import (
	"os"

	"golang.org/x/sys/unix"
)

// take locks an open folder, without waiting. The system lets go of the lock when the process ends, however it ends.
func take(folder *os.File) bool {
	return unix.Flock(int(folder.Fd()), unix.LOCK_EX|unix.LOCK_NB) == nil
}

// syncFolder makes a rename last; a file system that cannot is none that could lose it halfway.
func syncFolder(path string) {
	if folder, err := os.Open(path); err == nil {
		folder.Sync()
		folder.Close()
	}
}
