package journey

import (
	"slices"
	"strings"
	"testing"
)

// reader is one walk: what the acts of it share.
type reader struct {
	*Browser
	host *host
}

// acts are what a reader does from the first look to the next step without a network, in order. Each begins where the one before ended.
var acts = []struct {
	name string
	do   func(t *testing.T, r reader)
}{
	{"find a symptom", func(t *testing.T, r reader) {
		must(t, r.Open(r.host.address))
		wantDressed(t, r.Browser)
		wantNarrow(t, r.Browser)
		follow(t, r.Browser, "main #symptoms a", "symptoms/never-reaches-pressure/")
	}},
	{"follow it to a procedure", func(t *testing.T, r reader) {
		follow(t, r.Browser, "main a", risePage)
		tap(t, r.Browser, "#step-1 .tick input")
		var ticked bool
		must(t, r.Script(&ticked, `return document.querySelector("#step-1 .tick input").checked`))
		if !ticked {
			t.Error("a tap on the box of the first step does not tick it")
		}
	}},
	{"enter a rise", func(t *testing.T, r reader) { calculate(t, r.Browser, "rise-log", bentRise) }},
	{"hear the verdict once", hearOnce},
	{"hand on what was entered", handOn},
	{"choose units", func(t *testing.T, r reader) {
		must(t, r.Reload())
		written := quantitiesOf(t, r.Browser)
		openUnits(t, r.Browser)
		takeUnits(t, r.Browser, "SI")
		wantUnits(t, r.Browser, written, inSI)
		allInSI := func(s shown) bool {
			return s.Ladder == "Pa" && s.Axis == "pressure, Pa" && strings.Contains(s.Answer, " Pa·m³/s") && strings.HasSuffix(s.Entries["start"], " Pa")
		}
		untilShown(t, r.Browser, "ladder, picture, entries and answers follow", allInSI)
		must(t, r.Reload())
		wantUnits(t, r.Browser, written, inSI)
		untilShown(t, r.Browser, "all of it does after the next visit", allInSI)
		setUnits(t, r.Browser, "As written") // the next acts compare with the authors' units
	}},
	{"find a page by words", func(t *testing.T, r reader) {
		tap(t, r.Browser, "a.seek")
		r.untilActive(t, "#seek")
		field, err := r.Find("#seek")
		must(t, err)
		must(t, field.Type("milkey oil"))
		found := untilSearched(t, r.Browser, " pages")
		must(t, field.Type("\ue015")) // arrow down
		r.untilActive(t, ".found li:first-child a")
		link, err := r.Find(".found li:first-child a")
		must(t, err)
		must(t, link.Type(Enter))
		must(t, r.Until("the page found is there", func() (bool, error) {
			address, err := r.Address()
			return strings.Contains(address, "/symptoms/oil-looks-wrong/"), err
		}))
		must(t, r.Script(nil, "history.back()"))
		must(t, r.Until("what was typed is there again", func() (there bool, err error) {
			err = r.Script(&there, `return document.querySelector("#seek")?.value === "milkey oil"`)
			return there, err
		}))
		if back := untilSearched(t, r.Browser, " pages"); back.Titles[0] != found.Titles[0] {
			t.Errorf("going back brings %+v", back)
		}
		must(t, r.Open(r.host.address+risePage))
	}},
	{"lose the network", func(t *testing.T, r reader) {
		r.untilText(t, "p.saved[data-saved=ready]", "Works offline")
		r.host.stop()
		must(t, r.Reload())
		r.untilText(t, "p.saved[data-saved=ready]", "Works offline")
		wantDressed(t, r.Browser)
	}},
	{"walk on by the thumb bar", func(t *testing.T, r reader) {
		for _, section := range []string{"symptoms", "procedures", "machines", "record"} {
			follow(t, r.Browser, "nav.thumb a", section+"/")
		}
	}},
	{"calculate again", func(t *testing.T, r reader) {
		walkTo(t, r.Browser, "rise-log")
		calculate(t, r.Browser, "rise-log", bentRise)
	}},
	{"answer a question of the triage", func(t *testing.T, r reader) {
		follow(t, r.Browser, "header a", "")
		follow(t, r.Browser, "main #begin a", "triage/")
		now(t, r.Browser)
		tap(t, r.Browser, ".answers .none")
		must(t, r.Until("it asks a question", func() (bool, error) { return now(t, r.Browser).Finding != "", nil }))
		tap(t, r.Browser, ".now .unknown")
		must(t, r.Until("it has taken the answer", func() (bool, error) {
			return strings.HasPrefix(now(t, r.Browser).Progress, "1 answered"), nil
		}))
	}},
	{"log a rise by tap", func(t *testing.T, r reader) {
		openLog(t, r.Browser, r.host.address+"calculators/rise-log/")
		tap(t, r.Browser, ".log .take")
		untilRows(t, r.Browser, "clock started")
		takeReading(t, r.Browser, "120")
		untilRows(t, r.Browser, "clock started; 120 mTorr")
		untilOnDisk(t, r.Browser)
	}},
	{"lock and resume", func(t *testing.T, r reader) {
		openLog(t, r.Browser, r.host.address+"calculators/rise-log/")
		untilRows(t, r.Browser, "clock started; 120 mTorr")
		takeReading(t, r.Browser, "131")
		untilRows(t, r.Browser, "clock started; 120 mTorr; 131 mTorr")
		untilOnDisk(t, r.Browser)
		openSteps(t, r.Browser, r.host.address+risePage)
		untilStep(t, r.Browser, "step-1", isDone)
	}},
	{"log a pump-down and compare gauges, with a lock in between", func(t *testing.T, r reader) {
		openLog(t, r.Browser, r.host.address+"calculators/pump-down-log/")
		tap(t, r.Browser, ".log .take")
		takeReading(t, r.Browser, "1900")
		untilRows(t, r.Browser, "clock started; 1900 mTorr")
		untilOnDisk(t, r.Browser)
		page := r.host.address + "calculators/gauge-compare/"
		openLog(t, r.Browser, page)
		takeReading(t, r.Browser, "410")
		untilRows(t, r.Browser, "410 mTorr")
		untilOnDisk(t, r.Browser)
		openLog(t, r.Browser, page)
		untilRows(t, r.Browser, "410 mTorr")
		takeReading(t, r.Browser, "92")
		untilRows(t, r.Browser, "410 mTorr, 92 mTorr")
		r.untilText(t, ".stands strong", "Decided: they disagree; keep going, for the pattern: three pairs far apart")
		must(t, r.Until("the result is kept", func() (bool, error) {
			return slices.Contains(resultsKept(t, r.Browser), "calculators/gauge-compare/"), nil // which holds a table
		}))
		openLog(t, r.Browser, r.host.address+"calculators/pump-down-log/")
		untilRows(t, r.Browser, "clock started; 1900 mTorr")
	}},
	{"hand the job on", func(t *testing.T, r reader) {
		must(t, r.Open(r.host.address+"record/"))
		must(t, r.Until("the job is shown", func() (shown bool, err error) {
			err = r.Script(&shown, `return [...document.querySelectorAll(".job-sheet h3")].some(({ textContent }) => textContent === "Chamber rise test")`)
			return shown, err
		}))
		must(t, r.Script(nil, catches))
		keyNamed(t, r.Browser, "Share as text")
		text := caught(t, r.Browser)
		for _, part := range []string{"Step 1 done", "Verdict: Pass", "120 mTorr", "131 mTorr"} {
			if !strings.Contains(text, part) {
				t.Errorf("the text lacks %q:\n%s", part, text)
			}
		}
		keyNamed(t, r.Browser, "Save as a file")
		wantRecord(t, caught(t, r.Browser), true)
	}},
}

// handOn opens the sheet with the code, and what it hands on in the same window: the answer is the same.
func handOn(t *testing.T, r reader) {
	t.Helper()
	var place string
	must(t, r.Script(&place, `return document.querySelector("[data-calculator=rise-log]").id`))
	here := untilBlock(t, r.Browser, place, "the answer stands", func(seen block) bool { return !strings.Contains(seen.Answer, "Computing") && seen.Key != "" })
	tap(t, r.Browser, "#"+place+" .hand")
	var address string
	must(t, r.Until("the code is drawn", func() (drawn bool, err error) {
		err = r.Script(&drawn, `return document.querySelector("dialog[open] svg.code") !== null`)
		return drawn, err
	}))
	must(t, r.Script(&address, `return document.querySelector("dialog textarea").value`))
	tap(t, r.Browser, "dialog .keys :last-child")
	must(t, r.Open(r.host.address+"machines/"))
	must(t, r.Open(address))
	there := untilBlock(t, r.Browser, place, "the entries are those of the address", filledIn)
	if verdictOf(there) != verdictOf(here) || there.Key != address {
		t.Errorf("the address gives %+v\nwant %+v", there, here)
	}
	must(t, r.Open(r.host.address+"machines/"))
	must(t, r.Open(r.host.address+risePage))
}

// verdictOf cuts an answer before its picture, which may still be on its way.
func verdictOf(seen block) string {
	verdict, _, _ := strings.Cut(seen.Answer, "curvature")
	return verdict
}

// wantNarrow: each engine shows the site as wide as the smallest phone.
func wantNarrow(t *testing.T, b *Browser) {
	t.Helper()
	var width, height int
	must(t, b.Script(&[]any{&width, &height}, "return [innerWidth, innerHeight]"))
	if width != Phone.Width || height != Phone.Height {
		t.Errorf("the page sees a window of %d × %d, want %d × %d", width, height, Phone.Width, Phone.Height)
	}
}

// hearOnce: one entry is told to a screen reader by one sentence, and nothing else on the page speaks.
func hearOnce(t *testing.T, r reader) {
	r.untilText(t, "p.saved[data-saved=ready]", "Works offline") // which is told too
	must(t, r.Script(nil, `
		window.heard = [];
		for (const region of document.querySelectorAll("[aria-live], [role=alert], [role=status]"))
			new MutationObserver(() => { if (region.textContent.trim()) heard.push(region.textContent); })
				.observe(region, { childList: true, characterData: true, subtree: true });`))
	for i, limit := range []string{"0.03", "0.04"} {
		must(t, r.Script(nil, `
			const entry = document.querySelector("[data-calculator=rise-log] [data-input=limit] input");
			entry.value = arguments[0];
			entry.dispatchEvent(new Event("input", { bubbles: true }));`, limit))
		var heard []string
		must(t, r.Until("the verdict is told", func() (told bool, err error) {
			err = r.Script(&heard, "return heard")
			return len(heard) > i, err
		}))
		if len(heard) != i+1 || !strings.HasPrefix(heard[i], "Pass") {
			t.Errorf("after %d entries a screen reader has said %q", i+1, heard)
		}
	}
}

// bentRise are readings of a chamber whose walls still give off water, invented, as a person types them.
var bentRise = []entry{
	{field: "log", typed: bentLog, means: bentLog},
	{field: "volume", typed: "24", unit: "L", means: "24 L"},
	{field: "limit", typed: "0.02", unit: "mbar·L/s", means: "0.02 mbar·L/s"},
}

var bentLog = strings.Join([]string{"time min,pressure mTorr", "2,260", "3,360", "4,442", "5,508", "6,562", "7,605", "8,641", "9,669", "10,693"}, "\n")

var inSI = map[string]string{"150 mTorr": "20.0 Pa", "2,000 mTorr": "267 Pa", "20 mTorr/min": "2.7 Pa/min"}

// TestReader is one journey in three engines.
func TestReader(t *testing.T) {
	t.Parallel()
	inEachEngine(t, func(t *testing.T, b *Browser) {
		r := reader{b, serve(t, filesOf(t, publish(t)))}
		for _, act := range acts {
			if !t.Run(act.name, func(t *testing.T) { act.do(t, r) }) {
				t.Fatal("the walk ends here: the next acts would only wait in vain")
			}
			picture(t, b, t.Name()+" "+act.name)
		}
	})
}
