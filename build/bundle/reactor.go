package bundle

import (
	"bytes"
	"compress/gzip"
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"sync"
)

// Module is the WebAssembly of the calculators.
type Module struct {
	Stored []byte // gzipped: its size on the way does not depend on the host
	Raw    int    // bytes when inflated
}

// The sources of a running program do not change, so one build a process is enough; a failure is not kept.
var (
	building sync.Mutex
	built    *Module
)

// WebAssembly compiles wasm/ of our own module as a WASI reactor.
func WebAssembly(ctx context.Context) (Module, error) {
	building.Lock()
	defer building.Unlock()
	if built != nil {
		return *built, nil
	}
	raw, err := compile(ctx)
	if err != nil {
		return Module{}, err
	}
	raw = withoutNames(joinSegments(raw))
	stored, err := pack(raw)
	if err != nil {
		return Module{}, err
	}
	built = &Module{Stored: stored, Raw: len(raw)}
	return *built, nil
}

func compile(ctx context.Context) ([]byte, error) {
	tool, err := exec.LookPath("go")
	if err != nil {
		return nil, errors.New("the calculators are compiled with Go, and there is no go in the PATH: install it, or add its bin folder to PATH")
	}
	folder, err := ownSource(ctx, tool)
	if err != nil {
		return nil, err
	}
	temp, err := os.MkdirTemp("", "blankoff-prose-")
	if err != nil {
		return nil, fmt.Errorf("cannot compile the calculators: %w", err)
	}
	defer os.RemoveAll(temp)
	overlay, err := withoutProse(folder, temp, libraryFiles(ctx, tool, folder))
	if err != nil {
		return nil, err
	}
	flags := append([]string{"-overlay=" + overlay}, small...)
	raw, err := reactor(ctx, tool, folder, "./wasm", plainCollector, flags...)
	if err != nil && strings.Contains(err.Error(), unknownExperiment) {
		raw, err = reactor(ctx, tool, folder, "./wasm", "", flags...)
	}
	return raw, err
}

// libraryFiles are those of Go's own library that are linked. The tables that tell their lines weigh 23 kB. None is given
// where the go command does not list them: then the file is larger, and right.
func libraryFiles(ctx context.Context, tool, folder string) []string {
	cmd := exec.CommandContext(ctx, tool, "list", "-deps", "-f", "{{if .Standard}}{{$in := .Dir}}{{range .GoFiles}}{{$in}}/{{.}}\n{{end}}{{end}}", "./wasm")
	cmd.Dir = folder
	cmd.Env = append(reactorEnv(os.Environ()), "GOEXPERIMENT="+plainCollector)
	said, err := cmd.Output()
	if err != nil {
		return nil
	}
	var files []string
	for line := range strings.Lines(string(said)) {
		if line = strings.TrimSpace(line); line != "" {
			files = append(files, filepath.FromSlash(line))
		}
	}
	return files
}

// plainCollector asks for the garbage collector of Go before 1.26, 12 kB smaller gzipped: the newer one gains where there are
// many processors and much memory, and a calculator has neither. A Go that no longer knows it gives its own.
const plainCollector = "nogreenteagc"

// unknownExperiment is how the go command says so.
const unknownExperiment = "unknown GOEXPERIMENT"

// small keeps functions from being copied into each other, which on WebAssembly costs a phone more to load than a call costs to
// make: 41 kB of our own code and 22 kB of the runtime, gzipped, when it was measured, for answers that take a third longer.
// Small packages that every answer runs through stay as they are: that makes it a twentieth faster and no larger.
var small = []string{"-gcflags=all=-l", "-gcflags=math=", "-gcflags=internal/strconv=", "-gcflags=internal/runtime/maps=",
	"-gcflags=internal/runtime/sys=", "-gcflags=internal/runtime/math=", "-gcflags=internal/bytealg=", "-gcflags=unicode/utf8="}

// reactor compiles a package as a WASI reactor. Neither the folder nor the moment leaves a trace in its bytes.
func reactor(ctx context.Context, tool, folder, name, experiment string, flags ...string) ([]byte, error) {
	temp, err := os.MkdirTemp("", "blankoff-wasm-")
	if err != nil {
		return nil, fmt.Errorf("cannot compile the calculators: %w", err)
	}
	defer os.RemoveAll(temp)
	out := filepath.Join(temp, "calc.wasm")
	args := append([]string{"build", "-buildmode=c-shared", "-trimpath", "-buildvcs=false", "-ldflags=-s -w -buildid="}, flags...)
	cmd := exec.CommandContext(ctx, tool, append(args, "-o", out, name)...)
	cmd.Dir = folder
	cmd.Env = append(reactorEnv(os.Environ()), "GOEXPERIMENT="+experiment)
	if said, err := cmd.CombinedOutput(); err != nil {
		if ctx.Err() != nil {
			return nil, ctx.Err()
		}
		return nil, fmt.Errorf("the calculators do not compile (go build %s in %s): %s", name, folder, bytes.TrimSpace(said))
	}
	return os.ReadFile(out)
}

// reactorEnv leaves out the settings that would change the bytes that come out.
func reactorEnv(env []string) []string {
	env = slices.DeleteFunc(slices.Clone(env), func(entry string) bool {
		name, _, _ := strings.Cut(entry, "=")
		return slices.Contains([]string{"GOFLAGS", "GOWASM", "GOEXPERIMENT", "GOOS", "GOARCH", "CGO_ENABLED"}, name)
	})
	return append(env, "GOOS=wasip1", "GOARCH=wasm", "CGO_ENABLED=0")
}

// ownSource finds the folder of our module: where this file was compiled, or else the module around the working folder.
func ownSource(ctx context.Context, tool string) (string, error) {
	_, file, _, _ := runtime.Caller(0)
	if folder := filepath.Dir(filepath.Dir(filepath.Dir(file))); filepath.IsAbs(file) && hasReactor(folder) {
		return folder, nil
	}
	said, err := exec.CommandContext(ctx, tool, "list", "-m", "-f", "{{.Path}}\n{{.Dir}}").Output()
	name, folder, _ := strings.Cut(strings.TrimSpace(string(said)), "\n")
	if err == nil && name == "blankoff" && hasReactor(folder) {
		return folder, nil
	}
	return "", errors.New("the calculators are compiled from the source of blankoff, which is not where it was: run the program inside its checkout")
}

func hasReactor(folder string) bool {
	_, err := os.Stat(filepath.Join(folder, "wasm", "main.go"))
	return err == nil
}

// pack compresses as far as gzip goes. The header names no file and no time, so the same input gives the same bytes.
func pack(raw []byte) ([]byte, error) {
	var out bytes.Buffer
	writer, err := gzip.NewWriterLevel(&out, gzip.BestCompression)
	if err != nil {
		return nil, err
	}
	if _, err := writer.Write(raw); err != nil {
		return nil, err
	}
	err = writer.Close()
	return out.Bytes(), err
}
