package load

import (
	"io/fs"
	"strings"

	"blankoff/build/diagnostic"
)

// ofPages are the folders that hold what stands on the data of a library: nothing in them changes that data.
var ofPages = []string{"pages", "pictures", "procedures", "symptoms"}

// OnPages tells whether a path of the content folder lies where With looks.
func OnPages(path string) bool {
	folder, name, inFolder := strings.Cut(path, "/")
	for _, known := range ofPages {
		if folder == known {
			return inFolder && name != ""
		}
	}
	return false
}

// With gives a library with the same shop, machines and catalogue and the pages and pictures of another folder. It costs
// what reading those costs, and leaves the first library as it is.
func (l *Library) With(fsys fs.FS) (*Library, []diagnostic.Diagnostic, error) {
	with := *l
	with.Guides, with.Pictures, with.Unread, with.pages = nil, nil, nil, nil
	loader := &loader{fsys: fsys, folder: l.Folder, library: &with}
	for _, folder := range folders {
		entry, err := fs.Stat(fsys, folder.name)
		if err != nil || !OnPages(folder.name+"/x") {
			continue
		}
		if err := loader.top(fs.FileInfoToDirEntry(entry)); err != nil {
			return nil, nil, err
		}
	}
	if err := loader.parse(); err != nil {
		return nil, nil, err
	}
	return &with, diagnostic.Sorted(loader.found), nil
}
