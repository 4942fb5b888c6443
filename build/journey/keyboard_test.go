package journey

import "testing"

// TestKeyboard walks through pages with the key Tab: it comes to all that can be touched, shows where it is, and comes out again.
func TestKeyboard(t *testing.T) {
	t.Parallel()
	h := serveAt(t, "/", filesOf(t, publish(t)))
	b := phone(t)
	for _, kind := range kinds {
		t.Run(kind.name, func(t *testing.T) {
			openKind(t, b, h.address+kind.path)
			if kind.do != nil {
				kind.do(t, b)
			}
			wantWalkable(t, b)
		})
	}
}

// wantWalkable walks through the page as it stands.
func wantWalkable(t *testing.T, b *Browser) {
	t.Helper()
	for range 2 { // to the end, and round it, where a part had the focus from the start
		for at := step(t, b); !at.Done; at = step(t, b) {
			if at.Fault != "" {
				t.Error(at.Fault)
			}
		}
	}
	var missed []string
	must(t, b.Script(&missed, notReached))
	if len(missed) > 0 {
		t.Errorf("the keyboard does not come to %d parts, first: %s", len(missed), missed[0])
	}
}

type stop struct {
	Done  bool   // out of the page, or round it
	Fault string // what is wrong with the place
}

// step presses Tab once and looks at where it leads. A focus must show (WCAG 2.4.7), and no bar may hide it (2.4.11).
func step(t *testing.T, b *Browser) (at stop) {
	t.Helper()
	must(t, b.Press(Tab))
	must(t, b.Script(&at, `
		const part = document.activeElement;
		if (part === document.body || "reached" in part.dataset) return { Done: true };
		part.dataset.reached = "";
		const name = part.outerHTML.slice(0, 80);
		if (getComputedStyle(part).outlineStyle === "none") return { Fault: "no outline shows the focus on " + name };
		const { left, top, width, height } = part.getBoundingClientRect();
		for (const x of [0.1, 0.5, 0.9]) for (const y of [0.1, 0.5, 0.9]) {
			const over = document.elementFromPoint(left + x * width, top + y * height);
			if (over && (part.contains(over) || over.contains(part))) return {};
		}
		return { Fault: "something hides the focus on " + name };`))
	return at
}

// What lies behind an open dialog is not there. Of a group of radio buttons the keyboard comes to one; arrows lead to the others.
const notReached = `
	return [...(document.querySelector("dialog:modal") ?? document).querySelectorAll("a[href], button, input:not([type=radio]), select, textarea, summary, [tabindex='0']")]
		.filter((part) => part.checkVisibility({ visibilityProperty: true }) && !part.disabled && !("reached" in part.dataset))
		.map((part) => part.outerHTML.slice(0, 80))`
