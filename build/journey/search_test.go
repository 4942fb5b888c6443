package journey

import (
	"encoding/json"
	"fmt"
	"maps"
	"math/rand/v2"
	"net/url"
	"os"
	"path"
	"slices"
	"strings"
	"testing"
	"time"

	"blankoff/build/edition"
	published "blankoff/build/publish"
	"blankoff/build/search"
)

// readOnly publishes our own content without the WebAssembly.
func readOnly(t testing.TB) map[string][]byte {
	t.Helper()
	today := time.Date(2026, 11, 27, 0, 0, 0, 0, time.UTC)
	result, err := published.Site(t.Context(), os.DirFS("../../content"), published.Options{Name: "content", Today: today})
	if err != nil || !result.Good() {
		t.Fatal(err, result.Diagnostics)
	}
	files := map[string][]byte{}
	for _, file := range result.Files {
		files[file.Path] = file.Bytes
	}
	return files
}

// results is what the search page shows.
type results struct {
	Typed, Status string
	Titles, Lines []string
	Links         []string
	All           bool // the list of all pages shows
}

func searched(t *testing.T, b *Browser) (now results) {
	t.Helper()
	must(t, b.Script(&now, `const all = (css, of) => [...document.querySelectorAll(css)].map(of);
		return { Typed: document.querySelector("#seek").value, Status: document.querySelector("#count").textContent,
			Titles: all(".found a", (a) => a.textContent), Lines: all(".found .line", (line) => line.textContent), Links: all(".found a", (a) => a.href),
			All: document.querySelector(".every").getClientRects().length > 0 }`))
	return now
}

// untilSearched waits until the status and every line of the results are there.
func untilSearched(t *testing.T, b *Browser, status string) (now results) {
	t.Helper()
	err := b.Until("the search says "+status, func() (bool, error) {
		now = searched(t, b)
		return strings.Contains(now.Status, status) && !slices.Contains(now.Lines, ""), nil
	})
	if err != nil {
		t.Fatalf("%v; it shows %+v", err, now)
	}
	return now
}

// TestSearch is a technician's way through the search, on a phone and with the keys alone, at last without a network.
func TestSearch(t *testing.T) {
	t.Parallel()
	b := phone(t)
	h := serve(t, readOnly(t))
	must(t, b.Open(h.address+"symptoms/hiss/"))
	b.untilText(t, ".saved", "Works offline")
	tap(t, b, "a.seek")
	b.untilActive(t, "#seek")
	if now := searched(t, b); !now.All || len(now.Titles) > 0 {
		t.Errorf("before anything is typed the page shows %+v", now)
	}
	wantTouchable(t, b, ".seek, #seek, .every a, .found li")
	wantWithinWidth(t, b)

	press := func(css, keys string) {
		t.Helper()
		element, err := b.Find(css)
		must(t, err)
		must(t, element.Type(keys))
	}
	press("#seek", "milky oil")
	now := untilSearched(t, b, " pages")
	if now.Titles[0] != "The pump oil looks wrong" || now.All || !strings.Contains(strings.ToLower(now.Lines[0]), "milky") {
		t.Errorf("milky oil: %+v", now)
	}
	wantTouchable(t, b, ".found li")
	wantWithinWidth(t, b)
	press("#seek", "\ue015") // arrow down
	b.untilActive(t, ".found li:first-child a")
	press(".found li:first-child a", "\ue015")
	b.untilActive(t, ".found li:nth-child(2) a")
	press(".found li:nth-child(2) a", "\ue013") // arrow up
	b.untilActive(t, ".found li:first-child a")
	press(".found li:first-child a", Enter)
	must(t, b.Until("the page found is there", func() (bool, error) {
		address, err := b.Address()
		return strings.Contains(address, "/symptoms/oil-looks-wrong/"), err
	}))
	must(t, b.post("/back", nil, nil))
	if back := untilSearched(t, b, " pages"); back.Typed != "milky oil" || !slices.Equal(back.Titles, now.Titles) {
		t.Errorf("going back brings %+v", back)
	}

	h.stop()
	must(t, b.Open(h.address+"search/#"+url.PathEscape("500 mtorr")))
	quantities := untilSearched(t, b, " pages")
	if !slices.ContainsFunc(quantities.Lines, func(line string) bool { return strings.Contains(line, "500 mTorr") }) {
		t.Errorf("without a network, 500 mtorr: %+v", quantities)
	}
	for _, link := range quantities.Links {
		to, err := url.Parse(link)
		if err != nil || h.files[strings.TrimPrefix(to.Path, subPath)+"index.html"] == nil {
			t.Errorf("a result leads to %s", link)
		}
	}
	wantQuietConsole(t, b)
}

func (b *Browser) untilActive(t *testing.T, css string) {
	t.Helper()
	must(t, b.Until(css+" has the focus", func() (is bool, err error) {
		err = b.Script(&is, "return document.activeElement === document.querySelector(arguments[0])", css)
		return is, err
	}))
}

// TestHostileSearch: what an address says is text and nothing else, and an index that is missing or broken is told of in a sentence.
func TestHostileSearch(t *testing.T) {
	t.Parallel()
	b := phone(t)
	files := readOnly(t)
	h := serve(t, files)
	for _, typed := range []string{`<img src=x onerror=alert(1)> oil`, `%E0%A4%A oil`, `"><script>alert(1)</script> oil`} {
		must(t, b.Open("about:blank"))
		address := url.PathEscape(typed)
		if strings.HasPrefix(typed, "%") {
			address = typed
		}
		must(t, b.Open(h.address+"search/#"+address))
		untilSearched(t, b, " page")
		var foreign int
		must(t, b.Script(&foreign, `return document.querySelectorAll("main img, main script").length`))
		if foreign > 0 {
			t.Errorf("%s became part of the page", typed)
		}
	}
	index := slices.IndexFunc(slices.Sorted(maps.Keys(files)), func(name string) bool { is, _ := path.Match("search.*.bin", name); return is })
	name := slices.Sorted(maps.Keys(files))[index]
	for _, spoilt := range [][]byte{nil, []byte("{}\n"), []byte("\x1f\x8bno"), []byte(`{"terms":"0a","pages":[],"kinds":[],"same":[],"units":[]}` + "\n\xff\xff\xff\xff")} {
		changed := maps.Clone(files)
		delete(changed, "sw.js") // else it would keep the good one
		changed[name] = spoilt
		if spoilt == nil {
			delete(changed, name)
		}
		other := serve(t, changed)
		must(t, b.Open(other.address+"search/#oil"))
		b.untilText(t, "#count", "The search did not load. All pages stand below.")
		if now := searched(t, b); !now.All {
			t.Errorf("with a broken index the list of all pages is gone: %+v", now)
		}
		other.stop()
	}
}

const searchedGuides = 1000

// BenchmarkSearch1000 answers queries among 1,000 guides of 400 words, in a browser that computes four times slower. The words
// are those of our own pages and as many made up, the rarer the further down: `go test -run '^$' -bench Search1000 ./build/journey`.
func BenchmarkSearch1000(b *testing.B) {
	files := readOnly(b)
	index, err := search.Make(madeUp(files), [][]string{{"pump", "vac pump"}, {"cold trap", "condenser"}})
	if err != nil {
		b.Fatal(err)
	}
	read, err := search.Read(index)
	if err != nil {
		b.Fatal(err)
	}
	tool := map[string][]byte{"index.html": []byte(`<!doctype html><title>x</title><link rel="icon" href="data:,">`), "search.bin": index}
	addScript(b, tool, "find.js", `export * from "./find";`)
	h := serve(b, tool)
	browser, err := Start(Chromium(), Phone)
	if err != nil {
		b.Fatal(err)
	}
	b.Cleanup(func() { browser.Close() })
	if err := browser.Open(h.address); err != nil {
		b.Fatal(err)
	}
	if err := browser.Slow(4); err != nil {
		b.Fatal(err)
	}
	queries, err := json.Marshal([]string{"milky oil", "hissing noise from the door", "senser", "condensor not cold", "vac pump", "500 mtorr", "pump", "p", "pressure wont go down far enough", "-30 C trap", "tq 4", "vaccum pump oil chnge"})
	if err != nil {
		b.Fatal(err)
	}
	var told struct {
		Load, Median, Worst float64
		Slowest             string
	}
	for b.Loop() {
		err = browser.Script(&told, fmt.Sprintf(`return (async () => {
			const { read } = await import(location.href + "find.js");
			const bytes = new Uint8Array(await new Response((await (await fetch("search.bin")).blob()).stream().pipeThrough(new DecompressionStream("gzip"))).arrayBuffer());
			const began = performance.now();
			const index = read(bytes);
			const load = performance.now() - began;
			// Of each query the median of its turns: a busy machine takes the processor away in between.
			const all = %s.map((typed) => {
				const turns = Array.from({ length: 9 }, () => { const from = performance.now(); index.ask(typed); return performance.now() - from; });
				return [turns.sort((a, b) => a - b)[4], typed];
			}).sort(([a], [b]) => a - b);
			return { Load: load, Median: all[all.length >> 1][0], Worst: all.at(-1)[0], Slowest: all.at(-1)[1] };
		})()`, queries))
		if err != nil {
			b.Fatal(err)
		}
	}
	b.Logf("%d pages, %d terms, index of %d bytes; the slowest was %q", len(read.Pages), len(read.Terms), len(index), told.Slowest)
	b.ReportMetric(told.Load, "ms-load")
	b.ReportMetric(told.Median, "ms-median")
	b.ReportMetric(told.Worst, "ms-slowest-query")
}

// madeUp writes guides with the words of our own pages and others, a word the rarer the later it stands in the list.
func madeUp(files map[string][]byte) []edition.File {
	r := rand.New(rand.NewPCG(11, 12))
	var words []string
	for _, name := range slices.Sorted(maps.Keys(files)) {
		if strings.HasPrefix(name, "procedures/") || strings.HasPrefix(name, "symptoms/") {
			for _, word := range search.Words(string(files[name])) {
				if len(word) > 2 && !slices.Contains(words, word) {
					words = append(words, word)
				}
			}
		}
	}
	for range len(words) {
		word := ""
		for range 2 + r.IntN(3) {
			word += string("bcdfglmnprst"[r.IntN(12)]) + string("aeiou"[r.IntN(5)])
		}
		words = append(words, word)
	}
	pick := func() string { return words[int(float64(len(words))*r.Float64()*r.Float64()*r.Float64())] }
	var pages []edition.File
	for i := range searchedGuides {
		var text strings.Builder
		for range 400 {
			text.WriteString(pick() + " ")
			if r.IntN(30) == 0 {
				fmt.Fprintf(&text, `<data value=%g data-kind=pressure>x</data>`, 1000*r.Float64())
			}
		}
		main := fmt.Sprintf("<main><h1>%s %s %s</h1><p class=summary>%s</p><p>%s</p></main>", pick(), pick(), pick(), pick(), &text)
		pages = append(pages, edition.File{Path: fmt.Sprintf("procedures/guide-%d/index.html", i), Bytes: []byte(main)})
	}
	return pages
}
