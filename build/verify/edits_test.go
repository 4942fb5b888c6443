package verify

import (
	"math/rand/v2"
	"os"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"

	"blankoff/build/diagnostic"
	"blankoff/build/guide"
	"blankoff/build/load"
	"blankoff/build/source"
)

// TestEditedMachines changes values of our own machines, one at a time: every fact that states one is named at its line,
// and is mended or explained.
func TestEditedMachines(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	library, _, err := load.Load(os.DirFS("../../content"), "content")
	if err != nil {
		t.Fatal(err)
	}
	stated, named := 0, 0
	for range 25 {
		m := library.Machines[r.IntN(len(library.Machines))]
		v := m.Values[r.IntN(len(m.Values))]
		changed := shrunk(v.Span.Text(), 0.2+r.Float64()/4)
		if changed == v.Span.Text() {
			continue // no figures
		}
		fsys := copyOf(t, "../../content")
		replaceSpan(fsys, v.Span, changed)
		edited, found := check(t, fsys)
		for _, page := range edited.Guides {
			for _, fact := range page.Facts {
				if !speaksOf(page, fact, m.Name, v.Name) {
					continue
				}
				stated++
				if at := factErrors(found, fact); len(at) == 1 && at[0].Hint != "" {
					named++
				} else {
					t.Errorf("%s is %q now, and of %s:%d is said %v", v.Name, changed, page.File.Name, fact.SaidSpan.Position().Line, at)
				}
			}
		}
		mendedOrExplained(t, fsys, edited, v.Name+" "+changed)
	}
	t.Logf("%d facts went stale, %d were named", stated, named)
	if stated < 10 {
		t.Errorf("only %d facts went stale", stated)
	}
}

// mendedOrExplained mends what can be mended: of what is left, each has a hint without the promise that a fix would do it.
func mendedOrExplained(t *testing.T, fsys fstest.MapFS, library *load.Library, what string) {
	t.Helper()
	for name, text := range Fix(library) {
		if strings.HasSuffix(name, ".md") && withoutFigures(string(text)) != withoutFigures(string(fsys[name].Data)) {
			t.Errorf("%s: more than figures changed in %s", what, name)
		}
		fsys[name] = &fstest.MapFile{Data: text}
	}
	library, found := check(t, fsys)
	for _, d := range found {
		if d.Rule == "fact" && (d.Hint == "" || strings.Contains(d.Hint, "let `verify --fix`")) {
			t.Errorf("%s: neither mended nor explained: %s", what, diagnostic.Text(d, diagnostic.Style{}))
		}
	}
	if again := Fix(library); len(again) > 0 {
		t.Errorf("%s: a second fix still finds something", what)
	}
}

func speaksOf(page *guide.Guide, fact *guide.Fact, machine, value string) bool {
	if fact.Spec == nil || fact.Spec.Name != value {
		return false
	}
	return fact.Spec.Machine == machine || fact.Spec.Machine == "" && slices.ContainsFunc(page.Machines, func(m guide.Text) bool { return m.Text == machine })
}

func factErrors(found []diagnostic.Diagnostic, fact *guide.Fact) []diagnostic.Diagnostic {
	var list []diagnostic.Diagnostic
	for _, d := range found {
		if d.Rule == "fact" && d.Span.File.Path == fact.SaidSpan.File.Path && d.Span.Start == fact.SaidSpan.Start {
			list = append(list, d)
		}
	}
	return list
}

var plainNumber = regexp.MustCompile(`[0-9][0-9,]*(\.[0-9]+)?`)

// shrunk makes all numbers of a text smaller, so that no page that states them can still be right.
func shrunk(text string, factor float64) string {
	return plainNumber.ReplaceAllStringFunc(text, func(number string) string {
		x, _ := strconv.ParseFloat(strings.ReplaceAll(number, ",", ""), 64)
		return strconv.FormatFloat(x*factor, 'g', 3, 64)
	})
}

func replaceSpan(fsys fstest.MapFS, at source.Span, text string) {
	old := string(fsys[at.File.Path].Data)
	fsys[at.File.Path] = &fstest.MapFile{Data: []byte(old[:at.Start] + text + old[at.End():])}
}
