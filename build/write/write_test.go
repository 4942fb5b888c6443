package write

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"

	"blankoff/build/edition"
)

// made is an edition whose files all say its name, some shared by all editions.
func made(name string) []edition.File {
	files := []edition.File{{Path: "same.css", Bytes: []byte("same in all")}}
	for i := range 20 {
		files = append(files, edition.File{Path: fmt.Sprintf("guides/%d/index.html", i), Bytes: []byte(name + strings.Repeat("x", 100*i))})
	}
	return append(files, edition.Of(files).File())
}

// whole reads the folder back and compares every file with the marker; it gives the edition's name.
func whole(t *testing.T, out string) string {
	t.Helper()
	marker, err := os.ReadFile(filepath.Join(out, edition.Marker))
	if err != nil {
		t.Fatal(err)
	}
	record, ours := edition.Read(marker)
	if !ours {
		t.Fatalf("marker is not ours: %q", marker)
	}
	var files []edition.File
	err = filepath.WalkDir(out, func(path string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		content, err := os.ReadFile(path)
		name, _ := filepath.Rel(out, path)
		files = append(files, edition.File{Path: filepath.ToSlash(name), Bytes: content})
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	if there := edition.Of(files); there.Edition != record.Edition || !slices.Equal(there.Files, record.Files) {
		t.Fatalf("the folder is not the edition %s that its marker names, but %s", record.Edition, there.Edition)
	}
	return record.Edition
}

func name(files []edition.File) string { return edition.Of(files).Edition }

func noLeftovers(t *testing.T, out string) {
	t.Helper()
	if left := append(siblings(out, newMark), siblings(out, oldMark)...); len(left) > 0 {
		t.Errorf("left behind: %v", left)
	}
}

// bothWays runs a test with the exchange of this system and with the two renames.
func bothWays(t *testing.T, test func(t *testing.T, s swapper)) {
	t.Run("exchange", func(t *testing.T) { test(t, swapper{func(string) {}, exchange}) })
	t.Run("two renames", func(t *testing.T) { test(t, swapper{func(string) {}, unsupported}) })
}

func unsupported(a, b string) error { return errors.ErrUnsupported }

func TestSwapReplacesTheWholeFolder(t *testing.T) {
	bothWays(t, func(t *testing.T, s swapper) {
		out := filepath.Join(t.TempDir(), "not", "yet", "there")
		fewer := made("second")[3:10]
		for _, files := range [][]edition.File{made("first"), append(fewer, edition.Of(fewer).File()), made("third")} {
			if err := s.swap(out, files); err != nil {
				t.Fatal(err)
			}
			if got := whole(t, out); got != name(files) {
				t.Errorf("got edition %s, want %s", got, name(files))
			}
			noLeftovers(t, out)
		}
	})
}

func TestUnchangedFilesStayTheSame(t *testing.T) {
	out := filepath.Join(t.TempDir(), "out")
	stat := func(name string) os.FileInfo {
		info, err := os.Stat(filepath.Join(out, name))
		if err != nil {
			t.Fatal(err)
		}
		return info
	}
	publish := func(edition string) {
		if err := Swap(out, made(edition)); err != nil {
			t.Fatal(err)
		}
	}
	publish("first")
	shared, changed := stat("same.css"), stat("guides/3/index.html")
	publish("second")
	if !os.SameFile(shared, stat("same.css")) {
		t.Errorf("an unchanged file was written again")
	}
	if os.SameFile(changed, stat("guides/3/index.html")) {
		t.Errorf("a changed file was not written")
	}
	if err := os.WriteFile(filepath.Join(out, "same.css"), []byte("same in ALL"), 0o666); err != nil {
		t.Fatal(err)
	}
	publish("second")
	whole(t, out) // an edited published file is put right, though the marker knows it as unchanged
}

func TestEmptyFolderAndLinkAreReplaced(t *testing.T) {
	bothWays(t, func(t *testing.T, s swapper) {
		real := filepath.Join(t.TempDir(), "real")
		link := filepath.Join(t.TempDir(), "link")
		if err := errors.Join(os.Mkdir(real, 0o750), os.Symlink(real, link)); err != nil {
			t.Fatal(err)
		}
		if err := s.swap(link, made("first")); err != nil {
			t.Fatal(err)
		}
		if info, err := os.Lstat(link); err != nil || info.Mode()&fs.ModeSymlink == 0 {
			t.Errorf("the link is gone: %v, %v", info, err)
		}
		if info, err := os.Stat(real); err != nil || info.Mode().Perm() != 0o750 {
			t.Errorf("permissions changed: %v, %v", info.Mode(), err)
		}
		whole(t, real)
	})
}

func TestRefusals(t *testing.T) {
	good := made("new")
	tests := []struct {
		name    string
		prepare func(folder string) (out string, err error)
		files   []edition.File
		want    string
	}{
		{"somebody's folder", func(folder string) (string, error) {
			return folder, os.WriteFile(filepath.Join(folder, "thesis.doc"), nil, 0o666)
		}, good, "did not publish, so it is left alone"},
		{"another program's marker", func(folder string) (string, error) {
			return folder, os.WriteFile(filepath.Join(folder, edition.Marker), []byte(`{"generator":"other"}`), 0o666)
		}, good, "did not publish, so it is left alone"},
		{"out is a file", func(folder string) (string, error) {
			out := filepath.Join(folder, "file")
			return out, os.WriteFile(out, nil, 0o666)
		}, good, "not a directory; name a folder with --out"},
		{"no folder can be made", func(folder string) (string, error) {
			return filepath.Join(folder, "file", "out"), os.WriteFile(filepath.Join(folder, "file"), nil, 0o666)
		}, good, "cannot write to"},
		{"a page that leaves the folder", plain, append([]edition.File{{Path: "../x"}}, good...), "outside of its folder"},
		{"a rooted page", plain, append([]edition.File{{Path: "/x"}}, good...), "outside of its folder"},
		{"two pages with one name", plain, append([]edition.File{{Path: "same.css"}}, good...), "two pages want to be published as same.css"},
		{"a page in place of a folder", plain, append([]edition.File{{Path: "guides/3"}}, good...), "is a directory"},
		{"no marker", plain, good[:3], "lacks its edition.json"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			folder := t.TempDir()
			out, err := test.prepare(folder)
			if err != nil {
				t.Fatal(err)
			}
			before := listing(t, folder)
			err = Swap(out, test.files)
			if err == nil || !strings.Contains(err.Error(), test.want) || strings.Contains(err.Error(), "\n") {
				t.Errorf("got %v, want one line with %q", err, test.want)
			}
			if after := listing(t, folder); !slices.Equal(before, after) {
				t.Errorf("changed although refused: %v, was %v", after, before)
			}
		})
	}
}

func plain(folder string) (string, error) {
	out := filepath.Join(folder, "out")
	return out, Swap(out, made("old"))
}

func listing(t *testing.T, folder string) []string {
	t.Helper()
	var all []string
	err := filepath.WalkDir(folder, func(path string, entry fs.DirEntry, err error) error {
		if err == nil && entry.Type().IsRegular() {
			content, err := os.ReadFile(path)
			all = append(all, path+" "+edition.Short(content))
			return err
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return all
}

func TestLeftoversGoButNotFoldersOfLivingRunsOrStrangers(t *testing.T) {
	folder := t.TempDir()
	out := filepath.Join(folder, "out")
	living, err := newFolder(out)
	if err != nil {
		t.Fatal(err)
	}
	defer living.close()
	for _, name := range []string{"out.new-123", "out.old-456", "out.new-copy", "out.new", "another.new-1"} {
		if err := os.MkdirAll(filepath.Join(folder, name, "inner"), 0o777); err != nil {
			t.Fatal(err)
		}
	}
	if err := Swap(out, made("first")); err != nil {
		t.Fatal(err)
	}
	entries, err := os.ReadDir(folder)
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, entry := range entries {
		names = append(names, entry.Name())
	}
	want := []string{"another.new-1", "out", "out.new", filepath.Base(living.path), "out.new-copy"}
	slices.Sort(want)
	if !slices.Equal(names, want) {
		t.Errorf("found %v, want %v", names, want)
	}
}

func TestRunsAtTheSameMomentLeaveOneWholeEdition(t *testing.T) {
	out := filepath.Join(t.TempDir(), "out")
	faults := make([]error, 8)
	var all sync.WaitGroup
	for i := range faults {
		all.Go(func() { faults[i] = Swap(out, made(fmt.Sprint(i))) })
	}
	all.Wait()
	// A run may lose the race for a folder and say so; the site is whole all the same, and the next run is alone.
	whole(t, out)
	if err := Swap(out, made("last")); err != nil {
		t.Fatal(err)
	}
	if whole(t, out) != name(made("last")) {
		t.Errorf("the last run did not count")
	}
	noLeftovers(t, out)
}

func TestReplaceChangesTheContentAlone(t *testing.T) {
	folder := t.TempDir()
	name := filepath.Join(folder, "guide.md")
	if err := os.WriteFile(name, []byte("old"), 0o640); err != nil {
		t.Fatal(err)
	}
	if err := Replace(name, []byte("new")); err != nil {
		t.Fatal(err)
	}
	info, err := os.Stat(name)
	if err != nil || info.Mode().Perm() != 0o640 {
		t.Errorf("permissions are %v, %v", info.Mode(), err)
	}
	if got := listing(t, folder); !slices.Equal(got, []string{name + " " + edition.Short([]byte("new"))}) {
		t.Errorf("the folder holds %v", got)
	}
	for _, missing := range []string{filepath.Join(folder, "none.md"), filepath.Join(name, "x.md")} {
		if err := Replace(missing, nil); err == nil || !strings.Contains(err.Error(), "cannot write to") {
			t.Errorf("%s: %v", missing, err)
		}
	}
	if got := listing(t, folder); len(got) != 1 {
		t.Errorf("left behind: %v", got)
	}
}

// TestFilesOfSomebodyElseStay: what a host or an owner has put into our site is not ours to remove.
func TestFilesOfSomebodyElseStay(t *testing.T) {
	for _, stranger := range []string{"CNAME", ".git/config", "guides/1/notes.txt"} {
		out := filepath.Join(t.TempDir(), "out")
		if err := Swap(out, made("first")); err != nil {
			t.Fatal(err)
		}
		path := filepath.Join(out, filepath.FromSlash(stranger))
		if err := errors.Join(os.MkdirAll(filepath.Dir(path), 0o777), os.WriteFile(path, []byte("mine"), 0o666)); err != nil {
			t.Fatal(err)
		}
		if err := Swap(out, made("second")); err == nil || !strings.Contains(err.Error(), path) {
			t.Errorf("%s: %v", stranger, err)
		}
		if content, err := os.ReadFile(path); err != nil || string(content) != "mine" {
			t.Errorf("%s: %q, %v", stranger, content, err)
		}
		noLeftovers(t, out)
	}
}
