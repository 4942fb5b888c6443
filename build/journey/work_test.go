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
	must(t, b.Script(result, "const arguments_ = arguments; return (async () => { const { work, standing, lastDone, nextOf } = window.parts; "+body+" })()", arguments...))
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
	async(t, b, nil, `await work.begin({ serial: "A" }).kept; await work.add({ page: "p", place: "step-1", is: "tick" })`)
	second, err := b.NewWindow()
	must(t, err)
	must(t, b.Switch(second))
	must(t, b.Open(h.address))
	var went string
	async(t, b, &went, `return (await work.current()).serial`)
	if went != "A" {
		t.Errorf("a new tab went on with job %q, want the last one begun", went)
	}
	// Another job is begun elsewhere: a tab that was on the first one stays there, also after it was loaded again.
	must(t, b.Switch(first))
	async(t, b, nil, `await work.begin({ serial: "B" }).kept; await work.add({ page: "p", place: "step-2", is: "tick" })`)
	must(t, b.Switch(second))
	async(t, b, nil, `await work.add({ page: "p", place: "step-3", is: "tick" })`)
	must(t, b.Open(h.address))
	async(t, b, nil, `await work.add({ page: "p", place: "step-4", is: "tick" })`)
	must(t, b.Switch(first))
	var got map[string]string
	async(t, b, &got, `await work.add({ page: "p", place: "step-5", is: "tick" });
		const list = {}; for (const job of await work.jobs()) list[job.serial] = (await work.entriesOf(job.id)).map((e) => e.place).join(" "); return list`)
	if got["A"] != "step-1 step-3 step-4" || got["B"] != "step-2 step-5" {
		t.Errorf("the jobs have mixed: %v", got)
	}
	// Put aside: the next entry begins a job of its own, and the others are as they were.
	async(t, b, &got, `work.choose(); const none = await work.current(); await work.add({ page: "p", place: "step-6", is: "tick" });
		const list = { none: String(none) }; for (const job of await work.jobs()) list[job.serial] = (await work.entriesOf(job.id)).map((e) => e.place).join(" "); return list`)
	if got["A"] != "step-1 step-3 step-4" || got["B"] != "step-2 step-5" || got[""] != "step-6" || got["none"] != "undefined" {
		t.Errorf("after one was put aside there are %v", got)
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
	async(t, b, &got, `const { job, kept } = work.begin({ serial: "A" }); await kept;
		const tick = await work.add({ page: "p", place: "step-1", is: "tick" });
		await work.add({ page: "p", place: "step-1", is: "undo", of: tick.key });
		await work.add({ page: "p", place: "step-2", is: "tick" });
		const copy = await work.take([{ job, entries: await work.entriesOf(job.id) }]);
		const there = (await work.entriesOf(copy.id)), stands = standing(there).map((e) => e.place).join();
		await work.forget(job.id);
		const left = (await work.jobs()).map((j) => j.id === copy.id).join(), gone = (await work.entriesOf(job.id)).length;
		await work.eraseAll();
		return [String(copy.id !== job.id), String(there.length), stands, left, String(gone), String((await work.jobs()).length), String((await work.entriesOf(copy.id)).length), String(await work.current())]`)
	if want := "true 3 step-2 true 0 0 0 undefined"; strings.Join(got, " ") != want {
		t.Errorf("got %v, want %s", got, want)
	}
}

// refusals are what a browser's store may do instead of keeping, as far as a script ahead of the page's own can bring it about.
var refusals = []struct{ name, before, want string }{
	{"forbidden", `Object.defineProperty(window, "indexedDB", { value: { open() { throw new DOMException("no", "SecurityError"); } } });`, "This browser keeps nothing"},
	{"missing", `Object.defineProperty(window, "indexedDB", { value: undefined });`, "This browser keeps nothing"},
	{"nothing to remember by", `Object.defineProperty(window, "indexedDB", { value: undefined }); for (const name of ["localStorage", "sessionStorage"]) Object.defineProperty(window, name, { get() { throw new Error("no"); } });`, "This browser keeps nothing"},
	{"does not open", `{ const open = indexedDB.open.bind(indexedDB);
		IDBFactory.prototype.open = (...what) => { const asked = open(...what); asked.addEventListener("upgradeneeded", () => asked.transaction.abort()); return asked; }; }`, "This browser keeps nothing"},
	{"full", `IDBObjectStore.prototype.add = () => { throw new DOMException("full", "QuotaExceededError"); };`, "The phone's storage is full"},
	{"breaks off", `{ const add = IDBObjectStore.prototype.add;
		IDBObjectStore.prototype.add = function (what) { const asked = add.call(this, what); this.transaction.abort(); return asked; }; }`, "The browser broke off while it kept this"},
}

func TestAStoreThatRefusesIsTold(t *testing.T) {
	t.Parallel()
	for _, test := range refusals {
		t.Run(test.name, func(t *testing.T) {
			b, _ := openWork(t, test.before)
			wantTold(t, b, test.want)
		})
	}
	t.Run("of a newer page", func(t *testing.T) {
		b, h := openWork(t, "")
		async(t, b, nil, `await new Promise((resolve, reject) => { const asked = indexedDB.open("blankoff " + location.pathname, 7);
			asked.onupgradeneeded = () => asked.result.createObjectStore("other"); asked.onsuccess = () => resolve(asked.result.close()); asked.onerror = () => reject(asked.error); })`)
		must(t, b.Open(h.address))
		wantTold(t, b, "A newer page of this site keeps the jobs by now")
	})
	t.Run("really full", func(t *testing.T) {
		b, h := openWork(t, "")
		must(t, b.devtools("Storage.overrideQuotaForOrigin", map[string]any{"origin": strings.TrimSuffix(h.address, "/"), "quotaSize": 1}))
		wantTold(t, b, "The phone's storage is full")
		// Room is made: what was refused is kept with what comes next, in its order, and nothing is told any more.
		must(t, b.devtools("Storage.overrideQuotaForOrigin", map[string]any{"origin": strings.TrimSuffix(h.address, "/")}))
		var got []string
		async(t, b, &got, `await work.add({ page: "p", place: "step-3", is: "tick" }); return [work.trouble]`)
		if got[0] != "" {
			t.Errorf("with room it still says %q", got[0])
		}
		must(t, b.Open(h.address))
		async(t, b, &got, `return (await work.entriesOf((await work.current()).id)).map((e) => e.place + (e.of === undefined ? "" : " of " + e.of) + " " + e.key)`)
		if strings.Join(got, ", ") != "step-1 1, step-2 2, step-2 of 2 3, step-3 4" {
			t.Errorf("after the reload there is %q", got)
		}
	})
}

// wantTold: what is refused is told, is there as long as the page is, in its order, and can be taken back.
func wantTold(t *testing.T, b *Browser, want string) {
	t.Helper()
	var got struct {
		Trouble string
		Places  []string
		Stands  []string
		Heard   int
	}
	async(t, b, &got, `let Heard = 0; work.onChange(() => Heard++);
		await work.add({ page: "p", place: "step-1", is: "tick" });
		const last = await work.add({ page: "p", place: "step-2", is: "tick" });
		await work.add({ page: "p", place: "step-2", is: "undo", of: last.key });
		const all = await work.entriesOf((await work.current()).id);
		return { Trouble: work.trouble, Places: all.map((e) => e.place), Stands: standing(all).map((e) => e.place), Heard }`)
	if !strings.HasPrefix(got.Trouble, want) || strings.Join(got.Places, " ") != "step-1 step-2 step-2" || strings.Join(got.Stands, " ") != "step-1" || got.Heard == 0 {
		t.Errorf("got %+v", got)
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

// TestWhereAWorkGoesOn: one key leads to the step after the last tick, in the guide that was worked on last and is not at its end.
func TestWhereAWorkGoesOn(t *testing.T) {
	b, _ := openWork(t, "")
	for _, test := range []struct{ name, entries, want string }{
		{"nothing", "", "-"},
		{"a guide of which nothing stands", "guide a 3", "-"},
		{"the first of three", "guide a 3; tick a step-1", "a step-2"},
		{"the last before the end", "guide a 3; tick a step-1; tick a step-2", "a step-3"},
		{"one left out", "guide a 3; tick a step-1; tick a step-3", "a step-2"},
		{"at its end", "guide a 2; tick a step-1; tick a step-2", "-"},
		{"unticked again", "guide a 2; tick a step-1; tick a step-2; untick a step-2", "a step-2"},
		{"a note alone", "guide a 3; note a step-2", "a step-2"},
		{"a reading alone", "guide a 3; reading a c1", "a step-1"},
		{"a branch that is at its end", "guide a 3; tick a step-1; guide b 1; tick b step-1", "a step-2"},
		{"a branch that is not", "guide a 3; tick a step-1; guide b 2; tick b step-1", "b step-2"},
		{"back from the branch", "guide a 3; tick a step-1; guide b 2; tick b step-1; tick a step-2", "a step-3"},
		{"a calculator's page", "guide a 3; tick a step-1; guide c 0; reading c c1", "c c1"},
		{"a result of a calculator's page", "guide a 3; tick a step-1; guide c 0; result c c1", "a step-2"},
		{"back from the calculator", "guide a 3; tick a step-1; guide c 0; reading c c1; tick a step-2", "a step-3"},
		{"a calculator after the end", "guide a 1; guide c 0; reading c c1; tick a step-1", "-"},
		{"a job of which no guide is known", "tick a step-1", "-"},
	} {
		var got string
		async(t, b, &got, `const entries = arguments_[0].split("; ").filter(Boolean).map((text, key) => { const [is, page, place] = text.split(" ");
				return { key, is, page, place: is === "guide" ? "" : place, ...(is === "guide" ? { told: { steps: place } } : {}) } });
			const next = nextOf(entries); return next ? next.page + " " + next.place : "-"`, test.entries)
		if got != test.want {
			t.Errorf("%s: it goes on at %q, want %q", test.name, got, test.want)
		}
	}
}

// TestManyJobsAreReadByTheIndex: a change is shown without a look at the entries of other jobs, however many there are.
func TestManyJobsAreReadByTheIndex(t *testing.T) {
	b, _ := openWork(t, `{ window.looks = []; for (const kind of ["getAll", "openCursor"]) { const call = IDBIndex.prototype[kind]; IDBIndex.prototype[kind] = function (...what) { looks.push(kind + " " + what); return call.apply(this, what); }; }
		for (const kind of ["getAll", "openCursor"]) { const call = IDBObjectStore.prototype[kind]; IDBObjectStore.prototype[kind] = function (...what) { if (this.name === "entries") looks.push("all"); return call.apply(this, what); }; } }`)
	var got []string
	async(t, b, &got, `for (const serial of ["A", "B", "C"]) { await work.begin({ serial }).kept; for (let i = 1; i < 4; i++) await work.add({ page: "p", place: "step-" + i, is: "tick" }); }
		looks.length = 0;
		const all = await work.jobs(), lasts = await work.lastOf(all.map(({ id }) => id)), mine = await work.current(), own = await work.entriesOf(mine.id);
		return [...looks.map((look) => look.replace(mine.id, "mine").replace(/ \w{8}/, " other")), [...lasts.values()].every((at) => at > 0 && at <= Date.now()), lasts.size, own.length].map(String)`)
	if want := "openCursor mine,prev openCursor other,prev openCursor other,prev getAll mine true 3 3"; strings.Join(got, " ") != want {
		t.Errorf("it looked at %q, want %s", got, want)
	}
}
