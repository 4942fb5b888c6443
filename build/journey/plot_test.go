package journey

import (
	"fmt"
	"slices"
	"strings"
	"testing"
)

// TestPlotsOnASlowPhone types into an ordinary calculator, and a growing log into the page of the rise log: the plot of a guide stands
// where its room was left, each new reading is drawn, axes follow the choice of units. It tells the time from the keystroke to the
// answer, and to the picture, which follows when nothing else is to be done, at full speed and four times slowed down.
func TestPlotsOnASlowPhone(t *testing.T) {
	h := serve(t, filesOf(t, publish(t)))
	b := phone(t)
	must(t, b.Open(h.address+"pages/leak-or-vapour/"))
	must(t, b.Script(nil, "document.querySelector('.answer .plot').scrollIntoView()")) // nothing is drawn before a reader comes near
	must(t, b.Until("the room is filled", func() (bool, error) {
		var n [2]int
		err := b.Script(&n, "return [document.querySelectorAll('.plot svg:empty').length, document.querySelectorAll('.calculator .plot path').length]")
		return n[0] == 0 && n[1] > 3, err
	}))
	for _, slower := range []int{1, 4} {
		openCalculator(t, b, h.address+"calculators/rise-test/", slower)
		var all []typed
		for i := range samples {
			all = append(all, typeInto(t, b, "volume", fmt.Sprint(20+i)))
		}
		t.Logf("slowed down by %d, an ordinary calculator: %s", slower, paces(all))
		openCalculator(t, b, h.address+"calculators/rise-log/", slower)
		for _, rows := range []int{12, 120, 600} {
			all = nil
			for more := range samples {
				all = append(all, typeInto(t, b, "log", logOfLength(rows, more)))
			}
			var told int // readings of the curve, and those of the first two minutes that it leaves out
			must(t, b.Script(&told, "return [...document.querySelector('.plot svg').ariaLabel.matchAll(/(?:readings|not used): (\\d+)/g)].reduce((sum, [, n]) => sum + Number(n), 0)"))
			if want := rows + samples - 1; told != want {
				t.Errorf("%d readings: %d are told", want, told)
			}
			t.Logf("slowed down by %d, %d readings: %s", slower, rows, paces(all))
		}
	}
	must(t, b.Slow(1))
	setClocks(t, b)
	openLog(t, b, h.address+"calculators/rise-log/")
	tap(t, b, ".log .take")
	untilRows(t, b, "clock started")
	must(t, b.Slow(4))
	var all []typed
	for i := range samples {
		passes(t, b, 60)
		all = append(all, tapInto(t, b, fmt.Sprint(300+17*i)))
	}
	t.Logf("slowed down by 4, from a tap of the log: %s", paces(all[1:])) // of one reading there is no picture
	must(t, b.Slow(1))
	must(t, b.Script(nil, `localStorage.setItem("blankoff.units", '{"pressure":"Pa"}')`))
	must(t, b.Reload())
	must(t, b.Until("the axis is in Pa", func() (bool, error) {
		var has bool
		err := b.Script(&has, "return [...document.querySelectorAll('.plot text')].some((text) => text.textContent === 'pressure, Pa')")
		return has, err
	}))
	must(t, b.Script(nil, `localStorage.clear()`))
}

const samples = 15

// logOfLength is a log of so many readings in ten minutes, and some more.
func logOfLength(rows, more int) string {
	var log strings.Builder
	log.WriteString("time min,pressure mTorr\n")
	for i := range rows + more {
		fmt.Fprintf(&log, "%g,%g\n", float64(i)*10/float64(rows), 300+float64(i)*600/float64(rows)+float64(i%3))
	}
	return log.String()
}

// openCalculator opens the page of one, waits until it runs and has answered once, and slows the browser down.
func openCalculator(t *testing.T, b *Browser, address string, slower int) {
	t.Helper()
	must(t, b.Open(address))
	untilLive(t, b, ".calculator")
	typeInto(t, b, "volume", "24")
	must(t, b.Slow(slower))
}

// typed is how long somebody waits after a keystroke, in ms: until the page holds the answer and knows where all of it stands, until
// nothing keeps the next keystroke waiting, and until the picture is there.
type typed struct{ Answer, Free, Picture float64 }

func paces(all []typed) string {
	of := func(pick func(typed) float64) string {
		var ms []float64
		for _, one := range all {
			ms = append(ms, pick(one))
		}
		slices.Sort(ms)
		return fmt.Sprintf("%.1f ms (nine of ten %.1f)", ms[len(ms)/2], ms[len(ms)*9/10])
	}
	return fmt.Sprintf("from the keystroke to the answer %s, until the next may come %s, to the picture %s",
		of(func(t typed) float64 { return t.Answer }), of(func(t typed) float64 { return t.Free }), of(func(t typed) float64 { return t.Picture }))
}

// typeInto puts a text into an entry, from within the page: a keystroke of the driver takes longer than what is to be timed.
func typeInto(t *testing.T, b *Browser, name, text string) (took typed) {
	t.Helper()
	must(t, b.Script(&took, `
		const [name, text] = arguments, block = document.querySelector(".calculator"), answer = block.querySelector(".answer");
		const entry = block.querySelector("[data-input=" + name + "] :is(input, textarea)");
		entry.value = text;
		const took = { Answer: 0, Free: 0, Picture: 0 }, begun = performance.now();
		return new Promise((done) => {
			const watch = new MutationObserver(() => {
				const waits = answer.querySelector(".waiting"), drawing = answer.querySelector("[aria-busy]");
				if (waits) return;
				answer.getBoundingClientRect();
				if (!took.Answer) {
					took.Answer = performance.now() - begun;
					setTimeout(() => (took.Free = performance.now() - begun));
				}
				if (drawing) return;
				took.Picture = performance.now() - begun;
				watch.disconnect();
				setTimeout(() => done(took));
			});
			watch.observe(answer, { childList: true });
			entry.dispatchEvent(new Event("input", { bubbles: true }));
		});`, name, text))
	return took
}

// tapInto takes a reading by tap: its answer is there with the line that says how the log stands.
func tapInto(t *testing.T, b *Browser, digits string) (took typed) {
	t.Helper()
	for _, digit := range digits {
		must(t, b.Script(nil, `[...document.querySelectorAll(".log .pad button")].find((key) => key.textContent === arguments[0]).click()`, string(digit)))
	}
	must(t, b.Script(&took, `
		const [line, picture] = document.querySelector(".stands").children, answer = document.querySelector(".calculator .answer"), before = line.firstChild;
		const clock = Object.getPrototypeOf(performance).now.bind(performance);
		const took = { Answer: 0, Free: 0, Picture: 0 }, begun = clock();
		return new Promise((done) => {
			const watch = new MutationObserver(() => {
				if (answer.querySelector(".waiting")?.textContent.startsWith("Computing") || line.firstChild === before) return;
				line.getBoundingClientRect();
				if (!took.Answer) {
					took.Answer = clock() - begun;
					setTimeout(() => (took.Free = clock() - begun));
				}
				if (answer.querySelector("[aria-busy]")) return;
				took.Picture = clock() - begun;
				watch.disconnect();
				setTimeout(() => done(took));
			});
			watch.observe(document.querySelector(".stands"), { childList: true, subtree: true });
			document.querySelector(".log .take").click();
		});`))
	return took
}
