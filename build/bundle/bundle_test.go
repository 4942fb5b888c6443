package bundle

import (
	"encoding/json"
	"fmt"
	"io/fs"
	"maps"
	"regexp"
	"slices"
	"strings"
	"testing"

	"blankoff/build/edition"
	"blankoff/site"
)

func makeParts(t *testing.T, from fs.FS, options Options) Parts {
	t.Helper()
	parts, err := Make(t.Context(), from, options)
	if err != nil {
		t.Fatal(err)
	}
	return parts
}

func content(t *testing.T, parts Parts, name string) string {
	t.Helper()
	i := slices.IndexFunc(parts.Files, func(file File) bool { return file.Path == name })
	if i < 0 {
		t.Fatalf("no file %q among the parts", name)
	}
	return string(parts.Files[i].Bytes)
}

func TestPartsOfOurSite(t *testing.T) {
	parts := makeParts(t, site.Files, Options{Calculators: true, Shop: "A & B"})
	named := regexp.MustCompile(`^[a-z]+\.[0-9a-f]{12}\.[a-z]+$`)
	for _, name := range []string{parts.Script, parts.Style, parts.Below, parts.Lists, parts.Desk, parts.Drawn, parts.Search, parts.Wide, parts.Print, parts.Calc, parts.Icon, parts.Manifest} {
		if text := content(t, parts, name); !named.MatchString(name) || !strings.Contains(name, edition.Short([]byte(text))) {
			t.Errorf("%q does not carry the digest of its content", name)
		}
	}
	for _, file := range parts.Files { // what a script imports lies beside it
		for _, name := range regexp.MustCompile(`(?:from|import\()"\./([^"]+)"`).FindAllStringSubmatch(string(file.Bytes), -1) {
			content(t, parts, name[1])
		}
	}
	if stored := content(t, parts, parts.Calc); len(stored) != parts.CalcStored || parts.CalcRaw <= parts.CalcStored || stored[:2] != "\x1f\x8b" {
		t.Errorf("%d bytes stored of %d, said %d", len(stored), parts.CalcRaw, parts.CalcStored)
	}
}

func TestOnlyThePreviewLoadsAgain(t *testing.T) {
	const sign = "EventSource"
	if text := content(t, makeParts(t, site.Files, Options{}), makeParts(t, site.Files, Options{}).Script); strings.Contains(text, sign) {
		t.Errorf("the published script has the preview's part")
	}
	live := makeParts(t, site.Files, Options{Live: true})
	if text := content(t, live, live.Script); !strings.Contains(text, sign) {
		t.Errorf("the preview's script lacks its part")
	}
}

func TestManifestIsRelative(t *testing.T) {
	parts := makeParts(t, site.Files, Options{Shop: `The "Cold" <Shop>`})
	var got manifest
	if err := json.Unmarshal([]byte(content(t, parts, parts.Manifest)), &got); err != nil {
		t.Fatal(err)
	}
	if got.Name != `The "Cold" <Shop>` || got.Start != "./" || got.Scope != "./" || len(got.Icons) != 5 || got.Icons[0].Src != parts.Icon {
		t.Errorf("got %+v", got)
	}
}

func TestServiceWorkerKnowsEveryFile(t *testing.T) {
	record := edition.Of([]File{{Path: "index.html", Bytes: []byte("home")}, {Path: `pictures/"x".png`, Bytes: []byte{1}}})
	list, worker, err := ServiceWorker(site.Files, record)
	if err != nil {
		t.Fatal(err)
	}
	head, code, _ := strings.Cut(string(worker.Bytes), ";\n")
	if want := fmt.Sprintf("const EDITION=%q,LIST=[%q,%q],BYTES=5", record.Edition, list.Path, edition.Digest(list.Bytes)); head != want {
		t.Errorf("begins with %s, want %s", head, want)
	}
	var files [][2]string
	if err := json.Unmarshal(list.Bytes, &files); err != nil || !slices.Equal(files, record.Files) {
		t.Errorf("got files %v, %v", files, err)
	}
	if !strings.Contains(code, "EDITION") || !strings.Contains(code, "LIST") || worker.Path != "sw.js" {
		t.Errorf("%s does not use what stands in front of it", worker.Path)
	}
}

func TestAMissingPartIsNamed(t *testing.T) {
	whole := map[string]string{"page.ts": "export {};", "look.css": "a{}", "below.css": "a{}", "lists.css": "a{}", "desk.css": "a{}", "drawn.css": "a{}", "wide.css": "a{}", "print.css": "a{}", "triage.css": "a{}", "search.css": "a{}", signsFile: "<svg/>", "offline.ts": "export {};"}
	for missing := range whole {
		rest := maps.Clone(whole)
		delete(rest, missing)
		var pairs []string
		for name, text := range rest {
			pairs = append(pairs, name, text)
		}
		_, err := Make(t.Context(), files(pairs...), Options{})
		if missing == "offline.ts" {
			_, _, err = ServiceWorker(files(pairs...), edition.Of(nil))
		}
		if err == nil || !strings.Contains(err.Error(), strings.TrimSuffix(missing, ".ts")) {
			t.Errorf("without %s: %v", missing, err)
		}
	}
}
