package journey

import (
	"fmt"
	"strings"
	"testing"
)

const risePage = "procedures/rise-test/"

// quantitiesOf gives what each quantity of the page shows, by what its author wrote (from the page as it was published).
func quantitiesOf(t *testing.T, b *Browser) []string {
	t.Helper()
	var shown []string
	must(t, b.Script(&shown, `return [...document.querySelectorAll("main data[data-steps]")].map((part) => part.textContent.replaceAll("\u00a0", " "))`))
	return shown
}

// TestUnitsOfChoice: a reader asks for other units; the whole page follows, also in another tab, and the next visit keeps it.
func TestUnitsOfChoice(t *testing.T) {
	t.Parallel()
	h := serve(t, filesOf(t, publish(t)))
	b := phone(t)
	must(t, b.Open(h.address+risePage))
	written := quantitiesOf(t, b)
	if loadsUnits(t, b) {
		t.Error("the sheet for other units was loaded before anybody asked")
	}
	tab, err := b.NewWindow()
	must(t, err)
	first, err := b.Window()
	must(t, err)
	must(t, b.Switch(tab))
	must(t, b.Open(h.address+risePage))
	must(t, b.Switch(first))

	openUnits(t, b)
	if !loadsUnits(t, b) {
		t.Error("the page does not tell what it loads, so the look before proved nothing")
	}
	picture(t, b, "units sheet")
	takeUnits(t, b, "SI")
	wantUnits(t, b, written, map[string]string{
		"-30 °C": "-30 °C", "150 mTorr": "20.0 Pa", "2,000 mTorr": "267 Pa", "24.0 L": "24.0 L", "20 mTorr/min": "2.7 Pa/min",
		"0.0107 mbar·L/s": "0.00107 Pa·m³/s", "12.0 mTorr/min": "1.60 Pa/min", "172 mTorr": "22.9 Pa",
	})
	takeUnits(t, b, "US shop")
	american := map[string]string{
		"-30 °C": "−22 °F", "1 °C": "2 °F", "150 mTorr": "150 micron", "2,000 mTorr": "2,000 micron", "24.0 L": "6.34 gal", "0.0107 mbar·L/s": "0.0080 Torr·L/s",
	}
	wantUnits(t, b, written, american)
	wantWithinWidth(t, b)
	tap(t, b, "dialog.units > .keys:last-child button")
	picture(t, b, "units US shop")

	must(t, b.Switch(tab))
	wantUnits(t, b, written, american)
	must(t, b.Switch(first))

	const fact = "data.fact[data-kind=volume]"
	authorsFigure(t, b, fact, "6.34 gal", "24.0 L")
	must(t, b.Reload())
	wantUnits(t, b, written, american)
	wantWithinWidth(t, b)
	must(t, b.Open(h.address+"machines/cindle-14/"))
	must(t, b.Until("the machine's table follows", func() (bool, error) {
		var shown string
		err := b.Script(&shown, `return document.querySelector("#chamber-volume td").textContent.replaceAll("\u00a0", " ")`)
		return shown == "6.34 ± 0.26 gal", err
	}))

	wantExplained(t, b, h)
	must(t, b.Open(h.address+risePage))
	openUnits(t, b)
	takeUnits(t, b, "As written")
	must(t, b.Until("the authors' figures are back", func() (bool, error) {
		return strings.Join(quantitiesOf(t, b), "|") == strings.Join(written, "|"), nil
	}))
	wantQuietConsole(t, b)
}

// wantExplained: where a sentence or the row of a table says one pressure in two units, neither becomes the other.
func wantExplained(t *testing.T, b *Browser, h *host) {
	t.Helper()
	must(t, b.Open(h.address+"pages/limits/"))
	openUnits(t, b)
	takeUnits(t, b, "SI")
	var shown []string
	must(t, b.Script(&shown, `
		const line = [...document.querySelectorAll("main li, main p, main tr")].find((part) => /500.mTorr/.test(part.textContent) && /66\.7.Pa/.test(part.textContent));
		return [...line.querySelectorAll("data[data-steps]")].map((part) => part.textContent.replaceAll("\u00a0", " "))`))
	if got := strings.Join(shown, " "); !strings.Contains(got, "500 mTorr") || !strings.Contains(got, "66.7 Pa") {
		t.Errorf("the sentence about units now says %q", got)
	}
}

// TestUnitsWithoutStorage: where a browser keeps nothing, the choice holds for the page, and nothing breaks.
func TestUnitsWithoutStorage(t *testing.T) {
	t.Parallel()
	files := filesOf(t, publish(t))
	h := serve(t, files)
	b := phone(t)
	must(t, b.Open(h.address+risePage))
	written := quantitiesOf(t, b)
	must(t, b.Script(nil, `Object.defineProperty(window, "localStorage", { get() { throw new DOMException("no", "SecurityError"); } })`))
	openUnits(t, b)
	takeUnits(t, b, "SI")
	wantUnits(t, b, written, map[string]string{"150 mTorr": "20.0 Pa"})
	wantQuietConsole(t, b)
}

func loadsUnits(t *testing.T, b *Browser) (loads bool) {
	t.Helper()
	must(t, b.Script(&loads, `return performance.getEntriesByType("resource").some(({ name }) => /\/units\.\w+\.css$/.test(name))`))
	return loads
}

func openUnits(t *testing.T, b *Browser) {
	t.Helper()
	tap(t, b, "nav.thumb button")
	must(t, b.Until("the sheet of units is open", func() (open bool, err error) {
		err = b.Script(&open, `return !!document.querySelector("dialog.units[open]")`)
		return open, err
	}))
	wantWithinWidth(t, b)
	wantTouchable(t, b, "dialog.units :is(button, select), nav.thumb button")
}

// wantTouchable names what is too small for a thumb.
func wantTouchable(t *testing.T, b *Browser, css string) {
	t.Helper()
	var small []string
	must(t, b.Script(&small, `return [...document.querySelectorAll(arguments[0])].filter((part) => {
		const { width, height } = part.getBoundingClientRect();
		return width < 48 || height < 48;
	}).map((part) => part.outerHTML.slice(0, 60))`, css))
	if len(small) > 0 {
		t.Errorf("too small for a thumb: %s", strings.Join(small, " | "))
	}
}

// takeUnits taps a key of the sheet.
func takeUnits(t *testing.T, b *Browser, label string) {
	t.Helper()
	must(t, b.Script(nil, `
		document.querySelector("[data-key]")?.removeAttribute("data-key");
		for (const key of document.querySelectorAll("dialog.units button")) if (key.textContent === arguments[0]) key.dataset.key = "";`, label))
	tap(t, b, "[data-key]")
	var pressed string
	must(t, b.Script(&pressed, `return document.querySelector("dialog.units [aria-pressed=true]")?.textContent ?? "none"`))
	if pressed != label {
		t.Errorf("the key %s is pressed, want %s", pressed, label)
	}
}

// wantUnits waits until each quantity of the list shows the text beside it, wherever its author wrote it.
func wantUnits(t *testing.T, b *Browser, written []string, want map[string]string) {
	t.Helper()
	var wrong []string
	err := b.Until("the quantities are in the units of choice", func() (bool, error) {
		wrong = nil
		seen := map[string]bool{}
		for i, shown := range quantitiesOf(t, b) {
			to, named := want[written[i]]
			if seen[written[i]] = true; named && shown != to {
				wrong = append(wrong, fmt.Sprintf("%s shows %s, want %s", written[i], shown, to))
			}
		}
		for text := range want {
			if !seen[text] {
				wrong = append(wrong, text+" is not on the page")
			}
		}
		return len(wrong) == 0, nil
	})
	if err != nil {
		t.Fatalf("%v: %s", err, strings.Join(wrong, "; "))
	}
}

// authorsFigure taps a quantity to see what its author wrote, and goes back with the keyboard.
func authorsFigure(t *testing.T, b *Browser, css, told, written string) {
	t.Helper()
	wantFigure := func(shown, label string) {
		t.Helper()
		var got []string
		must(t, b.Script(&got, `
			const part = document.querySelector(arguments[0]);
			return [part.textContent, part.title, part.getAttribute("role"), String(part.tabIndex)].map((text) => text.replaceAll("\u00a0", " "))`, css))
		if want := []string{shown, label, "button", "0"}; fmt.Sprint(got) != fmt.Sprint(want) {
			t.Errorf("the quantity is %q, want %q", got, want)
		}
	}
	wantFigure(told, "written: "+written)
	tap(t, b, css)
	wantFigure(written, "in your units: "+told)
	quantity, err := b.Find(css)
	must(t, err)
	must(t, quantity.Type(Enter))
	wantFigure(told, "written: "+written)
}
