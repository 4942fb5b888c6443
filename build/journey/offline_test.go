package journey

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"

	"blankoff/build/bundle"
	"blankoff/build/edition"
	"blankoff/site"
)

const smallPage = `<!doctype html><html lang="en" data-root="ROOT" data-edition="EDITION"><meta charset="utf-8"><title>PATH of EDITION</title>
<meta name="viewport" content="width=device-width, initial-scale=1"><link rel="icon" href="data:,">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; script-src 'self'; img-src data:; connect-src 'self'; worker-src 'self'">
<script type="module" src="ROOTpage.EDITION.js"></script>
<header class="top"><a class="shop" href="ROOT">home</a> <p class="saved" data-saved role="status"></p></header><main><a class="other" href="ROOTother/">other</a></main>`

// smallSite is an edition by hand: three pages, the real scripts, and the real service worker with its list.
func smallSite(t *testing.T, name string) map[string][]byte {
	t.Helper()
	return siteWith(t, name, `import "./page";`)
}

func siteWith(t *testing.T, name, entry string) map[string][]byte {
	t.Helper()
	script, parts, err := bundle.Script(site.Files, entry)
	must(t, err)
	files := map[string][]byte{"page." + name + ".js": script}
	for _, part := range parts {
		files[part.Path] = part.Bytes
	}
	for _, path := range []string{"index.html", "other/index.html", "404.html"} {
		root := "./"
		if strings.Contains(path, "/") {
			root = "../"
		}
		files[path] = []byte(strings.NewReplacer("ROOT", root, "EDITION", name, "PATH", path).Replace(smallPage))
	}
	var list []edition.File
	for path, content := range files {
		list = append(list, edition.File{Path: path, Bytes: content})
	}
	kept, worker, err := bundle.ServiceWorker(site.Files, edition.Of(list))
	must(t, err)
	files[kept.Path], files[worker.Path] = kept.Bytes, worker.Bytes
	return files
}

func (b *Browser) untilText(t *testing.T, css, want string) {
	t.Helper()
	var got string
	err := b.Until(css+" says "+want, func() (bool, error) {
		err := b.Script(&got, "return document.querySelector(arguments[0])?.innerText ?? ''", css)
		return got == want, err
	})
	if err != nil {
		t.Fatalf("%v; it says %q", err, got)
	}
}

func (b *Browser) title(t *testing.T) (title string) {
	t.Helper()
	must(t, b.Script(&title, "return document.title"))
	return title
}

func wantTitle(t *testing.T, b *Browser, want string) {
	t.Helper()
	if got := b.title(t); got != want {
		t.Fatalf("the page is %q, want %q", got, want)
	}
}

func tap(t *testing.T, b *Browser, css string) {
	t.Helper()
	element, err := b.Find(css)
	must(t, err)
	must(t, element.Tap())
}

func TestWholeSiteWorksWithoutNetwork(t *testing.T) {
	t.Parallel()
	files := smallSite(t, "e1")
	all := sizeOf(files)
	h := serve(t, files)
	release := h.hold("other/index.html")
	b := phone(t)
	must(t, b.Open(h.address))
	b.untilText(t, "p.saved[aria-live=off]", fmt.Sprintf("Saving %d kB for use without a network: %d %%", (all+999)/1000, 100*(all-len(files["other/index.html"]))/all))
	release()
	b.untilText(t, "p.saved[data-saved=ready][aria-live=polite]", "Works offline")
	h.stop()
	for _, test := range []struct{ name, path, want string }{
		{"home", "", "index.html of e1"},
		{"a page never visited", "other/", "other/index.html of e1"},
		{"a query", "other/?from=a-poster#step-2", "other/index.html of e1"},
		{"without the closing slash", "other", "other/index.html of e1"},
		{"by its file", "other/index.html", "other/index.html of e1"},
		{"unknown", "nowhere/", "404.html of e1"},
	} {
		t.Run(test.name, func(t *testing.T) {
			must(t, b.Open(h.address+test.path))
			wantTitle(t, b, test.want)
			b.untilText(t, "p.saved[data-saved=ready]", "Works offline")
		})
	}
	must(t, b.Open(h.address+"other"))
	if got, _ := b.Address(); got != h.address+"other/" {
		t.Errorf("without the closing slash the address stays %s: relative links would lead astray", got)
	}
}

// sizeOf is what a phone keeps of a site, in bytes: all but the service worker and its list.
func sizeOf(files map[string][]byte) (size int) {
	for path, content := range files {
		if path != "sw.js" && !strings.HasPrefix(path, "kept.") {
			size += len(content)
		}
	}
	return size
}

// TestAReaderWhoSparesTheLineIsAsked: where the device asks for little traffic, nothing is fetched before a tap, whose button says how much it is.
func TestAReaderWhoSparesTheLineIsAsked(t *testing.T) {
	t.Parallel()
	files := smallSite(t, "e1")
	h := serve(t, files)
	b := phone(t)
	must(t, b.devtools("Page.addScriptToEvaluateOnNewDocument", map[string]any{"source": `Object.defineProperty(navigator, "connection", { value: { saveData: true } });`}))
	must(t, b.Open(h.address))
	b.untilText(t, "p.saved[data-saved=ask][aria-live=polite]", fmt.Sprintf("Save %d\u00a0kB for use without a network", (sizeOf(files)+999)/1000))
	if n := h.count("other/index.html"); n != 0 {
		t.Errorf("another page was fetched %d times before anybody agreed", n)
	}
	tap(t, b, "p.saved button")
	b.untilText(t, "p.saved[data-saved=ready]", "Works offline")
	h.stop()
	must(t, b.Open(h.address+"other/"))
	wantTitle(t, b, "other/index.html of e1")
	b.untilText(t, "p.saved[data-saved=ready]", "Works offline") // who agreed once is not asked again
}

// TestAPhoneWithoutRoomIsTold, and saving goes on where there is room again.
func TestAPhoneWithoutRoomIsTold(t *testing.T) {
	t.Parallel()
	h := serve(t, smallSite(t, "e1"))
	b := phone(t)
	must(t, b.Open(h.address+"gone")) // of the same origin, and without scripts
	origin := strings.TrimSuffix(h.address, subPath)
	must(t, b.devtools("Storage.overrideQuotaForOrigin", map[string]any{"origin": origin, "quotaSize": 2000}))
	must(t, b.Open(h.address))
	b.untilText(t, "p.saved[data-saved=failed]", "Not saved yet: this device has no room for them. The next visit tries again.")
	must(t, b.devtools("Storage.overrideQuotaForOrigin", map[string]any{"origin": origin}))
	must(t, b.Reload())
	b.untilText(t, "p.saved[data-saved=ready]", "Works offline")
}

// spoil is an edition of which one file arrives changed, as from a half-updated host.
func spoil(files map[string][]byte, path string) map[string][]byte {
	spoilt := maps.Clone(files)
	spoilt[path] = append(slices.Clone(spoilt[path]), "\n"...)
	return spoilt
}

func isSaved(t *testing.T, b *Browser, path string) (saved bool) {
	t.Helper()
	must(t, b.Script(&saved, `return caches.match(new URL(arguments[0], document.querySelector(".shop").href)).then((found) => !!found)`, path))
	return saved
}

func TestFirstSavingThatFailsIsTriedAgain(t *testing.T) {
	t.Parallel()
	whole := smallSite(t, "e1")
	h := serve(t, spoil(whole, "other/index.html"))
	b := phone(t)
	must(t, b.Open(h.address))
	b.untilText(t, "p.saved[data-saved=failed]", "Not saved yet: other/index.html did not arrive whole. The next visit tries again.")
	h.replace(whole)
	most := 1 // for the page itself
	if !isSaved(t, b, "page.e1.js") {
		most++ // the first try broke off before
	}
	before := h.count("page.e1.js")
	must(t, b.Reload())
	b.untilText(t, "p.saved[data-saved=ready]", "Works offline")
	// What was saved and checked is not fetched again.
	if again := h.count("page.e1.js") - before; again > most {
		t.Errorf("a file saved by the first try was fetched %d times more", again)
	}
	h.stop()
	must(t, b.Open(h.address+"other/"))
	wantTitle(t, b, "other/index.html of e1")
}

func TestNewEditionIsUsedWholeAndWhenAsked(t *testing.T) {
	t.Parallel()
	h := serve(t, smallSite(t, "e1"))
	b := phone(t)
	must(t, b.Open(h.address))
	b.untilText(t, "p.saved[data-saved=ready]", "Works offline")

	// One file of the new edition is wrong: nothing of it may be used.
	next := smallSite(t, "e2")
	h.replace(spoil(next, "404.html"))
	seen := h.count("404.html")
	must(t, b.Open(h.address+"other/"))
	must(t, b.Until("the wrong file was fetched", func() (bool, error) { return h.count("404.html") > seen, nil }))
	must(t, b.Reload())
	wantTitle(t, b, "other/index.html of e1")
	b.untilText(t, "p.saved[data-saved=ready]", "Works offline")

	// Mended: it is offered, and the pages stay as they are until it is taken.
	h.replace(next)
	must(t, b.Reload())
	b.untilText(t, "p.saved[data-saved=new]", "New edition ready: use it")
	wantTitle(t, b, "other/index.html of e1")
	tap(t, b, ".other")
	wantTitle(t, b, "other/index.html of e1")
	b.untilText(t, "p.saved[data-saved=new]", "New edition ready: use it")
	old, err := b.Window()
	must(t, err)
	fresh, err := b.NewWindow()
	must(t, err)
	must(t, b.Switch(fresh))
	must(t, b.Open(h.address))
	wantTitle(t, b, "index.html of e1")
	b.untilText(t, "p.saved[data-saved=new]", "New edition ready: use it")
	tap(t, b, "p.saved button")
	must(t, b.Until("the new edition is shown", func() (bool, error) { return b.title(t) == "index.html of e2", nil }))
	b.untilText(t, "p.saved[data-saved=ready]", "Works offline")

	// The page that was open keeps its edition: its text stands, and it still gets its own files.
	h.stop()
	must(t, b.Switch(old))
	wantTitle(t, b, "other/index.html of e1")
	var own string
	must(t, b.Script(&own, "return fetch('../page.e1.js').then((file) => file.text())"))
	if len(own) < 100 {
		t.Errorf("a page of the old edition got %q for its own script", own)
	}
	tap(t, b, "p.saved button")
	must(t, b.Until("the new edition is shown there too", func() (bool, error) { return b.title(t) == "other/index.html of e2", nil }))
}

// In the author's preview a page follows the content at once, so no copy may stand between them.
func TestPreviewFollowsTheContent(t *testing.T) {
	t.Parallel()
	rebuilt := func(name string) map[string][]byte { return siteWith(t, name, `import "./page"; import "./live";`) }
	h := serve(t, smallSite(t, "e1"))
	b := phone(t)
	must(t, b.Open(h.address))
	b.untilText(t, "p.saved[data-saved=ready]", "Works offline") // left over from a site seen at this address

	h.replace(rebuilt("e2"))
	must(t, b.Reload())
	b.untilText(t, "p.saved[data-saved=new]", "New edition ready: use it")
	tap(t, b, "p.saved button")
	must(t, b.Until("the preview is shown", func() (bool, error) { return b.title(t) == "index.html of e2", nil }))
	must(t, b.Until("nothing is kept", func() (none bool, err error) {
		err = b.Script(&none, "return navigator.serviceWorker.getRegistrations().then((kept) => kept.length === 0)")
		return none, err
	}))

	for _, name := range []string{"e3", "e4"} {
		h.replace(rebuilt(name))
		h.live <- struct{}{}
		must(t, b.Until("the rebuilt page is shown", func() (bool, error) { return b.title(t) == "index.html of "+name, nil }))
	}
}
