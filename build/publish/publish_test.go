package publish

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"flag"
	"io/fs"
	"maps"
	"os"
	"path"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"github.com/tdewolff/parse/v2"
	"github.com/tdewolff/parse/v2/html"

	"blankoff/build/bundle"
	"blankoff/build/edition"
	"blankoff/build/load"
	"blankoff/build/rules"
	"blankoff/build/write"
)

var update = flag.Bool("update", false, "write the golden files anew")

var today = time.Date(2026, 11, 25, 0, 0, 0, 0, time.UTC)

// content is our own demo content as a copy that a test can change.
func content(t testing.TB) fstest.MapFS {
	t.Helper()
	copied := fstest.MapFS{}
	from := os.DirFS("../../content")
	err := fs.WalkDir(from, ".", func(name string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		text, err := fs.ReadFile(from, name)
		copied[name] = &fstest.MapFile{Data: text}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return copied
}

func published(t *testing.T, content fs.FS, options Options) Result {
	t.Helper()
	options.Today = today
	result, err := Site(t.Context(), content, options)
	if err != nil {
		t.Fatal(err)
	}
	if !result.Good() {
		t.Fatalf("the content has errors: %v", result.Diagnostics)
	}
	return result
}

func file(t *testing.T, files []bundle.File, name string) []byte {
	t.Helper()
	i := slices.IndexFunc(files, func(file bundle.File) bool { return file.Path == name })
	if i < 0 {
		t.Fatalf("there is no %s", name)
	}
	return files[i].Bytes
}

// TestTheSameContentGivesTheSameBytes publishes twice, from different folders into different folders, and reads back.
func TestTheSameContentGivesTheSameBytes(t *testing.T) {
	var sites []map[string]string
	for _, name := range []string{"content", "elsewhere/our shop"} {
		folder, out := t.TempDir()+"/"+name, t.TempDir()+"/"+name
		if err := os.CopyFS(folder, content(t)); err != nil {
			t.Fatal(err)
		}
		result := published(t, os.DirFS(folder), Options{Name: folder, Calculators: true})
		if err := write.Swap(out, result.Files); err != nil {
			t.Fatal(err)
		}
		sites = append(sites, read(t, out))
	}
	first, second := sites[0], sites[1]
	if a, b := slices.Sorted(maps.Keys(first)), slices.Sorted(maps.Keys(second)); !slices.Equal(a, b) {
		t.Fatalf("files %v, then %v", a, b)
	}
	for name := range first {
		if first[name] != second[name] {
			t.Errorf("%s differs", name)
		}
	}
}

func read(t *testing.T, folder string) map[string]string {
	t.Helper()
	all := map[string]string{}
	from := os.DirFS(folder)
	err := fs.WalkDir(from, ".", func(name string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		text, err := fs.ReadFile(from, name)
		all[name] = string(text)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return all
}

func TestPaths(t *testing.T) {
	result := published(t, content(t), Options{Name: "content", Calculators: true})
	digest := regexp.MustCompile(`\.(?:[0-9a-f]{12}|[0-9A-Z]{8})\.`)
	var paths []string
	for _, file := range result.Files {
		if strings.HasPrefix(file.Path, "writing/") && file.Path != "writing/index.html" {
			continue // a page for each rule: see below
		}
		paths = append(paths, digest.ReplaceAllString(file.Path, ".DIGEST."))
	}
	slices.Sort(paths) // not by digests, which any change of a script changes
	got := strings.Join(paths, "\n") + "\n"
	const golden = "testdata/paths.txt"
	if *update {
		if err := errors.Join(os.MkdirAll("testdata", 0o777), os.WriteFile(golden, []byte(got), 0o666)); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("the site's addresses are not those of %s (-update writes them anew):\n%s", golden, got)
	}
}

// TestTheRulesArePublishedWhenAskedFor: each rule has its page in our own site, and none in that of a shop that does not ask.
func TestTheRulesArePublishedWhenAskedFor(t *testing.T) {
	ours := content(t)
	pages := map[string]string{}
	for _, file := range published(t, ours, Options{}).Files {
		pages[file.Path] = strings.ReplaceAll(string(file.Bytes), "\u00a0", " ")
	}
	for _, rule := range rules.All() {
		page := pages["writing/"+rule.Name+"/index.html"]
		if said := strings.Contains(page, "verify says nothing."); page == "" || said == (rule.Unshown != "") {
			t.Errorf("%s has no page, or its page lacks the example", rule.Name)
		}
		if !strings.Contains(pages["writing/index.html"], rule.Title) {
			t.Errorf("the list lacks %s", rule.Name)
		}
	}
	replace(ours, "shop.yaml", "authoring: yes\n", "")
	delete(ours, "pages/writing.md") // it leads to the rules
	replace(ours, "pages/limits.md", "[writing guides that check themselves](writing.md)", "the file")
	for _, file := range published(t, ours, Options{}).Files {
		if strings.HasPrefix(file.Path, "writing/") {
			t.Errorf("nobody asked for %s", file.Path)
		}
	}
}

func TestCounts(t *testing.T) {
	result := published(t, content(t), Options{})
	c := result.Counts
	bytes, pages := 0, 0
	for _, file := range result.Files {
		bytes += len(file.Bytes)
		if strings.HasSuffix(file.Path, ".html") {
			pages++
		}
	}
	if c.Pages != pages || c.Bytes != bytes {
		t.Errorf("%d pages and %d bytes, counted %+v", pages, bytes, c)
	}
	if c.Calculators == 0 || c.Placed == 0 || c.Facts == 0 || c.Hazards == 0 || c.CalcStored != 0 {
		t.Errorf("counted %+v", c)
	}
}

func TestTheServiceWorkerAndTheMarkerKnowTheEdition(t *testing.T) {
	files := published(t, content(t), Options{}).Files
	marker, ours := edition.Read(file(t, files, edition.Marker))
	if !ours {
		t.Fatal("the marker is not ours")
	}
	if there := edition.Of(files); !slices.Equal(there.Files, marker.Files) {
		t.Errorf("the marker lists other files than there are")
	}
	worker := regexp.MustCompile(`^const EDITION="(\w+)",LIST=\["(.+)","(.+)"\],BYTES=(\d+);\n`).FindSubmatch(file(t, files, bundle.WorkerPath))
	list := file(t, files, string(worker[2]))
	if edition.Digest(list) != string(worker[3]) {
		t.Errorf("the service worker takes another list than %s", worker[2])
	}
	var kept [][2]string
	if err := json.Unmarshal(list, &kept); err != nil {
		t.Fatal(err)
	}
	want := slices.DeleteFunc(slices.Clone(marker.Files), func(pair [2]string) bool {
		return pair[0] == bundle.WorkerPath || pair[0] == string(worker[2]) || strings.HasPrefix(pair[0], "schemas/")
	})
	if string(worker[1]) != marker.Edition || !slices.Equal(kept, want) {
		t.Errorf("the service worker keeps edition %s with %d files, want %s with %d", worker[1], len(kept), marker.Edition, len(want))
	}
	size := 0
	for _, pair := range kept {
		size += len(file(t, files, pair[0]))
	}
	if string(worker[4]) != strconv.Itoa(size) {
		t.Errorf("the service worker tells %s bytes, want %d", worker[4], size)
	}
	for _, page := range files {
		named := bytes.Contains(page.Bytes, []byte("data-edition="+marker.Edition)) || bytes.Contains(page.Bytes, []byte(`data-edition="`+marker.Edition))
		if isPage(page.Path) && !named || bytes.Contains(page.Bytes, []byte(unnamed)) {
			t.Errorf("%s does not name its edition", page.Path)
		}
	}
}

func TestAnyChangeIsAnotherEdition(t *testing.T) {
	names := map[string]string{}
	for name, change := range map[string]func(fstest.MapFS){
		"none":    func(fstest.MapFS) {},
		"a word":  func(c fstest.MapFS) { replace(c, "procedures/rise-test.md", "\n---\n", "\n---\nWord. ") },
		"picture": func(c fstest.MapFS) { c["pictures/new.png"] = &fstest.MapFile{Data: []byte("\x89PNG\r\n\x1a\n")} },
		"shop":    func(c fstest.MapFS) { replace(c, "shop.yaml", "name: ", "name: New ") },
	} {
		changed := content(t)
		change(changed)
		record, _ := edition.Read(file(t, published(t, changed, Options{}).Files, edition.Marker))
		if other, taken := names[record.Edition]; taken {
			t.Errorf("%s and %s give the same edition", name, other)
		}
		names[record.Edition] = name
	}
}

func replace(c fstest.MapFS, name, old, new string) {
	c[name].Data = []byte(strings.Replace(string(c[name].Data), old, new, 1))
}

// TestPagesKeepThePolicy: the policy in each page's head forbids what is looked for here, so a browser would drop it.
func TestPagesKeepThePolicy(t *testing.T) {
	for _, page := range published(t, content(t), Options{}).Files {
		if !isPage(page.Path) {
			continue
		}
		if !bytes.Contains(page.Bytes, []byte("default-src 'none'; script-src 'self'")) {
			t.Errorf("%s has no policy", page.Path)
		}
		for _, element := range elements(page.Bytes) {
			_, outside := element.attributes["src"]
			if element.name == "style" || element.name == "script" && !outside {
				t.Errorf("%s has an inline %s", page.Path, element.name)
			}
			for name := range element.attributes {
				if name == "style" || strings.HasPrefix(name, "on") {
					t.Errorf("%s has %s on %s", page.Path, name, element.name)
				}
			}
		}
	}
}

// TestEveryLinkLeadsSomewhere follows all addresses within the site, with their anchors.
func TestEveryLinkLeadsSomewhere(t *testing.T) {
	files := published(t, content(t), Options{Calculators: true}).Files
	there := map[string]bool{}
	for _, page := range files {
		there[page.Path] = true
		for _, element := range elements(page.Bytes) {
			if id := element.attributes["id"]; isPage(page.Path) && id != "" {
				there[page.Path+"#"+id] = true
			}
		}
	}
	followed := 0
	for _, page := range files {
		if !isPage(page.Path) || page.Path == "404.html" { // its addresses are absolute, for it stands anywhere
			continue
		}
		for _, element := range elements(page.Bytes) {
			for _, name := range []string{"href", "src", "data-calc", "data-root"} {
				address, has := element.attributes[name]
				if !has || strings.Contains(address, "://") {
					continue
				}
				followed++
				if to := target(page.Path, address); !there[to] {
					t.Errorf("%s: %s leads to %s, which is not there", page.Path, address, to)
				}
			}
		}
	}
	if followed < 100 {
		t.Errorf("only %d addresses were followed", followed)
	}
}

func target(from, address string) string {
	address, anchor, anchored := strings.Cut(address, "#")
	address, _, _ = strings.Cut(address, "?")
	to := path.Join(path.Dir(from), address)
	switch {
	case address == "":
		to = from
	case strings.HasSuffix(address, "/"):
		to = path.Join(to, "index.html")
	}
	if anchored {
		to += "#" + anchor
	}
	return to
}

type element struct {
	name       string
	attributes map[string]string
}

func elements(page []byte) []element {
	var all []element
	unescape := strings.NewReplacer("&amp;", "&", "&#34;", `"`, "&#39;", "'", "&lt;", "<", "&gt;", ">")
	for lexer := html.NewLexer(parse.NewInputBytes(slices.Clone(page))); ; {
		switch kind, _ := lexer.Next(); kind {
		case html.ErrorToken:
			return all
		case html.StartTagToken:
			all = append(all, element{string(lexer.Text()), map[string]string{}})
		case html.AttributeToken:
			value := strings.Trim(string(lexer.AttrVal()), `"'`)
			all[len(all)-1].attributes[string(lexer.AttrKey())] = unescape.Replace(value)
		}
	}
}

func TestMinifyingKeepsWhatScriptsAndStylesLookFor(t *testing.T) {
	raw := `<!doctype html><html lang="en" data-root="./"><head><title>x</title></head><body><form class="inputs"><input type="text" name="a" value=""></form></body></html>`
	files, err := minified(t.Context(), []bundle.File{{Path: "index.html", Bytes: []byte(raw)}})
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, element := range elements(files[0].Bytes) {
		names = append(names, element.name)
		if element.name == "input" && element.attributes["type"] != "text" {
			t.Errorf("the entry lost its type: %s", files[0].Bytes)
		}
	}
	if want := []string{"html", "head", "title", "body", "form", "input"}; !slices.Equal(names, want) {
		t.Errorf("elements %v, want %v", names, want)
	}
}

func TestContentWithErrorsMakesNoSite(t *testing.T) {
	for name, change := range map[string]func(fstest.MapFS){
		"a missing catalogue": func(c fstest.MapFS) { delete(c, "hazards.yaml") },
		"a broken link":       func(c fstest.MapFS) { replace(c, "procedures/rise-test.md", "\n---\n", "\n---\n[x](none.md) ") },
	} {
		broken := content(t)
		change(broken)
		result, err := Site(t.Context(), broken, Options{Name: "content", Today: today})
		if err != nil || result.Good() || len(result.Files) > 0 {
			t.Errorf("%s: %d files, %v, %v", name, len(result.Files), err, result.Diagnostics)
		}
	}
}

func TestAFolderThatCannotBeReadIsAnError(t *testing.T) {
	var unreadable *load.Unreadable
	if _, err := Site(t.Context(), os.DirFS(t.TempDir()+"/none"), Options{Name: "none"}); !errors.As(err, &unreadable) {
		t.Errorf("got %v", err)
	}
}

func TestInterruptedThereIsNoSite(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	result, err := Site(ctx, content(t), Options{Today: today})
	if !errors.Is(err, context.Canceled) || len(result.Files) > 0 {
		t.Errorf("%d files, %v", len(result.Files), err)
	}
}

func TestWorkInParallelIsDoneOnceEach(t *testing.T) {
	for _, n := range []int{0, 1, 2, 1000} {
		done := make([]int, n)
		fault := errors.New("the last")
		err := inParallel(t.Context(), n, func(i int) error {
			done[i]++
			if i == n-1 {
				return fault
			}
			return nil
		})
		if n > 0 && !errors.Is(err, fault) || slices.ContainsFunc(done, func(times int) bool { return times != 1 }) {
			t.Errorf("%d things: %v, %v", n, err, done)
		}
	}
}
