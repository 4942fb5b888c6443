package journey

import (
	"maps"
	"strings"
	"testing"
)

// TestFoldedEntriesCome: entries that may stay blank are not in a guide, and come when a reader opens them; what cannot come is told.
func TestFoldedEntriesCome(t *testing.T) {
	t.Parallel()
	files := filesOf(t, publish(t))
	h := serve(t, files)
	file := ""
	for name := range files {
		if strings.HasPrefix(name, "entries.") {
			file = name
		}
	}
	without := maps.Clone(files)
	delete(without, file)
	h.replace(without)
	b := open(t, Chromium(), Phone)
	must(t, b.Open(h.address+"procedures/cooling-screen/"))
	untilLive(t, b, "[data-calculator=cord-drop]")
	const more = "[data-calculator=cord-drop] .more"
	tap(t, b, more+" > summary")
	b.untilText(t, more+" .waiting", "These entries did not load. Open them once more, with a network.")
	h.replace(files)
	tap(t, b, more+" > summary")
	tap(t, b, more+" > summary")
	temperature := "[data-calculator=cord-drop] [data-input=temperature] "
	must(t, b.Until("the entries are there", func() (there bool, err error) {
		err = b.Script(&there, `return !!document.querySelector(arguments[0])`, temperature+"input")
		return there, err
	}))
	entry, err := b.Find(temperature + "input")
	must(t, err)
	must(t, entry.Retype("70"+Enter))
	must(t, b.Until("the entry counts", func() (counts bool, err error) {
		err = b.Script(&counts, `return document.querySelector("[data-calculator=cord-drop] .answer").innerText.includes("at 70 °C") || document.querySelector("[data-calculator=cord-drop] .working").textContent.replaceAll("\u00a0", " ").includes("at 70 °C")`)
		return counts, err
	}))
	must(t, entry.Retype("hot"+Enter))
	var joined struct{ Label, Told string }
	must(t, b.Until("the fault is told beside it", func() (told bool, err error) {
		err = b.Script(&joined, `
			const entry = document.querySelector(arguments[0]);
			return { Label: entry.labels[0]?.innerText ?? "", Told: entry.getAttribute("aria-describedby").split(" ").map((id) => document.getElementById(id).innerText).join(" | ") }`, temperature+"input")
		return strings.Contains(joined.Told, " | ") && !strings.HasSuffix(joined.Told, " | "), err
	}))
	if !strings.HasPrefix(joined.Label, "Conductor temperature") || !strings.HasPrefix(joined.Told, "A loaded or coiled lead is warmer") {
		t.Errorf("the entry is joined with %+v", joined)
	}
	must(t, entry.Retype("20"+Enter))
	tap(t, b, "[data-calculator=cord-drop] .working > summary")
	must(t, b.Until("the working comes when it is opened", func() (told bool, err error) {
		err = b.Script(&told, `return document.querySelectorAll("[data-calculator=cord-drop] .working[open] li").length >= 3`)
		return told, err
	}))
	var twice []string
	must(t, b.Script(&twice, `const all = [...document.querySelectorAll("[id]")].map(({ id }) => id); return all.filter((id, i) => all.indexOf(id) !== i)`))
	if len(twice) > 0 {
		t.Errorf("ids stand twice: %q", twice)
	}
}
