package journey

import (
	"encoding/json"
	"fmt"
	"maps"
	"os"
	"slices"
	"strings"
	"testing"
)

// kinds is one page of each kind that the site has, with the most on it.
var kinds = []struct {
	name, path string
	do         func(t *testing.T, b *Browser) // what a reader has done there
}{
	{name: "home"},
	{name: "list", path: "procedures/"},
	{name: "list of calculators", path: "calculators/"},
	{name: "symptom", path: "symptoms/after-a-change/"},
	{name: "procedure", path: risePage},
	{name: "calculator", path: "calculators/rise-log/"},
	{"log by tap", "calculators/pump-down-log/", func(t *testing.T, b *Browser) {
		b.untilText(t, ".log-ways button", "Log by tap")
		tap(t, b, ".log-ways button")
		b.untilText(t, ".log .take", "Start the clock")
		tap(t, b, ".log .take")
		for i, digits := range []string{"1900", "1400", "900", "450"} {
			takeReading(t, b, digits)
			b.untilText(t, ".rows-taken li:last-child b", digits+"\u00a0mTorr")
			if i > 2 {
				tap(t, b, ".rows-taken li:first-child button")
			}
		}
	}},
	{name: "calculator with a table", path: "calculators/pump-down/"},
	{name: "machine", path: "machines/cindle-14/"},
	{name: "list of machines", path: "machines/"},
	{name: "triage sheet", path: "triage/sheet/"},
	{name: "rules of writing", path: "writing/"},
	{name: "page of pictures", path: "pages/what-continuity-proves/"},
	{name: "triage, a question", path: "triage/#who=technician&clear=yes&answers=jumps:no"},
	{name: "triage, a number", path: "triage/#who=technician&clear=yes&answers=jumps:no,over-range:no,rise-shape:straight"},
	{name: "triage, the cause found", path: "triage/#who=technician&clear=yes&answers=jumps:yes,plug-moves:yes,over-range:no&pick=reseat-plug"},
	{name: "triage, a stop", path: "triage/#who=customer&stop=smoke"},
	{name: "triage, a contradiction", path: "triage/#who=technician&clear=yes&answers=pair-open:yes,gauge-ratio:1,jumps:no,plug-moves:no,over-range:no&done=reseat-plug"},
	{name: "page", path: "pages/limits/"},
	{name: "search", path: "search/"},
	{name: "results of a search", path: "search/#milky%20oil%20500%20mtorr"},
	{"units", "pages/leak-or-vapour/", func(t *testing.T, b *Browser) {
		tap(t, b, "nav.thumb button")
		must(t, b.Until("a sheet is open", func() (open bool, err error) {
			err = b.Script(&open, `return !!document.querySelector("dialog:modal")`)
			return open, err
		}))
	}},
	{name: "record", path: "record/"},
	{name: "writing", path: "writing/hazard-place/"},
	{name: "wrong address", path: "404.html"},
}

// eye is a way to look at a page.
type eye struct {
	name  string
	width int // of the window, in CSS pixels
	text  int // of the browser's own size, in per cent
	media map[string]string
}

var eyes = []eye{
	{"light", 360, 100, nil},
	{"dark", 360, 100, map[string]string{"prefers-color-scheme": "dark"}},
	{"forced colours", 360, 100, map[string]string{"forced-colors": "active", "prefers-color-scheme": "dark"}},
	{"320 px wide", 320, 100, nil},
	{"text of 200 %", 360, 200, nil},
}

// see starts a browser that shows pages for that eye.
func see(t *testing.T, eye eye) *Browser {
	t.Helper()
	b := open(t, Chromium(), View{Width: eye.width, Height: Phone.Height, Density: Phone.Density, Touch: true})
	features := []map[string]string{}
	for name, value := range eye.media {
		features = append(features, map[string]string{"name": name, "value": value})
	}
	must(t, b.devtools("Emulation.setEmulatedMedia", map[string]any{"features": features}))
	return b
}

// openWide unfolds the page and lets its bars scroll with it: what a bar lies over, a reader scrolls into the open.
func openWide(t *testing.T, b *Browser) {
	t.Helper()
	must(t, b.Script(nil, `
		for (const folded of document.querySelectorAll("details")) folded.open = true;
		for (const bar of document.querySelectorAll(".thumb, .ladder, .work-strip")) bar.style.position = "static";`))
}

// TestAxe asks axe-core (https://github.com/dequelabs/axe-core), an independent judge, for breaches of WCAG 2.2, levels A and AA, and of its own
// rules for good practice.
func TestAxe(t *testing.T) {
	t.Parallel()
	axe := axeCore(t)
	h := serveAt(t, "/", filesOf(t, publish(t))) // where the page for wrong addresses finds its parts
	for _, eye := range eyes {
		t.Run(eye.name, func(t *testing.T) {
			b := see(t, eye)
			for _, kind := range kinds {
				t.Run(kind.name, func(t *testing.T) {
					openKind(t, b, h.address+kind.path)
					enlarge(t, b, eye.text)
					if kind.do != nil {
						kind.do(t, b)
					}
					wantAccessible(t, b, axe, eye)
				})
			}
		})
	}
}

// wantAccessible puts the page as it stands to the judge.
func wantAccessible(t *testing.T, b *Browser, axe string, eye eye) {
	t.Helper()
	enlarge(t, b, eye.text)
	wantSeenSo(t, b, eye)
	picture(t, b, t.Name())
	openWide(t, b)
	for _, found := range judge(t, b, axe) {
		t.Error(found)
	}
	wantNothingBeside(t, b, eye.width)
}

// wantSeenSo: the page is told of the eye, else the judge would look at the same thing five times.
func wantSeenSo(t *testing.T, b *Browser, eye eye) {
	t.Helper()
	for name, value := range eye.media {
		var told bool
		must(t, b.Script(&told, `return matchMedia("(" + arguments[0] + ": " + arguments[1] + ")").matches`, name, value))
		if !told {
			t.Errorf("the page is not told that %s is %s", name, value)
		}
	}
}

// enlarge sets the size of text that a reader has chosen in the browser. A page from another host forgets it.
func enlarge(t *testing.T, b *Browser, percent int) {
	t.Helper()
	size := 16 * percent / 100 // px
	must(t, b.devtools("Page.setFontSizes", map[string]any{"fontSizes": map[string]any{"standard": size}}))
	must(t, b.Until("the text is so large", func() (large bool, err error) {
		err = b.Script(&large, `
			const part = document.body.appendChild(document.createElement("p"));
			part.style.fontSize = "medium";
			const size = getComputedStyle(part).fontSize;
			part.remove();
			return size === arguments[0] + "px"`, size)
		return large, err
	}))
}

// axeCore reads the judge's script. It is no part of this repository.
func axeCore(t *testing.T) string {
	t.Helper()
	const variable = "AXE_CORE"
	script, err := os.ReadFile(os.Getenv(variable))
	if err != nil {
		t.Fatalf("the environment variable %s must name the script axe.min.js: npm install --prefix DIR axe-core@4.14.1 brings it as DIR/node_modules/axe-core/axe.min.js (%v)", variable, err)
	}
	return string(script)
}

// openKind opens a page anew, also where only what stands behind the # is new, and waits until it is at rest.
func openKind(t *testing.T, b *Browser, address string) {
	t.Helper()
	must(t, b.Open("about:blank"))
	must(t, b.Open(address))
	untilAtRest(t, b)
}

// untilAtRest waits for all that scripts add to a page when it opens.
func untilAtRest(t *testing.T, b *Browser) {
	t.Helper()
	must(t, b.Until("the page is at rest", func() (rests bool, err error) {
		err = b.Script(&rests, `
			if (document.querySelector("p.saved").dataset.saved === "") return false; // the last of what comes after the page
			const triage = document.querySelector("main.triage[data-model]");
			if (document.querySelector("main.search") && location.hash && ![...document.querySelectorAll(".found .line")].some((line) => line.textContent)) return false;
			return ![...document.querySelectorAll("fieldset:disabled, nav.thumb button:disabled")].length && (!triage || !!document.querySelector(".now .ask > *"))`)
		return rests, err
	}))
}

// judge runs all rules on the page as it stands.
func judge(t *testing.T, b *Browser, axe string) (breaches []string) {
	t.Helper()
	must(t, b.Script(nil, axe+"\nwindow.axe = axe;"))
	var found []struct {
		ID, Help string
		Nodes    []struct {
			Target         json.RawMessage
			FailureSummary string
		}
	}
	must(t, b.Script(&found, `
		const tags = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];
		return axe.run({ runOnly: tags, resultTypes: ["violations"] }).then((said) => {
			if (said.passes.length < 5) throw new Error("axe has looked at nothing");
			return said.violations;
		})`))
	for _, rule := range found {
		at := rule.Nodes[0]
		breaches = append(breaches, fmt.Sprintf("%s: %s: %d places, first %s: %s", rule.ID, rule.Help, len(rule.Nodes), at.Target,
			strings.Join(strings.Fields(at.FailureSummary), " ")))
	}
	return breaches
}

// wantNothingBeside: no page slides sideways, however narrow or large (WCAG 1.4.10, 1.4.4).
func wantNothingBeside(t *testing.T, b *Browser, width int) {
	t.Helper()
	var needs int
	must(t, b.Script(&needs, `return document.documentElement.scrollWidth`))
	if needs > width {
		t.Errorf("the page is %d px wide in a window of %d", needs, width)
	}
}

// TestTargetsAtTheFold: in the window that Lighthouse opens, whatever of a page the bar lies over, nothing that can be tapped counts as
// too small (WCAG 2.5.8): the page scrolls behind the bar.
func TestTargetsAtTheFold(t *testing.T) {
	t.Parallel()
	axe := axeCore(t)
	files := filesOf(t, publish(t))
	h := serveAt(t, "/", files)
	b := open(t, Chromium(), View{Width: 412, Height: 823, Density: 1.75, Touch: true})
	covered := 0
	for _, name := range slices.Sorted(maps.Keys(files)) {
		page, isPage := strings.CutSuffix(name, "index.html")
		if !isPage || page != "" && page != risePage && !strings.HasPrefix(page, "calculators/") {
			continue
		}
		must(t, b.Open(h.address+page))
		untilAtRest(t, b)
		must(t, b.Script(nil, axe+"\nwindow.axe = axe;"))
		var found struct {
			Small   []string
			Covered int // keys and entries that the bar cuts
		}
		must(t, b.Script(&found, `
			const bar = document.querySelector(".thumb").getBoundingClientRect();
			const cut = [...document.querySelectorAll("main :is(a, input, select, summary, button)")].map((part) => part.getBoundingClientRect()).filter(({ top, bottom, height }) => height && top < bar.top && bottom > bar.top);
			return axe.run({ runOnly: ["target-size"] }).then(({ violations }) => ({ Small: violations.flatMap(({ nodes }) => nodes.map(({ target }) => target.join(" "))), Covered: cut.length }))`))
		if len(found.Small) > 0 {
			t.Errorf("%s: %v", name, found.Small)
		}
		covered += found.Covered
	}
	if covered < 10 {
		t.Errorf("the bar cuts only %d keys and entries in all: the test looks at nothing", covered)
	}
}
