package journey

import "testing"

// worked is pages as they are while a job is in hand, in the order in which one does it. Each is reached from a fresh load of its page.
var worked = []struct {
	name, path string
	do         func(t *testing.T, b *Browser)
}{
	{"notes opened", risePage, func(t *testing.T, b *Browser) {
		untilStepsKeep(t, b)
		tap(t, b, "#step-1 .tick input")
		tap(t, b, "#step-2 .kept button")
		note, err := b.Find("#step-2 .kept textarea")
		must(t, err)
		must(t, note.Type("pane clean"))
		tap(t, b, "#step-2 .tick input")
		b.untilText(t, ".work-strip .on", "Go on: step 3 of 11")
	}},
	{"clearing asked", risePage, func(t *testing.T, b *Browser) {
		untilStepsKeep(t, b)
		tap(t, b, ".work-end summary")
	}},
	{"branch opened", risePage, openSeal},
	{"job in hand on another page", "", func(t *testing.T, b *Browser) {
		b.untilText(t, ".work-strip .on", "Go on: Chamber rise test, step 3")
	}},
	{"record with a job", "record/", untilSheet},
	{"erasing asked", "record/", func(t *testing.T, b *Browser) {
		untilSheet(t, b)
		keyNamed(t, b, "Erase all jobs")
	}},
}

// untilSheet waits for the job's entries, which may stand far below what is seen.
func untilSheet(t *testing.T, b *Browser) {
	t.Helper()
	must(t, b.Until("the job is shown", func() (there bool, err error) {
		err = b.Script(&there, `return document.querySelector(".job-sheet h3")?.textContent === "Chamber rise test"`)
		return there, err
	}))
}

// untilKept waits for what is put under each step.
func untilStepsKeep(t *testing.T, b *Browser) {
	t.Helper()
	must(t, b.Until("the steps are kept", func() (there bool, err error) {
		err = b.Script(&there, `return document.querySelector(".step .kept") !== null`)
		return there, err
	}))
}

// openSeal opens the guide about the door's seal in place.
func openSeal(t *testing.T, b *Browser) {
	t.Helper()
	untilStepsKeep(t, b)
	tap(t, b, `#step-3 .if-not a[href$="door-seal/"]`)
	must(t, b.Until("the guide is there", func() (there bool, err error) {
		err = b.Script(&there, `return document.querySelector("#step-3 .branch .step .kept") !== null`)
		return there, err
	}))
}

// TestAxeWhileWorking puts the states of a job to the same judge as the pages.
func TestAxeWhileWorking(t *testing.T) {
	t.Parallel()
	axe := axeCore(t)
	h := serveAt(t, "/", filesOf(t, publish(t)))
	for _, eye := range eyes {
		t.Run(eye.name, func(t *testing.T) {
			b := see(t, eye)
			for _, state := range worked {
				t.Run(state.name, func(t *testing.T) {
					must(t, b.Open(h.address+state.path))
					untilAtRest(t, b)
					state.do(t, b)
					wantAccessible(t, b, axe, eye)
				})
			}
		})
	}
}

// TestKeyboardWhileWorking walks through the states of a job.
func TestKeyboardWhileWorking(t *testing.T) {
	t.Parallel()
	h := serveAt(t, "/", filesOf(t, publish(t)))
	b := phone(t)
	for _, state := range worked {
		t.Run(state.name, func(t *testing.T) {
			must(t, b.Open(h.address+state.path))
			untilAtRest(t, b)
			state.do(t, b)
			// From the beginning of the page, wherever the last tap was.
			must(t, b.Script(nil, `document.body.tabIndex = -1; document.body.focus(); document.body.removeAttribute("tabindex")`))
			wantWalkable(t, b)
		})
	}
}
