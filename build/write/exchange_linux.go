package write

import (
	"errors"

	"golang.org/x/sys/unix"
)

// exchange lets two folders change places in one step.
func exchange(a, b string) error {
	err := unix.Renameat2(unix.AT_FDCWD, a, unix.AT_FDCWD, b, unix.RENAME_EXCHANGE)
	if err == unix.EINVAL { // this file system cannot: some network and shared folders
		return errors.ErrUnsupported
	}
	return err // ENOSYS and ENOTSUP are errors.ErrUnsupported already
}

// sync asks the disk once for everything: one call a file costs a hundred times as much.
func (f *folder) sync() error { return unix.Syncfs(int(f.lock.Fd())) }
