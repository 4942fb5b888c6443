package journey

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"blankoff/calc"
	"blankoff/calc/declare"
)

// pressKeys taps the keys of the pad, then the key that takes the reading.
func takeReading(t *testing.T, b *Browser, digits string) {
	t.Helper()
	for _, digit := range digits {
		must(t, b.Script(nil, `[...document.querySelectorAll(".log .pad button")].find((key) => key.textContent === arguments[0]).click()`, string(digit)))
	}
	b.untilText(t, ".log .typed", digits)
	tap(t, b, ".log .take")
}

func untilRows(t *testing.T, b *Browser, want string) {
	t.Helper()
	var got string
	if err := b.Until("the rows are "+want, func() (bool, error) {
		err := b.Script(&got, `return [...document.querySelectorAll(".rows-taken b")].map((b) => b.textContent.replaceAll("\u00a0", " ")).join("; ")`)
		return got == want, err
	}); err != nil {
		t.Fatalf("%v; they are %q", err, got)
	}
}

func openLog(t *testing.T, b *Browser, address string) {
	t.Helper()
	must(t, b.Open(address))
	must(t, b.Until("a log can be taken", func() (there bool, err error) {
		err = b.Script(&there, `return document.querySelector(".log-ways button") !== null`)
		return there, err
	}))
	tap(t, b, ".log-ways button")
	must(t, b.Until("the log is open", func() (open bool, err error) {
		err = b.Script(&open, `return document.querySelector("dialog.log[open]") !== null`)
		return open, err
	}))
}

// clocks replaces both clocks of a page by hands that the test moves: phone is what can be set, page what cannot.
const clocks = `window.hands = { phone: Date.UTC(2026, 10, 27, 9), page: 1000 };
	Date.now = () => window.hands.phone; performance.now = () => window.hands.page;`

func setClocks(t *testing.T, b *Browser) {
	t.Helper()
	must(t, b.post("/goog/cdp/execute", map[string]any{"cmd": "Page.addScriptToEvaluateOnNewDocument", "params": map[string]any{"source": clocks}}, nil))
}

// untilTable waits until the calculator was given these readings.
func untilTable(t *testing.T, b *Browser, want string) {
	t.Helper()
	var got string
	if err := b.Until("the calculator has the readings", func() (bool, error) {
		err := b.Script(&got, `return document.querySelector("textarea").value`)
		return got == want, err
	}); err != nil {
		t.Fatalf("%v: it has\n%s\nwant\n%s", err, got, want)
	}
}

func passes(t *testing.T, b *Browser, seconds float64) {
	t.Helper()
	must(t, b.Script(nil, `window.hands.phone += arguments[0] * 1000; window.hands.page += arguments[0] * 1000`, seconds))
}

// TestLogByTap takes a rise by tap, with a mistake, a reload in between and a clock that somebody sets, and gets the
// verdict that the calculators give natively.
func TestLogByTap(t *testing.T) {
	h := serve(t, filesOf(t, publish(t)))
	b := phone(t)
	setClocks(t, b)
	openLog(t, b, h.address+"calculators/rise-log/")
	b.untilText(t, ".log .take", "Start the clock")
	// The worked example behind has a verdict, which is not this machine's.
	b.untilText(t, ".log .stands", "The verdict comes with the readings.")
	tap(t, b, ".log .take")
	untilRows(t, b, "clock started")
	readings := []string{"120", "131", "142", "150", "161", "172", "180", "191", "200"}
	var rows []string
	for i, reading := range readings[:4] {
		passes(t, b, 60)
		takeReading(t, b, reading)
		rows = append(rows, reading+" mTorr")
		untilRows(t, b, "clock started; "+strings.Join(rows[:i+1], "; "))
	}
	untilOnDisk(t, b)
	b.untilText(t, ".log .clock", "4:00")
	picture(t, b, "log by tap")

	// A wrong reading is taken back; so is the taking back, which is a wrong tap as well.
	takeReading(t, b, "999")
	untilRows(t, b, "clock started; "+strings.Join(rows, "; ")+"; 999 mTorr")
	tap(t, b, ".log .log-keys button")
	untilRows(t, b, "clock started; "+strings.Join(rows, "; "))
	b.untilText(t, ".rows-taken li:last-child", "Put back 999\u00a0mTorr")
	tap(t, b, ".rows-taken li:last-child button")
	untilRows(t, b, "clock started; "+strings.Join(rows, "; ")+"; 999 mTorr")
	tap(t, b, ".log .log-keys button")
	untilRows(t, b, "clock started; "+strings.Join(rows, "; "))

	// The tab is killed; 60 s pass; the page is opened again, with a clock of its own that begins anew.
	var phone float64
	must(t, b.Script(&phone, `return window.hands.phone`))
	openLog(t, b, h.address+"calculators/rise-log/")
	untilRows(t, b, "clock started; "+strings.Join(rows, "; "))
	must(t, b.Script(nil, `window.hands.phone = arguments[0] + 60000`, phone))
	for _, reading := range readings[4:] {
		takeReading(t, b, reading)
		rows = append(rows, reading+" mTorr")
		untilRows(t, b, "clock started; "+strings.Join(rows, "; "))
		passes(t, b, 60)
	}
	const want = "time min,pressure mTorr\n1,120\n2,131\n3,142\n4,150\n5,161\n6,172\n7,180\n8,191\n9,200"
	untilTable(t, b, want)
	var answer struct{ Verdict, Text string }
	must(t, b.Until("the verdict is there", func() (bool, error) {
		err := b.Script(&answer, `const line = document.querySelector(".log .verdict"); return { Verdict: line?.dataset.is ?? "", Text: document.querySelector(".log .stands > .because")?.textContent ?? "" }`)
		return answer.Verdict != "", err
	}))
	request := declare.Request{ID: "rise-log"}
	for _, pair := range calc.Find("rise-log").Example.In {
		if pair.Name == "log" {
			pair.Text = want
		}
		request.In = append(request.In, pair)
	}
	native := calc.Answer(request).Verdict
	if answer.Verdict != strings.ReplaceAll(native.Is, " ", "-") || strings.ReplaceAll(answer.Text, "\u00a0", " ") != native.Text {
		t.Errorf("the log says %s: %s\nnative %s: %s", answer.Verdict, answer.Text, native.Is, native.Text)
	}
	picture(t, b, "log verdict")

	// A clock that is set between two readings does not move them: the page's own goes on.
	must(t, b.Script(nil, `window.hands.phone += 3600e3`))
	takeReading(t, b, "211")
	b.untilText(t, ".rows-taken li:last-child .when", "10:00")
	b.untilText(t, ".rows-taken li:last-child .doubt", "check the time")
	// Its time can be put right.
	tap(t, b, ".rows-taken li:last-child button")
	entry, err := b.Find(`.editor input[name=time]`)
	must(t, err)
	must(t, entry.Retype("abc"))
	tap(t, b, ".editor button")
	b.untilText(t, ".log .fault", "Write a time as 4:30.")
	must(t, entry.Retype("10:30"))
	tap(t, b, ".editor button")
	b.untilText(t, ".rows-taken li:last-child .when", "10:30")
	var doubts int
	must(t, b.Script(&doubts, `return document.querySelectorAll(".rows-taken .doubt").length`))
	if doubts != 0 {
		t.Error("a time that was put right is still in doubt")
	}
	wantQuietConsole(t, b)
}

// TestLogsSurvive takes each kind of log through a locked screen, a reload, a killed tab and a clock that somebody sets.
func TestLogsSurvive(t *testing.T) {
	h := serve(t, filesOf(t, publish(t)))
	for _, c := range []struct {
		id       string
		readings []string
		rows     string
		table    string
	}{
		{"rise-log", []string{"120", "131", "142", "150"}, "clock started; 120 mTorr; 131 mTorr; 142 mTorr; 150 mTorr", "time min,pressure mTorr\n1,120\n2,131\n12,142\n13,150"},
		{"pump-down-log", []string{"1900", "1500", "700", "400"}, "clock started; 1900 mTorr; 1500 mTorr; 700 mTorr; 400 mTorr", "time min,pressure mTorr\n1,1900\n2,1500\n12,700\n13,400"},
		{"gauge-compare", []string{"410", "92", "598", "250"}, "410 mTorr, 92 mTorr; 598 mTorr, 250 mTorr", "machine mTorr,reference mTorr\n410,92\n598,250"},
	} {
		t.Run(c.id, func(t *testing.T) {
			page := h.address + "calculators/" + c.id + "/"
			b := phone(t)
			setClocks(t, b)
			openLog(t, b, page)
			timed := strings.HasPrefix(c.rows, "clock started")
			if timed {
				tap(t, b, ".log .take")
				untilRows(t, b, "clock started")
			}
			passes(t, b, 60)
			takeReading(t, b, c.readings[0])
			passes(t, b, 60)
			takeReading(t, b, c.readings[1])
			parts := strings.Split(c.rows, "; ")
			half := strings.Join(parts[:(len(parts)+1)/2], "; ")
			untilRows(t, b, half)
			untilKept(t, b, 2)
			// The screen is locked: the page is hidden, its clock stops, and the phone's goes on for 9 min. Then the tab is killed.
			must(t, b.Script(nil, `
				Object.defineProperty(document, "hidden", { value: true });
				document.dispatchEvent(new Event("visibilitychange"));
				window.hands.phone += 540e3;`))
			var phone float64
			must(t, b.Script(&phone, `return window.hands.phone`))
			other, err := b.NewWindow()
			must(t, err)
			must(t, b.Switch(other))
			setClocks(t, b)
			openLog(t, b, page)
			untilRows(t, b, half)
			must(t, b.Script(nil, `window.hands.phone = arguments[0] + 60000`, phone))
			takeReading(t, b, c.readings[2])
			// Somebody sets the clock on by an hour; the page's own goes on.
			passes(t, b, 60)
			must(t, b.Script(nil, `window.hands.phone += 3600e3`))
			takeReading(t, b, c.readings[3])
			untilRows(t, b, c.rows)
			untilKept(t, b, 4)
			must(t, b.Reload())
			openLog(t, b, page)
			untilRows(t, b, c.rows)
			untilTable(t, b, c.table)
			var doubts int
			must(t, b.Script(&doubts, `return document.querySelectorAll(".rows-taken .doubt").length`))
			if want := map[bool]int{true: 1}[timed]; doubts != want {
				t.Errorf("%d times are in doubt, want %d: that after the clock was set", doubts, want)
			}
			wantQuietConsole(t, b)
		})
	}
}

// untilKept waits until so many readings are in the browser's store.
func untilKept(t *testing.T, b *Browser, want int) {
	t.Helper()
	must(t, b.Until("the readings are kept", func() (bool, error) { return readingsKept(t, b) == want, nil }))
}

// untilOnDisk waits until the log says that all of it is kept.
func untilOnDisk(t *testing.T, b *Browser) {
	t.Helper()
	must(t, b.Until("the readings are on the disk", func() (kept bool, err error) {
		err = b.Script(&kept, `return document.querySelector(".log:not(.keeping)") !== null`)
		return kept, err
	}))
}

// TestHalfAPair: half a pair survives the reload, and is asked for on.
func TestHalfAPair(t *testing.T) {
	h := serve(t, filesOf(t, publish(t)))
	b := phone(t)
	page := h.address + "calculators/gauge-compare/"
	openLog(t, b, page)
	b.untilText(t, ".log .typed", "Machine gauge")
	must(t, b.Script(nil, `const list = document.querySelector(".log select"); list.value = "Pa"`))
	takeReading(t, b, "54.7")
	untilRows(t, b, "54.7 Pa")
	b.untilText(t, ".log .typed", "Independent gauge")
	kept := func() (is string) {
		must(t, b.Script(&is, `return document.querySelector(".log select").value`))
		return is
	}
	kept1 := kept()
	untilKept(t, b, 1)
	openLog(t, b, page)
	untilRows(t, b, "54.7 Pa")
	b.untilText(t, ".log .typed", "Independent gauge")
	if again := kept(); kept1 != "Pa" || again != "Pa" {
		t.Errorf("the unit was %s and is %s after the reload, want Pa", kept1, again)
	}
	takeReading(t, b, "12.3")
	untilRows(t, b, "54.7 Pa, 12.3 Pa")
	untilTable(t, b, "machine Pa,reference Pa\n54.7,12.3")
	wantQuietConsole(t, b)
}

// TestAVerdictIsHeardOnce takes a log of a leak and vapour that decides after twelve minutes. What it says after each reading, the native code
// says too. A screen reader hears that it is open, then that it is decided, and nothing else however many readings come; what else on
// the page speaks lies outside of the dialog, and is silent. (How good the minutes are: TestAhead of calc/vacuum and of calc/pumping.)
func TestAVerdictIsHeardOnce(t *testing.T) {
	h := serve(t, filesOf(t, publish(t)))
	b := phone(t)
	setClocks(t, b)
	openLog(t, b, h.address+"calculators/rise-log/")
	must(t, b.Script(nil, `
		window.heard = [];
		for (const region of document.querySelectorAll(".log :is([aria-live], [role=alert], [role=status])"))
			new MutationObserver(() => { if (region.textContent.trim()) heard.push(region.textContent.replaceAll("\u00a0", " ")); })
				.observe(region, { childList: true, characterData: true, subtree: true });`))
	tap(t, b, ".log .take")
	untilRows(t, b, "clock started")
	log, first, last, promised := "time min,pressure mTorr", "", "", 0
	for minute := 1; minute <= 14; minute++ {
		passes(t, b, 60)
		x := float64(minute)
		reading := fmt.Sprintf("%.0f", 100+14*x-90*math.Expm1(-x/5)+1.2*math.Sin((x-1)*(x-1)))
		log += fmt.Sprintf("\n%d,%s", minute, reading)
		takeReading(t, b, reading)
		untilTable(t, b, log)
		last = standsOf(t, log)
		b.untilText(t, ".stands strong", strings.Replace(last, " min more", "\u00a0min more", 1))
		if minute == 1 {
			first = last
		}
		if minute > 7 && strings.Contains(last, " min more") {
			promised++
		}
	}
	if promised < 2 || last != "Decided: the leak is under its limit" {
		t.Errorf("%d times it said how much longer, and in the end %q: this log tests little", promised, last)
	}
	var heard []string
	must(t, b.Script(&heard, "return heard"))
	if want := []string{"Keep going, seven more readings", last}; !slices.Equal(heard, want) || first != want[0] {
		t.Errorf("a screen reader has heard %q, want %q", heard, want)
	}
	wantQuietConsole(t, b)
}

// standsOf is how a rise log stands with the other entries of the worked example, as the native code has it, with a capital.
func standsOf(t *testing.T, log string) string {
	t.Helper()
	request := declare.Request{ID: "rise-log"}
	for _, pair := range calc.Find("rise-log").Example.In {
		if pair.Name == "log" {
			pair.Text = log
		}
		request.In = append(request.In, pair)
	}
	for _, out := range calc.Answer(request).Out {
		if out.ID == "stands" {
			return strings.ToUpper(out.Text[:1]) + out.Text[1:]
		}
	}
	t.Fatalf("nothing is said of\n%s", log)
	return ""
}

// TestALogOfABranch: a log of a guide that was opened in another one is that guide's.
func TestALogOfABranch(t *testing.T) {
	h := serve(t, filesOf(t, publish(t)))
	b := phone(t)
	openSteps(t, b, h.address+"procedures/dry-empty/")
	must(t, b.Script(nil, `document.querySelector('.if-not a[href*="rise-test/"]').click()`))
	must(t, b.Until("the guide is there", func() (there bool, err error) {
		err = b.Script(&there, `return document.querySelector(".branch [data-calculator=rise-log] .log-ways button") !== null`)
		return there, err
	}))
	must(t, b.Script(nil, `document.querySelector(".branch [data-calculator=rise-log] .log-ways button").click()`))
	b.untilText(t, ".log .take", "Start the clock")
	tap(t, b, ".log .take")
	takeReading(t, b, "120")
	untilRows(t, b, "clock started; 120 mTorr")
	untilOnDisk(t, b)
	openLog(t, b, h.address+"procedures/dry-empty/")
	b.untilText(t, ".log .take", "Start the clock")
	openLog(t, b, h.address+"procedures/rise-test/")
	untilRows(t, b, "clock started; 120 mTorr")
	wantQuietConsole(t, b)
}

// offerFile puts a file into the entry of the first table: it is chosen by the browser's own window, which a test cannot reach, so
// that the entry of the page takes it instead.
func offerFile(t *testing.T, b *Browser, text string) {
	t.Helper()
	path := filepath.Join(t.TempDir(), "log.csv")
	must(t, os.WriteFile(path, []byte(text), 0o644))
	must(t, b.Script(nil, `document.getElementById("chosen")?.remove(); HTMLInputElement.prototype.click = function () { this.id = "chosen"; document.body.append(this); };`))
	tap(t, b, ".log-ways button:nth-child(2)")
	must(t, b.Until("a file is asked for", func() (there bool, err error) {
		err = b.Script(&there, `return document.getElementById("chosen") !== null`)
		return there, err
	}))
	input, err := b.Find("#chosen")
	must(t, err)
	must(t, input.Type(path))
}

func openFiles(t *testing.T, b *Browser, address string) {
	t.Helper()
	must(t, b.Open(address))
	must(t, b.Until("files can be loaded", func() (there bool, err error) {
		err = b.Script(&there, `return document.querySelectorAll(".log-ways button").length === 3`)
		return there, err
	}))
	must(t, b.Script(nil, catches))
}

// TestLogsAsFiles loads each kind of log as a spreadsheet or a logger writes it, saves it, and loads what was saved: the same answer.
func TestLogsAsFiles(t *testing.T) {
	h := serve(t, filesOf(t, publish(t)))
	b := phone(t)
	for _, c := range []struct{ name, id, text, says string }{
		{"semicolons, decimal commas, byte order mark, Windows line ends", "rise-log",
			"\ufeffTime (min);Pressure (Pa)\r\n0;16\r\n1;17,5\r\n2;18,9\r\n3;20\r\n4;21,5\r\n5;22,9\r\n6;24\r\n7;25,5\r\n8;26,7\r\n", "9 of 9"},
		{"the time of day, over midnight", "rise-log",
			"time,pressure mTorr\n23:57:00,120\n23:58:00,131\n23:59:00,142\n00:00:00,150\n00:01:00,161\n00:02:00,172\n00:03:00,180\n00:04:00,191\n00:05:00,200\n", "9 of 9"},
		{"minutes and seconds", "pump-down-log",
			"time m:ss\tpressure mTorr\n1:30\t1900\n2:00\t1500\n3:00\t358\n5:00\t208\n8:00\t156\n12:00\t125\n20:00\t97\n30:00\t82\n", "as it should be"},
		{"pairs in two units", "gauge-compare", "machine mTorr;reference Pa\n410;12,27\n598;33,33\n1387;120\n", "machine high by a constant"},
	} {
		openFiles(t, b, h.address+"calculators/"+c.id+"/")
		answered := func() (text string) {
			if err := b.Until(c.name+" is answered", func() (bool, error) {
				err := b.Script(&text, `return [...document.querySelectorAll(".fault:not([hidden]), .answer .verdict, .answer .value")].map((part) => part.textContent.replaceAll("\u00a0", " ")).join("\n")`)
				return strings.Contains(text, c.says), err
			}); err != nil {
				t.Fatalf("%v: %s", err, text)
			}
			return text
		}
		offerFile(t, b, c.text)
		first := answered()
		tap(t, b, ".log-ways button:nth-child(3)")
		saved := caught(t, b)
		must(t, b.Script(nil, `const entry = document.querySelector("textarea"); entry.value = ""; entry.dispatchEvent(new Event("input", { bubbles: true }))`))
		must(t, b.Until("nothing is answered", func() (gone bool, err error) {
			err = b.Script(&gone, `return document.querySelector(".answer .verdict") === null`)
			return gone, err
		}))
		offerFile(t, b, saved)
		if again := answered(); again != first {
			t.Errorf("%s: after saving and loading\n%s\nbefore\n%s", c.name, again, first)
		}
	}
	openFiles(t, b, h.address+"calculators/rise-log/")
	offerFile(t, b, "time s,pressure Pa\r\n0,20\r\n60,21,5\r\n")
	b.untilText(t, `[data-input=log] .fault`, "line 3: there are 3 values, but the first line names 2 columns; write a decimal point, or separate the columns by semicolons")
	wantQuietConsole(t, b)
}

// TestElapsed puts pairs of moments to the reckoning of times, with clocks that were set or slept.
func TestElapsed(t *testing.T) {
	b, _ := openPart(t, `import * as elapsed from "./elapsed"; Object.assign(window, { parts: elapsed });`, "")
	for _, test := range []struct {
		name     string
		at, beat float64 // of the second moment; of the first 1e12 and 1000
		life     string
		slept    bool
		seconds  float64
		doubt    bool
	}{
		{"both clocks agree", 1e12 + 60_000, 61_000, "a", false, 60, false},
		{"the phone's clock was nudged", 1e12 + 61_500, 61_000, "a", false, 60, false},
		{"the phone's clock was set on", 1e12 + 3_660_000, 61_000, "a", false, 60, true},
		{"the phone's clock was set back", 1e12 - 3_540_000, 61_000, "a", false, 60, true},
		{"the page's clock stopped while the phone slept", 1e12 + 600_000, 61_000, "a", true, 600, true},
		{"set back while the phone slept", 1e12 - 600_000, 61_000, "a", true, 60, true},
		{"another page", 1e12 + 600_000, 5, "b", false, 600, false},
		{"another page, and a clock set back", 1e12 - 600_000, 5, "b", false, 0, true},
	} {
		var got struct {
			Seconds float64
			Doubt   bool
		}
		must(t, b.Script(&got, `return window.parts.elapsed({ at: 1e12, beat: ["a", 1000] }, { at: arguments[0], beat: [arguments[1], arguments[2]] }, arguments[3])`, test.at, test.life, test.beat, test.slept))
		if got.Seconds != test.seconds || got.Doubt != test.doubt {
			t.Errorf("%s: %+v, want %v s, doubt %v", test.name, got, test.seconds, test.doubt)
		}
	}
	for text, want := range map[string]float64{"90": 90, "1:30": 90, "1:00:05": 3605, "0:07.5": 7.5, "2,5": 2.5, "": -1, "1:60": -1, "abc": -1, "1:2:3:4": -1, "-5": -1, "1e9": -1} {
		var got float64
		must(t, b.Script(&got, `return window.parts.seconds(arguments[0]) ?? -1`, text))
		if got != want {
			t.Errorf("%q is %v s, want %v", text, got, want)
		}
	}
}
