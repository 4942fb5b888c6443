package search_test

import (
	"bytes"
	"encoding/base64"
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"blankoff/build/bundle"
	scripts "blankoff/site"
)

// asked is what testdata/ask.mjs takes.
type asked struct {
	Indexes []string `json:"indexes"`
	Queries [][2]any `json:"queries"`
	Stems   []string `json:"stems,omitempty"`
}

// told is what it gives.
type told struct {
	Answers []answer   `json:"answers"`
	Stems   [][]string `json:"stems"`
}

type answer struct {
	Found []found  `json:"found"`
	Read  []string `json:"read"` // words that are nowhere
	Fault string   `json:"fault"`
	MS    float64  `json:"ms"`
}

type found struct {
	Address string   `json:"address"`
	Score   float64  `json:"score"`
	Terms   []string `json:"terms"`
}

// shipped asks the script that readers get, in node: bundled and minified as it is published. Indexes may be inflated.
func shipped(t testing.TB, q asked, indexes ...[]byte) told {
	t.Helper()
	script, _, err := bundle.Script(scripts.Files, `export * from "./find";`)
	if err != nil {
		t.Fatal(err)
	}
	module := filepath.Join(t.TempDir(), "find.mjs")
	if err := os.WriteFile(module, script, 0o666); err != nil {
		t.Fatal(err)
	}
	for _, index := range indexes {
		q.Indexes = append(q.Indexes, base64.StdEncoding.EncodeToString(index))
	}
	question, err := json.Marshal(q)
	if err != nil {
		t.Fatal(err)
	}
	node := exec.CommandContext(t.Context(), "node", "testdata/ask.mjs", module)
	node.Stdin = bytes.NewReader(question)
	var fault bytes.Buffer
	node.Stderr = &fault
	said, err := node.Output()
	if err != nil {
		t.Fatalf("the script does not run in node: %v\n%s", err, &fault)
	}
	var all told
	if err := json.Unmarshal(said, &all); err != nil {
		t.Fatalf("%v in %.200q", err, said)
	}
	return all
}
