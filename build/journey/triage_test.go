package journey

import (
	"fmt"
	"net/url"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// service is a job as a technician told it, and what was found in the end.
type service struct {
	name    string
	who     string
	told    map[string]string // a finding → its answer; of all others nothing is known
	causes  []string          // one of these leads when the job ends
	repairs []string          // one of these helps, no other
}

// services are invented. The order of their causes was reckoned beforehand, with a simpler model, outside this project.
var services = []service{
	{"real leak", "technician", map[string]string{
		"over-range": "no", "levels-off": "yes", "seal-looks-wrong": "no", "hiss": "no", "room-out-of-range": "no", "oil-looks-wrong": "no",
		"trap-warm": "no", "rise-shape": "straight", "rise-size": "45.5",
	}, []string{"drain-seat"}, []string{"clean-drain-valve"}},
	{"wet chamber", "technician", map[string]string{
		"over-range": "no", "load-or-defrost": "yes", "trap-warm": "no", "rise-shape": "bending", "rise-size": "1.4", "ice-ratio": "2.1", "oil-looks-wrong": "no",
	}, []string{"water-left"}, []string{"dry-chamber", "defrost", "dry-insulation"}},
	{"dirty sensor", "technician", map[string]string{
		"over-range": "no", "levels-off": "yes", "jumps": "no", "gauge-ratio": "4.5 ± 0.9", "pair-open": "no",
	}, []string{"sensor-dirty"}, []string{"clean-sensor", "replace-tube"}},
	{"open heater", "technician", map[string]string{
		"over-range": "yes", "pair-open": "yes", "gauge-ratio": "10000",
	}, []string{"heater-open", "couple-open"}, []string{"replace-tube"}},
	{"loose connector", "technician", map[string]string{
		"jumps": "yes", "plug-moves": "yes", "over-range": "no", "levels-off": "no",
	}, []string{"plug-loose"}, []string{"reseat-plug", "replace-cable"}},
	{"weak oil", "technician", map[string]string{
		"oil-looks-wrong": "yes", "load-or-defrost": "yes", "blank-off-ratio": "15.3", "rise-shape": "within", "trap-warm": "no",
	}, []string{"oil-wet"}, []string{"dry-oil", "oil-change"}},
}

// TestTriage walks from what is seen to what ends it, by thumb: six jobs, and what goes wrong on the way.
func TestTriage(t *testing.T) {
	t.Parallel()
	h := serve(t, filesOf(t, publish(t)))
	b := phone(t)
	must(t, b.Open(h.address))
	follow(t, b, "main #begin a", "triage/")
	picture(t, b, "triage stops")
	for _, s := range services {
		t.Run(s.name, func(t *testing.T) { serveJob(t, b, s) })
	}
	t.Run("back, change, reload, address", func(t *testing.T) { changeMind(t, b, h) })
	t.Run("a key for back", func(t *testing.T) { stepBack(t, b, h) })
	t.Run("there to calculate, and back", func(t *testing.T) { calculateBetween(t, b, h) })
	t.Run("a key for ±", func(t *testing.T) { typeAccuracy(t, b, h) })
	t.Run("hazards before the work", func(t *testing.T) { wantHazards(t, b, h) })
	t.Run("nothing but what is safe", func(t *testing.T) { askCustomer(t, b, h) })
	t.Run("on paper", func(t *testing.T) { printSheet(t, b, h) })
	t.Run("copied, shared, opened elsewhere", func(t *testing.T) { sendReport(t, b, h) })
	t.Run("a stop", func(t *testing.T) { sayStop(t, b) })
	t.Run("hostile addresses", func(t *testing.T) { openHostile(t, b, h) })
	wantQuietConsole(t, b)

	b.untilText(t, "p.saved[data-saved=ready]", "Works offline")
	h.stop()
	must(t, b.Open(h.address+"triage/"))
	t.Run("without a network", func(t *testing.T) { serveJob(t, b, services[4]) })
	wantNoBreach(t, b)
}

// serveJob begins anew and answers what is asked until something has helped.
func serveJob(t *testing.T, b *Browser, s service) {
	t.Helper()
	now(t, b)
	press(t, b, "[data-do=anew]")
	press(t, b, fmt.Sprintf("input[name=who][value=%s]", s.who))
	press(t, b, ".answers .none")
	for asked := 0; ; asked++ {
		shown := now(t, b)
		if asked == 2 {
			picture(t, b, "triage "+s.name+" third question")
		}
		switch {
		case asked > 40:
			t.Fatalf("%d questions have not ended the job; shown is %+v", asked, shown)
		case shown.Finding != "":
			say(t, b, shown.Finding, s.told[shown.Finding])
		case slices.Contains(s.repairs, shown.Step):
			if !slices.Contains(s.causes, shown.Causes[0]) {
				t.Errorf("%q leads when %s is to be done, expected one of %q", shown.Causes[0], shown.Step, s.causes)
			}
			wantEnd(t, b, s, asked)
			return
		case shown.Step != "":
			noHelp(t, b)
		default:
			t.Fatalf("the job is handed over as %q after %d questions; in front: %q", shown.Heading, asked, shown.Causes)
		}
	}
}

func wantEnd(t *testing.T, b *Browser, s service, asked int) {
	t.Helper()
	picture(t, b, "triage "+s.name+" repair")
	wantWithinWidth(t, b)
	wantLargeKeys(t, b)
	press(t, b, ".helped")
	if shown := now(t, b); shown.Heading != "It works again" {
		t.Errorf("after a repair that helped the page says %q", shown.Heading)
	}
	var report string
	must(t, b.Script(&report, `return document.querySelector(".report textarea").value`))
	for _, part := range []string{"None of the safety questions", "it works again", "Most likely:", "#who=" + s.who} {
		if !strings.Contains(report, part) {
			t.Errorf("the report lacks %q:\n%s", part, report)
		}
	}
	t.Logf("%d questions and steps", asked)
}

// view is what the page shows.
type view struct {
	Heading, Step, Finding, Progress, Given, Fault string
	Causes                                         []string // by name, the likeliest first
}

// now gives what is shown once the page is at rest.
func now(t *testing.T, b *Browser) view {
	t.Helper()
	var shown view
	must(t, b.Until("the triage shows what is next", func() (bool, error) {
		err := b.Script(&shown, `
			const text = (css) => [...document.querySelectorAll(".talk " + css)].filter((part) => part.checkVisibility()).map((part) => part.innerText).join("");
			const said = document.querySelector(".now").dataset;
			return { Heading: text(".now h2"), Step: said.step ?? "", Finding: said.finding ?? "", Progress: text(".progress"), Given: text(".given"), Fault: text(".now .fault"),
				Causes: [...document.querySelectorAll(".belief > .bars li")].map((part) => part.dataset.cause) };`)
		return shown.Heading != "", err
	}))
	return shown
}

// press taps what is shown, and waits until the page has answered.
func press(t *testing.T, b *Browser, css string) {
	t.Helper()
	must(t, b.Script(nil, `for (const part of document.querySelectorAll(".now .ask > *")) part.journey = "old"`))
	var before string
	must(t, b.Script(&before, "return location.hash"))
	tap(t, b, css)
	must(t, b.Until("the page goes on", func() (gone bool, err error) {
		err = b.Script(&gone, `return location.hash === arguments[0] || ![...document.querySelectorAll(".now .ask > *")].some((part) => part.journey)`, before)
		return gone, err
	}))
}

// noHelp says of a repair that it did not help, or of a test that it is done.
func noHelp(t *testing.T, b *Browser) {
	t.Helper()
	var repair bool
	must(t, b.Script(&repair, `return !!document.querySelector(".now .no-help")`))
	if repair {
		press(t, b, ".now .no-help")
	} else {
		press(t, b, ".now .answers button")
	}
}

func say(t *testing.T, b *Browser, finding, answer string) {
	t.Helper()
	var valued bool
	must(t, b.Script(&valued, `return !!document.querySelector(".now .value-of")`))
	switch {
	case answer == "":
		press(t, b, ".now .unknown")
	case valued:
		entry, err := b.Find(".now .value-of input")
		must(t, err)
		must(t, entry.Retype(answer))
		press(t, b, ".now .value-of button:not([type])")
	default:
		press(t, b, fmt.Sprintf(".now [value=%s]", answer))
	}
}

// wantLargeKeys: what is tapped in gloves is 56 px high or more.
func wantLargeKeys(t *testing.T, b *Browser) {
	t.Helper()
	var small []string
	must(t, b.Script(&small, `return [...document.querySelectorAll(".now .answers button, .now .value-of :is(input, button)")].filter((key) => key.getBoundingClientRect().height < 56).map((key) => key.innerText)`))
	if len(small) > 0 {
		t.Errorf("keys too small for gloves: %q", small)
	}
}

// changeMind goes back, changes an answer, loads the page again, and opens its address elsewhere.
func changeMind(t *testing.T, b *Browser, h *host) {
	must(t, b.Open(h.address+"triage/#who=technician&clear=yes&answers=jumps:yes,over-range:no"))
	loose := now(t, b)
	if loose.Causes[0] != "plug-loose" {
		t.Errorf("%q leads where the reading jumps", loose.Causes)
	}
	say(t, b, loose.Finding, "")
	three := now(t, b)
	if !strings.HasPrefix(three.Progress, "3 answered, about ") {
		t.Errorf("progress is %q", three.Progress)
	}
	must(t, b.Script(nil, "history.back()"))
	must(t, b.Until("the answer is taken back", func() (bool, error) { return now(t, b).Progress == loose.Progress, nil }))
	press(t, b, ".given .said")
	if shown := now(t, b); shown.Finding != "jumps" {
		t.Fatalf("a tap on the first answer asks for %q", shown.Finding)
	}
	press(t, b, ".now [value=no]")
	calm := now(t, b)
	if calm.Causes[0] == "plug-loose" {
		t.Error("the changed answer moves nothing")
	}
	must(t, b.Reload())
	if again := now(t, b); !slices.Equal(again.Causes, calm.Causes) || again.Given != calm.Given {
		t.Errorf("after loading again\n%+v\nexpected\n%+v", again, calm)
	}
	must(t, b.Open(h.address+"record/"))
	must(t, b.Open(h.address+"triage/"))
	if again := now(t, b); again.Given != calm.Given {
		t.Errorf("what was said is lost on the way to another page: %q", again.Given)
	}
	must(t, b.Open(h.address+"triage/#who=technician&clear=yes&answers=pair-open:yes,gauge-ratio:1,jumps:no,plug-moves:no,over-range:no"))
	if shown := now(t, b); !strings.Contains(shown.Given, "Recheck this answer") {
		t.Errorf("no answer is to be rechecked where they contradict each other: %q", shown.Given)
	}
	picture(t, b, "triage recheck")
}

// stepBack: a page that was opened by its address has nothing to go back to, so its key takes back what was said last.
func stepBack(t *testing.T, b *Browser, h *host) {
	openTriage(t, b, h, "who=technician&clear=yes&answers=jumps:yes,over-range:no")
	first := now(t, b)
	say(t, b, first.Finding, "")
	wantFocus(t, b, now(t, b).Heading)
	press(t, b, ".now .back")
	if shown := now(t, b); shown.Progress != first.Progress || shown.Finding != first.Finding {
		t.Errorf("back shows %+v, expected %+v", shown, first)
	}
	for _, want := range []string{"1 answered", "0 answered"} {
		press(t, b, ".now .back")
		if shown := now(t, b); !strings.HasPrefix(shown.Progress, want) {
			t.Errorf("one more step back: %q, expected %q", shown.Progress, want)
		}
	}
	press(t, b, ".now .back")
	if shown := now(t, b); shown.Heading != "Is any of this so?" {
		t.Errorf("before the first answer stands %q", shown.Heading)
	}
}

// open shows the page as an address has it, and nothing from before.
func openTriage(t *testing.T, b *Browser, h *host, fragment string) {
	t.Helper()
	must(t, b.Open(h.address+"record/"))
	must(t, b.Script(nil, `localStorage.removeItem("blankoff.triage")`))
	must(t, b.Open(h.address+"triage/#"+fragment))
}

// wantFocus: what is new has the focus, so that a screen reader reads it, and one place alone tells what changed.
func wantFocus(t *testing.T, b *Browser, heading string) {
	t.Helper()
	var got struct {
		Focus string
		Live  int
		Bare  []string
	}
	must(t, b.Script(&got, `
		return { Focus: document.activeElement.innerText, Live: document.querySelectorAll(".talk :is([role=status], [role=alert], [aria-live])").length,
			Bare: [...document.querySelectorAll(".talk :is(input, textarea)")].filter((entry) => !entry.labels.length && !entry.ariaLabel).map((entry) => entry.outerHTML) }`))
	if got.Focus != heading || got.Live != 1 || len(got.Bare) > 0 {
		t.Errorf("focus is on %q, expected %q; %d live places, expected 1; entries without a label: %q", got.Focus, heading, got.Live, got.Bare)
	}
}

// calculateBetween leaves the question for the calculator that answers it, and comes back with its result: by the link beside the
// answer, and by the browser's own way back. The result stands in the entry, and counts when the reader takes it.
func calculateBetween(t *testing.T, b *Browser, h *host) {
	for _, way := range []string{"link", "back"} {
		openTriage(t, b, h, "who=technician&clear=yes&answers=jumps:no,over-range:no,rise-shape:straight")
		before := now(t, b)
		if before.Finding != "rise-size" {
			t.Fatalf("a rise over its limit asks for %q, expected its size", before.Finding)
		}
		follow(t, b, ".now .sources a", "calculators/rise-test/")
		untilLive(t, b, ".calculator")
		wantNothingCarried(t, b)
		fill(t, b, "rise-test", entry{field: "end", typed: "2000 mTorr"})
		b.untilText(t, ".carry", "Take it to the question: How many times the rise limit is the climb?")
		if way == "link" {
			picture(t, b, "triage carry")
			tap(t, b, ".carry a")
		} else {
			must(t, b.Script(nil, "history.back()"))
		}
		// By hand, from the example: 60 L × (2.6664 − 0.05) mbar / 600 s are 0.2616 mbar·L/s, 5.23 times 0.05; ± 10 % of the gauge and 2 % of the volume.
		var brought struct{ Value, Said string }
		must(t, b.Until("the question is there with the result", func() (bool, error) {
			err := b.Script(&brought, `return { Value: document.querySelector(".now .value-of input")?.value ?? "", Said: document.querySelector(".now .got")?.innerText ?? "" }`)
			return brought.Value != "", err
		}))
		after := now(t, b)
		if brought.Value != "5.23 ± 0.53" || brought.Said != "Chamber rise test: "+strings.ReplaceAll(brought.Value, " ", "\u00a0") {
			t.Errorf("by %s comes %q, and the page says %q", way, brought.Value, brought.Said)
		}
		if after.Finding != before.Finding || after.Given != before.Given || !slices.Equal(after.Causes, before.Causes) {
			t.Errorf("before it is taken the page shows\n%+v\nexpected\n%+v", after, before)
		}
		picture(t, b, "triage brought by "+way)
		press(t, b, ".now .value-of button:not([type])")
		if taken := now(t, b); !strings.Contains(taken.Given, strings.ReplaceAll(brought.Value, " ", "\u00a0")) || taken.Progress == before.Progress || taken.Finding == before.Finding {
			t.Errorf("once it is taken the page shows %+v", taken)
		}
	}
	openTriage(t, b, h, "who=technician&clear=yes&answers=jumps:no,over-range:no,rise-shape:straight")
	now(t, b)
	say(t, b, "rise-size", "364/8") // an address takes it as it was typed
	if shown := now(t, b); shown.Fault != "" || !strings.Contains(shown.Given, "364/8") {
		t.Errorf("a fraction is answered by %+v", shown)
	}
}

// wantNothingCarried: what fills a form in by itself, as the values of a machine, is no result of the reader's.
func wantNothingCarried(t *testing.T, b *Browser) {
	t.Helper()
	must(t, b.Script(nil, `
		addEventListener("answered", () => { window.computed = true; });
		document.querySelector("form.inputs").dispatchEvent(new Event("input", { bubbles: true }));`))
	must(t, b.Until("the example is computed anew", func() (computed bool, err error) {
		err = b.Script(&computed, "return window.computed === true")
		return computed, err
	}))
	var carried bool
	must(t, b.Script(&carried, `return !!document.querySelector(".carry")`))
	if carried {
		t.Error("an example is offered as an answer")
	}
}

// typeAccuracy: keypads of phones have no ±, so the page has a key for it.
func typeAccuracy(t *testing.T, b *Browser, h *host) {
	openTriage(t, b, h, "who=technician&clear=yes&pick=gauge-compare")
	if shown := now(t, b); shown.Finding != "gauge-ratio" {
		t.Fatalf("shown is %+v", shown)
	}
	entry, err := b.Find(".now .value-of input")
	must(t, err)
	must(t, entry.Type("4.5"))
	tap(t, b, ".now .accuracy")
	must(t, entry.Type("0.9"))
	wantLargeKeys(t, b)
	wantWithinWidth(t, b)
	picture(t, b, "triage value")
	press(t, b, ".now .value-of button:not([type])")
	if shown := now(t, b); !strings.Contains(shown.Given, "4.5\u00a0±\u00a00.9") || shown.Fault != "" {
		t.Errorf("a value with its accuracy is taken as %+v", shown)
	}
}

// wantHazards: a repair and a test name what their guide warns of, before anything is done, and a repair tells how to avoid it.
func wantHazards(t *testing.T, b *Browser, h *host) {
	for _, c := range []struct{ pick, guide, before string }{
		{"reseat-plug", "procedures/sensor-check/", ".do"},
		{"oil-change", "procedures/pump-oil/", ".do"},
		{"rise-test", "procedures/rise-test/", ".answers"},
	} {
		openTriage(t, b, h, "who=technician&clear=yes&pick="+c.pick)
		now(t, b)
		var got struct {
			Told, Open   []string
			Named        string
			Before, Wide bool
		}
		must(t, b.Script(&got, `
			return (async () => {
				const page = new DOMParser().parseFromString(await (await fetch(arguments[0])).text(), "text/html");
				const words = (from, css) => [...from.querySelectorAll(css)].map((part) => part.textContent.trim());
				const mind = document.querySelector(".now .mind");
				return { Told: words(page, ".hazards .brief"), Open: words(mind, ".hazard"), Named: mind.querySelector("summary").innerText, Wide: mind.open,
					Before: !!(mind.compareDocumentPosition(document.querySelector(".now " + arguments[1])) & Node.DOCUMENT_POSITION_FOLLOWING) };
			})()`, h.address+c.guide, c.before))
		slices.Sort(got.Told)
		slices.Sort(got.Open)
		if len(got.Told) == 0 || !slices.Equal(got.Told, got.Open) {
			t.Errorf("%s warns of\n%q\nits guide of\n%q", c.pick, got.Open, got.Told)
		}
		if !got.Before || got.Wide != (c.before == ".do") || !strings.Contains(got.Named, "DANGER mains") {
			t.Errorf("%s: the hazards stand before it: %v, unfolded: %v, in short: %q", c.pick, got.Before, got.Wide, got.Named)
		}
		wantWithinWidth(t, b)
	}
	openTriage(t, b, h, "who=technician&clear=yes&pick=call-refrigeration")
	now(t, b)
	var stop string
	must(t, b.Script(&stop, `return document.querySelector(".now .stop").innerText`))
	if !strings.Contains(stop, "certified refrigeration technician") {
		t.Errorf("licensed work ends with %q", stop)
	}
}

// askCustomer knows nothing and helps nothing: all that is offered on the way is safe for anyone, and the way ends at the shop.
func askCustomer(t *testing.T, b *Browser, h *host) {
	openTriage(t, b, h, "who=customer&clear=yes")
	for asked := 0; ; asked++ {
		shown := now(t, b)
		if shown.Step == "" {
			if shown.Heading != "Call the shop" || asked == 0 {
				t.Errorf("after %d steps a customer is told %q", asked, shown.Heading)
			}
			break
		}
		if asked > 40 {
			t.Fatal("a customer who knows nothing is never told to call the shop")
		}
		var others []string
		must(t, b.Script(&others, `
			return (async () => {
				const sheet = new DOMParser().parseFromString(await (await fetch("sheet/index.html")).text(), "text/html");
				const steps = [...sheet.querySelectorAll("[data-who]")];
				const safe = (step) => step.dataset.who.split(" ").includes("customer");
				const named = [...document.querySelectorAll(".now .quiet")].map((key) => key.innerText.replace(/, [^,]*$/, ""));
				return steps.filter((step) => !safe(step) && (step.dataset.step === arguments[0] || named.includes(step.querySelector("h3").textContent))).map((step) => step.id);
			})()`, shown.Step))
		if len(others) > 0 {
			t.Errorf("a customer is offered %q", others)
		}
		if shown.Finding != "" {
			say(t, b, shown.Finding, "")
		} else {
			noHelp(t, b)
		}
	}
	picture(t, b, "triage call")
}

// printSheet: the whole order fits two sheets of paper, printed on both sides.
func printSheet(t *testing.T, b *Browser, h *host) {
	must(t, b.Open(h.address+"triage/sheet/"))
	wantDressed(t, b)
	document, err := b.Print(A4)
	must(t, err)
	keep(t, "triage-sheet.pdf", document)
	if n := len(pageOfPDF.FindAll(document, -1)); n < 1 || n > 4 {
		t.Errorf("the sheet prints on %d pages, expected 4 at most", n)
	}
}

// pageOfPDF begins the description of one page, as this browser writes it.
var pageOfPDF = regexp.MustCompile(`/Type\s*/Page\b`)

// sendReport copies what was found out, with and without leave to, shares it where there is sharing, and opens its address elsewhere.
func sendReport(t *testing.T, b *Browser, h *host) {
	openTriage(t, b, h, "who=technician&clear=yes&answers=jumps:yes,plug-moves:yes,over-range:unknown&done=reseat-plug")
	before := now(t, b)
	var lacks bool
	must(t, b.Script(&lacks, `return !("share" in navigator)`))
	var hidden bool
	must(t, b.Script(&hidden, `return document.querySelector("[data-do=share]").hidden`))
	if hidden != lacks {
		t.Errorf("the key for sharing is hidden: %v, where the browser lacks it: %v", hidden, lacks)
	}
	must(t, b.Script(nil, `document.querySelector(".report").open = true`))

	must(t, b.Permit(true))
	tap(t, b, "[data-do=copy]")
	b.untilText(t, "[data-do=copy]", "Copied")
	var copied, report string
	must(t, b.Script(&copied, `return navigator.clipboard.readText()`))
	must(t, b.Script(&report, `return document.querySelector(".report textarea").value`))
	if copied != report || !strings.Contains(report, "Reseat the sensor plug: It did not help.") || !strings.Contains(report, "I don't know") {
		t.Errorf("copied is\n%s\nexpected\n%s", copied, report)
	}

	must(t, b.Permit(false))
	tap(t, b, "[data-do=copy]")
	b.untilText(t, "[data-do=copy]", "Copy it by hand")
	var selected string
	must(t, b.Script(&selected, `const text = document.querySelector(".report textarea"); return text.value.slice(text.selectionStart, text.selectionEnd)`))
	if selected != report {
		t.Errorf("without leave to copy, selected is %q", selected)
	}

	address := h.address + "triage/#"
	_, form, found := strings.Cut(report, address)
	if !found {
		t.Fatalf("the report lacks its address %s…:\n%s", address, report)
	}
	here, err := b.Window()
	must(t, err)
	other, err := b.NewWindow()
	must(t, err)
	must(t, b.Switch(other))
	must(t, b.Prepare(`navigator.share = async ({ text }) => { window.shared = text; }`))
	form, _, _ = strings.Cut(form, "\n")
	openTriage(t, b, h, form)
	after := now(t, b)
	if after.Given != before.Given || after.Heading != before.Heading || !slices.Equal(after.Causes, before.Causes) {
		t.Errorf("opened elsewhere the page shows\n%+v\nexpected\n%+v", after, before)
	}
	must(t, b.Script(nil, `document.querySelector(".report").open = true`))
	tap(t, b, "[data-do=share]")
	var shared string
	must(t, b.Script(&shared, `return window.shared`))
	if shared != report {
		t.Errorf("shared is\n%s\nexpected\n%s", shared, report)
	}
	must(t, b.Switch(here))
}

func sayStop(t *testing.T, b *Browser) {
	press(t, b, "[data-do=anew]")
	press(t, b, ".now .answers button")
	if shown := now(t, b); shown.Heading != "Stop here" || shown.Finding != "" || len(shown.Causes) > 0 {
		t.Errorf("after a yes to a question of safety the page shows %+v", shown)
	}
	picture(t, b, "triage stop")
}

// hostile are addresses that somebody may send.
var hostile = []string{
	"who=root", "answers=jumps:maybe", "answers=jumps", "answers=nothing:yes", "answers=rise-size:" + url.QueryEscape("<img src=x onerror=alert(1)>"),
	"done=format-disk", "stop=%00", "answers=%E0%A4%A", "constructor=1", "__proto__=1", "clear=no", "ended=x", "a=b=c", "<script>alert(1)</script>",
	"who=customer&answers=" + strings.Repeat("jumps:yes,", 500), "edit=jumps%22%3E", "who=customer&clear=yes&pick=oil-change", "clear=yes&pick=rise-test", "who=technician&clear=yes&answers=jumps:yes:no",
}

func openHostile(t *testing.T, b *Browser, h *host) {
	for _, fragment := range hostile {
		must(t, b.Open(h.address+"record/"))
		must(t, b.Open(h.address+"triage/#"+fragment))
		shown := now(t, b)
		if !strings.HasPrefix(shown.Fault, "The address holds something") || shown.Finding != "" || shown.Given != "" {
			t.Errorf("%.60s shows %+v", fragment, shown)
		}
	}
	must(t, b.Open(h.address+"record/"))
	must(t, b.Open(h.address+"triage/#who=technician&clear=yes&answers=rise-shape:straight,rise-size:much"))
	if shown := now(t, b); !strings.Contains(shown.Fault, "how far the climb is over its limit") || !strings.Contains(shown.Given, "much") {
		t.Errorf("a value that is none shows %+v", shown)
	}
}

// TestTriageWithoutItsWords: where the sheet does not come, the page stays as it is without scripts: stops first, then the order.
func TestTriageWithoutItsWords(t *testing.T) {
	files := filesOf(t, publish(t))
	delete(files, "triage/sheet/index.html")
	h := serve(t, files)
	b := phone(t)
	must(t, b.Open(h.address+"triage/"))
	must(t, b.Until("the page has given the words up", func() (bool, error) {
		messages, err := b.Console()
		return slices.ContainsFunc(messages, func(m Message) bool { return strings.Contains(m.Message, "sheet/index.html is not there (404)") }), err
	}))
	var shown string
	must(t, b.Script(&shown, `return document.querySelector("main").innerText`))
	stops, order := strings.Index(shown, "Is there smoke"), strings.Index(shown, "Ask in this order")
	if stops < 0 || order < stops || strings.Contains(shown, "Owner or user") {
		t.Errorf("without its words the page says\n%s", shown)
	}
}
