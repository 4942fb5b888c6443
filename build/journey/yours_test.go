package journey

import (
	"fmt"
	"strings"
	"testing"

	"blankoff/calc"
	"blankoff/calc/declare"
)

// torraskRise is what the step of the rise test asks once the page is for a Torrask 38: its card's values with the readings of
// the guide. The values are those of content/machines/torrask-38.yaml.
var torraskRise = []declare.Pair{
	{Name: "volume", Text: "62.0 ± 2.5 L"}, {Name: "start", Text: "447 mTorr"}, {Name: "end", Text: "1547 mTorr"}, {Name: "time", Text: "8 min"},
	{Name: "limit", Text: "8 mTorr/min"}, {Name: "gauge", Text: "20 %"}, {Name: "step", Text: "1 mTorr"}, {Name: "ceiling", Text: "2000 mTorr"},
}

// TestReadersMachine: a reader says once which machine is theirs. The entries of every calculator and what the text says
// follow, answers are computed anew, other pages and other tabs know it, and it can be taken back.
func TestReadersMachine(t *testing.T) {
	h := serve(t, filesOf(t, publish(t)))
	b := phone(t)
	must(t, b.Open(h.address+risePage))
	const top = ".facts select.machine"
	untilLive(t, b, "[data-calculator=rise-test]")
	must(t, b.Until("the choice of a machine is open", func() (open bool, err error) {
		err = b.Script(&open, `return document.querySelector(arguments[0]).matches(":enabled")`, top)
		return open, err
	}))
	wantTouchable(t, b, "select.machine")
	var asPublished seen
	must(t, b.Script(&asPublished, readSeen, "rise-test"))
	asPublished.Working = nil // a guide holds the room for it alone
	tab, err := b.NewWindow()
	must(t, err)
	first, err := b.Window()
	must(t, err)
	must(t, b.Switch(tab))
	must(t, b.Open(h.address+risePage))
	must(t, b.Switch(first))

	choose(t, b, top, "torrask-38")
	wantRise(t, b, expected(calc.Answer(declare.Request{ID: "rise-test", In: torraskRise})))
	picture(t, b, "machine chosen")
	wantMarked(t, b, 1)
	wantWithinWidth(t, b)
	var lists []string
	must(t, b.Script(&lists, `return [...document.querySelectorAll("select.machine")].map(({ value }) => value)`))
	if want := "torrask-38 torrask-38 torrask-38"; strings.Join(lists, " ") != want {
		t.Errorf("the choices of the page say %v, want %s", lists, want)
	}

	must(t, b.Switch(tab))
	wantRise(t, b, expected(calc.Answer(declare.Request{ID: "rise-test", In: torraskRise})))
	must(t, b.Switch(first))

	// A log is filled in too, and is kept for the next page.
	must(t, b.Open(h.address+"procedures/dry-empty/"))
	must(t, b.Until("the curve is that of the chosen machine", func() (bool, error) {
		var curve string
		err := b.Script(&curve, `return document.querySelector("[data-input=expected] textarea").value`)
		return curve == "time min,pressure mTorr\n1,46700\n2,3280\n3,522\n5,176\n8,120\n12,94\n20,72\n30,59", err
	}))
	wantMarked(t, b, 1)

	must(t, b.Open(h.address+risePage))
	wantRise(t, b, expected(calc.Answer(declare.Request{ID: "rise-test", In: torraskRise})))
	choose(t, b, top, "")
	wantRise(t, b, asPublished)
	wantMarked(t, b, -1)
	wantQuietConsole(t, b)
}

func wantRise(t *testing.T, b *Browser, want seen) {
	t.Helper()
	var got seen
	err := b.Until("the rise test answers for the machine", func() (bool, error) {
		err := b.Script(&got, readSeen, "rise-test")
		if want.Working == nil {
			got.Working = nil
		}
		return fmt.Sprintf("%+v", got) == fmt.Sprintf("%+v", want), err
	})
	if err != nil {
		t.Fatalf("%v\n got %+v\nwant %+v", err, got, want)
	}
}

// wantMarked: exactly the figures of one machine, by its place on the page, are marked as the reader's.
func wantMarked(t *testing.T, b *Browser, place int) {
	t.Helper()
	var marked, of []string
	must(t, b.Script(&marked, `return [...document.querySelectorAll("[data-mine]")].map(({ textContent }) => textContent)`))
	must(t, b.Script(&of, `return [...document.querySelectorAll("[data-of~='" + arguments[0] + "']")].map(({ textContent }) => textContent)`, place))
	if fmt.Sprint(marked) != fmt.Sprint(of) || place >= 0 && len(of) == 0 {
		t.Errorf("marked are %q, want %q", marked, of)
	}
}
