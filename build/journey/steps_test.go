package journey

import (
	"strings"
	"testing"
)

// kept says what stands at one step of a procedure.
type kept struct {
	Done bool
	When string
	Note string
}

func stepAt(t *testing.T, b *Browser, id string) (s kept) {
	t.Helper()
	must(t, b.Script(&s, `const row = document.getElementById(arguments[0]);
		return { Done: row.querySelector(".tick input").checked, When: row.querySelector(".kept .when")?.textContent ?? "", Note: row.querySelector(".kept textarea")?.value ?? "" }`, id))
	return s
}

func untilStep(t *testing.T, b *Browser, id string, holds func(kept) bool) {
	t.Helper()
	var last kept
	if err := b.Until(id+" is shown as it was kept", func() (bool, error) {
		last = stepAt(t, b, id)
		return holds(last), nil
	}); err != nil {
		t.Fatalf("%v: %+v", err, last)
	}
}

func isDone(s kept) bool { return s.Done && strings.HasPrefix(s.When, "Done ") }
func isOpen(s kept) bool { return !s.Done && s.When == "" }

func openSteps(t *testing.T, b *Browser, address string) {
	t.Helper()
	must(t, b.Open(address))
	untilStepsKeep(t, b)
}

// TestStepsAreKept works on a procedure as somebody does whose phone is locked, or closes the page, in between.
func TestStepsAreKept(t *testing.T) {
	h := serve(t, filesOf(t, publish(t)))
	b := phone(t)
	page := h.address + risePage
	openSteps(t, b, page)
	tap(t, b, "#step-1 .tick input")
	tap(t, b, "#step-2 .tick input")
	tap(t, b, "#step-2 .kept button")
	note, err := b.Find("#step-2 .kept textarea")
	must(t, err)
	must(t, note.Type("pane clean"))
	// The note is kept when its field is left, which the next tap does.
	tap(t, b, "#step-3 .tick input")
	untilStep(t, b, "step-3", isDone)

	openSteps(t, b, page)
	for _, id := range []string{"step-1", "step-2", "step-3"} {
		untilStep(t, b, id, isDone)
	}
	untilStep(t, b, "step-2", func(s kept) bool { return s.Note == "pane clean" })
	untilStep(t, b, "step-4", isOpen)
	b.untilText(t, ".work-strip .job", "Unnamed job")
	picture(t, b, "steps kept")

	// Go on: the first step that is not done.
	b.untilText(t, ".work-strip .on", "Go on: step 4 of 11")
	tap(t, b, ".work-strip .on")
	must(t, b.Until("step 4 is in sight", func() (seen bool, err error) {
		err = b.Script(&seen, `const { top } = document.getElementById("step-4").getBoundingClientRect(); return top >= 0 && top < innerHeight / 2 && document.activeElement.closest("#step-4") !== null`)
		return seen, err
	}))
	picture(t, b, "steps go on")

	undo := func() {
		t.Helper()
		must(t, b.Script(nil, `[...document.querySelectorAll(".work-strip button")].find((key) => key.textContent === "Undo").dataset.journey = "undo"`))
		tap(t, b, "[data-journey=undo]")
	}
	undo()
	untilStep(t, b, "step-3", isOpen)
	undo()
	untilStep(t, b, "step-2", func(s kept) bool { return s.Note == "" && s.Done })

	// Clearing asks, and can be taken back.
	tap(t, b, ".work-end summary")
	b.untilText(t, ".work-end .asking > p", "All ticks, notes and readings of this page go out of the job. Undo brings them back.")
	untilStep(t, b, "step-1", isDone)
	tap(t, b, ".work-end [data-do=clear]")
	untilStep(t, b, "step-1", isOpen)
	undo()
	untilStep(t, b, "step-1", isDone)
	wantQuietConsole(t, b)
}

// TestReadingsOfAStepAreKept: what was typed into a calculator stands there after a reload, and so does its answer.
func TestReadingsOfAStepAreKept(t *testing.T) {
	h := serve(t, filesOf(t, publish(t)))
	b := phone(t)
	page := h.address + risePage
	openSteps(t, b, page)
	const field = `main section.calculator [data-input] input`
	var before, answer string
	must(t, b.Script(&before, `return document.querySelector("main section.calculator .answer").innerText`))
	entry, err := b.Find(field)
	must(t, err)
	must(t, entry.Retype("31"))
	must(t, b.Until("the calculator answers anew", func() (bool, error) {
		err := b.Script(&answer, `return document.querySelector("main section.calculator .answer").innerText`)
		return answer != before && !strings.Contains(answer, "Computing"), err
	}))
	b.untilText(t, ".work-strip .job", "Unnamed job")
	openSteps(t, b, page)
	must(t, b.Until("the entry is back, with its answer", func() (bool, error) {
		var value, again string
		err := b.Script(&again, `return document.querySelector("main section.calculator .answer").innerText`)
		if err == nil {
			err = b.Script(&value, `return document.querySelector(arguments[0]).value`, field)
		}
		return value == "31" && again == answer, err
	}))
	if kept := len(resultsKept(t, b)); kept != 1 {
		t.Errorf("%d results are kept, want the one that was typed", kept)
	}
	wantQuietConsole(t, b)
}

// TestABranchOpensInPlace: an 'if not' that leads to another guide shows it under the step, hazards and all.
func TestABranchOpensInPlace(t *testing.T) {
	h := serve(t, filesOf(t, publish(t)))
	b := phone(t)
	openSteps(t, b, h.address+risePage)
	openSeal(t, b)
	var got struct {
		Path, Title string
		Hazards     int
		Twice       []string
		Dead        []string
	}
	must(t, b.Script(&got, `const branch = document.querySelector(".branch"), ids = [...document.querySelectorAll("[id]")].map(({ id }) => id);
		return { Path: location.pathname, Title: branch.querySelector("h3").textContent, Hazards: branch.querySelectorAll(".hazards .hazard").length,
			Twice: ids.filter((id, i) => ids.indexOf(id) < i), Dead: [...branch.querySelectorAll("label[for]")].map((l) => l.htmlFor).filter((id) => !document.getElementById(id)) }`))
	if !strings.HasSuffix(got.Path, risePage) || got.Hazards == 0 || len(got.Twice) > 0 || len(got.Dead) > 0 {
		t.Errorf("the branch is %+v", got)
	}
	picture(t, b, "branch")
	wantMachineInBranch(t, b)
	tap(t, b, `.branch [data-place="step-1"] .tick input`)
	untilStep(t, b, "step-1", isOpen) // the page's own step is another one
	wantWithinWidth(t, b)
	tap(t, b, ".branch > button")
	must(t, b.Until("the branch is closed", func() (gone bool, err error) {
		err = b.Script(&gone, `return !document.querySelector(".branch") && document.activeElement.closest("#step-3") !== null`)
		return gone, err
	}))
	openSteps(t, b, h.address+"procedures/door-seal/")
	untilStep(t, b, "step-1", isDone)
	wantQuietConsole(t, b)
}

// wantMachineInBranch: the machine chosen on the page holds in the guide that was opened in it, and the other way round.
func wantMachineInBranch(t *testing.T, b *Browser) {
	t.Helper()
	choose := func(css, name string) {
		t.Helper()
		must(t, b.Script(nil, `const list = document.querySelector(arguments[0]); list.value = arguments[1]; list.dispatchEvent(new Event("change", { bubbles: true }))`, css, name))
	}
	for _, list := range []string{"main > .facts select.machine", ".branch select.machine"} {
		for _, name := range []string{"oskel-b9", "torrask-38"} {
			choose(list, name)
			var all []string
			must(t, b.Script(&all, `return [...document.querySelectorAll("select.machine")].map((list) => list.disabled ? "disabled" : list.value)`))
			for _, got := range all {
				if got != name {
					t.Fatalf("after %s on %s the lists say %q", name, list, all)
				}
			}
		}
	}
}

// TestTheScreenStaysOnWhileWorking: the browser's lock is taken with the first tick, given back out of sight and at the end.
func TestTheScreenStaysOnWhileWorking(t *testing.T) {
	h := serve(t, filesOf(t, publish(t)))
	b := phone(t)
	must(t, b.post("/goog/cdp/execute", map[string]any{"cmd": "Page.addScriptToEvaluateOnNewDocument", "params": map[string]any{"source": `
		window.locks = { taken: 0, held: 0 };
		Object.defineProperty(Navigator.prototype, "wakeLock", { value: { async request() {
			locks.taken++; locks.held++;
			const lock = new EventTarget();
			lock.release = async () => { if (lock.done) return; lock.done = true; locks.held--; lock.dispatchEvent(new Event("release")); };
			window.lastLock = lock;
			return lock;
		} } });`}}, nil))
	openSteps(t, b, h.address+"procedures/door-seal/")
	held := func(want int) {
		t.Helper()
		must(t, b.Until("the lock is as wanted", func() (bool, error) {
			var got int
			err := b.Script(&got, `return window.locks.held`)
			return got == want, err
		}))
	}
	held(0)
	tap(t, b, "#step-1 .tick input")
	held(1)
	// Out of sight the browser releases it; back in sight it is wanted again.
	must(t, b.Script(nil, `window.lastLock.release().then(() => document.dispatchEvent(new Event("visibilitychange")))`))
	held(1)
	var steps int
	must(t, b.Script(&steps, `const boxes = [...document.querySelectorAll(".step > .tick input")]; for (const box of boxes) if (!box.checked) box.click(); return boxes.length`))
	held(0)
	tap(t, b, "#step-1 .tick input")
	held(1)
	must(t, b.Script(nil, `dispatchEvent(new Event("pagehide"))`))
	held(0)
}

// TestTheScreenIsWantedAgainWhileItIsLetGo: the browser takes its time for both; what was asked for last holds.
func TestTheScreenIsWantedAgainWhileItIsLetGo(t *testing.T) {
	b, _ := openPart(t, `import * as awake from "./awake"; Object.assign(window, { parts: awake });`, `
		window.held = 0;
		const later = () => new Promise((done) => requestAnimationFrame(done));
		Object.defineProperty(Navigator.prototype, "wakeLock", { value: { async request() {
			await later();
			window.held++;
			const lock = new EventTarget();
			lock.release = async () => { await later(); if (lock.done) return; lock.done = true; window.held--; lock.dispatchEvent(new Event("release")); };
			return lock;
		} } });`)
	for _, test := range []struct {
		name, acts string
		held       int
	}{
		{"wanted", `stayAwake()`, 1},
		{"let go and wanted again", `letSleep(); stayAwake()`, 1},
		{"let go", `letSleep()`, 0},
		{"wanted and let go before it came", `stayAwake(); letSleep()`, 0},
		{"wanted twice, let go, wanted", `stayAwake(); stayAwake(); letSleep(); stayAwake()`, 1},
	} {
		var held []int
		must(t, b.Script(&held, `const { stayAwake, letSleep } = window.parts; `+test.acts+`;
			return (async () => { const seen = []; for (let frame = 0; frame < 12; frame++) { await new Promise((done) => requestAnimationFrame(done)); seen.push(window.held); } return seen; })()`))
		if held[len(held)-1] != test.held {
			t.Errorf("%s: locks held frame by frame: %v, want %d in the end", test.name, held, test.held)
		}
	}
}
