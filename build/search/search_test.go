package search

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"

	"blankoff/build/edition"
)

// page is a finished page around what stands in its main part.
func page(address, class, main string) edition.File {
	return edition.File{Path: address + "index.html", Bytes: []byte(`<!doctype html><html><head><title>not this</title></head><body><header class=top>nor this</header><main id=main class=` + class + `>` + main + `</main><nav>nor that</nav></body></html>`)}
}

// where tells, for a page of an index, each term with the field in which it stands; "+" where it stands more than twice.
func where(x *Index, address string) map[string]string {
	all := map[string]string{}
	for i, list := range x.Postings {
		for _, p := range list {
			if x.Pages[p.Page].Address == address {
				all[x.Terms[i]] = []string{"aside", "text", "heading", "title"}[p.Place.field()] + strings.Repeat("+", int(p.Place%2))
			}
		}
	}
	return all
}

func TestWhatAPageGives(t *testing.T) {
	x := Of([]edition.File{page("symptoms/stuck-high/", "guide", `<h1>Stuck <small>S1</small></h1><p class=summary>Look at handles.</p>
		<section class="hazards"><div class=hazard>Shards burst</div></section>
		<section class=part id=steps><h2>Steps</h2><ol class=steps><li class=step id=step-1><span class=number>1</span><p>Wiping, wipe &amp; wiped: a valve<b>s</b></p><label class=tick>ticked</label></li></ol>
		<p>Read <data class=q value=66.66 data-kind=pressure>500 mTorr</data> at <data value="239.15 1" data-kind=temperature>−34 ± 1 °C</data>, pump-down of 7 with <data data-kind=thread value="R 1/8">R 1/8</data></p>
		<form><select><option>optional</option></select></form><svg><text>drawn</text></svg><pre>coded</pre><img alt="pins of TQ-4"></section>`)}, nil)
	want := map[string]string{
		"stuck": "title", "s1": "title", "handl": "heading", "high": "heading", "stuckhigh": "heading", "step": "heading",
		"shard": "aside", "burst": "aside", "wip": "text+", "valv": "text", "read": "text", "pump": "text", "down": "text", "pumpdown": "text",
		"r": "text", "1/8": "text", "pin": "text", "tq": "text", "tq4": "text", "#p420": "text", "#t478": "text", "#t2": "text",
	}
	if got := where(x, "symptoms/stuck-high/"); !reflect.DeepEqual(got, want) {
		t.Errorf("got  %v\nwant %v", got, want)
	}
	if p := x.Pages[0]; p.Title != "Stuck S1" || x.Kinds[p.Kind].Name != "Symptom" {
		t.Errorf("got %+v", p)
	}
}

func TestWhatIsNotFound(t *testing.T) {
	x := Of([]edition.File{
		page("", "home", "<h1>Home</h1>"), page("symptoms/", "index", "<h1>Symptoms</h1>"), page("search/", "search", "<h1>Search</h1>"),
		{Path: "404.html", Bytes: []byte("<main><h1>Missing</h1></main>")}, {Path: "page.js", Bytes: []byte("1")}, page("pages/untitled/", "guide", "<p>Words</p>"),
		page("pages/oil/", "guide", "<h1>Oil</h1>"),
	}, nil)
	if len(x.Pages) != 1 || x.Pages[0].Address != "pages/oil/" {
		t.Errorf("got %+v", x.Pages)
	}
}

// TestSharedBlocksStandAside: what many pages say word for word tells them not apart.
func TestSharedBlocksStandAside(t *testing.T) {
	var pages []edition.File
	for i := range manyPages + 1 {
		pages = append(pages, page(fmt.Sprintf("pages/p%c/", 'a'+i), "guide", fmt.Sprintf("<h1>Page %c</h1><p>You hear a hiss.</p><p>Smoke number %c.</p><table><tr><td><data value=%d data-kind=pressure>x</data></td></tr></table>", 'a'+i, 'a'+i, i+1)))
	}
	if x := Of(pages, nil); where(x, "pages/pa/")[Stem("hiss")] != "aside" || where(x, "pages/pa/")[Stem("smoke")] != "text" || where(x, "pages/pa/")["#p0"] != "text" {
		t.Errorf("got %v", where(x, "pages/pa/"))
	}
	pages = append(pages, page("pages/hiss/", "guide", "<h1>Hissing</h1>"))
	if x := Of(pages, nil); where(x, "pages/pa/")[Stem("hiss")] != "" || where(x, "pages/hiss/")[Stem("hiss")] != "title" {
		t.Errorf("aside although another page is about it: %v", where(x, "pages/pa/"))
	}
}

func TestPhrasesThatMeanTheSame(t *testing.T) {
	got := phrases([][]string{{"cold trap", "condensers", "freezer coil"}, {"seal"}, {"leaks", "leaking"}, {"the rate of rise", "leak-up test"}})
	if want := []string{"cold trap|condenser|freezer coil", "rat ris|leak test"}; !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
}

// Stems that a technician's words must share, and others that they must not; judged by hand.
func TestStem(t *testing.T) {
	for _, same := range [][]string{
		{"leak", "leaks", "leaking", "leaked"}, {"dry", "dries", "dried", "drying"}, {"freeze", "freezes", "freezing"}, {"drip", "dripping", "dripped"},
		{"hiss", "hisses", "hissing"}, {"box", "boxes"}, {"calibrate", "calibrated", "calibration"}, {"tight", "tightness", "tightly"}, {"milk", "milky"},
		{"valve", "valves"}, {"press", "presses", "pressed"}, {"change", "changed", "changing"},
	} {
		for _, word := range same[1:] {
			if Stem(word) != Stem(same[0]) {
				t.Errorf("%s is cut to %s, %s to %s", same[0], Stem(same[0]), word, Stem(word))
			}
		}
	}
	for _, pair := range [][2]string{{"ready", "read"}, {"bus", "bu"}, {"bleed", "ble"}, {"heater", "heat"}, {"tq4", "tq"}} {
		if Stem(pair[0]) == Stem(pair[1]) {
			t.Errorf("%s and %s are cut to %s", pair[0], pair[1], Stem(pair[0]))
		}
	}
}

// Exact relations, SI Brochure: 1 bar is 1e5 Pa, 0 °C is 273.15 K.
func TestQuantityTerms(t *testing.T) {
	for _, c := range []struct {
		kind string
		si   float64
		want string
	}{
		{"pressure", 1, "#p0"}, {"pressure", 1e5, "#p1151"}, {"pressure", 0, ""}, {"pressure", -5, ""}, {"temperature", 273.15, "#t546"},
		{"temperature difference", 0, "#d0"}, {"count", 3, ""}, {"volume", 1e-3, "#v-691"},
	} {
		if got := quantityTerm(c.kind, c.si); got != c.want {
			t.Errorf("%s of %g: %q, want %q", c.kind, c.si, got, c.want)
		}
	}
}

func TestUnitsAreThoseOfThePages(t *testing.T) {
	units := map[string]Unit{}
	for _, u := range unitsOf([]string{"#p420", "oil"}) {
		units[u.Spelling] = u
	}
	if _, other := units["ohm"]; other || units["mtorr"].Factor != units["micron"].Factor || units["mpa"].Factor == units["mPa"].Factor || units["mTorr"].Kind != "" {
		t.Errorf("got %v", units)
	}
}
