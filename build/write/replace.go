package write

import (
	"os"
	"path/filepath"
)

// Replace gives one file new content in one step: killed at any moment, the old or the new content is whole.
// The file must be there; it keeps its permissions.
func Replace(name string, content []byte) error {
	info, err := os.Stat(name)
	if err != nil {
		return unwritable(name, err)
	}
	fresh, err := os.CreateTemp(filepath.Dir(name), ".new-*") // a name with a dot is not taken for content
	if err != nil {
		return unwritable(name, err)
	}
	defer os.Remove(fresh.Name()) // fails once it has the other name
	for _, step := range []func() error{
		func() error { _, err := fresh.Write(content); return err },
		func() error { return fresh.Chmod(info.Mode().Perm()) },
		fresh.Sync,
	} {
		if err := step(); err != nil {
			fresh.Close()
			return unwritable(name, err)
		}
	}
	if err := fresh.Close(); err != nil {
		return unwritable(name, err)
	}
	if err := os.Rename(fresh.Name(), name); err != nil {
		return unwritable(name, err)
	}
	return nil
}
