package write

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

// The names beside out: out.new-* is being filled, or is the old site on its way out; out.old-* is the old site between two renames.
const (
	newMark = ".new-"
	oldMark = ".old-"
)

// folder is a new folder, locked as long as the process that fills it lives.
type folder struct {
	path string
	lock *os.File
}

func newFolder(out string) (*folder, error) {
	path, err := os.MkdirTemp(filepath.Dir(out), filepath.Base(out)+newMark)
	if err != nil {
		return nil, err
	}
	if err := os.Chmod(path, modeOf(out)); err != nil {
		return nil, err
	}
	lock, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	take(lock) // where it cannot be had, a second run at the same moment may disturb this one; a killed run cannot
	return &folder{path: path, lock: lock}, nil
}

// modeOf keeps the permissions of the folder that is replaced; a new one may be read by everybody, as a web server needs it.
func modeOf(out string) fs.FileMode {
	if info, err := os.Stat(out); err == nil {
		return info.Mode().Perm()
	}
	return 0o755
}

func (f *folder) close() { f.lock.Close() }

// restore ends what a run began that was killed between its two renames.
func restore(out string) error {
	if _, err := os.Lstat(out); !errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	for _, aside := range siblings(out, oldMark) {
		if ours(aside) {
			return os.Rename(aside, out)
		}
	}
	return nil
}

// sweep removes what killed runs left. A folder that is still locked belongs to a run that lives.
// Failing is no reason not to publish.
func sweep(out string) {
	for _, path := range append(siblings(out, newMark), siblings(out, oldMark)...) {
		if left, err := os.Open(path); err == nil {
			if take(left) {
				os.RemoveAll(path)
			}
			left.Close()
		}
	}
}

func siblings(out, mark string) []string {
	entries, _ := os.ReadDir(filepath.Dir(out)) // unreadable: nothing can be done about leftovers either
	var found []string
	for _, entry := range entries {
		number, ok := strings.CutPrefix(entry.Name(), filepath.Base(out)+mark)
		if ok && entry.IsDir() && number != "" && strings.Trim(number, "0123456789") == "" {
			found = append(found, filepath.Join(filepath.Dir(out), entry.Name()))
		}
	}
	return found
}

// oldName has the number of the new folder.
func oldName(fresh, out string) string {
	return out + oldMark + strings.TrimPrefix(fresh, out+newMark)
}

// remove is os.RemoveAll with a look between the top entries.
func remove(path string, at func(string)) {
	entries, _ := os.ReadDir(path)
	for _, entry := range entries {
		at("remove " + entry.Name())
		os.RemoveAll(filepath.Join(path, entry.Name()))
	}
	os.Remove(path)
}
