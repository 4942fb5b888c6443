package journey

import (
	"fmt"
	"strings"
	"testing"
)

// TestPlotsOnASlowPhone types a growing log into the page of the rise log: the plot of a guide stands where its room was left,
// each new reading is drawn, axes follow the choice of units, and the time from the keystroke to the picture is told, at full
// speed and four times slowed down.
func TestPlotsOnASlowPhone(t *testing.T) {
	h := serve(t, filesOf(t, publish(t)))
	b := phone(t)
	must(t, b.Open(h.address+"pages/leak-or-vapour/"))
	must(t, b.Until("the room is filled", func() (bool, error) {
		var n [2]int
		err := b.Script(&n, "return [document.querySelectorAll('.plot svg:empty').length, document.querySelectorAll('.calculator .plot path').length]")
		return n[0] == 0 && n[1] > 3, err
	}))
	for _, slower := range []int{1, 4} {
		must(t, b.Open(h.address+"calculators/rise-log/"))
		must(t, b.Until("the calculator is live", func() (bool, error) {
			var disabled bool
			err := b.Script(&disabled, "return document.querySelector('.calculator fieldset').disabled")
			return !disabled, err
		}))
		must(t, b.Slow(slower))
		for _, rows := range []int{12, 120, 600} {
			var took []float64
			for more := range 5 {
				var log strings.Builder
				log.WriteString("time min,pressure mTorr\n")
				for i := range rows + more {
					fmt.Fprintf(&log, "%g,%g\n", float64(i)*10/float64(rows), 300+float64(i)*600/float64(rows)+float64(i%3))
				}
				must(t, b.Script(nil, `
					const block = document.querySelector(".calculator");
					const field = block.querySelector("[data-input=log] textarea");
					field.value = arguments[0];
					window.took = 0;
					const begun = performance.now();
					new MutationObserver((_, watch) => {
						if (!block.querySelector(".plot")) return;
						watch.disconnect();
						block.querySelector(".plot").getBoundingClientRect();
						window.took = performance.now() - begun;
					}).observe(block.querySelector(".answer"), { childList: true });
					field.dispatchEvent(new Event("input", { bubbles: true }));`, log.String()))
				var ms float64
				must(t, b.Until("it is drawn", func() (bool, error) {
					err := b.Script(&ms, "return window.took")
					return ms > 0, err
				}))
				took = append(took, ms)
			}
			var told int // readings of the curve, and those of the first two minutes that it leaves out
			must(t, b.Script(&told, "return [...document.querySelector('.plot svg').ariaLabel.matchAll(/(?:readings|not used): (\\d+)/g)].reduce((sum, [, n]) => sum + Number(n), 0)"))
			if told != rows+4 {
				t.Errorf("%d readings: %d are told", rows+4, told)
			}
			t.Logf("slowed down by %d, %d readings: from the keystroke to the picture %.1f ms", slower, rows, took)
		}
	}
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
