package journey

import (
	"maps"
	"strings"
	"testing"
)

// TestWorkGoesOnFromAnyPage: one key leads to where the work stopped, moves nothing on the page, and goes when the job is put aside.
func TestWorkGoesOnFromAnyPage(t *testing.T) {
	h := serve(t, filesOf(t, publish(t)))
	b := phone(t)
	openSteps(t, b, h.address+risePage)
	must(t, b.Script(nil, `const list = document.querySelector("select.machine"); list.value = "torrask-38"; list.dispatchEvent(new Event("change", { bubbles: true }))`))
	tap(t, b, "#step-1 .tick input")
	tap(t, b, "#step-2 .tick input")
	b.untilText(t, ".work-strip .on", "Go on: step 3 of 11")

	for _, page := range []string{"", "pages/limits/", "machines/cindle-14/"} {
		must(t, b.Open(h.address+page))
		b.untilText(t, ".work-strip .on", "Go on: Chamber rise test, step 3")
		b.untilText(t, ".work-strip .job", "Torrask 38") // the machine that was chosen
		var moved float64
		must(t, b.Script(&moved, `return new Promise((done) => { let sum = 0; new PerformanceObserver((list) => { for (const shift of list.getEntries()) if (shift.sources.some(({ node }) => node?.parentElement?.closest("main, .thumb"))) sum += shift.value; }).observe({ type: "layout-shift", buffered: true });
			requestAnimationFrame(() => requestAnimationFrame(() => done(sum))); })`))
		if moved > 0 {
			t.Errorf("on %q the line shifts the page by %v", page, moved)
		}
	}
	picture(t, b, "work goes on")
	tap(t, b, ".work-strip .on")
	must(t, b.Until("step 3 is in sight", func() (seen bool, err error) {
		err = b.Script(&seen, `const row = document.getElementById("step-3"); if (!row?.querySelector(".kept")) return false;
			const { top } = row.getBoundingClientRect(); return top >= 0 && top < innerHeight / 2 && row.contains(document.activeElement)`)
		return seen, err
	}))
	must(t, b.Open(h.address+"record/"))
	b.untilText(t, ".job-sheet a.on", "Go on: Chamber rise test, step 3")
	keyNamed(t, b, "Put it aside")
	must(t, b.Until("no job is open", func() (closed bool, err error) {
		err = b.Script(&closed, `return document.querySelector(".job-sheet").hidden`)
		return closed, err
	}))
	if names := jobNames(t, b); names != "Torrask 38" {
		t.Errorf("put aside, the jobs are %q", names)
	}
	openSteps(t, b, h.address+risePage)
	untilStep(t, b, "step-1", isOpen)
	var hidden bool
	must(t, b.Script(&hidden, `return document.querySelector(".work-strip").hidden`))
	if !hidden {
		t.Error("a job that was put aside is still shown as in hand")
	}
	wantQuietConsole(t, b)
}

// TestAChangedGuideIsTold: who comes back to a guide that says something else by now is told, and the record keeps both states.
func TestAChangedGuideIsTold(t *testing.T) {
	files := filesOf(t, publish(t))
	delete(files, "sw.js") // it would rightly show the edition that is kept
	h := serve(t, files)
	b := phone(t)
	openSteps(t, b, h.address+risePage)
	tap(t, b, "#step-1 .tick input")
	untilStep(t, b, "step-1", isDone)
	said := func() (text string) {
		t.Helper()
		must(t, b.Script(&text, `return document.querySelector(".work-strip .trouble").textContent`))
		return text
	}
	if text := said(); text != "" {
		t.Errorf("a guide that is the same is said to be another: %q", text)
	}
	changed := maps.Clone(files)
	page := string(files[risePage+"index.html"])
	at := strings.Index(page, " data-text=")
	changed[risePage+"index.html"] = []byte(page[:at] + " data-text=0ddba11 data-was" + page[at+len(" data-text"):])
	h.replace(changed)
	must(t, b.Open(h.address+"record/"))
	b.untilText(t, ".job-sheet .changed", "The guide has changed since.")
	openSteps(t, b, h.address+risePage)
	must(t, b.Until("it is told", func() (bool, error) {
		return said() == "This guide has changed since this job was last here. Look again at the steps that are done.", nil
	}))
	picture(t, b, "guide changed")
	untilStep(t, b, "step-1", isDone)
	tap(t, b, "#step-2 .tick input")
	must(t, b.Until("it is told no more", func() (bool, error) { return said() == "", nil }))
	must(t, b.Open(h.address+"record/"))
	var states []string
	must(t, b.Until("the record has both states", func() (both bool, err error) {
		err = b.Script(&states, `return [...document.querySelectorAll(".of-page > .when")].map((state) => state.textContent)`)
		return len(states) == 2, err
	}))
	if !strings.Contains(states[0], "revision 3, ") || strings.Contains(states[0], "0ddba11") || !strings.Contains(states[1], "text 0ddba11, ") {
		t.Errorf("the states are %q", states)
	}
	delete(changed, risePage+"index.html")
	h.replace(changed)
	must(t, b.Reload())
	b.untilText(t, ".job-sheet .changed", "This site has no such page any more.")
}

// TestACalculatorsResultIsKeptWhenAsked: trying something on a calculator's page begins no job; what is kept stands under its title, with its formula.
func TestACalculatorsResultIsKeptWhenAsked(t *testing.T) {
	h := serve(t, filesOf(t, publish(t)))
	b := phone(t)
	must(t, b.Open(h.address+"calculators/rise-log/"))
	untilAtRest(t, b)
	entry, err := b.Find(`[data-input=volume] input`)
	must(t, err)
	must(t, entry.Retype("31"))
	must(t, b.Until("the key is there", func() (there bool, err error) {
		err = b.Script(&there, `return !document.querySelector(".keep button").disabled && document.querySelector(".answer .verdict") !== null`)
		return there, err
	}))
	must(t, b.Open(h.address+"record/"))
	b.untilText(t, ".jobs .none", "No job yet. The first tick in a procedure begins one.")
	must(t, b.Open(h.address+"calculators/rise-log/"))
	untilAtRest(t, b)
	must(t, b.Until("the key is there", func() (there bool, err error) {
		err = b.Script(&there, `return !document.querySelector(".keep button").disabled`)
		return there, err
	}))
	entry, err = b.Find(`[data-input=volume] input`)
	must(t, err)
	must(t, entry.Retype("31"))
	must(t, b.Until("the answer and its picture stand, so nothing moves", func() (stands bool, err error) {
		err = b.Script(&stands, `return document.querySelector(".answer .verdict") !== null && document.querySelector(".answer [aria-busy]") === null`)
		return stands, err
	}))
	tap(t, b, ".keep button")
	untilResult(t, b)
	must(t, b.Open(h.address+"record/"))
	b.untilText(t, ".job-sheet h3", "Chamber rise log")
	must(t, b.Script(nil, catches))
	keyNamed(t, b, "Share as text")
	text := caught(t, b)
	for _, part := range []string{"Chamber rise log\n  text ", "volume 31 ", "    Formula: Q = V m\n", " ± "} {
		if !strings.Contains(text, part) {
			t.Errorf("the text lacks %q:\n%s", part, text)
		}
	}
	if strings.Contains(text, "calculators/") {
		t.Errorf("the text names a path:\n%s", text)
	}
	wantQuietConsole(t, b)
}

// TestWhatIsNotKeptCanBeSavedFromThePage: where the browser keeps nothing, the page says so, and all of it can be had as a file before the page is left.
func TestWhatIsNotKeptCanBeSavedFromThePage(t *testing.T) {
	t.Parallel()
	h := serve(t, filesOf(t, publish(t)))
	for _, test := range refusals {
		t.Run(test.name, func(t *testing.T) {
			b := phone(t)
			must(t, b.Prepare(test.before))
			openSteps(t, b, h.address+risePage)
			tap(t, b, "#step-1 .tick input")
			untilStep(t, b, "step-1", isDone)
			var told string
			must(t, b.Until("it is told", func() (bool, error) {
				err := b.Script(&told, `return document.querySelector(".work-strip .trouble").textContent`)
				return strings.HasPrefix(told, test.want), err
			}))
			picture(t, b, t.Name())
			wantWithinWidth(t, b)
			must(t, b.Script(nil, catches))
			must(t, b.Script(nil, `[...document.querySelectorAll(".work-strip button")].find((key) => key.textContent === "Save as a file").dataset.journey = "save"`))
			tap(t, b, "[data-journey=save]")
			file := caught(t, b)
			wantRecord(t, file, true)
			for _, part := range []string{`"is": "guide"`, `"is": "tick"`, `"text": "Chamber rise test"`} {
				if !strings.Contains(file, part) {
					t.Errorf("the file lacks %s:\n%s", part, file)
				}
			}
			// A note is kept beside it, and both can be taken back.
			undone := `[...document.querySelectorAll(".work-strip button")].find((key) => key.textContent === "Undo").click()`
			must(t, b.Script(nil, undone))
			untilStep(t, b, "step-1", isOpen)
		})
	}
}
