package render

import (
	"maps"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"

	"blankoff/build/load"
)

// two machines of a page: they differ in volume, limit and curve, and share what their family says.
var two = map[string]string{
	"shop.yaml":           "name: Bench\naltitude: 430 m\nsummary: We repair.\n",
	"hazards.yaml":        "hazards: {}\nacts: {}\n",
	"families/home.yaml":  "title: Home\nsummary: H.\nmark: invented\nvalues: {gauge-ceiling: \"2,000 mTorr\", gauge-accuracy: 20 %}\n",
	"machines/large.yaml": "title: Large & Co\nsummary: L.\nfamily: home\nmark: invented\nvalues: {chamber-volume: 62.0 L ± 2.5 L, rise-limit: 8 mTorr/min, dry-curve-5-min: 176 mTorr, dry-curve-12-min: \"1,094 mTorr\"}\n",
	"machines/small.yaml": "title: Small\nsummary: S.\nfamily: home\nmark: invented\nvalues: {chamber-volume: 24.0 L ± 1.0 L, rise-limit: 20 mTorr/min, dry-curve-5-min: 208 mTorr, dry-curve-12-min: 125 mTorr}\n",
}

// guideOf renders one page of that shop and gives its HTML, spaces tidied.
func guideOf(t *testing.T, machines, body string) string {
	t.Helper()
	files := maps.Clone(two)
	files["pages/test.md"] = "---\ntitle: Test\nreader: technician\nmachines: [" + machines + "]\n---\n" + body
	fsys := fstest.MapFS{}
	for name, text := range files {
		fsys[name] = &fstest.MapFile{Data: []byte(text)}
	}
	library, _, err := load.Load(fsys, "content")
	if err != nil {
		t.Fatal(err)
	}
	pages, err := Pages(library, Assets{})
	if err != nil {
		t.Fatal(err)
	}
	for _, page := range pages {
		if page.Path == "pages/test/index.html" {
			return strings.Join(strings.Fields(strings.ReplaceAll(string(page.Bytes), "\u00a0", " ")), " ")
		}
	}
	t.Fatal("the page is missing")
	return ""
}

const riseOf = "```calculator rise-test\nvolume: spec:%chamber-volume\nstart: 100 mTorr\nend: 200 mTorr\ntime: 10 min\nlimit: spec:%rise-limit\nceiling: spec:gauge-ceiling\n```\n"

// TestWhoseCalculator: a page for several machines says for which one a calculator is filled in and what the others have,
// in plain text; a page for one machine needs no such words.
func TestWhoseCalculator(t *testing.T) {
	follows := guideOf(t, "large, small", strings.ReplaceAll(riseOf, "%", ""))
	for _, want := range []string{
		`<label for="c1-machine">Filled in for</label>`,
		`<select class="machine" id="c1-machine"><option value="large">Large &amp; Co</option><option value="small">Small</option></select>`,
		`value="62.0 ± 2.5"`, `<p class="help cards">Large &amp; Co <b>62.0 ± 2.5 L</b>, Small <b>24.0 ± 1.0 L</b></p>`,
		`<p class="help cards">Large &amp; Co <b>8 mTorr/min</b>, Small <b>20 mTorr/min</b></p>`,
		`value="2000"`, // the same for both: no list, and no comma for the calculator to ask about
		`<dt>Machine</dt><dd><span class="entry"><select class="machine" disabled aria-label="Your machine"><option value="">choose yours</option><option value="large">`,
	} {
		if !strings.Contains(follows, want) {
			t.Errorf("a calculator that follows lacks %s", want)
		}
	}
	if got := strings.Count(follows, `class="help cards"`); got != 2 {
		t.Errorf("%d entries list the machines, want the 2 in which they differ", got)
	}
	stays := guideOf(t, "large, small", strings.ReplaceAll(riseOf, "%", "small/"))
	if !strings.Contains(stays, `<p class="help">Filled in for Small.</p>`) || strings.Contains(stays, "<select class=\"machine\"") {
		t.Error("a calculator about one machine must name it and offer no other")
	}
	if one := guideOf(t, "small", strings.ReplaceAll(riseOf, "%", "")); strings.Contains(one, "Filled in") || strings.Contains(one, "cards") || !strings.Contains(one, `value="24.0 ± 1.0"`) {
		t.Error("a page for one machine speaks of others")
	}
}

// TestCurveOfACard: a name with N stands for a log, of which the other machines' lines stand side by side.
func TestCurveOfACard(t *testing.T) {
	page := guideOf(t, "large, small", "```calculator pump-down-log\nlog: \"time min,pressure mTorr\\n5,300\\n8,200\\n12,150\"\nvolume: spec:chamber-volume\nexpected: spec:dry-curve-N-min\n```\n")
	for _, want := range []string{"time min,pressure mTorr 5,176 12,1094</textarea>", "Large &amp; Co <b>5,176 12,1094</b>, Small <b>5,208 12,125</b>"} {
		if !strings.Contains(page, want) {
			t.Errorf("the page lacks %q", want)
		}
	}
}

// TestFactsOfAMachine: each carries the place of its machine; what a family gives is also the others', unless they have
// their own line on the page.
func TestFactsOfAMachine(t *testing.T) {
	page := guideOf(t, "large, small", "[62.0 L](spec:large/chamber-volume), [20 %](spec:small/gauge-accuracy), [2,000 mTorr](spec:large/gauge-ceiling), [2,000 mTorr](spec:small/gauge-ceiling), [20 %](spec:gauge-accuracy), [46.7 Pa](<calc:rise-test?volume=spec:small/chamber-volume&limit=spec:small/rise-limit&start=1 Pa&end=2 Pa&time=1 min>), [46.7 Pa](<calc:pressure?value=350 mTorr>), [1](<calc:rise-test?volume=spec:small/chamber-volume&limit=spec:large/rise-limit>)")
	var got []string
	for _, m := range regexp.MustCompile(`<(?:data|span) class="fact"[^>]*?(?: data-of="([^"]*)")?>`).FindAllStringSubmatch(page, -1) {
		got = append(got, m[1])
	}
	if want := "0|0 1|0|1||1||"; strings.Join(got, "|") != want {
		t.Errorf("the facts are of %q, want %q", strings.Join(got, "|"), want)
	}
}

// TestTyped: a comma between thousands goes, a decimal comma must stay.
func TestTyped(t *testing.T) {
	for text, want := range map[string]string{"2,000 mTorr": "2000 mTorr", "0,5 mTorr": "0,5 mTorr", "1,240 W": "1240 W", "NTC, 10 kΩ": "NTC, 10 kΩ", "24.0 L ± 1.0 L": "24.0 L ± 1.0 L"} {
		if got := typed(text); got != want {
			t.Errorf("%q is typed as %q, want %q", text, got, want)
		}
	}
}
