package journey

import (
	"os"
	"path/filepath"
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

func passes(t *testing.T, b *Browser, seconds float64) {
	t.Helper()
	must(t, b.Script(nil, `window.hands.phone += arguments[0] * 1000; window.hands.page += arguments[0] * 1000`, seconds))
}

// TestLogByTap takes a rise by tap, with a mistake, a reload in between and a clock that somebody sets, and gets the
// verdict that the calculators give natively.
func TestLogByTap(t *testing.T) {
	h := serve(t, filesOf(t, publish(t)))
	b := phone(t)
	must(t, b.post("/goog/cdp/execute", map[string]any{"cmd": "Page.addScriptToEvaluateOnNewDocument", "params": map[string]any{"source": clocks}}, nil))
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
	b.untilText(t, ".log .clock", "4:00")
	picture(t, b, "log by tap")

	// A wrong reading is taken back.
	takeReading(t, b, "999")
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
	var table string
	must(t, b.Script(&table, `return document.querySelector("textarea").value`))
	const want = "time min,pressure mTorr\n1,120\n2,131\n3,142\n4,150\n5,161\n6,172\n7,180\n8,191\n9,200"
	if table != want {
		t.Errorf("the calculator was given\n%s\nwant\n%s", table, want)
	}
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
	b.untilText(t, ".log .fault", "A time is minutes and seconds, such as 4:30.")
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

// TestPairsByTap reads two gauges in turn; half a pair survives the reload.
func TestPairsByTap(t *testing.T) {
	h := serve(t, filesOf(t, publish(t)))
	b := phone(t)
	page := h.address + "calculators/gauge-compare/"
	openLog(t, b, page)
	b.untilText(t, ".log .typed", "Machine gauge")
	takeReading(t, b, "410")
	untilRows(t, b, "410 mTorr")
	b.untilText(t, ".log .typed", "Independent gauge")
	openLog(t, b, page)
	untilRows(t, b, "410 mTorr")
	b.untilText(t, ".log .typed", "Independent gauge")
	takeReading(t, b, "92")
	untilRows(t, b, "410 mTorr, 92 mTorr")
	var table string
	must(t, b.Script(&table, `return document.querySelector("textarea").value`))
	if want := "machine mTorr,reference mTorr\n410,92"; table != want {
		t.Errorf("the calculator was given %q, want %q", table, want)
	}
	wantQuietConsole(t, b)
}

// TestLogsAsFiles loads a log from a file and saves it again.
func TestLogsAsFiles(t *testing.T) {
	h := serve(t, filesOf(t, publish(t)))
	b := phone(t)
	must(t, b.Open(h.address+"calculators/rise-log/"))
	must(t, b.Until("files can be loaded", func() (there bool, err error) {
		err = b.Script(&there, `return document.querySelectorAll(".log-ways button").length === 3`)
		return there, err
	}))
	const log = "time s,pressure Pa\r\n0,20\r\n60,21,5\r\n"
	path := filepath.Join(t.TempDir(), "log.csv")
	must(t, os.WriteFile(path, []byte(log), 0o644))
	// The file is chosen by the browser's own window, which a test cannot reach: it takes the entry instead.
	must(t, b.Script(nil, `HTMLInputElement.prototype.click = function () { this.id = "chosen"; document.body.append(this); };`+catches))
	tap(t, b, ".log-ways button:nth-child(2)")
	must(t, b.Until("a file is asked for", func() (there bool, err error) {
		err = b.Script(&there, `return document.getElementById("chosen") !== null`)
		return there, err
	}))
	input, err := b.Find("#chosen")
	must(t, err)
	must(t, input.Type(path))
	b.untilText(t, `[data-input=log] .fault`, "line 3: there are 3 values, but the first line names 2 columns; write a decimal point, or separate the columns by semicolons")
	tap(t, b, ".log-ways button:nth-child(3)")
	if got := caught(t, b); got != strings.ReplaceAll(log, "\r\n", "\n") {
		t.Errorf("saved %q", got)
	}
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
