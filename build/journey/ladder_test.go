package journey

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"blankoff/build/bundle"
	"blankoff/site"
)

// Three pressures far apart in the text, an entry, and a ladder from 100,000 Pa to 1 Pa: 10 units of length a decade.
const ladderPage = `<!doctype html><html lang="en" data-root="./" data-calc="CALC"><meta charset="utf-8"><title>ladder</title><link rel="icon" href="data:,">
<meta name="viewport" content="width=device-width, initial-scale=1"><script type="module" src="SCRIPT"></script>
<aside class="ladder"><svg class="tall"><path class="axis" data-top="100000" data-bottom="1" data-from="5" data-to="55"/><g class="cursor"></g></svg>
<svg class="strip"><path class="axis" data-top="100000" data-bottom="1" data-from="300" data-to="200"/><g class="cursor"></g></svg></aside>
<main><div style="height: 2000px"></div><data class="fact" id="p1" value="100" data-kind="pressure">1 mbar</data>
<div style="height: 2000px"></div><data class="fact" id="p2" value="10000" data-kind="pressure">100 mbar</data> <data class="fact" value="3" data-kind="time">3 s</data>
<div style="height: 2000px"></div><data class="fact" id="p3" value="1000000" data-kind="pressure">10 bar</data><div style="height: 2000px"></div>
<section class="calculator" data-calculator="rise-test"><form class="inputs"><fieldset disabled><div class="field" data-input="start"><input value="1"><select class="unit"><option>Pa</option><option>mbar</option></select></div>
<div class="field" data-input="time"><input id="time" value="10"><select class="unit"><option>min</option></select></div></fieldset></form><div class="answer"></div><button class="hand"></button><p class="announce"></p></section></main>`

func (b *Browser) untilCursorsAt(t *testing.T, what string, down, across float64) {
	t.Helper()
	var got []string
	read := func(text, prefix, suffix string) float64 {
		x, err := strconv.ParseFloat(strings.TrimSuffix(strings.TrimPrefix(text, prefix), suffix), 64)
		if err != nil {
			return math.NaN()
		}
		return x
	}
	err := b.Until(what, func() (bool, error) {
		err := b.Script(&got, `return [...document.querySelectorAll("g.cursor")].map((cursor) => cursor.getAttribute("transform") ?? "")`)
		return err == nil && math.Abs(read(got[0], "translate(0 ", ")")-down) < 0.1 && math.Abs(read(got[1], "translate(", " 0)")-across) < 0.1, err
	})
	if err != nil {
		t.Errorf("%v; the cursors are at %q", err, got)
	}
}

func TestLadderFollowsTextAndEntry(t *testing.T) {
	t.Parallel()
	parts, err := bundle.Make(t.Context(), site.Files, bundle.Options{Calculators: true})
	must(t, err)
	files := map[string][]byte{"index.html": []byte(strings.NewReplacer("CALC", parts.Calc, "SCRIPT", parts.Script).Replace(ladderPage))}
	for _, file := range parts.Files {
		files[file.Path] = file.Bytes
	}
	b := phone(t)
	must(t, b.Open(serve(t, files).address))
	var hidden bool
	must(t, b.Script(&hidden, `return [...document.querySelectorAll("g.cursor")].every((cursor) => !cursor.hasAttribute("transform"))`))
	if !hidden {
		t.Error("a cursor stands somewhere although no pressure is in the window")
	}
	for _, test := range []struct {
		id           string
		down, across float64
	}{
		{"p1", 35, 240}, // three decades below the top
		{"p2", 15, 280}, // one
		{"p3", 5, 300},  // above the top: stays there
		{"p1", 35, 240}, // scrolled back
	} {
		must(t, b.Script(nil, `document.getElementById(arguments[0]).scrollIntoView({ block: "center" })`, test.id))
		b.untilCursorsAt(t, "the cursors are at "+test.id, test.down, test.across)
	}
	entry, err := b.Find("[data-input=start] input")
	must(t, err)
	must(t, entry.Retype("10"))
	b.untilCursorsAt(t, "the cursors follow the entry", 45, 220)
	must(t, entry.Retype("0,1 mbar"))
	b.untilCursorsAt(t, "the cursors follow an entry with its unit", 45, 220)
	choose(t, b, "[data-input=start] select", "mbar")
	must(t, entry.Retype("1"))
	b.untilCursorsAt(t, "the cursors follow the unit", 35, 240)
	// What is not a pressure moves nothing.
	other, err := b.Find("#time")
	must(t, err)
	must(t, other.Retype("30"))
	b.untilCursorsAt(t, "the cursors stay", 35, 240)
}
