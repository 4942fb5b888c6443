package bundle

import (
	"bytes"
	"compress/gzip"
	"context"
	"encoding/json"
	"errors"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/tetratelabs/wazero"
	"github.com/tetratelabs/wazero/api"
	"github.com/tetratelabs/wazero/imports/wasi_snapshot_preview1"

	"blankoff/calc"
	"blankoff/calc/wire"
)

// shipped is the file that ships, running.
type shipped struct {
	module                 api.Module
	request, answer, reply api.Function
}

func start(t *testing.T) shipped {
	t.Helper()
	module, err := WebAssembly(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	unpack, err := gzip.NewReader(bytes.NewReader(module.Stored))
	if err != nil {
		t.Fatal(err)
	}
	raw, err := io.ReadAll(unpack)
	if err != nil || len(raw) != module.Raw {
		t.Fatalf("%d bytes, %v, want %d", len(raw), err, module.Raw)
	}
	runtime := wazero.NewRuntime(t.Context())
	t.Cleanup(func() { runtime.Close(context.Background()) })
	wasi_snapshot_preview1.MustInstantiate(t.Context(), runtime)
	running, err := runtime.InstantiateWithConfig(t.Context(), raw, wazero.NewModuleConfig().WithStartFunctions("_initialize"))
	if err != nil {
		t.Fatal(err)
	}
	return shipped{running, running.ExportedFunction("request"), running.ExportedFunction("answer"), running.ExportedFunction("reply")}
}

func (r shipped) call(t *testing.T, function api.Function, args ...uint64) uint32 {
	t.Helper()
	got, err := function.Call(t.Context(), args...)
	if err != nil {
		t.Fatal(err)
	}
	return uint32(got[0])
}

func (r shipped) ask(t *testing.T, request string) string {
	t.Helper()
	place := r.call(t, r.request, uint64(len(request)))
	if !r.module.Memory().Write(place, []byte(request)) {
		t.Fatalf("no room at %d for %d bytes", place, len(request))
	}
	return r.answered(t, len(request))
}

func (r shipped) answered(t *testing.T, n int) string {
	t.Helper()
	length := r.call(t, r.answer, uint64(uint32(n)))
	answer, ok := r.module.Memory().Read(r.call(t, r.reply), length)
	if !ok {
		t.Fatalf("no answer of %d bytes", length)
	}
	return string(answer) // copied: the next request uses the place again
}

func TestTheShippedFileAnswers(t *testing.T) {
	r := start(t)
	requests := []string{"", "{", `{"id":"none"}`, strings.Repeat(" ", 100_000) + "{}"}
	for _, calculator := range calc.All() {
		requests = append(requests, `{"id":"`+calculator.ID+`","in":{}}`)
	}
	for _, request := range requests {
		if got, want := r.ask(t, request), string(wire.Serve(nil, []byte(request))); got != want {
			t.Errorf("%.60q: got %s, want %s", request, got, want)
		}
	}
}

func TestTheShippedFileRefusesWhatIsTooLong(t *testing.T) {
	r := start(t)
	for _, n := range []int{1<<20 + 1, -1} {
		place := r.call(t, r.request, uint64(uint32(n)))
		if r.module.Memory().Write(place, []byte("{}")) {
			t.Errorf("%d bytes got a place at %d that can be written", n, place)
		}
		var answer struct{ Error struct{ Text string } }
		if err := json.Unmarshal([]byte(r.answered(t, n)), &answer); err != nil || !strings.Contains(answer.Error.Text, "1 MiB") {
			t.Errorf("%d bytes: %v, %v", n, answer, err)
		}
	}
}

func TestTheSameSourceGivesTheSameBytes(t *testing.T) {
	first, err := compile(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	t.Setenv("GOFLAGS", "-tags=other")
	t.Setenv("GOWASM", "satconv")
	t.Chdir(t.TempDir())
	second, err := compile(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(first, second) {
		t.Errorf("other settings of the caller, other bytes")
	}
	if folder := ownFolder(t); bytes.Contains(second, []byte(folder)) {
		t.Errorf("the folder %s is in the file", folder)
	}
	one, _ := pack(first)
	other, err := pack(second)
	if err != nil || !bytes.Equal(one, other) {
		t.Errorf("packed twice, different bytes; %v", err)
	}
}

func ownFolder(t *testing.T) string {
	t.Helper()
	folder, err := ownSource(t.Context(), "go")
	if err != nil {
		t.Fatal(err)
	}
	return folder
}

func TestWithoutGoASentenceSaysSo(t *testing.T) {
	t.Setenv("PATH", t.TempDir())
	_, err := compile(t.Context())
	if err == nil || !strings.Contains(err.Error(), "no go in the PATH") {
		t.Errorf("got %v", err)
	}
}

func TestAnInterruptedBuildIsNoBuild(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if _, err := compile(ctx); !errors.Is(err, context.Canceled) {
		t.Errorf("got %v", err)
	}
}

func TestWhatChangesTheBytesIsLeftOut(t *testing.T) {
	got := reactorEnv([]string{"HOME=/h", "GOFLAGS=-tags=x", "GOWASM=satconv", "GOOS=plan9", "GOFLAG=kept"})
	want := []string{"HOME=/h", "GOFLAG=kept", "GOOS=wasip1", "GOARCH=wasm", "CGO_ENABLED=0"}
	if !slices.Equal(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
	if hasReactor(t.TempDir()) {
		t.Errorf("an empty folder has a reactor")
	}
	if _, err := os.Stat(filepath.Join(ownFolder(t), "go.mod")); err != nil {
		t.Error(err)
	}
}

// TestTheShippedFileIsSmall holds a promise: at most one and a half times what Go itself needs for a reactor that does nothing.
func TestTheShippedFileIsSmall(t *testing.T) {
	folder := t.TempDir()
	for name, text := range map[string]string{
		"go.mod":  "module empty\n\ngo 1.26\n",
		"main.go": "package main\n\n//go:wasmexport answer\nfunc answer(n int32) int32 { return n }\n\nfunc main() {}\n",
	} {
		if err := os.WriteFile(filepath.Join(folder, name), []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	raw, err := reactor(t.Context(), "go", folder, ".", "")
	if err != nil {
		t.Fatal(err)
	}
	empty, err := pack(raw)
	if err != nil {
		t.Fatal(err)
	}
	module, err := WebAssembly(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	ratio := float64(len(module.Stored)) / float64(len(empty))
	t.Logf("%d bytes, an empty one %d: %.2f times", len(module.Stored), len(empty), ratio)
	if ratio > 1.5 {
		t.Errorf("%d bytes are %.2f times the %d of an empty one", len(module.Stored), ratio, len(empty))
	}
}

// TestACollectorThatGoNoLongerKnows: what tells compile to do without it.
func TestACollectorThatGoNoLongerKnows(t *testing.T) {
	folder := t.TempDir()
	if err := os.WriteFile(filepath.Join(folder, "go.mod"), []byte("module empty\n\ngo 1.26\n"), 0o666); err != nil {
		t.Fatal(err)
	}
	if _, err := reactor(t.Context(), "go", folder, ".", "nosuchcollector"); err == nil || !strings.Contains(err.Error(), unknownExperiment) {
		t.Errorf("got %v", err)
	}
}

func TestASourceThatDoesNotCompileIsShown(t *testing.T) {
	folder := t.TempDir()
	if err := os.WriteFile(filepath.Join(folder, "go.mod"), []byte("module broken\n"), 0o666); err != nil {
		t.Fatal(err)
	}
	_, err := reactor(t.Context(), "go", folder, ".", "")
	if err == nil || !strings.Contains(err.Error(), "do not compile (go build . in "+folder+")") {
		t.Errorf("got %v", err)
	}
}
