package write

import (
	"bytes"
	"errors"
	"fmt"
	"os"
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
	if !seen[edition.Marker] {
		return fmt.Errorf("the site lacks its %s; this is a fault in %s", edition.Marker, edition.Generator)
	}
	return nil
}

// fill writes the files in parallel. The marker is among them, but nobody looks for it before the folder has its place.
func (s swapper) fill(fresh *folder, old string, files []edition.File) error {
	if err := makeFolders(fresh.path, files); err != nil {
		return err
	}
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

func makeFolders(fresh string, files []edition.File) error {
	made := map[string]bool{}
	for _, file := range files {
		folder := filepath.Dir(filepath.Join(fresh, filepath.FromSlash(file.Path)))
		if made[folder] {
			continue
		}
		if err := os.MkdirAll(folder, 0o777); err != nil {
			return unwritable(folder, err)
		}
		made[folder] = true
	}
	return nil
}

// put shares an unchanged file with the old edition by a hard link: it keeps its time, so that what copies the site
// to a host sees at once what changed. The bytes are compared, for somebody may have edited the published file.
func put(fresh, old string, file edition.File) error {
	name := filepath.FromSlash(file.Path)
	path, before := filepath.Join(fresh, name), filepath.Join(old, name)
	if same(before, file.Bytes) && os.Link(before, path) == nil {
		return nil
	}
	if err := os.WriteFile(path, file.Bytes, 0o666); err != nil {
		return unwritable(path, err)
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
