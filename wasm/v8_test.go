package main

import (
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"testing"

	"blankoff/calc"
	"blankoff/calc/wire"
)

// BenchmarkShipped times the example of every calculator natively and in the shipped module under V8, the engine of the
// commonest phones' browsers (node has it), and reports the ratio: `go test -bench Shipped ./wasm`.
func BenchmarkShipped(b *testing.B) {
	for i, c := range calc.All() {
		b.Run(c.ID, func(b *testing.B) {
			request := examples()[i]
			for b.Loop() {
				wire.Serve(nil, request)
			}
			native := float64(b.Elapsed().Nanoseconds()) / 1000 / float64(b.N)
			b.ReportMetric(inV8(b)[i], "µs-in-V8")
			b.ReportMetric(inV8(b)[i]/native, "times-native")
		})
	}
}

// examples are the worked examples of the declarations as requests.
func examples() [][]byte {
	var all [][]byte
	for _, c := range calc.All() {
		in := map[string]string{}
		for _, pair := range c.Example.In {
			in[pair.Name] = pair.Text
		}
		request, _ := json.Marshal(map[string]any{"id": c.ID, "in": in}) // texts always have a JSON form
		all = append(all, request)
	}
	return all
}

var v8 struct {
	once   sync.Once
	micros []float64
}

func inV8(b *testing.B) []float64 {
	v8.once.Do(func() {
		node, err := exec.LookPath("node")
		if err != nil {
			b.Fatal("node is not installed, so the module cannot be timed in V8")
		}
		file := filepath.Join(b.TempDir(), "calc.wasm")
		if err := os.WriteFile(file, unpacked(b), 0o600); err != nil {
			b.Fatal(err)
		}
		cmd := exec.Command(node, "--no-warnings", filepath.Join("testdata", "v8.mjs"), file)
		var lines strings.Builder
		for _, request := range examples() {
			lines.Write(append(request, '\n'))
		}
		cmd.Stdin = strings.NewReader(lines.String())
		out, err := cmd.Output()
		if err != nil {
			b.Fatalf("node: %v: %s", err, out)
		}
		for _, field := range strings.Fields(string(out)) {
			x, err := strconv.ParseFloat(field, 64)
			if err != nil {
				b.Fatalf("node says %q", field)
			}
			v8.micros = append(v8.micros, x)
		}
	})
	if len(v8.micros) != len(calc.All()) {
		b.Fatalf("%d times for %d calculators", len(v8.micros), len(calc.All()))
	}
	return v8.micros
}
