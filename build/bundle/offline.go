package bundle

import (
	"encoding/json"
	"fmt"
	"io/fs"

	"github.com/evanw/esbuild/pkg/api"

	"blankoff/build/edition"
)

// WorkerPath is where the service worker lies: at the root, for its folder is its reach.
const WorkerPath = "sw.js"

// ServiceWorker is made last: it keeps every file of the edition, by name and digest. The list of them is a file of its own,
// so that the script stays small, and the script knows the digest of the list and the size of all.
func ServiceWorker(site fs.FS, record edition.Record) (list, worker File, err error) {
	script, _, err := build(site, `import "./offline";`, api.FormatIIFE)
	if err != nil {
		return list, worker, err
	}
	if list.Bytes, err = json.Marshal(record.Files); err != nil {
		return list, worker, err
	}
	list.Path = "kept." + edition.Short(list.Bytes) + ".json"
	head := fmt.Sprintf("const EDITION=%q,LIST=[%q,%q],BYTES=%d;\n", record.Edition, list.Path, edition.Digest(list.Bytes), record.Bytes())
	return list, File{Path: WorkerPath, Bytes: append([]byte(head), script...)}, nil
}
