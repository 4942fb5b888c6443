package write

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"path"
	"path/filepath"
	"runtime"
	"sync"

	"blankoff/build/edition"
)

// complete refuses what would publish less, or other, than was meant.
func complete(files []edition.File) error {
	seen := make(map[string]bool, len(files))
	for _, file := range files {
		if !filepath.IsLocal(filepath.FromSlash(file.Path)) {
			return fmt.Errorf("the site has a file %q, which would lie outside of its folder", file.Path)
		}
		if seen[file.Path] {
			return fmt.Errorf("two pages want to be published as %s; rename one of them", file.Path)
		}
		seen[file.Path] = true
	}
	for _, file := range files {
		for folder := path.Dir(file.Path); folder != "."; folder = path.Dir(folder) {
			if seen[folder] {
				return fmt.Errorf("a page wants to be published as %s, which is a directory of other pages; rename it", folder)
			}
		}
	}
	if !seen[edition.Marker] {
		return fmt.Errorf("the site lacks its %s; this is a fault in %s", edition.Marker, edition.Generator)
	}
	return nil
}

// fill writes the files in parallel, each with its folder, which costs the system as much as the file. The marker is
// among them, but nobody looks for it before the folder has its place.
func (s swapper) fill(fresh *folder, old string, files []edition.File) error {
	next := make(chan edition.File)
	faults := make([]error, runtime.GOMAXPROCS(0))
	var all sync.WaitGroup
	for i := range faults {
		all.Go(func() {
			for file := range next {
				if faults[i] == nil { // else only drain, so that the sender never waits
					faults[i] = put(fresh.path, old, file)
					s.at("file " + file.Path)
				}
			}
		})
	}
	for _, file := range files {
		next <- file
	}
	close(next)
	all.Wait()
	if err := errors.Join(faults...); err != nil {
		return err
	}
	return fresh.sync()
}

// put shares an unchanged file with the old edition by a hard link: it keeps its time, so that what copies the site
// to a host sees at once what changed. The bytes are compared, for somebody may have edited the published file.
func put(fresh, old string, file edition.File) error {
	name := filepath.FromSlash(file.Path)
	after, before := filepath.Join(fresh, name), filepath.Join(old, name)
	if err := os.MkdirAll(filepath.Dir(after), 0o777); err != nil {
		return unwritable(filepath.Dir(after), err)
	}
	if same(before, file.Bytes) && os.Link(before, after) == nil {
		return nil
	}
	if err := os.WriteFile(after, file.Bytes, 0o666); err != nil {
		return unwritable(after, err)
	}
	return nil
}

func same(path string, content []byte) bool {
	info, err := os.Lstat(path)
	if err != nil || !info.Mode().IsRegular() || info.Size() != int64(len(content)) {
		return false
	}
	there, err := os.ReadFile(path)
	return err == nil && bytes.Equal(there, content)
}
