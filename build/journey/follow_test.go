package journey

import (
	"strings"
	"testing"
)

// shown is what a page shows besides its text: of the first picture, of the ladder and of the first calculator.
type shown struct {
	Axis    string   // what the plot's upright axis is called
	Numbers []string // on it
	Ladder  string   // the unit of the ladder
	Decades []string
	Labels  string // all words of the ladder
	Said    string // what a screen reader hears of it
	Entries map[string]string
	Answer  string
	Verdict string
}

const look = `
	const text = (part) => part?.textContent.replaceAll("\u00a0", " ") ?? "";
	const plot = [...document.querySelectorAll("svg.drawn")].find((svg) => !svg.closest(".answer") && svg.querySelector(".grid"));
	const ladder = document.querySelector(".ladder svg.strip");
	const tall = document.querySelector(".ladder svg.tall");
	const calculator = document.querySelector("section.calculator");
	return {
		Axis: text(plot?.querySelector("text")), Numbers: [...plot?.querySelectorAll("text[text-anchor=end]") ?? []].map(text),
		Ladder: text(ladder.querySelector(".unit")), Decades: [...tall.querySelectorAll(".number")].map(text),
		Labels: [...tall.querySelectorAll("text:not(.number, .unit)")].map(text).join("; "), Said: ladder.ariaLabel.replaceAll("\u00a0", " "),
		Entries: Object.fromEntries([...calculator.querySelectorAll("[data-input]")].map((field) => [field.dataset.input, field.querySelector("input, textarea, select").value + " " + (field.querySelector("select.unit")?.value ?? "")])),
		Answer: text(calculator.querySelector(".outputs dd")), Verdict: text(calculator.querySelector(".verdict")),
	};`

// untilShown waits until the page shows what is wanted.
func untilShown(t *testing.T, b *Browser, what string, holds func(s shown) bool) shown {
	t.Helper()
	var s shown
	if err := b.Until(what, func() (bool, error) {
		s = shown{}
		err := b.Script(&s, look)
		return err == nil && holds(s), err
	}); err != nil {
		t.Fatalf("%v: %+v", err, s)
	}
	return s
}

func setUnits(t *testing.T, b *Browser, label string) {
	t.Helper()
	openUnits(t, b)
	takeUnits(t, b, label)
	tap(t, b, "dialog.units > .keys:last-child button")
}

// TestAllOfAPageFollowsTheUnits: ladder, pictures, entries and answers are in the units of choice at once, without a network as
// with one, and as their author wrote them when the choice is taken back. What a reader typed stays.
func TestAllOfAPageFollowsTheUnits(t *testing.T) {
	t.Parallel()
	h := serve(t, filesOf(t, publish(t)))
	b := phone(t)
	must(t, b.Open(h.address+risePage))
	before := untilShown(t, b, "the calculators answer", func(s shown) bool { return s.Answer != "" })
	if before.Axis != "pressure, mTorr" || before.Ladder != "mTorr" || !strings.Contains(before.Answer, "mbar·L/s") {
		t.Fatalf("this page no longer shows what the test looks at: %+v", before)
	}
	inSI := func(s shown) bool {
		return s.Axis == "pressure, Pa" && strings.Join(s.Numbers, " ") == "70 75 80 85 90" &&
			s.Ladder == "Pa" && strings.Join(s.Decades, " ") == "10,000 1,000 100 10 1" &&
			strings.Contains(s.Labels, "267 Pa") && !strings.Contains(s.Labels+s.Said, "mTorr") && strings.Contains(s.Said, "ready limit 46.7 Pa") &&
			strings.HasPrefix(s.Answer, "0.00") && strings.Contains(s.Answer, " Pa·m³/s") && strings.Contains(s.Verdict, " Pa/min") &&
			s.Entries["volume"] == before.Entries["volume"] && strings.HasSuffix(s.Entries["start"], " Pa")
	}
	setUnits(t, b, "SI")
	first := untilShown(t, b, "the page follows", inSI)
	wantWithinWidth(t, b)
	picture(t, b, "all in SI")
	setUnits(t, b, "US shop")
	untilShown(t, b, "the page follows the shop", func(s shown) bool {
		return s.Axis == "pressure, micron" && s.Ladder == "micron" && strings.Contains(s.Labels, "air here, 1,411 ft") && strings.Contains(s.Labels, "°F") &&
			strings.Contains(s.Answer, "Torr·L/s") && s.Entries["volume"] == "6.340 ± 0.264 gal" && s.Entries["start"] == before.Entries["start"][:3]+".0 micron"
	})

	b.untilText(t, "p.saved[data-saved=ready]", "Works offline")
	h.stop()
	must(t, b.Reload())
	setUnits(t, b, "SI")
	untilShown(t, b, "the page follows without a network", inSI)
	entry, err := b.Find("section.calculator [data-input=end] input")
	must(t, err)
	must(t, entry.Retype("160"))
	typed := untilShown(t, b, "the entry counts", func(s shown) bool { return s.Answer != "" && s.Answer != first.Answer })
	setUnits(t, b, "US shop")
	untilShown(t, b, "the answer follows, the entry stays", func(s shown) bool {
		return strings.Contains(s.Answer, "Torr·L/s") && s.Entries["end"] == "160 Pa" && s.Entries["start"] != typed.Entries["start"]
	})
	setUnits(t, b, "As written")
	after := untilShown(t, b, "all is as its author wrote it", func(s shown) bool { return s.Ladder == "mTorr" && strings.Contains(s.Answer, "mbar·L/s") })
	after.Entries["end"], after.Answer, after.Verdict = before.Entries["end"], before.Answer, before.Verdict
	if diff := difference(before, after); diff != "" {
		t.Error(diff)
	}
	wantQuietConsole(t, b)
}

func difference(a, b shown) string {
	for name, text := range a.Entries {
		if b.Entries[name] != text {
			return name + " was " + text + " and is " + b.Entries[name]
		}
	}
	if a.Axis+a.Labels+a.Said+strings.Join(a.Numbers, " ")+strings.Join(a.Decades, " ") != b.Axis+b.Labels+b.Said+strings.Join(b.Numbers, " ")+strings.Join(b.Decades, " ") {
		return "the pictures are not as they were"
	}
	return ""
}

// TestTriageFollowsTheUnits: a question is read in the units of choice, whichever comes first, the question or the choice, and a tap shows
// its author's figure.
func TestTriageFollowsTheUnits(t *testing.T) {
	t.Parallel()
	h := serve(t, filesOf(t, publish(t)))
	b := phone(t)
	must(t, b.Open(h.address+"triage/#who=technician&clear=yes&edit=jumps"))
	asked := func(want string) {
		t.Helper()
		b.untilText(t, ".now h2", "Does the number leap by "+want+" or more and come back within seconds?")
	}
	asked("10,000\u00a0mTorr")
	setUnits(t, b, "SI")
	asked("1,330\u00a0Pa")
	tap(t, b, ".now h2 data")
	asked("10,000\u00a0mTorr")
	must(t, b.Reload())
	asked("1,330\u00a0Pa")
	tap(t, b, ".now .answers button")
	must(t, b.Until("the answer is taken", func() (taken bool, err error) {
		err = b.Script(&taken, `return location.hash.includes("jumps:")`)
		return taken, err
	}))
	wantQuietConsole(t, b)
}
