package load

import (
	"errors"
	"fmt"
	"io/fs"
	"path"
	"slices"
	"strings"

	"blankoff/build/diagnostic"
	"blankoff/build/guide"
	"blankoff/build/source"
)

// Unreadable is a folder or file that the system does not let us read: nothing that
// writing better content could mend.
type Unreadable struct {
	Name  string // as the user knows it
	Cause error
}

func (u *Unreadable) Error() string {
	switch {
	case errors.Is(u.Cause, fs.ErrNotExist):
		return fmt.Sprintf("there is no %s", source.Quote(u.Name))
	case errors.Is(u.Cause, fs.ErrPermission):
		return fmt.Sprintf("%s may not be read: permission denied", source.Quote(u.Name))
	}
	return fmt.Sprintf("%s cannot be read: %v", source.Quote(u.Name), cause(u.Cause))
}

// Unwrap gives the system's own error.
func (u *Unreadable) Unwrap() error { return u.Cause }

// cause leaves out the path that fs errors repeat.
func cause(err error) error {
	var at *fs.PathError
	if errors.As(err, &at) {
		return at.Err
	}
	return err
}

// Load reads the content folder at the root of a file system. name is the folder as the
// user typed it; every message starts with it. All that is wrong in the content comes back
// together; the error is an *Unreadable.
func Load(fsys fs.FS, name string) (*Library, []diagnostic.Diagnostic, error) {
	l := &loader{fsys: fsys, folder: name, library: &Library{Folder: name}}
	if err := l.root(); err != nil {
		return nil, nil, err
	}
	return l.library, diagnostic.Sorted(l.found), nil
}

type loader struct {
	fsys    fs.FS
	folder  string
	library *Library
	unread  []unread
	found   []diagnostic.Diagnostic
}

func (l *loader) add(faults ...source.Fault) {
	l.found = append(l.found, diagnostic.FromFaults(faults)...)
}

func (l *loader) refuse(rule string, span source.Span, message, hint string) {
	l.found = append(l.found, diagnostic.NewError(rule, span, message, hint))
}

// shown is how the user knows a path in the folder.
func (l *loader) shown(at string) string { return path.Join(l.folder, at) }

func (l *loader) unreadable(at string, err error) error {
	return &Unreadable{Name: l.shown(at), Cause: err}
}

// folders holds what each known folder takes, and what reads a file of it.
var folders = []struct {
	name, endings string
	read          func(*loader, string) error
}{
	{"families", ".yaml", (*loader).family},
	{"machines", ".yaml", (*loader).machine},
	{"pages", ".md", pages(guide.Page)},
	{"pictures", ".svg .png .jpg .jpeg .webp", (*loader).picture},
	{"procedures", ".md", pages(guide.Procedure)},
	{"symptoms", ".md", pages(guide.Symptom)},
	{"tubes", ".yaml", (*loader).tube},
}

func (l *loader) root() error {
	entries, err := fs.ReadDir(l.fsys, ".")
	if err != nil {
		return l.unreadable(".", err)
	}
	for _, needed := range []string{"shop.yaml", "hazards.yaml"} {
		if !slices.ContainsFunc(entries, func(e fs.DirEntry) bool { return e.Name() == needed }) {
			l.refuse("file-missing", l.place(needed), needed+" is missing",
				"every content folder has a shop.yaml and a hazards.yaml; is "+source.Quote(l.folder)+" the right folder?")
		}
	}
	for _, entry := range sorted(entries) {
		if err := l.top(entry); err != nil {
			return err
		}
	}
	if err := l.parse(); err != nil {
		return err
	}
	l.library.resolve()
	return nil
}

func (l *loader) top(entry fs.DirEntry) error {
	name := entry.Name()
	if ignored(name) || l.isLink(name, entry) {
		return nil
	}
	switch {
	case name == "shop.yaml" && !entry.IsDir():
		return l.mapping(name, (*loader).shop)
	case name == "hazards.yaml" && !entry.IsDir():
		return l.mapping(name, (*loader).catalogue)
	case name == "words.yaml" && !entry.IsDir():
		return l.mapping(name, (*loader).words)
	case name == "triage.yaml" && !entry.IsDir():
		return l.mapping(name, (*loader).triage)
	}
	var known []string
	for _, folder := range folders {
		if folder.name == name && entry.IsDir() {
			return l.files(name, strings.Fields(folder.endings), folder.read)
		}
		known = append(known, folder.name)
	}
	l.unknown(name, append(known, "shop.yaml", "hazards.yaml", "words.yaml", "triage.yaml"))
	return nil
}

// unknown reports what nothing reads. A near miss is an error: its pages would be missing from the site.
func (l *loader) unknown(name string, known []string) {
	if near := source.Nearest(name, known); near != "" {
		l.refuse("unread-file", l.place(name), source.Quote(name)+" is not read", "did you mean "+near+"?")
		return
	}
	l.found = append(l.found, diagnostic.NewWarning("unread-file", l.place(name), source.Quote(name)+" is not read",
		"content lies in "+strings.Join(known, ", ")+"; move it, or start its name with a dot"))
}

// files reads each file of a folder.
func (l *loader) files(folder string, endings []string, read func(*loader, string) error) error {
	entries, err := fs.ReadDir(l.fsys, folder)
	if err != nil {
		return l.unreadable(folder, err)
	}
	for _, entry := range sorted(entries) {
		at := path.Join(folder, entry.Name())
		if ignored(entry.Name()) || l.isLink(at, entry) || l.isMisnamed(at, endings, entry) {
			continue
		}
		if err := read(l, at); err != nil {
			return err
		}
	}
	return nil
}

// ignored tells the files that systems and editors leave behind.
func ignored(name string) bool {
	return strings.HasPrefix(name, ".") || strings.HasSuffix(name, "~")
}

func sorted(entries []fs.DirEntry) []fs.DirEntry {
	return slices.SortedFunc(slices.Values(entries), func(a, b fs.DirEntry) int {
		return strings.Compare(a.Name(), b.Name())
	})
}

// place is the beginning of a file that was not read.
func (l *loader) place(at string) source.Span {
	return (&source.File{Name: l.shown(at), Path: at}).Whole()
}

// isLink refuses symbolic links: where one points may lie outside the folder, and may
// differ from one machine to the next.
func (l *loader) isLink(at string, entry fs.DirEntry) bool {
	if entry.Type()&fs.ModeSymlink == 0 {
		return false
	}
	l.refuse("file-link", l.place(at), "this is a symbolic link to another place", "put the file itself here")
	return true
}

// isMisnamed refuses names that would not make a plain address.
func (l *loader) isMisnamed(at string, endings []string, entry fs.DirEntry) bool {
	base := path.Base(at)
	ending := path.Ext(base)
	stem := strings.TrimSuffix(base, ending)
	switch {
	case entry.IsDir():
		l.refuse("file-kind", l.place(at), "a folder inside "+path.Dir(at)+"/ is not read", "move its files up into "+path.Dir(at)+"/")
	case !entry.Type().IsRegular():
		l.refuse("file-kind", l.place(at), "this is not a file", "keep devices and pipes out of the folder")
	case !slices.Contains(endings, ending):
		l.refuse("file-kind", l.place(at), path.Dir(at)+"/ takes no files of this kind", "it takes "+strings.Join(endings, ", ")+"; move this one, or start its name with a dot")
	case !source.PlainName(stem):
		l.refuse("file-name", l.place(at), "the name "+source.Quote(base)+" makes no plain address", "use lower-case letters, digits and hyphens: "+source.SuggestName(stem)+ending)
	default:
		return false
	}
	return true
}
