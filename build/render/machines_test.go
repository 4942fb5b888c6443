package render

import (
	"regexp"
	"strings"
	"testing"
	"testing/fstest"

	"blankoff/build/diagnostic"
	"blankoff/build/load"
)

// bench is a shop with two machines of a family, one of them without a guide, and a third by itself.
var bench = map[string]string{
	"shop.yaml":           "name: Bench\naltitude: 430 m\nsummary: We repair.\n",
	"hazards.yaml":        "hazards: {}\nacts: {}\n",
	"tubes/tq-4.yaml":     "title: TQ-4\nconstruction: insulated\nmark: invented\npins: {1: heater, 4: heater, 6: couple, 7: couple}\n",
	"families/home.yaml":  "title: Home machines\nsummary: H.\ntube: tq-4\nmark: invented\nvalues:\n  warm-up: {is: 30 min, mark: common practice, note: oil warm}\n  dry-curve-12-min: 125 mTorr\n  dry-curve-2-min: 1,170 mTorr\n",
	"machines/small.yaml": "title: Small\ncode: S1\nsummary: S.\nfamily: home\nmark: invented\nvalues:\n  lid-colour: grey <b>\n  ready-limit: 350 mTorr\n  ice-floor: {is: 187 mTorr, calc: ice-floor?temperature=-34 °C, source: Murphy and Koop 2005}\n",
	"machines/large.yaml": "title: Large\nsummary: L.\nfamily: home\nvalues: {ready-limit: 300 mTorr}\n",
	"machines/alone.yaml": "title: Alone\nsummary: A.\nvalues: {supply: 120 V}\n",
	"procedures/oil.md":   "---\ntitle: Change the oil\nreader: technician\nfamilies: [home]\n---\nAs it says.\n\n## Steps\n\n1. Change it after [30 min](spec:warm-up).\n   - Expect: clear oil.\n   - If not: again.\n",
}

// rendered gives the text of every page, with its marks taken away and spaces tidied.
func rendered(t *testing.T, files map[string]string) map[string]string {
	t.Helper()
	fsys := fstest.MapFS{}
	for name, text := range files {
		fsys[name] = &fstest.MapFile{Data: []byte(text)}
	}
	library, found, err := load.Load(fsys, "content")
	if err != nil || len(found) > 0 {
		t.Fatal(err, diagnostic.List(found, diagnostic.Style{}))
	}
	pages, err := Pages(library, Assets{})
	if err != nil {
		t.Fatal(err)
	}
	tag := regexp.MustCompile(`<[^>]*>`)
	texts := map[string]string{}
	for _, page := range pages {
		text := strings.ReplaceAll(tag.ReplaceAllString(string(page.Bytes), " "), "\u00a0", " ")
		texts[page.Path] = strings.Join(strings.Fields(text), " ")
	}
	return texts
}

func TestCards(t *testing.T) {
	pages := rendered(t, bench)
	for _, c := range []struct{ page, want string }{
		{"machines/small/index.html", "Small S1 S."},
		{"machines/small/index.html", "A value is invented unless something else stands beside it. Some values stand with tube TQ-4 and family “Home machines”, for all machines that share them."},
		{"machines/small/index.html", "Pump and hoses Warm-up of the oil common practice; oil warm 30 min"},
		{"machines/small/index.html", "Condenser Ice floor computed; Murphy and Koop 2005 187 mTorr"},
		{"machines/small/index.html", "Acceptance Ready, loaded, at most 350 mTorr"},
		{"machines/small/index.html", "Pumping down, empty and dry After 2 min 1,170 mTorr After 12 min 125 mTorr"},
		{"machines/small/index.html", "Vacuum sensor Tube TQ-4 Construction insulated junction Heater pins 1 and 4 Couple pins 6 and 7"},
		{"machines/small/index.html", "Also on this card Lid colour grey &lt;b&gt;"},
		{"machines/small/index.html", "Guides for this machine Change the oil"},
		{"machines/large/index.html", "Ready, loaded, at most 300 mTorr"},
		{"machines/large/index.html", "Warm-up of the oil common practice; oil warm 30 min"},
		{"machines/large/index.html", "Guides for this machine Change the oil"},
		{"machines/alone/index.html", "Guides for this machine None yet. Guides for other machines have other limits: do not use them here."},
		{"procedures/oil/index.html", "Machines Large , Small"},
	} {
		if !strings.Contains(pages[c.page], c.want) {
			t.Errorf("%s lacks %q:\n%s", c.page, c.want, pages[c.page])
		}
	}
	if strings.Contains(pages["machines/alone/index.html"], "Some values stand with") {
		t.Error("a machine without tube and family names some")
	}
}
