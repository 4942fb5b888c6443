package journey

import (
	"bytes"
	"compress/gzip"
	"encoding/json"
	"io"
	"mime"
	"net"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"blankoff/build/bundle"
	"blankoff/build/edition"
	"blankoff/site"
)

// phone starts a browser that the test ends.
func phone(t *testing.T) *Browser {
	t.Helper()
	return open(t, Chromium(), Phone)
}

func open(t *testing.T, of Make, view View) *Browser {
	t.Helper()
	b, err := Start(of, view)
	must(t, err)
	t.Cleanup(func() { must(t, b.Close()) })
	return b
}

func must(t testing.TB, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

// host serves files that can be replaced, below a path, until it is stopped.
type host struct {
	address string // with the closing slash
	root    string // the path of it
	server  *http.Server
	mu      sync.Mutex
	files   map[string][]byte
	held    map[string]chan struct{} // files that wait until their channel is closed
	live    chan struct{}            // each one tells the preview's pages that content was rebuilt
	asked   map[string]int
}

const subPath = "/bench/handbook/"

func serve(t testing.TB, files map[string][]byte) *host {
	t.Helper()
	return serveAt(t, subPath, files)
}

func serveAt(t testing.TB, root string, files map[string][]byte) *host {
	t.Helper()
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	must(t, err)
	h := &host{address: "http://" + listener.Addr().String() + root, root: root, files: files,
		held: map[string]chan struct{}{}, live: make(chan struct{}), asked: map[string]int{}}
	h.server = &http.Server{Handler: h}
	go h.server.Serve(listener)
	t.Cleanup(h.stop)
	return h
}

func (h *host) stop() { h.server.Close() }

func (h *host) replace(files map[string][]byte) {
	h.mu.Lock()
	defer h.mu.Unlock()
	h.files = files
}

// hold makes the host keep a file back until the function given is called.
func (h *host) hold(path string) (release func()) {
	gate := make(chan struct{})
	h.mu.Lock()
	defer h.mu.Unlock()
	h.held[path] = gate
	return func() { close(gate) }
}

func (h *host) count(path string) int {
	h.mu.Lock()
	defer h.mu.Unlock()
	return h.asked[path]
}

func (h *host) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	path, inside := strings.CutPrefix(r.URL.Path, h.root)
	if path == "" || strings.HasSuffix(path, "/") {
		path += "index.html"
	}
	if path == "live" {
		h.tellRebuilt(w, r)
		return
	}
	h.mu.Lock()
	h.asked[path]++
	body, there := h.files[path]
	gate := h.held[path]
	h.mu.Unlock()
	if gate != nil {
		select {
		case <-gate:
		case <-r.Context().Done():
			return
		}
	}
	if !there || !inside {
		http.NotFound(w, r)
		return
	}
	if kind := mime.TypeByExtension(filepath.Ext(path)); kind != "" {
		w.Header().Set("Content-Type", kind)
	}
	w.Write(body)
}

func (h *host) tellRebuilt(w http.ResponseWriter, r *http.Request) {
	w.Header().Set("Content-Type", "text/event-stream")
	http.NewResponseController(w).Flush()
	select {
	case <-h.live:
		io.WriteString(w, "data: reload\n\n")
	case <-r.Context().Done():
	}
}

// addScript bundles a script, with what it may load later, into the files of a site.
func addScript(t testing.TB, files map[string][]byte, path, entry string) {
	t.Helper()
	main, parts, err := bundle.Script(site.Files, entry)
	must(t, err)
	files[path] = main
	for _, part := range parts {
		files[part.Path] = part.Bytes
	}
}

// breakable builds the test's reactor as the publish step builds the real one.
func breakable(t *testing.T) []byte {
	t.Helper()
	file := filepath.Join(t.TempDir(), "reactor.wasm")
	build := exec.Command("go", "build", "-buildmode=c-shared", "-o", file, "./testdata/reactor")
	build.Env = append(os.Environ(), "GOOS=wasip1", "GOARCH=wasm")
	if said, err := build.CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, said)
	}
	program, err := os.ReadFile(file)
	must(t, err)
	return program
}

func gzipped(t *testing.T, plain []byte) []byte {
	t.Helper()
	var packed bytes.Buffer
	w := gzip.NewWriter(&packed)
	_, err := w.Write(plain)
	must(t, err)
	must(t, w.Close())
	return packed.Bytes()
}

const partsPage = `<!doctype html><html lang="en" data-root="./" data-calc="CALC"><meta charset="utf-8"><title>parts</title>
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; connect-src 'self'">
<link rel="icon" href="data:,"><script type="module" src="parts.js"></script><p>parts`

// openParts shows a page on which window.parts holds what the test wants of the reader's scripts.
func openParts(t *testing.T, calc string, program []byte) *Browser {
	t.Helper()
	script, _, err := bundle.Script(site.Files, `import * as host from "./host"; import * as entry from "./entry"; Object.assign(window, { parts: { ...host, ...entry } });`)
	must(t, err)
	h := serve(t, map[string][]byte{
		"index.html": []byte(strings.Replace(partsPage, "CALC", calc, 1)),
		"parts.js":   script,
		"calc.bin":   program,
		"other.bin":  []byte("<!doctype html>a page that a host sends instead"),
	})
	b := phone(t)
	must(t, b.Open(h.address))
	return b
}

func TestEntryIsJoinedWithItsUnit(t *testing.T) {
	t.Parallel()
	b := openParts(t, "calc.bin", nil)
	for _, test := range []struct{ name, typed, unit, want string }{
		{"a number", "24", "L", "24 L"},
		{"spaces around", "  24 ", "L", "24 L"},
		{"nothing", "   ", "L", ""},
		{"no unit to choose", "24", "", "24"},
		{"decimal comma", "0,02", "mbar", "0,02 mbar"},
		{"negative", "-28", "inHg", "-28 inHg"},
		{"own unit", "340 micron", "mbar", "340 micron"},
		{"own unit, no space", "1h30", "min", "1h30"},
		{"reference word", "-28 inHg gauge", "Pa", "-28 inHg gauge"},
		{"exponent", "2.2e-3", "mbar", "2.2e-3 mbar"},
		{"capital exponent", "1E5", "Pa", "1E5 Pa"},
		{"exponent and unit", "2.2e-3 Pa", "mbar", "2.2e-3 Pa"},
		{"power of ten", "4.1×10⁻⁵", "mbar", "4.1×10⁻⁵ mbar"},
		{"power of ten, x", "4.1 x 10^-5", "mbar", "4.1 x 10^-5 mbar"},
		{"fraction", "11/16", "in", "11/16 in"},
		{"inch sign", `11/16"`, "mm", `11/16"`},
		{"foot sign", "5'", "m", "5'"},
		{"apostrophe between thousands", "2'000", "mTorr", "2'000 mTorr"},
		{"accuracy", "24 ± 1", "L", "24 ± 1 L"},
		{"relative accuracy", "24 ± 2 %", "L", "24 L ± 2 %"},
		{"relative accuracy from a keyboard", "24 +/- 2%", "L", "24 L +/- 2%"},
		{"relative accuracy after a unit", "24 L ± 2 %", "mL", "24 L ± 2 %"},
		{"percent is the unit", "3 %", "%", "3 %"},
		{"degree", "20 °C", "K", "20 °C"},
		{"ohm", "8.1 Ω", "kΩ", "8.1 Ω"},
		{"micro", "5 µA", "mA", "5 µA"},
		{"over range", "OL", "Ω", "OL"},
		{"over range, zero for O", "0.L", "Ω", "0.L"},
		{"over range, infinity", "∞", "Ω", "∞"},
		{"over range, dashes", "---", "Ω", "---"},
		{"letters that mean nothing", "twelve", "L", "twelve"},
		{"minutes and seconds with a colon", "1:30", "min", "1:30 min"},
	} {
		var got string
		must(t, b.Script(&got, "return parts.join(...arguments)", test.typed, test.unit))
		if got != test.want {
			t.Errorf("%s: %q with unit %q is sent as %q, want %q", test.name, test.typed, test.unit, got, test.want)
		}
	}
}

type counted struct {
	Out     map[string]struct{ Text string }
	Working []string
	Error   string // of the promise
}

// askParts puts requests one after the other and gives what came of each.
func askParts(t *testing.T, b *Browser, ids ...string) (answers []counted) {
	t.Helper()
	must(t, b.Script(&answers, `
		const answers = [];
		return (async () => {
			for (const id of arguments[0])
				answers.push(await parts.ask({ id, in: { note: "½ Ω ± “1”" } }).catch((cause) => ({ Error: cause.message })));
			return answers;
		})()`, ids))
	return answers
}

func TestCalculatorsRunPackedAndPlain(t *testing.T) {
	t.Parallel()
	program := breakable(t)
	for name, file := range map[string][]byte{"gzipped": gzipped(t, program), "as it is": program} {
		answers := askParts(t, openParts(t, "calc.bin", file), "count", "count")
		for i, want := range []string{"1", "2"} {
			if got := answers[i]; got.Out["count"].Text != want {
				t.Errorf("%s: answer %d is %+v, want %s", name, i+1, got, want)
			}
		}
		var sent struct{ In map[string]string }
		must(t, json.Unmarshal([]byte(answers[0].Working[0]), &sent))
		if got, want := sent.In["note"], "½ Ω ± “1”"; got != want {
			t.Errorf("%s: %q arrived as %q", name, want, got)
		}
	}
}

func TestBrokenInstanceIsReplaced(t *testing.T) {
	t.Parallel()
	b := openParts(t, "calc.bin", gzipped(t, breakable(t)))
	answers := askParts(t, b, "count", "count", "breaks when used", "count", "always breaks", "count")
	for i, want := range []string{"1", "2", "1", "2", "", "1"} {
		if got := answers[i].Out["count"].Text; got != want {
			t.Errorf("answer %d: %+v, want count %q", i+1, answers[i], want)
		}
	}
	if got := answers[4].Error; !strings.HasPrefix(got, "The calculator stopped at these entries: ") || !strings.HasSuffix(got, ".") {
		t.Errorf("a request that breaks every instance is told as %q", got)
	}
}

// TestAModelIsHandedOverOnce: to each instance, before the first question that needs it, and another one in its place.
func TestAModelIsHandedOverOnce(t *testing.T) {
	b := openParts(t, "calc.bin", gzipped(t, breakable(t)))
	var answers []counted
	must(t, b.Script(&answers, `
		const asked = [["count"], ["count", "one µ"], ["count", "one µ"], ["count"], ["breaks when used", "one µ"], ["count", "one µ"], ["count", "two"], ["breaks when used"], ["count", "two"]];
		return (async () => {
			const answers = [];
			for (const [id, model] of asked) answers.push(await parts.ask({ id, in: {} }, model));
			return answers;
		})()`))
	for i, want := range []string{"", "one µ", "one µ", "one µ", "one µ", "one µ", "one µ two", "", "two"} {
		if got := answers[i].Out["models"].Text; got != want {
			t.Errorf("answer %d: the models %q were handed over, want %q", i+1, got, want)
		}
	}
}

func TestCalculatorsThatCannotStart(t *testing.T) {
	t.Parallel()
	for _, test := range []struct{ name, calc, want string }{
		{"missing", "gone.bin", "The calculators did not start: gone.bin is not there (404)."},
		{"something else", "other.bin", "The calculators did not start: WebAssembly"},
	} {
		answer := askParts(t, openParts(t, test.calc, nil), "count")[0]
		if !strings.HasPrefix(answer.Error, test.want) {
			t.Errorf("%s: %q, want %q", test.name, answer.Error, test.want)
		}
	}
}

// A page has 14 kB for everything that its first view needs, of which the script may take 2. All scripts together, most of which
// come when they are asked for, shall take 30. The style sheets and tables that some of them fetch are not counted.
func TestScriptsAreSmall(t *testing.T) {
	files := map[string][]byte{}
	addScript(t, files, "page.js", `import "./page";`)
	_, worker, err := bundle.ServiceWorker(site.Files, edition.Of(nil))
	must(t, err)
	files[worker.Path] = worker.Bytes
	all := 0
	for path, content := range files {
		if !strings.HasSuffix(path, ".js") {
			continue
		}
		size := len(gzipped(t, content))
		t.Logf("%s: %d bytes gzipped", path, size)
		all += size
	}
	if first := len(gzipped(t, files["page.js"])); first > 2000 || all > 30000 {
		t.Errorf("page.js takes %d bytes gzipped, all scripts %d", first, all)
	}
}
