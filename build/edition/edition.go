// Package edition says what one published state of the site is: its files, their digests, and the name that follows
// from them. The same files have the same name, whoever published them.
//
//	record := edition.Of(files)
//	files = append(files, record.File())
package edition

import (
	"bytes"
	"crypto/sha256"
	"encoding/base64"
	"encoding/hex"
	"encoding/json"
	"runtime"
	"slices"
	"strings"
	"sync"
	"sync/atomic"
)

// Marker is the file by which a folder is known to be ours; it lies at the root of the site.
const Marker = "edition.json"

// Generator is the name that Marker carries.
const Generator = "blankoff"

// File is one file of the site; Path is relative and has slashes.
type File struct {
	Path  string
	Bytes []byte
}

// Record lists an edition. Files holds pairs of path and digest, in the order of the paths.
type Record struct {
	Generator string      `json:"generator"`
	Edition   string      `json:"edition"`
	Files     [][2]string `json:"files"`

	sizes map[string]int // of files, in bytes
}

// Of records the files; the marker itself is left out.
func Of(files []File) Record {
	record := Record{Generator: Generator, Files: [][2]string{}, sizes: map[string]int{}}
	for i, digest := range digests(files) {
		if files[i].Path != Marker {
			record.Files = append(record.Files, [2]string{files[i].Path, digest})
			record.sizes[files[i].Path] = len(files[i].Bytes)
		}
	}
	slices.SortFunc(record.Files, byPath)
	var all strings.Builder
	for _, pair := range record.Files {
		all.WriteString(pair[0] + "\x00" + pair[1] + "\n")
	}
	record.Edition = Short([]byte(all.String()))
	return record
}

// With lists one more file, under the same name of the edition: a file that tells the name cannot count towards it.
func (r Record) With(file File) Record {
	r.Files = append(slices.Clone(r.Files), [2]string{file.Path, Digest(file.Bytes)})
	slices.SortFunc(r.Files, byPath)
	return r
}

// Bytes is how much room its files take: those that were there when it was made.
func (r Record) Bytes() (sum int) {
	for _, pair := range r.Files {
		sum += r.sizes[pair[0]]
	}
	return sum
}

func byPath(a, b [2]string) int { return strings.Compare(a[0], b[0]) }

// digests of all files, on all processors: this reads every byte of the site.
func digests(files []File) []string {
	all := make([]string, len(files))
	var next atomic.Int64
	var wait sync.WaitGroup
	for range min(len(files), runtime.GOMAXPROCS(0)) {
		wait.Go(func() {
			for i := int(next.Add(1)) - 1; i < len(files); i = int(next.Add(1)) - 1 {
				all[i] = Digest(files[i].Bytes)
			}
		})
	}
	wait.Wait()
	return all
}

// File is the record as the marker file, one listed file a line so that two editions can be compared by eye.
func (r Record) File() File {
	var out bytes.Buffer
	out.WriteString(`{"generator":` + quote(r.Generator) + `,"edition":` + quote(r.Edition) + `,"files":[`)
	for i, pair := range r.Files {
		if i > 0 {
			out.WriteByte(',')
		}
		out.WriteString("\n[" + quote(pair[0]) + "," + quote(pair[1]) + "]")
	}
	out.WriteString("\n]}\n")
	return File{Path: Marker, Bytes: out.Bytes()}
}

// Read takes a marker file apart; false if it is not one of ours.
func Read(marker []byte) (Record, bool) {
	var record Record
	err := json.Unmarshal(marker, &record)
	return record, err == nil && record.Generator == Generator
}

// Digest is written as browsers compare it (Subresource Integrity).
func Digest(content []byte) string {
	sum := sha256.Sum256(content)
	return "sha256-" + base64.StdEncoding.EncodeToString(sum[:])
}

// Short is the digest as it stands in file names: 48 bits, far beyond what the files of one site can confuse.
func Short(content []byte) string {
	sum := sha256.Sum256(content)
	return hex.EncodeToString(sum[:6])
}

func quote(text string) string {
	quoted, _ := json.Marshal(text) // a string always has a JSON form
	return string(quoted)
}
