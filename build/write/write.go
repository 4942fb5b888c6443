// Package write puts an edition into its folder so that a reader, a crash or a full disk never meets half of one.
//
// The files go into a new folder beside the old one; the two then change places in one step, and the old one is removed.
// Killed at any moment, the old or the new site is whole. What a killed run leaves behind, the next run removes.
//
//	err := write.Swap("out", files) // files hold edition.Marker
package write

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"blankoff/build/edition"
)

// Swap makes out hold exactly these files, which must include edition.Marker.
// It replaces a folder only if that is empty or bears our marker.
func Swap(out string, files []edition.File) error {
	return swapper{at: func(string) {}, exchange: exchange}.swap(out, files)
}

// swapper has the two things that tests replace: a look at each step, and the exchange of two folders in one step,
// which not every file system can do.
type swapper struct {
	at       func(step string)
	exchange func(a, b string) error
}

func (s swapper) swap(out string, files []edition.File) error {
	if err := complete(files); err != nil {
		return err
	}
	out, err := target(out)
	if err != nil {
		return err
	}
	if err := restore(out); err != nil {
		return err
	}
	if err := replaceable(out); err != nil {
		return err
	}
	sweep(out)
	fresh, err := newFolder(out)
	if err != nil {
		return unwritable(filepath.Dir(out), err)
	}
	defer fresh.close()
	s.at("made " + fresh.path)
	if err := s.fill(fresh, out, files); err != nil {
		os.RemoveAll(fresh.path)
		return err
	}
	if err := s.place(fresh.path, out); err != nil {
		os.RemoveAll(fresh.path)
		return unwritable(out, err)
	}
	s.at("placed")
	remove(fresh.path, s.at)
	return nil
}

// place brings the finished folder to out; if there was one, it ends up under the new one's former name.
func (s swapper) place(fresh, out string) error {
	defer syncFolder(filepath.Dir(out)) // after a power cut the name leads to the new folder or to the old one
	if _, err := os.Lstat(out); errors.Is(err, fs.ErrNotExist) {
		if err := os.Rename(fresh, out); !errors.Is(err, fs.ErrExist) { // else another run was faster: replace its site
			return err
		}
	}
	err := s.exchange(fresh, out)
	if !errors.Is(err, errors.ErrUnsupported) {
		return err
	}
	return s.placeInTwo(fresh, out)
}

// placeInTwo is for file systems that cannot exchange. Between its two renames there is no site under the name out:
// restore puts the old one back if the run is killed just there.
func (s swapper) placeInTwo(fresh, out string) error {
	aside := oldName(fresh, out)
	if err := os.Rename(out, aside); err != nil {
		return err
	}
	s.at("aside")
	if err := os.Rename(fresh, out); err != nil {
		return errors.Join(err, os.Rename(aside, out))
	}
	s.at("renamed")
	return os.Rename(aside, fresh)
}

// target is the folder behind a symbolic link too, so that the link stays.
func target(out string) (string, error) {
	out, err := filepath.Abs(out)
	if err != nil {
		return "", err
	}
	if real, err := filepath.EvalSymlinks(out); err == nil {
		return real, nil
	}
	if err := os.MkdirAll(filepath.Dir(out), 0o777); err != nil {
		return "", unwritable(filepath.Dir(out), err)
	}
	return out, nil
}

// replaceable refuses whatever might be somebody's work.
func replaceable(out string) error {
	entries, err := os.ReadDir(out)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil
	case err != nil:
		return fmt.Errorf("cannot publish to %s: %w; name a folder with --out", out, cause(err))
	case len(entries) == 0:
		return nil
	case ours(out):
		return strangers(out)
	}
	return fmt.Errorf("%s holds files that %s did not publish, so it is left alone; empty it, or name another folder with --out", out, edition.Generator)
}

// strangers refuses a site of ours in which somebody has put files of his own, such as what a host needs: a swap would
// take them away.
func strangers(out string) error {
	record, err := os.ReadFile(filepath.Join(out, edition.Marker))
	if err != nil {
		return unwritable(out, err)
	}
	known := map[string]bool{edition.Marker: true}
	marker, _ := edition.Read(record)
	for _, file := range marker.Files {
		known[file[0]] = true
	}
	return filepath.WalkDir(out, func(path string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		name, err := filepath.Rel(out, path)
		if err == nil && !known[filepath.ToSlash(name)] {
			return fmt.Errorf("%s is not a file of the site that stands there, and would be lost; move it away, or name another folder with --out", path)
		}
		return err
	})
}

func ours(folder string) bool {
	marker, err := os.ReadFile(filepath.Join(folder, edition.Marker))
	if err != nil {
		return false
	}
	_, ours := edition.Read(marker)
	return ours
}

func unwritable(where string, err error) error {
	return fmt.Errorf("cannot write to %s: %w; check its permissions and the space left", where, cause(err))
}

// cause takes the operation and the path off an error of package os: our sentences name the place themselves.
func cause(err error) error {
	var path *fs.PathError
	var link *os.LinkError
	switch {
	case errors.As(err, &path):
		return path.Err
	case errors.As(err, &link):
		return link.Err
	}
	return err
}
