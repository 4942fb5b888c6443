package journey

import (
	"fmt"
	"net/url"
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
			press(t, b, ".no-help, .now .answers button")
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
			const text = (css) => document.querySelector(".talk " + css)?.innerText ?? "";
			const said = document.querySelector(".now").dataset;
			const titles = new Map([...document.querySelectorAll("[data-cause]")].map((part) => [part.querySelector("b").textContent, part.dataset.cause]));
			return { Heading: text(".now h2"), Step: said.step ?? "", Finding: said.finding ?? "", Progress: text(".progress"), Given: text(".given"), Fault: text(".now .fault"),
				Causes: [...document.querySelectorAll(".belief > .bars .what")].map((part) => titles.get(part.textContent) ?? part.textContent) };`)
		return shown.Heading != "", err
	}))
	return shown
}

// press taps what is shown, and waits until the page has answered.
func press(t *testing.T, b *Browser, css string) {
	t.Helper()
	must(t, b.Script(nil, `for (const part of document.querySelectorAll(".now .ask > *, .belief > *")) part.journey = "old"`))
	var before string
	must(t, b.Script(&before, "return location.hash"))
	tap(t, b, css)
	must(t, b.Until("the page goes on", func() (gone bool, err error) {
		err = b.Script(&gone, `return location.hash === arguments[0] || ![...document.querySelectorAll(".now .ask > *")].some((part) => part.journey)`, before)
		return gone, err
	}))
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
		press(t, b, ".now .value-of button")
	default:
		press(t, b, fmt.Sprintf(".now [data-say=%s]", answer))
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
	press(t, b, ".now [data-say=no]")
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
	"who=customer&answers=" + strings.Repeat("jumps:yes,", 500), "edit=jumps%22%3E", "who=technician&clear=yes&answers=jumps:yes:no",
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
	if shown := now(t, b); !strings.Contains(shown.Fault, "rise-size") || !strings.Contains(shown.Given, "much") {
		t.Errorf("a value that is none shows %+v", shown)
	}
}

// TestTriageOnASlowPhone: on a phone of a quarter of the speed each tap brings a new belief too. It tells how long that takes.
func TestTriageOnASlowPhone(t *testing.T) {
	h := serve(t, filesOf(t, publish(t)))
	b := phone(t)
	must(t, b.Open(h.address+"triage/#who=technician&clear=yes&answers=jumps:no"))
	now(t, b)
	for _, slower := range []int{1, 4} {
		must(t, b.Slow(slower))
		var took []float64
		must(t, b.Open(h.address+"record/"))
		must(t, b.Open(h.address+"triage/#who=technician&clear=yes&answers=jumps:no"))
		for range 6 {
			shown := now(t, b)
			if shown.Finding == "" {
				break
			}
			must(t, b.Script(nil, `
				const begun = performance.now();
				window.took = 0;
				new MutationObserver((_, watch) => { watch.disconnect(); window.took = performance.now() - begun; }).observe(document.querySelector(".belief"), { childList: true });
				document.querySelector(".now .unknown").click();`))
			var ms float64
			must(t, b.Until("it is answered", func() (bool, error) {
				err := b.Script(&ms, "return window.took")
				return ms > 0, err
			}))
			took = append(took, ms)
		}
		if len(took) < 3 {
			t.Errorf("slowed down by %d, only %d questions were asked", slower, len(took))
		}
		t.Logf("slowed down by %d: from the tap to the new belief %.1f ms", slower, took)
	}
}
