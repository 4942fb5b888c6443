package journey

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

	"blankoff/calc"
	"blankoff/calc/declare"
)

// pictures is where the journey leaves screenshots and a print, for a person to look at.
var pictures = flag.String("pictures", "", "folder for screenshots and a print of the journey")

// entry is one act at a calculator: what a person types or chooses, and what that means.
type entry struct {
	field string
	typed string // typed into it; for a choice, the value taken
	unit  string // chosen beside it; empty: left as it is
	key   bool   // the OL key is tapped instead of typing
	means string // what the calculator is to be asked
}

// journeys are ways to type that a reader has, in the order of the walk. Fields that are not named are emptied.
// Every calculator is walked besides, with its own example, when the network is lost.
var journeys = []struct {
	calculator string
	name       string
	entries    []entry
}{
	{"pressure", "a dial that counts from the air, unit typed", []entry{
		{field: "value", typed: "-28 inHg gauge", means: "-28 inHg gauge"},
		{field: "altitude", typed: "430", unit: "m", means: "430 m"},
	}},
	{"pressure", "decimal comma, unit chosen", []entry{
		{field: "value", typed: "0,02", unit: "mbar", means: "0,02 mbar"},
	}},
	{"pressure", "a word in place of a number", []entry{
		{field: "value", typed: "low", means: "low"},
	}},
	{"throughput", "a flow meter with its reference", []entry{
		{field: "rate", typed: "5", unit: "sccm", means: "5 sccm"},
		{field: "reference", typed: "0", unit: "°C", means: "0 °C"},
	}},
	{"throughput", "a flow meter without its reference", []entry{
		{field: "rate", typed: "5 sccm", means: "5 sccm"},
	}},
	{"throughput", "an exponent", []entry{
		{field: "rate", typed: "2.2e-3", unit: "Pa·m³/s", means: "2.2e-3 Pa·m³/s"},
		{field: "gas-temperature", typed: "77 °F", means: "77 °F"},
	}},
	{"rise-test", "clearly above the limit", []entry{
		{field: "volume", typed: "28 ± 1", unit: "L", means: "28 ± 1 L"},
		{field: "start", typed: "120", unit: "mTorr", means: "120 mTorr"},
		{field: "end", typed: "0.48 Torr", means: "0.48 Torr"},
		{field: "time", typed: "10", unit: "min", means: "10 min"},
		{field: "limit", typed: "0.005", unit: "mbar·L/s", means: "0.005 mbar·L/s"},
	}},
	{"rise-test", "near the limit", []entry{
		{field: "volume", typed: "28", unit: "L", means: "28 L"},
		{field: "start", typed: "120", unit: "mTorr", means: "120 mTorr"},
		{field: "end", typed: "140", unit: "mTorr", means: "140 mTorr"},
		{field: "time", typed: "1h30", means: "1h30"},
		{field: "limit", typed: "0.00014", unit: "mbar·L/s", means: "0.00014 mbar·L/s"},
		{field: "gauge", typed: "5", means: "5 %"},
	}},
	{"rise-test", "a time for a volume", []entry{
		{field: "volume", typed: "28 min", means: "28 min"},
		{field: "start", typed: "120", unit: "mTorr", means: "120 mTorr"},
	}},
	{"continuity", "over-range by its key", []entry{
		{field: "reading", key: true, means: "OL"},
		{field: "leads", typed: "0.2", unit: "Ω", means: "0.2 Ω"},
		{field: "expect", typed: "no connection", means: "no connection"},
	}},
	{"continuity", "within the limits of the card", []entry{
		{field: "reading", typed: "8.4", unit: "Ω", means: "8.4 Ω"},
		{field: "leads", typed: "0.3", unit: "Ω", means: "0.3 Ω"},
		{field: "expect", typed: "wire", means: "wire"},
		{field: "low", typed: "6.9", unit: "Ω", means: "6.9 Ω"},
		{field: "high", typed: "9.3", unit: "Ω", means: "9.3 Ω"},
	}},
	{"continuity", "nothing in a field that must be given", []entry{
		{field: "reading", typed: "", means: ""},
		{field: "leads", typed: "0.3", unit: "Ω", means: "0.3 Ω"},
		{field: "expect", typed: "wire", means: "wire"},
	}},
}

// TestJourney is the whole promise in one walk: a phone opens the site, calculates by what is typed, loses the network, and goes on.
func TestJourney(t *testing.T) {
	t.Parallel()
	h := serve(t, filesOf(t, publish(t)))
	b := phone(t)
	must(t, b.Open(h.address))
	wantDressed(t, b)
	picture(t, b, "home")
	for _, j := range journeys {
		use(t, b, "", j.calculator, j.name, j.entries)
	}
	b.untilText(t, "p.saved[data-saved=ready]", "Works offline")
	wantQuietConsole(t, b)

	h.stop()
	must(t, b.Reload())
	b.untilText(t, "p.saved[data-saved=ready]", "Works offline")
	wantDressed(t, b)
	for _, c := range calc.All() {
		use(t, b, "offline ", c.ID, "its example", example(c))
	}
	for _, section := range []string{"symptoms", "procedures", "machines", "record"} {
		follow(t, b, "nav.thumb a", section+"/")
		picture(t, b, "offline "+section)
	}
	follow(t, b, "nav.thumb a", "procedures/")
	follow(t, b, "main a", "procedures/rise-test/")
	sheet, err := b.Print(A4)
	must(t, err)
	if !bytes.HasPrefix(sheet, []byte("%PDF-")) {
		t.Errorf("a procedure prints as %.20q", sheet)
	}
	keep(t, "rise-test.pdf", sheet)
	wantNoBreach(t, b)
}

// use walks to a calculator, types the entries, and compares what it shows with the native answer.
func use(t *testing.T, b *Browser, where, calculator, name string, entries []entry) {
	t.Helper()
	step := t.Run(where+calculator+"/"+name, func(t *testing.T) {
		walkTo(t, b, calculator)
		calculate(t, b, calculator, entries)
		must(t, b.Script(nil, `document.querySelector(".answer").scrollIntoView({ block: "center" })`))
		picture(t, b, where+calculator+" "+name)
	})
	if !step {
		t.Fatal("the walk ends here: the next steps would only wait in vain")
	}
}

// example is what a person types who does the worked example of a calculator again, units and all.
func example(c *declare.Calculator) []entry {
	var entries []entry
	for _, pair := range c.Example.In {
		entries = append(entries, entry{field: pair.Name, typed: pair.Text, means: pair.Text})
	}
	return entries
}

// walkTo goes to a calculator's page by the thumb bar.
func walkTo(t *testing.T, b *Browser, calculator string) {
	t.Helper()
	follow(t, b, "nav.thumb a", "calculators/")
	follow(t, b, "main a", "calculators/"+calculator+"/")
}

// follow taps the link that leads to a path of the site, and waits for that page.
func follow(t *testing.T, b *Browser, css, path string) {
	t.Helper()
	must(t, b.Script(nil, `
		for (const link of document.querySelectorAll(arguments[0]))
			if (link.pathname.endsWith(arguments[1])) { link.dataset.journey = ""; document.documentElement.dataset.left = ""; return; }
		throw new Error("no link leads to " + arguments[1]);`, css, subPath+path))
	tap(t, b, "[data-journey]")
	must(t, b.Until(path+" is shown", func() (arrived bool, err error) {
		err = b.Script(&arrived, `return document.readyState === "complete" && location.pathname === arguments[0] && !("left" in document.documentElement.dataset)`, subPath+path)
		return arrived, err
	}))
	wantWithinWidth(t, b)
}

// seen is what a calculator shows.
type seen struct {
	Waiting string
	Is      string
	Word    string
	Because string
	Out     []output
	Working []string
	Caution []string
	Faults  map[string]string // of fields marked as wrong
}

type output struct {
	Name, Label, Text, Also string
	Rows                    [][]string // of a table, its heads first
}

const readSeen = `
	const block = document.querySelector("section.calculator[data-calculator='" + arguments[0] + "']");
	// A page keeps numbers and units on one line; what they say is the same.
	const said = (part) => (part?.textContent ?? "").replaceAll("\u00a0", " ");
	const text = (css, from = block) => said(from.querySelector(css));
	const all = (css) => [...block.querySelectorAll(css)].map(said);
	const faults = [...block.querySelectorAll(".field")].filter((field) => field.querySelector("[aria-invalid=true]"));
	return {
		Waiting: text(".waiting"), Is: block.querySelector(".verdict")?.dataset.is ?? "", Word: text(".verdict strong"), Because: text(".because"),
		Out: [...block.querySelectorAll("[data-output]")].map((row) => ({ Name: row.dataset.output, Label: text("dt", row), Text: text(".value", row), Also: text(".also", row),
			Rows: [...row.querySelectorAll("tr")].map((line) => [...line.cells].map(said)) })),
		Working: all(".working li"), Caution: all(".cautions li"),
		Faults: Object.fromEntries(faults.map((field) => [field.dataset.input, field.querySelector(".fault:not([hidden])")?.innerText])),
	};`

// calculate types the entries as a person would, and compares what the page says with what the native code says.
func calculate(t *testing.T, b *Browser, calculator string, entries []entry) {
	t.Helper()
	untilLive(t, b, "[data-calculator="+calculator+"]")
	const answer = `document.querySelector("[data-calculator=" + arguments[0] + "] .answer > *")`
	must(t, b.Script(nil, answer+`.journey = "as it came"`, calculator))
	request := declare.Request{ID: calculator}
	for _, input := range calc.Find(calculator).Inputs {
		act := entry{field: input.ID, typed: input.Default, means: input.Default} // as a list of choices stands
		if input.Choices == nil {
			act = entry{field: input.ID}
		}
		if at := slices.IndexFunc(entries, func(e entry) bool { return e.field == input.ID }); at >= 0 {
			act = entries[at]
		}
		fill(t, b, calculator, act)
		if act.means != "" {
			request.In = append(request.In, declare.Pair{Name: act.field, Text: act.means})
		}
	}
	want := expected(calc.Answer(request))
	var got seen
	err := b.Until("the page gives the answer of the native code", func() (bool, error) {
		var old bool
		must(t, b.Script(&old, "return !!"+answer+"?.journey", calculator))
		err := b.Script(&got, readSeen, calculator)
		return !old && fmt.Sprintf("%+v", got) == fmt.Sprintf("%+v", want), err
	})
	if err != nil {
		t.Fatalf("%v\n got %+v\nwant %+v", err, got, want)
	}
	wantWithinWidth(t, b)
	if want.Word != "" {
		must(t, b.Until("a screen reader is told the verdict", func() (told bool, err error) {
			err = b.Script(&told, `return document.querySelector("[data-calculator=" + arguments[0] + "] .announce").textContent.startsWith(arguments[1])`, calculator, want.Word)
			return told, err
		}))
	}
}

// untilLive waits for the script that opens the entries: a page is there before it.
func untilLive(t *testing.T, b *Browser, calculator string) {
	t.Helper()
	must(t, b.Until("the entries of "+calculator+" are open", func() (live bool, err error) {
		err = b.Script(&live, `return document.querySelector(arguments[0] + " fieldset").matches(":enabled")`, calculator)
		return live, err
	}))
}

func fill(t *testing.T, b *Browser, calculator string, act entry) {
	t.Helper()
	field := fmt.Sprintf("[data-calculator=%s] [data-input=%s] ", calculator, act.field)
	unfold(t, b, calculator, field)
	if act.unit != "" {
		choose(t, b, field+"select.unit", act.unit)
	}
	if act.key {
		tap(t, b, field+"[data-over]")
		return
	}
	if entry, err := b.Find(field + "input"); err == nil {
		must(t, entry.Retype(act.typed+Enter))
		var inHand bool
		must(t, b.Script(&inHand, "return document.activeElement.matches('input')"))
		if inHand {
			t.Errorf("%s: the keyboard's Done key leaves the keyboard over the answer", act.field)
		}
		return
	}
	if table, err := b.Find(field + "textarea"); err == nil {
		must(t, table.Retype(act.typed))
		return
	}
	choose(t, b, field+"select", act.typed)
}

// unfold opens what hides a field, by its own key.
func unfold(t *testing.T, b *Browser, calculator, field string) {
	t.Helper()
	var folded bool
	must(t, b.Script(&folded, "return !!document.querySelector(arguments[0]).closest('details:not([open])')", field))
	if folded {
		tap(t, b, fmt.Sprintf("[data-calculator=%s] .more > summary", calculator))
	}
}

// choose takes an option of a list, as a phone's own picker does it.
func choose(t *testing.T, b *Browser, list, value string) {
	t.Helper()
	must(t, b.Script(nil, `
		for (const option of document.querySelector(arguments[0]).options)
			if (option.value === arguments[1]) { option.dataset.chosen = ""; return; }
		throw new Error(arguments[0] + " does not offer " + arguments[1]);`, list, value))
	tap(t, b, list+" [data-chosen]")
	must(t, b.Script(nil, `delete document.querySelector("[data-chosen]").dataset.chosen`))
}

var words = map[string]string{"pass": "Pass", "fail": "Fail", "cannot tell": "Cannot tell yet", "": ""}

// expected is what a page has to show for an answer.
func expected(answer declare.Answer) seen {
	want := seen{Out: []output{}, Working: []string{}, Caution: []string{}, Faults: map[string]string{}}
	if fault := answer.Fault; fault != nil {
		want.Waiting = "No answer yet: one entry needs a look."
		want.Faults[fault.Field] = fault.Text
		return want
	}
	want.Is = strings.ReplaceAll(answer.Verdict.Is, " ", "-")
	want.Word, want.Because = words[answer.Verdict.Is], answer.Verdict.Text
	for _, given := range answer.Out {
		shown := output{given.ID, given.Label, given.Text, "", rowsOf(given)}
		if len(given.Also) > 0 {
			shown.Also = "= " + strings.Join(given.Also, "; ")
		}
		want.Out = append(want.Out, shown)
	}
	want.Working = append(want.Working, answer.Working...)
	want.Caution = append(want.Caution, answer.Cautions...)
	return want
}

func rowsOf(given declare.Given) [][]string {
	if given.Columns == nil {
		return nil
	}
	var heads []string
	for _, column := range given.Columns {
		head := column.Label
		if column.Unit != "" {
			head += ", " + column.Unit
		}
		heads = append(heads, head)
	}
	rows := [][]string{heads}
	for _, row := range given.Rows {
		var cells []string
		for _, cell := range row {
			cells = append(cells, cell.Text)
		}
		rows = append(rows, cells)
	}
	return rows
}

// TestScriptWritesWhatTheTemplateWrites computes every calculator's example, and what procedures fill in, again in the browser: nothing of the
// answer may change.
func TestScriptWritesWhatTheTemplateWrites(t *testing.T) {
	t.Parallel()
	files := filesOf(t, publish(t))
	h := serve(t, files)
	b := phone(t)
	blocks := 0
	for path, content := range files {
		if !strings.HasSuffix(path, ".html") || !bytes.Contains(content, []byte("data-calculator")) || !strings.HasPrefix(path, "calculators/") && !strings.HasPrefix(path, "procedures/") {
			continue
		}
		must(t, b.Open(h.address+strings.TrimSuffix(path, "index.html")))
		// A guide has only the room of a plot, which the script fills in; a calculator's own page has the plot itself.
		must(t, b.Until("the rooms of plots are filled", func() (bool, error) {
			var empty int
			err := b.Script(&empty, `
				const rooms = document.querySelectorAll(".plot svg:empty");
				rooms[0]?.scrollIntoView();
				return rooms.length`)
			return empty == 0, err
		}))
		var ids []string
		must(t, b.Script(&ids, `return [...document.querySelectorAll("section.calculator")].map((block) => block.id)`))
		for _, id := range ids {
			t.Run(path+"#"+id, func(t *testing.T) { compareAnswers(t, b, id) })
		}
		blocks += len(ids)
	}
	if least := len(calc.All()); blocks < least {
		t.Errorf("%d calculators stand on the pages, expected %d or more", blocks, least)
	}
}

func TestNoPageIsWiderThanAPhone(t *testing.T) {
	t.Parallel()
	files := filesOf(t, publish(t))
	h := serve(t, files)
	b := phone(t)
	for _, path := range slices.Sorted(maps.Keys(files)) {
		if strings.HasSuffix(path, ".html") {
			t.Run(path, func(t *testing.T) {
				must(t, b.Open(h.address+strings.TrimSuffix(path, "index.html")))
				must(t, b.Script(nil, `for (const folded of document.querySelectorAll("details")) folded.open = true`))
				wantWithinWidth(t, b)
			})
		}
	}
}

// shape gives the elements and texts of an answer one a line, without the blanks that a minifier may move.
const shape = `
	const lines = [], [id, room] = arguments;
	const walk = (node, depth) => {
		if (room && node.nodeName === "OL" && node.parentNode.className === "working") return;
		if (node.nodeType === Node.TEXT_NODE) {
			const text = node.data.replace(/\s+/g, " ");
			if (text.trim() || !/^(DL|DIV|OL|UL|DETAILS)$/.test(node.parentNode.nodeName)) lines.push(depth + JSON.stringify(text));
			return;
		}
		const marks = [...node.attributes].map((mark) => mark.name + "=" + JSON.stringify(mark.value)).sort();
		lines.push([depth + node.nodeName, ...marks].join(" "));
		for (const child of node.childNodes) walk(child, depth + " ");
	};
	walk(document.querySelector("#" + id + " .answer"), "");
	return lines.join("\n");`

func compareAnswers(t *testing.T, b *Browser, id string) {
	var static, live string
	var room bool // a guide has the room of a working alone, which the script fills when it is opened
	must(t, b.Script(&room, `return !!document.querySelector("#" + arguments[0] + " .working > summary:only-child")`, id))
	must(t, b.Script(&static, shape, id, room))
	untilLive(t, b, "#"+id)
	must(t, b.Script(nil, `document.querySelector("#" + arguments[0] + " .answer > *").journey = "static"`, id))
	must(t, b.Script(nil, `
		const entries = [...document.querySelectorAll("#" + arguments[0] + " :is(input, textarea)")];
		const entry = entries.find((entry) => !entry.closest("details:not([open])")) ?? entries[0];
		const folded = entry.closest("details");
		if (folded) folded.open = true;
		entry.dataset.journey = "";`, id))
	entry, err := b.Find("#" + id + " [data-journey]")
	must(t, err)
	must(t, entry.Type(End+"1"+Backspace))
	must(t, b.Until("the answer was written anew", func() (anew bool, err error) {
		err = b.Script(&anew, `const first = document.querySelector("#" + arguments[0] + " .answer > *"); return !first.journey && first.textContent !== "Computing …" && !document.querySelector("#" + arguments[0] + " [aria-busy]")`, id)
		return anew, err
	}))
	must(t, b.Script(&live, shape, id, room))
	if live != static {
		t.Errorf("the script writes\n%s\nthe page holds\n%s", live, static)
	}
}

// wantWithinWidth names what is wider than the phone: the page then slides sideways, and the bars with it.
func wantWithinWidth(t *testing.T, b *Browser) {
	t.Helper()
	var wide []string
	must(t, b.Script(&wide, `
		const hidden = (part) => part && (getComputedStyle(part).overflowX !== "visible" || hidden(part.parentElement));
		return [...document.body.querySelectorAll("*")]
			.filter((part) => part.getBoundingClientRect().right > arguments[0] + 1 && !hidden(part.parentElement))
			.map((part) => part.tagName + "." + part.getAttribute("class") + ": " + part.textContent.trim().slice(0, 60))`, Phone.Width))
	if len(wide) > 0 {
		t.Errorf("%d parts are wider than the phone, first: %s", len(wide), strings.Join(wide[:min(3, len(wide))], " | "))
	}
}

// wantDressed finds style sheets that did not come: a browser does not always say so.
func wantDressed(t *testing.T, b *Browser) {
	t.Helper()
	var empty []string
	must(t, b.Script(&empty, `
		const links = [...document.querySelectorAll("link[rel=stylesheet]")];
		return links.length ? links.filter((link) => !link.sheet?.cssRules.length).map((link) => link.href) : ["none at all"]`))
	for _, sheet := range empty {
		t.Errorf("the page lacks its style sheet: %s", sheet)
	}
}

func wantQuietConsole(t *testing.T, b *Browser) {
	t.Helper()
	messages, err := b.Console()
	must(t, err)
	for _, m := range messages {
		t.Errorf("console: %s %s: %s", m.Level, m.Source, m.Message)
	}
}

// wantNoBreach is for a time without a network, when the browser itself reports what it cannot reach.
func wantNoBreach(t *testing.T, b *Browser) {
	t.Helper()
	messages, err := b.Console()
	must(t, err)
	for _, m := range messages {
		if m.Source != "network" {
			t.Errorf("console: %s %s: %s", m.Level, m.Source, m.Message)
		}
	}
}

func picture(t *testing.T, b *Browser, name string) {
	t.Helper()
	if *pictures == "" {
		return
	}
	content, err := b.Screenshot()
	must(t, err)
	keep(t, strings.NewReplacer(" ", "-", "/", "-").Replace(name)+".png", content)
}

func keep(t *testing.T, name string, content []byte) {
	t.Helper()
	if *pictures == "" {
		return
	}
	must(t, os.MkdirAll(*pictures, 0o755))
	must(t, os.WriteFile(filepath.Join(*pictures, name), content, 0o644))
}
