package render

import (
	"maps"
	"os"
	"strings"
	"testing"

	"blankoff/build/load"
)

// faults is a small fault model, with a name that would be a tag if it were not escaped.
const faults = `unlisted: 1
proof: 10 min
hand-over: {customer: 3 h, technician: 12 h}
rule-outs:
  smoke: {ask: Is there smoke?, do: Leave.}
findings:
  leaps:
    ask: Does it leap?
    answers: {yes: It leaps., no: It stands.}
    usual: {yes: 10 %, no: 90 %}
  size:
    ask: How many mTorr?
    kind: pressure
    unit: mTorr
    cuts: [100 mTorr, 1000 mTorr]
    usual: {middle: 50 mTorr, factor: 2}
    when: {leaps: [yes]}
causes:
  plug: {title: The plug <b> is loose, group: sensor, weight: 3, shows: {leaps: 90 %, size: {middle: 2000 mTorr, factor: 2}}}
  leak: {title: A leak, group: door, weight: 1, shows: {leaps: 5 %}}
tests:
  watch: {title: Watch it, time: 2 min, who: [customer, technician], tells: [leaps, size], guide: procedures/oil}
repairs:
  reseat: {title: Reseat the plug, do: Seat it., time: 90 min, who: [technician], tools: [two spanners], cures: {plug: 90 %}}
  close: {title: Close it, do: Close the door., time: 4 h, who: [customer, technician], cures: {leak: 90 %}}
`

func TestTriagePage(t *testing.T) {
	files := maps.Clone(bench)
	files["triage.yaml"] = faults
	pages := rendered(t, files)
	page := pages["triage/index.html"]
	for _, want := range []string{
		"First: is any of this so?", "Is there smoke? Leave.",
		// By hand, with the one slip in a hundred that the reckoning takes every answer for: yes has 0.896 under the plug, 0.055 under
		// the leak, 0.593 under what is not listed; of 3 × 0.896 + 0.055 + 0.593 the plug's part is 0.81.
		"Ask in this order For anyone, without tools. Go in at the answer that fits. After it stands what is most likely then. Watch it 2 min It leaps. The plug &lt;b&gt; is loose, 81 %",
		"Watch it 2 min · safe for anyone · Change the oil Does it leap? It leaps. The plug &lt;b&gt; is loose It stands. A leak",
		"How many mTorr? under 100 mTorr A leak 100 mTorr to 1,000 mTorr over 1,000 mTorr The plug &lt;b&gt; is loose",
		"sensor The plug &lt;b&gt; is loose : Reseat the plug door A leak : Close it",
		"Reseat the plug 90 min · for technicians · two spanners Seat it.", "Close it 4 h · safe for anyone Close the door.",
	} {
		if !strings.Contains(page, want) {
			t.Errorf("the page lacks %q; it says %s", want, page)
		}
	}
	for _, path := range []string{"index.html", "symptoms/index.html"} {
		if !strings.Contains(pages[path], triageHeading) {
			t.Errorf("%s does not lead to the page", path)
		}
	}
}

// TestTriageTellsHowWellItDoes: where the shop has a page on that, the triage leads to it.
func TestTriageTellsHowWellItDoes(t *testing.T) {
	files := maps.Clone(bench)
	files["triage.yaml"] = faults
	const before, link = "A measurement does.", "A measurement does. How well it does ."
	if page := rendered(t, files)["triage/index.html"]; !strings.Contains(page, before) || strings.Contains(page, link) {
		t.Errorf("without such a page: %s", page)
	}
	files[studyPage+".md"] = "---\ntitle: How well it does\nreader: customer\n---\nAs far as we know.\n"
	if page := rendered(t, files)["triage/index.html"]; !strings.Contains(page, link) {
		t.Errorf("the page lacks %q; it says %s", link, page)
	}
}

func TestNoTriageWithoutItsFile(t *testing.T) {
	pages := rendered(t, bench)
	if _, there := pages["triage/index.html"]; there || strings.Contains(pages["index.html"], triageHeading) {
		t.Error("a shop without a fault model has its page all the same")
	}
}

func TestMinutes(t *testing.T) {
	for n, want := range map[float64]string{0.4: "0 min", 59.6: "1 h", 75: "75 min", 120: "2 h", 150: "150 min", 200: "3.3 h", 480: "8 h"} {
		if got := minutes(n); got != want {
			t.Errorf("%v minutes are %q, want %q", n, got, want)
		}
	}
}

// BenchmarkTriageOrder is what the demo shop's fault model costs each publication.
func BenchmarkTriageOrder(b *testing.B) {
	library, _, err := load.Load(os.DirFS("../../content"), "content")
	if err != nil || !library.Triage.Usable() {
		b.Fatal(err, "the demo shop has no usable fault model")
	}
	for b.Loop() {
		order := newOrder(library.Triage)
		order.first()
		order.tests()
	}
}
