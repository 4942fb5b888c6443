package verify

import (
	"bytes"
	"flag"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"blankoff/build/diagnostic"
	"blankoff/build/guide"
	"blankoff/build/load"
	"blankoff/build/source"
)

var update = flag.Bool("update", false, "write the expected part of the cases anew")

var today = time.Date(2026, 11, 25, 13, 0, 0, 0, time.UTC)

// archive is a case: a comment, then files, each below a line `-- name --`.
type archive struct {
	comment string
	names   []string
	files   map[string]string
}

func parseArchive(text string) archive {
	a := archive{files: map[string]string{}}
	name := ""
	for line := range strings.Lines(text) {
		if inner, found := strings.CutPrefix(strings.TrimSpace(line), "-- "); found && strings.HasSuffix(inner, " --") {
			name = strings.TrimSuffix(inner, " --")
			a.names = append(a.names, name)
			a.files[name] = ""
			continue
		}
		if name == "" {
			a.comment += line
			continue
		}
		a.files[name] += line
	}
	return a
}

func (a archive) String() string {
	text := a.comment
	for _, name := range a.names {
		text += "-- " + name + " --\n" + a.files[name]
	}
	return text
}

// folder is the shop in which all cases play (package rules shows it to authors), with the files of the case put in.
func (a archive) folder(t *testing.T) fstest.MapFS {
	t.Helper()
	fsys := fstest.MapFS{}
	for _, files := range []map[string]string{parseArchive(shopText(t)).files, a.files} {
		for name, text := range files {
			if name != "want" && !strings.HasPrefix(name, "fixed ") {
				fsys[name] = &fstest.MapFile{Data: []byte(text)}
			}
		}
	}
	return fsys
}

func shopText(t testing.TB) string {
	t.Helper()
	text, err := os.ReadFile("../rules/shop.txt")
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

func check(t *testing.T, fsys fstest.MapFS) (*load.Library, []diagnostic.Diagnostic) {
	t.Helper()
	library, found, err := load.Load(fsys, "content")
	if err != nil {
		t.Fatal(err)
	}
	more, _ := Check(library, today)
	return library, diagnostic.Sorted(append(found, more...))
}

// TestCases: each file of testdata has wrong pages and right ones, and below `want` all that is to be said
// of them. Below `fixed NAME` stands the page as Fix leaves it.
func TestCases(t *testing.T) {
	names, _ := filepath.Glob("testdata/*.txt")
	if len(names) < 10 {
		t.Fatalf("only %d cases found", len(names))
	}
	for _, name := range names {
		t.Run(strings.TrimSuffix(filepath.Base(name), ".txt"), func(t *testing.T) {
			text, err := os.ReadFile(name)
			if err != nil {
				t.Fatal(err)
			}
			a := parseArchive(string(text))
			library, found := check(t, a.folder(t))
			got := archive{a.comment, withoutResults(a.names), maps.Clone(a.files)}
			got.add("want", said(found))
			fixed := Fix(library)
			for _, file := range slices.Sorted(maps.Keys(fixed)) {
				got.add("fixed "+file, string(fixed[file]))
			}
			if *update {
				if err := os.WriteFile(name, []byte(got.String()), 0o644); err != nil {
					t.Fatal(err)
				}
			} else if got.String() != string(text) {
				t.Errorf("look at the difference, then -update:\n%s", difference(got.String(), string(text)))
			}
		})
	}
}

func withoutResults(names []string) []string {
	return slices.DeleteFunc(slices.Clone(names), func(name string) bool { return name == "want" || strings.HasPrefix(name, "fixed ") })
}

func (a *archive) add(name, text string) {
	a.names = append(a.names, name)
	a.files[name] = text
}

func said(found []diagnostic.Diagnostic) string {
	var b strings.Builder
	for _, d := range found {
		if d.Rule == "" {
			b.WriteString("NO RULE NAMED: ")
		}
		rule := d.Rule
		d.Rule = "" // stands before the message here, where a reader of the cases looks for it
		fmt.Fprintf(&b, "[%s] %s", rule, diagnostic.Text(d, diagnostic.Style{}))
	}
	return b.String()
}

func difference(got, want string) string {
	a, b := strings.Split(got, "\n"), strings.Split(want, "\n")
	for i := range max(len(a), len(b)) {
		if i >= len(a) || i >= len(b) || a[i] != b[i] {
			return fmt.Sprintf("line %d\n got %q\nwant %q", i+1, slices.Concat(a, make([]string, len(b)))[i], slices.Concat(b, make([]string, len(a)))[i])
		}
	}
	return ""
}

// TestFixSettles: a second Fix has nothing to do, and only figures inside facts changed.
func TestFixSettles(t *testing.T) {
	text, err := os.ReadFile("testdata/fix.txt")
	if err != nil {
		t.Fatal(err)
	}
	a := parseArchive(string(text))
	fsys := a.folder(t)
	library, before := check(t, fsys)
	fixed := Fix(library)
	if len(fixed) == 0 {
		t.Fatal("nothing was fixed")
	}
	for name, text := range fixed {
		if got, want := withoutFigures(string(text)), withoutFigures(string(fsys[name].Data)); got != want {
			t.Errorf("%s changed beyond its figures:\n%s", name, difference(got, want))
		}
		fsys[name] = &fstest.MapFile{Data: text}
	}
	library, after := check(t, fsys)
	if again := Fix(library); len(again) > 0 {
		t.Errorf("a second fix changes %v", slices.Collect(maps.Keys(again)))
	}
	if len(after) >= len(before) {
		t.Errorf("%d problems before, %d after", len(before), len(after))
	}
}

func TestCounts(t *testing.T) {
	page := "---\ntitle: Home\nreader: shop\nmachines: [cindle-14]\n---\nHold [350 mTorr](spec:ready-limit) for [30 min](spec:warm-up), 10 min and 5 wraps, see [itself](home.md).\n\n" +
		"[WARNING: pane](hazard:pane)\n\n[WARNING: pane](hazard:pane)\n\n[CAUTION: cold](hazard:cold)\n\n[STOP: here](stop:electrical)\n\n```calculator pressure\nvalue: 20 mTorr\n```\n"
	library, found, err := load.Load(archive{files: map[string]string{"pages/home.md": page}}.folder(t), "content")
	if err != nil {
		t.Fatal(err)
	}
	more, counts := Check(library, today)
	if all := append(found, more...); len(all) > 0 {
		t.Error(said(all))
	}
	if want := (Counts{Pages: 1, Calculators: 1, Facts: 2, Quantities: 2, Hazards: 2, Stops: 1, Links: 1}); counts != want {
		t.Errorf("%+v, want %+v", counts, want)
	}
}

// TestReviewDay: the day itself is still good, whatever the hour and place of the clock.
func TestReviewDay(t *testing.T) {
	page := "---\ntitle: Home\nreader: shop\nreview: 2026-11-25\n---\nx\n"
	library, _, err := load.Load(archive{files: map[string]string{"pages/home.md": page}}.folder(t), "content")
	if err != nil {
		t.Fatal(err)
	}
	east := time.FixedZone("east", 13*3600)
	for _, c := range []struct {
		name string
		at   time.Time
		late bool
	}{
		{"the day before", time.Date(2026, 11, 24, 23, 59, 0, 0, time.UTC), false},
		{"that day, early", time.Date(2026, 11, 25, 0, 1, 0, 0, east), false},
		{"that day, late", time.Date(2026, 11, 25, 23, 59, 0, 0, east), false},
		{"the next day", time.Date(2026, 11, 26, 0, 1, 0, 0, east), true},
	} {
		if found, _ := Check(library, c.at); (len(found) == 1) != c.late {
			t.Errorf("%s: %s", c.name, said(found))
		}
	}
}

// TestContent verifies the knowledge base that is published with the program, and that its facts are as they should be.
func TestContent(t *testing.T) {
	library, found, err := load.Load(os.DirFS("../../content"), "content")
	if err != nil {
		t.Fatal(err)
	}
	more, counts := Check(library, today)
	if all := diagnostic.Sorted(append(found, more...)); len(all) > 0 {
		t.Error(diagnostic.List(all, diagnostic.Style{}))
	}
	if fixed := Fix(library); len(fixed) > 0 {
		t.Errorf("stale facts in %v", slices.Collect(maps.Keys(fixed)))
	}
	if counts.Pages == 0 || counts.Facts == 0 || counts.Hazards == 0 {
		t.Errorf("nothing was looked at: %+v", counts)
	}
}

// TestLeavingOutAHazard takes each hazard line out of each page of the content: whenever the page's acts demand
// that hazard, verification must fail and point at the act.
func TestLeavingOutAHazard(t *testing.T) {
	library, _, err := load.Load(os.DirFS("../../content"), "content")
	if err != nil {
		t.Fatal(err)
	}
	tried := 0
	for _, page := range library.Guides {
		fsys := withoutOthers(t, page)
		for _, name := range carried(page) {
			if !demanded(library, page.Header.Text("does").Items, name) {
				continue
			}
			tried++
			lines := slices.DeleteFunc(strings.SplitAfter(page.File.Text, "\n"), func(line string) bool { return strings.Contains(line, "(hazard:"+name+")") })
			fsys[page.File.Path] = &fstest.MapFile{Data: []byte(strings.Join(lines, ""))}
			_, found := check(t, fsys)
			if !slices.ContainsFunc(found, func(d diagnostic.Diagnostic) bool {
				return d.Rule == "hazard-missing" && d.Span.File.Path == page.File.Path && strings.Contains(d.Message, `"`+name+`"`)
			}) {
				t.Errorf("%s without %s verifies", page.File.Path, name)
			}
		}
	}
	if tried == 0 {
		t.Error("no hazard of the content is demanded by an act")
	}
}

func TestSameLibrarySameMessages(t *testing.T) {
	text, err := os.ReadFile("testdata/facts-spec.txt")
	if err != nil {
		t.Fatal(err)
	}
	a := parseArchive(string(text))
	_, first := check(t, a.folder(t))
	for range 5 {
		if _, again := check(t, a.folder(t)); !slices.Equal(lines(again), lines(first)) {
			t.Fatal("the messages differ from one run to the next")
		}
	}
}

func lines(found []diagnostic.Diagnostic) []string {
	return strings.Split(said(found), "\n")
}

// FuzzPage: whatever a page says, checking and fixing it ends without panic, and a second fix changes nothing.
func FuzzPage(f *testing.F) {
	for _, pattern := range []string{"testdata/*.txt", "../../content/*/*.md"} {
		names, _ := filepath.Glob(pattern)
		for _, name := range names {
			text, err := os.ReadFile(name)
			if err != nil {
				f.Fatal(err)
			}
			for name, file := range parseArchive(string(text)).files {
				if strings.HasSuffix(name, ".md") {
					f.Add(file)
				}
			}
		}
	}
	f.Fuzz(func(t *testing.T, page string) {
		fsys := archive{files: map[string]string{"procedures/fuzzed.md": page}}.folder(t)
		library, found := check(t, fsys)
		for _, d := range found {
			if d.Message == "" || d.Rule == "" || d.Span.End() > len(d.Span.File.Text) {
				t.Fatalf("not a usable message: %+v", d)
			}
		}
		fixed, ok := Fix(library)["procedures/fuzzed.md"]
		if !ok {
			return
		}
		if withoutFigures(string(fixed)) != withoutFigures(page) {
			t.Fatalf("more than figures changed:\n%s\n%s", page, fixed)
		}
		fsys["procedures/fuzzed.md"] = &fstest.MapFile{Data: fixed}
		library, _ = check(t, fsys)
		if again := Fix(library)["procedures/fuzzed.md"]; again != nil && !bytes.Equal(again, fixed) {
			t.Fatalf("fix of a fix:\n%s\n%s", fixed, again)
		}
	})
}

func demanded(library *load.Library, does []source.Value, hazard string) bool {
	for _, item := range does {
		act := library.Catalogue.Act(item.Text)
		if act != nil && slices.ContainsFunc(act.Hazards, func(h load.Text) bool { return h.Text == hazard }) {
			return true
		}
	}
	return false
}

// copyOf reads a folder into memory.
// withoutOthers is our content with one page alone, so that a look at each page does not become one at all pages each time.
func withoutOthers(t testing.TB, page *guide.Guide) fstest.MapFS {
	t.Helper()
	fsys := copyOf(t, "../../content")
	maps.DeleteFunc(fsys, func(name string, _ *fstest.MapFile) bool {
		return strings.HasSuffix(name, ".md") && name != page.File.Path
	})
	return fsys
}

func copyOf(t testing.TB, folder string) fstest.MapFS {
	t.Helper()
	fsys := fstest.MapFS{}
	names, _ := filepath.Glob(folder + "/*")
	deeper, _ := filepath.Glob(folder + "/*/*")
	for _, name := range append(names, deeper...) {
		if info, err := os.Stat(name); err != nil || info.IsDir() {
			continue
		}
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		at, _ := filepath.Rel(folder, name)
		fsys[filepath.ToSlash(at)] = &fstest.MapFile{Data: data}
	}
	return fsys
}
