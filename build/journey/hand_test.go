package journey

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// Escape closes what lies above the page.
const escape = "\ue00c"

// readCode gives what zbar, which others wrote, reads in a picture.
func readCode(t *testing.T, picture []byte) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "screen.png")
	must(t, os.WriteFile(path, picture, 0o600))
	var fault bytes.Buffer
	cmd := exec.Command("zbarimg", "--quiet", "--raw", "-Sdisable", "-Sqrcode.enable", "--nodbus", path)
	cmd.Stderr = &fault
	said, err := cmd.Output()
	if err != nil {
		t.Fatalf("zbarimg (Debian's zbar-tools) reads no code: %v %s", err, &fault)
	}
	return strings.TrimSuffix(string(said), "\n")
}

// photographed taps a key that hands on, and reads the code from the picture of the screen, as the camera of another phone does.
func photographed(t *testing.T, b *Browser, key string) string {
	t.Helper()
	must(t, b.Until("the key is there", func() (there bool, err error) {
		err = b.Script(&there, `return document.querySelector(arguments[0])?.matches(":enabled") ?? false`, key)
		return there, err
	}))
	tap(t, b, key)
	must(t, b.Until("the code is drawn", func() (drawn bool, err error) {
		err = b.Script(&drawn, `return document.querySelector("dialog[open] svg.code") !== null`)
		return drawn, err
	}))
	screen, err := b.Screenshot()
	must(t, err)
	picture(t, b, "hand on "+strings.Trim(key, ".#"))
	code := readCode(t, screen)
	var text, role string
	must(t, b.Script(&text, `return document.querySelector("dialog textarea").value`))
	must(t, b.Script(&role, `const svg = document.querySelector("dialog svg.code"); return svg.getAttribute("role") + ": " + svg.getAttribute("aria-label")`))
	if code != text || role != "img: QR code of the address" {
		t.Errorf("the code says %s, the text %s; %s", code, text, role)
	}
	wantWithinWidth(t, b)
	must(t, b.Press(escape))
	must(t, b.Until("Escape closes the sheet, and the key has the focus again", func() (back bool, err error) {
		err = b.Script(&back, `return document.querySelector("dialog") === null && document.activeElement.matches(arguments[0])`, key)
		return back, err
	}))
	return code
}

// TestFromPhoneToPhone hands three states on by the picture of the screen: a calculator, a triage, a job.
func TestFromPhoneToPhone(t *testing.T) {
	t.Parallel()
	h := serve(t, filesOf(t, publish(t)))
	a, b := phone(t), phone(t)

	t.Run("a calculator", func(t *testing.T) {
		must(t, a.Open(h.address+"calculators/rise-test/"))
		untilLive(t, a, "#c1")
		fill(t, a, "rise-test", entry{field: "volume", typed: "28 ± 1"})
		fill(t, a, "rise-test", entry{field: "end", typed: "480 mTorr"})
		here := untilBlock(t, a, "c1", "the address has followed", settled("&end=480_mTorr&"))
		must(t, b.Open(photographed(t, a, "#c1 .hand")))
		there := untilBlock(t, b, "c1", "the entries are there", filledIn)
		if there.Answer != here.Answer || there.Entries["volume"] != here.Entries["volume"] {
			t.Errorf("on the other phone\n%+v\nwant\n%+v", there, here)
		}
	})
	t.Run("a triage", func(t *testing.T) {
		must(t, a.Open(h.address+"triage/#who=technician&clear=yes&answers=over-range:no,levels-off:yes,jumps:no"))
		now(t, a)
		press(t, a, ".now .unknown")
		here := now(t, a)
		must(t, b.Open(photographed(t, a, ".keys > .hand")))
		if there := now(t, b); fmt.Sprint(there) != fmt.Sprint(here) {
			t.Errorf("on the other phone\n%+v\nwant\n%+v", there, here)
		}
	})
	t.Run("a job", func(t *testing.T) {
		must(t, a.Open(h.address+"record/"))
		keyNamed(t, a, "Begin a job")
		untilJobs(t, a, "Unnamed job")
		serial, err := a.Find("#job-serial")
		must(t, err)
		must(t, serial.Type("CN14-2617-00473-J"+Enter))
		untilJobs(t, a, "CN14-2617-00473-J")
		openSteps(t, a, h.address+risePage)
		tap(t, a, "#step-1 .tick input")
		untilStep(t, a, "step-1", isDone)
		must(t, a.Open(h.address+"record/"))
		a.untilText(t, ".job-sheet h3", "Chamber rise test")
		must(t, b.Open(photographed(t, a, ".job-sheet .hand")))
		b.untilText(t, ".jobs .offer", "This address holds a job: CN14-2617-00473-J. Keep it on this phone Leave it")
		keyNamed(t, b, "Keep it on this phone")
		untilJobs(t, b, "CN14-2617-00473-J")
		sheet := func(of *Browser) (text string) {
			must(t, of.Script(&text, `return document.querySelector(".job-sheet").innerText`))
			return text
		}
		if sheet(a) != sheet(b) {
			t.Errorf("on the other phone\n%s\nwant\n%s", sheet(b), sheet(a))
		}
	})
	t.Run("a job of eight steps", func(t *testing.T) {
		eightSteps(t, a, h.address)
		must(t, a.Open(h.address+"record/"))
		a.untilText(t, ".job-sheet h3", "Chamber rise test")
		must(t, b.Open(photographed(t, a, ".job-sheet .hand")))
		b.untilText(t, ".jobs .offer", "This address holds a job: OB9-2714-00021-K. Keep it on this phone Leave it")
		keyNamed(t, b, "Keep it on this phone")
		untilJobs(t, b, "OB9-2714-00021-K; CN14-2617-00473-J")
		here, there := jobKept(t, a), jobKept(t, b)
		if n := strings.Count(here, `"is":"tick"`); n != 8 || strings.Count(here, `"is":"note"`) != 2 || !strings.Contains(here, `"Formula":"Q = V`) {
			t.Errorf("the job has %d ticks:\n%s", n, here)
		}
		if here != there {
			t.Errorf("on the other phone\n%s\nwant\n%s", there, here)
		}
	})
	wantQuietConsole(t, a)
	wantQuietConsole(t, b)
}

// eightSteps works on a guide as people do: minutes pass between steps, two of them get a note, and a calculator is filled in entry by entry.
func eightSteps(t *testing.T, b *Browser, address string) {
	t.Helper()
	must(t, b.Open(address+"record/"))
	keyNamed(t, b, "Begin a job")
	b.untilText(t, ".job-sheet h2[id]", "Unnamed job")
	for _, head := range [][2]string{{"machine", "Oskel B9"}, {"customer", "Q-2714, second visit"}, {"who", "R. T."}, {"serial", "OB9-2714-00021-K"}} {
		field, err := b.Find("#job-" + head[0])
		must(t, err)
		must(t, field.Retype(head[1]+Enter))
	}
	b.untilText(t, ".job-sheet h2[id]", "OB9-2714-00021-K")
	openSteps(t, b, address+risePage)
	must(t, b.Script(nil, `let gone = 0;
		for (const clock of [Date, performance]) { const now = clock.now.bind(clock); clock.now = () => now() + gone; }
		addEventListener("click", ({ target }) => target.matches("input") && (gone += 61234 + Math.floor(Math.random() * 6e5)), true);`))
	for step := 1; step <= 8; step++ {
		id := fmt.Sprint("step-", step)
		tap(t, b, "#"+id+" .tick input")
		untilStep(t, b, id, isDone)
		if note := map[int]string{2: "pane clean, two light scratches at the hinge", 6: "dial jumps a little near 600 mTorr"}[step]; note != "" {
			tap(t, b, "#"+id+" .kept button")
			field, err := b.Find("#" + id + " .kept textarea")
			must(t, err)
			must(t, field.Type(note))
		}
	}
	for i, act := range []entry{{field: "start", typed: "452"}, {field: "end", typed: "1538"}, {field: "time", typed: "8.1"}} {
		before := len(resultsKept(t, b))
		fill(t, b, "rise-test", act)
		must(t, b.Until(fmt.Sprintf("result %d is kept", i+1), func() (bool, error) { return len(resultsKept(t, b)) > before, nil }))
	}
}

// jobKept is the last job of a phone with all of its entries, as the store has them; keys are the store's own, so they count from the first.
func jobKept(t *testing.T, b *Browser) (text string) {
	t.Helper()
	must(t, b.Script(&text, `return (async () => {`+opened+`
		const all = (of) => new Promise((resolve) => { const asked = db.transaction(of).objectStore(of).getAll(); asked.onsuccess = () => resolve(asked.result); });
		const job = (await all("jobs")).sort((a, b) => b.begun - a.begun)[0], entries = (await all("entries")).filter((entry) => entry.job === job.id);
		db.close();
		const from = entries[0].key, sorted = (one) => Object.fromEntries(Object.entries(one).sort());
		return JSON.stringify([sorted(job), ...entries.map((entry) => sorted({ ...entry, key: entry.key - from }))]); })()`))
	return text
}

// TestAGuideIsHandedOn: also on a dark screen the code is black on white; without a network, too.
func TestAGuideIsHandedOn(t *testing.T) {
	t.Parallel()
	h := serve(t, filesOf(t, publish(t)))
	b := phone(t)
	must(t, b.Open(h.address+risePage))
	b.untilText(t, "p.saved[data-saved=ready]", "Works offline")
	h.stop()
	must(t, b.Reload())
	must(t, b.devtools("Emulation.setEmulatedMedia", map[string]any{"features": []map[string]string{{"name": "prefers-color-scheme", "value": "dark"}}}))
	if got := photographed(t, b, "main > .hand"); got != h.address+risePage {
		t.Errorf("the code says %s", got)
	}
}

// TestTooMuchForACode: rows beyond what a phone reads well are said to be so, and beyond what an address holds as well.
func TestTooMuchForACode(t *testing.T) {
	t.Parallel()
	h := serve(t, filesOf(t, publish(t)))
	b := phone(t)
	for _, c := range []struct {
		rows int
		want string
		bar  string
	}{
		{300, "Too long for a code that a phone reads well: copy it, share it, or save a file.", "#c1/rise-log?log=time_s,pressure_mTorr;1,101;2,"},
		{1500, "This is too long for an address. Save it as a file, or keep it with a job.", ""},
	} {
		must(t, b.Open(h.address+"calculators/rise-log/"))
		untilLive(t, b, "#c1")
		must(t, b.Script(nil, `const table = document.querySelector("#c1-log");
			table.value = "time s,pressure mTorr\n" + Array.from({ length: arguments[0] }, (_, i) => i + 1 + "," + (i + 101)).join("\n");
			table.dispatchEvent(new Event("input", { bubbles: true }))`, c.rows))
		untilBlock(t, b, "c1", "it is computed, and the address has followed", func(seen block) bool {
			return !strings.Contains(seen.Answer, "Computing") && strings.HasPrefix(seen.Hash, c.bar) && (c.bar != "" || seen.Hash == "")
		})
		tap(t, b, "#c1 .hand")
		b.untilText(t, "dialog .drawing", c.want)
	}
}

// TestPaperCarriesTheCode: what is printed leads back to the screen. zbar reads it from the sheet.
func TestPaperCarriesTheCode(t *testing.T) {
	t.Parallel()
	h := serve(t, filesOf(t, publish(t)))
	b := open(t, Chromium(), Wide)
	printed := func(t *testing.T) string {
		t.Helper()
		must(t, b.Until("the calculators run", func() (bool, error) {
			var ready bool
			err := b.Script(&ready, `dispatchEvent(new Event("beforeprint")); const there = document.querySelector("main > .paper svg") !== null; dispatchEvent(new Event("afterprint")); return there`)
			return ready, err
		}))
		sheet, err := b.Print(A4)
		must(t, err)
		path := filepath.Join(t.TempDir(), "sheet.pdf")
		must(t, os.WriteFile(path, sheet, 0o600))
		if said, err := exec.Command("pdftoppm", "-r", "150", "-l", "1", "-singlefile", "-png", path, strings.TrimSuffix(path, ".pdf")).CombinedOutput(); err != nil {
			t.Fatalf("pdftoppm (Debian's poppler-utils): %v %s", err, said)
		}
		page, err := os.ReadFile(strings.TrimSuffix(path, ".pdf") + ".png")
		must(t, err)
		var left bool
		must(t, b.Script(&left, `return document.querySelector("main > .paper") !== null`))
		if left {
			t.Error("the code stays on the screen")
		}
		return readCode(t, page)
	}
	for _, page := range []string{risePage, "calculators/rise-test/", "triage/#who=technician&clear=yes&answers=over-range:no,levels-off:yes", "calculators/pressure/#c1/pressure?value=340_micron"} {
		t.Run(page, func(t *testing.T) {
			must(t, b.Open(h.address+"machines/"))
			must(t, b.Open(h.address+page))
			must(t, b.Script(nil, `document.querySelector("section.calculator")?.scrollIntoView()`)) // they start when a reader comes near
			if got := printed(t); got != h.address+page {
				t.Errorf("the paper leads to %s, want %s", got, h.address+page)
			}
		})
	}
	t.Run("a job", func(t *testing.T) {
		must(t, b.Open(h.address+"record/"))
		keyNamed(t, b, "Begin a job")
		untilJobs(t, b, "Unnamed job")
		got := printed(t)
		tap(t, b, ".job-sheet .hand")
		var address string
		must(t, b.Until("the job is packed", func() (bool, error) {
			err := b.Script(&address, `return document.querySelector("dialog textarea")?.value ?? ""`)
			return address != "", err
		}))
		if got != address {
			t.Errorf("the paper leads to %s, want %s", got, address)
		}
	})
}
