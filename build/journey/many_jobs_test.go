package journey

import "testing"

// TestManyJobsOnASlowPhone: among 200 jobs of 300 entries each, on a phone of a quarter of the speed, the record shows what another tab
// writes, and another job. It tells how long both take, until they are in the page and until the frame is drawn.
func TestManyJobsOnASlowPhone(t *testing.T) {
	h := serve(t, filesOf(t, publish(t)))
	b := phone(t)
	must(t, b.Open(h.address+"record/"))
	keyNamed(t, b, "Begin a job")
	untilJobs(t, b, "Unnamed job")
	must(t, b.Script(nil, manyJobs))
	must(t, b.Open(h.address+"record/"))
	must(t, b.Until("all jobs are listed", func() (all bool, err error) {
		err = b.Script(&all, `return document.querySelectorAll(".jobs-list li").length === 201 && document.querySelectorAll(".lines > li").length === 250`)
		return all, err
	}))
	for _, slower := range []int{1, 4} {
		must(t, b.Slow(slower))
		for name, act := range map[string]string{"an entry from another tab": anotherTick, "another job": anotherJob} {
			var all []pause
			for range 15 {
				var p pause
				must(t, b.Script(&p, act))
				all = append(all, p)
			}
			t.Logf("slowed down by %d, %s: in the page %s, to be seen %s", slower, name, spread(all, func(p pause) float64 { return p.Known }), spread(all, func(p pause) float64 { return p.Seen }))
		}
	}
	wantQuietConsole(t, b)
}

// opened gives the page's own store as db; shown waits for a change of the sheet and tells the times.
const opened = `const name = "blankoff " + new URL(document.documentElement.dataset.root, location.href).pathname;
	const db = await new Promise((resolve, reject) => { const asked = indexedDB.open(name); asked.onsuccess = () => resolve(asked.result); asked.onerror = () => reject(asked.error); });
	const shown = () => new Promise((done) => { const begun = performance.now(); const watch = new MutationObserver(() => { watch.disconnect(); const Known = performance.now() - begun;
		requestAnimationFrame(() => setTimeout(() => done({ Known, Seen: performance.now() - begun }))); }); watch.observe(document.querySelector(".done"), { childList: true, subtree: true }); });
	const tick = (job, i) => ({ job, at: Date.now(), beat: ["aaaaaa", i], page: "procedures/p" + (i % 6) + "/", place: "step-" + i, is: i % 6 === i ? "guide" : i % 50 ? "tick" : "note", text: i % 6 === i ? "Guide " + i : "What step " + i + " asks for, told in a sentence of usual length." });`

const manyJobs = `return (async () => {` + opened + `
	const step = db.transaction(["jobs", "entries"], "readwrite"), jobs = step.objectStore("jobs"), rows = step.objectStore("entries");
	for (let n = 0; n < 200; n++) { jobs.put({ id: "job" + n, begun: 1.7e12 + n, machine: "", serial: "S" + n, customer: "", who: "" }); for (let i = 0; i < 256; i++) rows.add(tick("job" + n, i)); for (let i = 0; i < 44; i++) rows.add({ ...tick("job" + n, 100 + i), is: "untick" }); for (let i = 0; i < 44; i++) rows.add(tick("job" + n, 100 + i)); }
	sessionStorage.setItem("job " + name.slice(9), "job0");
	await new Promise((done) => (step.oncomplete = done)); db.close(); })()`

const anotherTick = `return (async () => {` + opened + `
	const id = sessionStorage.getItem("job " + name.slice(9)), step = db.transaction("entries", "readwrite");
	step.objectStore("entries").add(tick(id, 1000 + Math.floor(Math.random() * 1e6)));
	await new Promise((done) => (step.oncomplete = done)); db.close();
	const told = shown(), channel = new BroadcastChannel(name); channel.postMessage(id); const times = await told; channel.close(); return times; })()`

const anotherJob = `return (async () => {` + opened + ` db.close();
	const told = shown(), keys = [...document.querySelectorAll(".jobs-list button[aria-pressed=false]")]; keys[Math.floor(Math.random() * keys.length)].click(); return told; })()`
