package journey

import (
	"strings"
	"testing"

	"blankoff/build/bundle"
	"blankoff/site"
)

// openWork shows a page on which window.parts holds the store of jobs; before runs ahead of it.
func openWork(t *testing.T, before string) (*Browser, *host) {
	t.Helper()
	return openPart(t, `import * as work from "./work"; import * as standing from "./standing"; Object.assign(window, { parts: { ...standing, work } });`, before)
}

// openPart shows a page on which a part of the reader's scripts runs alone; before runs ahead of it.
func openPart(t *testing.T, entry, before string) (*Browser, *host) {
	t.Helper()
	script, _, err := bundle.Script(site.Files, entry)
	must(t, err)
	h := serve(t, map[string][]byte{
		"index.html": []byte(strings.Replace(partsPage, "CALC", "", 1)),
		"parts.js":   []byte(before + "\n" + string(script)),
	})
	b := phone(t)
	must(t, b.Open(h.address))
	return b, h
}

// async runs the body of an asynchronous function in the page and gives what it returns.
func async(t *testing.T, b *Browser, result any, body string, arguments ...any) {
	t.Helper()
	must(t, b.Script(result, "const arguments_ = arguments; return (async () => { const { work, standing, lastDone } = window.parts; "+body+" })()", arguments...))
}

func TestAJobSurvivesTheReload(t *testing.T) {
	b, h := openWork(t, "")
	async(t, b, nil, `await work.add({ page: "procedures/rise-test/", place: "step-1", is: "tick" });
		await work.add({ page: "procedures/rise-test/", place: "c1", is: "reading", given: { time: "0 s", pressure: "327 mTorr" } })`)
	must(t, b.Open(h.address))
	var got struct {
		Jobs    int
		Is      []string
		Given   map[string]string
		Lives   int
		Trouble string
	}
	async(t, b, &got, `const job = await work.current(), list = await work.entriesOf(job.id);
		await work.add({ page: "p", place: "", is: "note", text: "after the reload" });
		const all = await work.entriesOf(job.id);
		return { Jobs: (await work.jobs()).length, Is: all.map((e) => e.is), Given: list[1].given, Lives: new Set(all.map((e) => e.beat[0])).size, Trouble: work.trouble }`)
	if got.Jobs != 1 || strings.Join(got.Is, " ") != "tick reading note" || got.Given["pressure"] != "327 mTorr" || got.Trouble != "" {
		t.Errorf("after a reload there is %+v", got)
	}
	if got.Lives != 2 {
		t.Errorf("the clock that nobody can set has %d lives, want one of each page", got.Lives)
	}
}

func TestTwoTabsWorkOnTwoJobs(t *testing.T) {
	b, h := openWork(t, "")
	first, err := b.Window()
	must(t, err)
	async(t, b, nil, `await work.begin({ serial: "A" }); await work.add({ page: "p", place: "step-1", is: "tick" })`)
	second, err := b.NewWindow()
	must(t, err)
	must(t, b.Switch(second))
	must(t, b.Open(h.address))
	var went string
	async(t, b, &went, `const went = (await work.current()).serial; await work.begin({ serial: "B" });
		await work.add({ page: "p", place: "step-2", is: "tick" }); return went`)
	if went != "A" {
		t.Errorf("a new tab went on with job %q, want the last one begun", went)
	}
	must(t, b.Switch(first))
	var got map[string]string
	async(t, b, &got, `await work.add({ page: "p", place: "step-3", is: "tick" });
		const list = {}; for (const job of await work.jobs()) list[job.serial] = (await work.entriesOf(job.id)).map((e) => e.place).join(" "); return list`)
	if got["A"] != "step-1 step-3" || got["B"] != "step-2" {
		t.Errorf("the jobs have mixed: %v", got)
	}
}

// Taps that come before the first job is there must all go into the same one.
func TestTapsBeforeTheFirstJob(t *testing.T) {
	b, _ := openWork(t, "")
	var got []int
	async(t, b, &got, `await Promise.all(Array.from({ length: 20 }, (_, i) => work.add({ page: "p", place: "step-" + i, is: "tick" })));
		const all = await work.jobs(); return [all.length, (await work.entriesOf(all[0].id)).length]`)
	if got[0] != 1 || got[1] != 20 {
		t.Errorf("%d jobs, the first with %d entries", got[0], got[1])
	}
}

func TestJobsComeAndGoWhole(t *testing.T) {
	b, _ := openWork(t, "")
	var got []string
	async(t, b, &got, `const job = await work.begin({ serial: "A" });
		const tick = await work.add({ page: "p", place: "step-1", is: "tick" });
		await work.add({ page: "p", place: "step-1", is: "undo", of: tick.key });
		await work.add({ page: "p", place: "step-2", is: "tick" });
		const copy = await work.take(job, await work.entriesOf(job.id));
		const there = (await work.entriesOf(copy.id)), stands = standing(there).map((e) => e.place).join();
		await work.forget(job.id);
		const left = (await work.jobs()).map((j) => j.id === copy.id).join(), gone = (await work.entriesOf(job.id)).length;
		await work.eraseAll();
		return [String(copy.id !== job.id), String(there.length), stands, left, String(gone), String((await work.jobs()).length), String((await work.entriesOf(copy.id)).length), String(await work.current())]`)
	if want := "true 3 step-2 true 0 0 0 undefined"; strings.Join(got, " ") != want {
		t.Errorf("got %v, want %s", got, want)
	}
}

func TestAStoreThatRefusesIsTold(t *testing.T) {
	for _, test := range []struct{ name, before, want string }{
		{"none", `Object.defineProperty(window, "indexedDB", { value: { open() { throw new DOMException("no", "SecurityError"); } } });`, "This browser keeps nothing"},
		{"full", `IDBObjectStore.prototype.add = () => { throw new DOMException("full", "QuotaExceededError"); };`, "The phone's storage is full"},
		{"no memory at all", `Object.defineProperty(window, "indexedDB", { value: undefined }); Object.defineProperty(window, "localStorage", { get() { throw new Error("no"); } }); Object.defineProperty(window, "sessionStorage", { get() { throw new Error("no"); } });`, "This browser keeps nothing"},
	} {
		t.Run(test.name, func(t *testing.T) {
			b, _ := openWork(t, test.before)
			var got struct {
				Trouble string
				Places  []string
				Heard   int
			}
			async(t, b, &got, `let Heard = 0; work.onChange(() => Heard++);
				await work.add({ page: "p", place: "step-1", is: "tick" }); await work.add({ page: "p", place: "step-2", is: "tick" });
				return { Trouble: work.trouble, Places: (await work.entriesOf((await work.current()).id)).map((e) => e.place), Heard }`)
			if !strings.HasPrefix(got.Trouble, test.want) || strings.Join(got.Places, " ") != "step-1 step-2" || got.Heard == 0 {
				t.Errorf("got %+v", got)
			}
		})
	}
}

func TestWhatStandsOfAJob(t *testing.T) {
	b, _ := openWork(t, "")
	for _, test := range []struct{ name, entries, want, last string }{
		{"nothing", ``, "", ""},
		{"a tick taken back", `tick 1; undo 0`, "", ""},
		{"an undo undone", `tick 1; undo 0; undo 1`, "0", "0"},
		{"an edit", `reading 1 a; edit 0 b`, "0b", "1"},
		{"an edit undone", `reading 1 a; edit 0 b; undo 1`, "0a", "0"},
		{"two edits, the later undone", `reading 1 a; edit 0 b; edit 0 c; undo 2`, "0b", "1"},
		{"cleared", `tick 1; tick 2; clear`, "", "2"},
		{"cleared and begun anew", `tick 1; clear; tick 1`, "2", "2"},
		{"a clearing undone", `tick 1; clear; undo 1`, "0", "0"},
		{"one place cleared", `tick 1; tick 2; clear 1`, "1", "2"},
	} {
		var got []string
		async(t, b, &got, `const entries = arguments_[0].split("; ").filter(Boolean).map((text, key) => { const [is, n, value] = text.split(" ");
				return is === "undo" || is === "edit" ? { key, is, page: "p", place: "", of: Number(n), given: value && { v: value } } : { key, is, page: "p", place: n ?? "", given: value && { v: value } } });
			return [standing(entries).map((e) => e.key + (e.given?.v ?? "")).join(" "), String(lastDone(entries, "p")?.key ?? "")]`, test.entries)
		if got[0] != test.want {
			t.Errorf("%s: %q stands, want %q", test.name, got[0], test.want)
		}
		if got[1] != test.last {
			t.Errorf("%s: %q would be undone, want %q", test.name, got[1], test.last)
		}
	}
}
