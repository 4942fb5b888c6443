package main

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"testing"

	"blankoff/calc"
	"blankoff/calc/declare"
	"blankoff/calc/parcel"
	"blankoff/calc/triage"
	"blankoff/calc/wire"
)

// BenchmarkShipped times the example of every calculator natively and in the shipped module under V8, the engine of the
// commonest phones' browsers (node has it), and reports the ratio: `go test -bench Shipped ./wasm`.
func BenchmarkShipped(b *testing.B) {
	for i, example := range examples() {
		b.Run(example.name, func(b *testing.B) {
			request, known := example.request, triage.Know(modelText)
			for b.Loop() {
				wire.ServeBy(known, nil, request)
			}
			native := float64(b.Elapsed().Nanoseconds()) / 1000 / float64(b.N)
			b.ReportMetric(inV8(b)[i], "µs-in-V8")
			b.ReportMetric(inV8(b)[i]/native, "times-native")
		})
	}
}

// timed is one request with its name in the list.
type timed struct {
	name    string
	request []byte
}

// examples are the worked examples of the declarations as requests, and the two logs once more with 500 rows.
func examples() []timed {
	var all []timed
	for _, c := range calc.All() {
		all = append(all, timed{c.ID, asking(c, "", "")})
	}
	rise, down := "time s,pressure mTorr", "time s,pressure mTorr"
	for i := range 500 {
		t := 2 * float64(i)
		scatter := 1.5 * math.Sin(float64(i*i))
		rise += fmt.Sprintf("\n%g,%.1f", t, 300+0.7*t+200*(1-math.Exp(-t/150))+scatter)
		down += fmt.Sprintf("\n%g,%.1f", t, 760000*math.Exp(-t/17)+60+scatter)
	}
	job, err := os.ReadFile("../calc/parcel/testdata/job.json")
	if err != nil {
		panic(err)
	}
	packing, _ := json.Marshal(map[string]any{"id": parcel.ID, "in": map[string]string{"text": string(job)}})
	for _, c := range triages {
		all = append(all, timed{"triage-" + c.name, triagingBy("", c.in)}) // as a page asks, which has handed its model over
	}
	all = append(all, timed{"parcel-of-eight-steps", packing})
	return append(all, timed{"rise-log-of-500", asking(calc.Find("rise-log"), "log", rise)}, timed{"pump-down-log-of-500", asking(calc.Find("pump-down-log"), "log", down)})
}

// asking is the example of a calculator with one entry replaced.
func asking(c *declare.Calculator, name, text string) []byte {
	in := map[string]string{}
	for _, pair := range c.Example.In {
		in[pair.Name] = pair.Text
	}
	if name != "" {
		in[name] = text
	}
	request, _ := json.Marshal(map[string]any{"id": c.ID, "in": in}) // texts always have a JSON form
	return request
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
		cmd := exec.Command(node, "--no-warnings", filepath.Join("testdata", "v8.mjs"), file, filepath.Join("..", "testdata", "triage-model.txt"))
		var lines strings.Builder
		for _, example := range examples() {
			lines.Write(append(example.request, '\n'))
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
	if len(v8.micros) != len(examples()) {
		b.Fatalf("%d times for %d requests", len(v8.micros), len(examples()))
	}
	return v8.micros
}
