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

// ServiceWorker is made last: it knows every file of the edition, by name and digest.
func ServiceWorker(site fs.FS, record edition.Record) (File, error) {
	script, _, err := build(site, `import "./offline";`, api.FormatIIFE)
	if err != nil {
		return File{}, err
	}
	list, err := json.Marshal(record.Files)
	if err != nil {
		return File{}, err
	}
	head := fmt.Sprintf("const EDITION=%q,FILES=%s;\n", record.Edition, list)
	return File{Path: WorkerPath, Bytes: append([]byte(head), script...)}, nil
}
