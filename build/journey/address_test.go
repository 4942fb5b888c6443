package journey

import (
	"fmt"
	"strings"
	"testing"
)

// block is what a reader sees of one calculator.
type block struct {
	Entries map[string]string // with the units chosen
	Answer  string            // all of it
	Sent    string            // what is said of the address
	Hash    string
	Key     string // what its key would hand on
	History int
}

const readBlock = `const block = document.getElementById(arguments[0]);
	const entries = {};
	for (const field of block.querySelectorAll("[data-input]")) entries[field.dataset.input] = [...field.querySelectorAll("input, textarea, select")].map((one) => one.value).join(" ");
	return { Entries: entries, Answer: block.querySelector(".answer").textContent, Sent: block.querySelector(".sent")?.textContent ?? "", Hash: location.hash, Key: block.querySelector(".hand").dataset.address, History: history.length };`

func blockAt(t *testing.T, b *Browser, id string) (seen block) {
	t.Helper()
	must(t, b.Script(&seen, readBlock, id))
	return seen
}

// untilBlock waits until one calculator is as it should be.
func untilBlock(t *testing.T, b *Browser, id, what string, holds func(block) bool) (seen block) {
	t.Helper()
	if err := b.Until(what, func() (bool, error) {
		err := b.Script(&seen, `if (!document.getElementById(arguments[0]) || document.querySelector(".answer [aria-busy]")) return {}; `+readBlock, id)
		return holds(seen), err
	}); err != nil {
		t.Fatalf("%v; there is %+v", err, seen)
	}
	return seen
}

// settled: computed, and the address has followed.
func settled(part string) func(block) bool {
	return func(seen block) bool {
		return strings.Contains(seen.Hash, part) && !strings.Contains(seen.Answer, "Computing")
	}
}

func filledIn(seen block) bool {
	return seen.Sent == "Filled in from the address." && !strings.Contains(seen.Answer, "Computing")
}

// again opens an address as if it had come from elsewhere: one that differs behind the # alone would load nothing.
func again(t *testing.T, b *Browser, h *host, address string) {
	t.Helper()
	must(t, b.Open(h.address+"machines/"))
	must(t, b.Open(address))
}

// TestAnAddressHoldsWhatWasTyped: on the calculator's own page the address follows, without an entry of the history, and opening it gives
// the same answer, letter for letter.
func TestAnAddressHoldsWhatWasTyped(t *testing.T) {
	t.Parallel()
	h := serve(t, filesOf(t, publish(t)))
	b := phone(t)
	for _, c := range []struct {
		calculator string
		entries    []entry
		want       string // in the address
	}{
		{"rise-test", []entry{{field: "volume", typed: "28,5 ± 1"}, {field: "time", typed: "1h30"}}, "#c1/rise-test?volume=28,5_%C2%B1_1_L&start=0.05_mbar&end=0.25_mbar&time=1h30&"},
		{"pressure", []entry{{field: "value", typed: "-28 inHg gauge"}, {field: "altitude", typed: "430"}}, "#c1/pressure?value=-28_inHg_gauge&altitude=430_m"},
		{"continuity", []entry{{field: "expect", typed: "no connection"}, {field: "reading", key: true}}, "#c1/continuity?reading=OL&leads=0.3_%CE%A9&percent=1_%25&counts=3&resolution=0.1_%CE%A9&low=6.9_%CE%A9&high=9.3_%CE%A9&expect=no_connection"},
		{"rise-log", []entry{{field: "log", typed: "time min,pressure mTorr\n0,120\n2,131\n4,140\n6,152\n8,160\n10,171.5\n12,180\n14,190\n16,201"}}, "#c1/rise-log?log=time_min,pressure_mTorr;0,120;2,131;4,140;6,152;8,160;10,171.5;12,180;14,190;16,201&"},
	} {
		t.Run(c.calculator, func(t *testing.T) {
			must(t, b.Open(h.address+"calculators/"+c.calculator+"/"))
			untilLive(t, b, "[data-calculator="+c.calculator+"]")
			before := blockAt(t, b, "c1")
			for _, act := range c.entries {
				fill(t, b, c.calculator, act)
			}
			typed := untilBlock(t, b, "c1", "the address has followed", settled(c.want))
			if typed.History != before.History {
				t.Errorf("the history has %d entries, it had %d", typed.History, before.History)
			}
			address, err := b.Address()
			must(t, err)
			again(t, b, h, address)
			there := untilBlock(t, b, "c1", "the entries are those of the address", filledIn)
			if there.Answer != typed.Answer || there.Key != address {
				t.Errorf("got %+v\nwant %+v", there, typed)
			}
		})
	}
	wantQuietConsole(t, b)
}

// TestAnAddressOfAGuide: typing changes no address there, for it names a step. The key hands on that of the one calculator; once it was
// opened, it follows. Back leads to where the reader was.
func TestAnAddressOfAGuide(t *testing.T) {
	t.Parallel()
	h := serve(t, filesOf(t, publish(t)))
	b := phone(t)
	openSteps(t, b, h.address+risePage+"#step-2")
	place := firstOf(t, b)
	must(t, b.Script(nil, `document.querySelector(arguments[0]).value = "31"; document.querySelector(arguments[0]).dispatchEvent(new Event("input", { bubbles: true }))`, "#"+place+" [data-input=volume] input"))
	typed := untilBlock(t, b, place, "it is computed", func(seen block) bool { return !strings.Contains(seen.Answer, "Computing") })
	var address, said string
	must(t, b.Until("a screen reader was told", func() (bool, error) {
		err := b.Script(&said, `return document.querySelector("#" + arguments[0] + " .announce").textContent`, place)
		return said != "", err
	}))
	if hash := blockAt(t, b, place).Hash; hash != "#step-2" {
		t.Errorf("typing changed the address to %s", hash)
	}
	must(t, b.Script(&address, `return document.querySelector("#" + arguments[0] + " .hand").dataset.address`, place))
	untilResult(t, b)

	other := phone(t)
	must(t, other.Open(h.address+"machines/"))
	must(t, other.Open(address))
	there := untilBlock(t, other, place, "the entries are those of the address", filledIn)
	if there.Answer != typed.Answer || there.Entries["volume"] != typed.Entries["volume"] {
		t.Errorf("got %+v\nwant %+v", there, typed)
	}
	must(t, other.Script(nil, `document.querySelector(arguments[0]).value = "32"; document.querySelector(arguments[0]).dispatchEvent(new Event("input", { bubbles: true }))`, "#"+place+" [data-input=volume] input"))
	untilBlock(t, other, place, "the address follows", settled("?volume=32_"))
	must(t, other.Script(nil, `history.back()`))
	must(t, other.Until("back is where the reader was", func() (bool, error) {
		at, err := other.Address()
		return at == h.address+"machines/", err
	}))
	wantQuietConsole(t, b)
	wantQuietConsole(t, other)
}

// firstOf names the first calculator of a page that takes a volume.
func firstOf(t *testing.T, b *Browser) (place string) {
	t.Helper()
	must(t, b.Script(&place, `return document.querySelector("section.calculator:has([data-input=volume])").id`))
	untilLive(t, b, "#"+place)
	return place
}

// TestAnAddressWinsOverThePhone: the reader's machine and the reader's own job leave what came by the address as it is, and it is no
// result of that job until the reader types.
func TestAnAddressWinsOverThePhone(t *testing.T) {
	t.Parallel()
	h := serve(t, filesOf(t, publish(t)))
	b := phone(t)
	openSteps(t, b, h.address+risePage)
	place := firstOf(t, b)
	volume := "#" + place + " [data-input=volume] input"
	tap(t, b, "#step-2 .tick input")
	untilStep(t, b, "step-2", isDone)
	must(t, b.Script(nil, `const list = document.querySelector("select.machine"); list.selectedIndex = list.options.length - 1; list.dispatchEvent(new Event("change", { bubbles: true }))`))
	entry, err := b.Find(volume)
	must(t, err)
	must(t, entry.Retype("29"))
	untilResult(t, b)
	var address string
	must(t, b.Script(&address, `const url = new URL(document.querySelector("#" + arguments[0] + " .hand").dataset.address); return url.href.replace(/volume=[^&]*/, "volume=33.3_L")`, place))
	must(t, b.Open(h.address+"machines/"))
	own := len(resultsKept(t, b))
	must(t, b.Open(address))
	there := untilBlock(t, b, place, "the entries are those of the address", filledIn)
	if !strings.HasPrefix(there.Entries["volume"], "33.3") {
		t.Errorf("there is %+v", there)
	}
	// A tick is kept after whatever the opening would have kept.
	tap(t, b, "#step-1 .tick input")
	untilStep(t, b, "step-1", isDone)
	if n := len(resultsKept(t, b)); n != own {
		t.Errorf("%d results are kept, want the reader's own %d", n, own)
	}
	entry, err = b.Find(volume)
	must(t, err)
	must(t, entry.Retype("34"))
	must(t, b.Until("what the reader typed is kept", func() (bool, error) { return len(resultsKept(t, b)) > own, nil }))
}

const refusal = "The address holds something that this page does not know, so none of it was used. Open the link again, or type the entries in."

// TestHostileAddresses: anybody can send one. It fills in nothing, runs nothing, and is answered with a sentence.
func TestHostileAddresses(t *testing.T) {
	t.Parallel()
	h := serve(t, filesOf(t, publish(t)))
	b := phone(t)
	page := h.address + "calculators/rise-log/"
	must(t, b.Open(page))
	untilLive(t, b, "#c1")
	plain := blockAt(t, b, "c1")
	const none = "None of the entries in the address was used: "
	for _, c := range []struct{ name, fragment, want string }{
		{"unknown place", "#c9/rise-log?volume=1_L", refusal},
		{"place that is no calculator", "#hazards/rise-log?volume=1_L", refusal},
		{"another calculator", "#c1/rise-test?volume=1_L", refusal},
		{"unknown calculator", "#c1/none?volume=1_L", refusal},
		{"unknown entry", "#c1/rise-log?volumes=1_L", refusal},
		{"prototype as an entry", "#c1/rise-log?__proto__=1", refusal},
		{"constructor as an entry", "#c1/rise-log?constructor=1", refusal},
		{"prototype as a calculator", "#c1/__proto__?volume=1_L", refusal},
		{"prototype as a place", "#__proto__/rise-log?volume=1_L", refusal},
		{"twice the same", "#c1/rise-log?volume=1_L&volume=2_L", refusal},
		{"nothing", "#c1/rise-log?", refusal},
		{"no value", "#c1/rise-log?volume=", refusal},
		{"no name", "#c1/rise-log?=1_L", refusal},
		{"one sign too many", "#c1/rise-log?volume=1=2", refusal},
		{"broken code", "#c1/rise-log?volume=%E0%A4%A", refusal},
		{"half a letter", "#c1/rise-log?volume=%ED%A0%80", refusal},
		{"a nought", "#c1/rise-log?volume=1%00_L", refusal},
		{"writing turned round", "#c1/rise-log?volume=1_%E2%80%AEL", refusal},
		{"a mark that is not seen", "#c1/rise-log?volume=1%E2%80%8B_L", refusal},
		{"too long", "#c1/rise-log?volume=1_L&log=" + strings.Repeat("9", 8000), refusal},
		{"numbers by the million", "#c1/rise-log?volume=" + strings.Repeat("9", 1_000_000), refusal},
		{"a question alone", "#?", refusal},
		{"an address", "#javascript:alert(1)?volume=1_L", refusal},
		{"markup in the place", "#<img src=x onerror=window.run=1>?volume=1_L", refusal},
		{"markup", "#c1/rise-log?volume=%3Cimg%20src=x%20onerror=window.run=1%3E", refusal},
		{"markup in codes", "#c1/rise-log?volume=%3Cimg%20src%3Dx%20onerror%3D%22window.run%3D1%22%3E", none},
		{"a script", "#c1/rise-log?volume=%3Cscript%3Ewindow.run%3D1%3C/script%3E", none},
		{"a unit that does not exist", "#c1/rise-log?volume=24_florps", none},
		{"a unit of another kind", "#c1/rise-log?volume=24_min", none},
		{"no number", "#c1/rise-log?volume=many", none},
		{"a number beyond all", "#c1/rise-log?volume=1e999_L", none},
		{"two lines in one entry", "#c1/rise-log?volume=24;25", none},
		{"a table of one row", "#c1/rise-log?volume=24_L&log=min,mTorr;0,1", none},
		{"a table that is none", "#c1/rise-log?volume=24_L&log=;;;,,,", none},
		{"too many rows", "#c1/rise-log?volume=24_L&log=min,mTorr" + strings.Repeat(";1,1", 1900), none},
	} {
		t.Run(c.name, func(t *testing.T) {
			again(t, b, h, page+c.fragment)
			untilLive(t, b, "#c1")
			seen := untilBlock(t, b, "c1", "a sentence is said", func(seen block) bool { return seen.Sent != "" })
			if !strings.HasPrefix(seen.Sent, c.want) || c.want == none && len(seen.Sent) < len(none)+10 || len(seen.Sent) > 400 {
				t.Errorf("it says %q, want %q", seen.Sent, c.want)
			}
			if fmt.Sprint(seen.Entries) != fmt.Sprint(plain.Entries) {
				t.Errorf("the entries became %v", seen.Entries)
			}
			var ran bool
			must(t, b.Script(&ran, `return "run" in window || document.querySelector(".calculator img, .calculator script") !== null || {}.volume !== undefined`))
			if ran {
				t.Error("something of it ran, or became an element")
			}
		})
	}
	// On the very page that is open, too; and what leads to a place still does.
	must(t, b.Open(page))
	must(t, b.Script(nil, `location.hash = "c1/rise-log?volume=24_florps"`))
	untilBlock(t, b, "c1", "a sentence is said", func(seen block) bool { return strings.HasPrefix(seen.Sent, none) })
	must(t, b.Open(h.address+"machines/"))
	must(t, b.Open(page+"#formula"))
	untilLive(t, b, "#c1")
	if seen := blockAt(t, b, "c1"); seen.Sent != "" || seen.Hash != "#formula" {
		t.Errorf("at an anchor it says %q, at %s", seen.Sent, seen.Hash)
	}
	wantQuietConsole(t, b)
}

// TestAddressesComeBack writes entries of all kinds into a fragment and reads them again; none of it can be taken for an anchor.
func TestAddressesComeBack(t *testing.T) {
	t.Parallel()
	b, _ := openPart(t, `import * as address from "./address"; Object.assign(window, { parts: address });`, "")
	for _, text := range []string{
		"28 L", "28,5 ± 1 L", "11/16 in", "1h30", "OL", "-28 inHg gauge", "5 %", "a_b", "a;b", "a&b=c?d#e", "100 %25", "µ·Ω°", "min,mTorr\n0,120\n1,130 Pa", "'\"<>", "漏れ", "😀", "%", "+", "a  b",
	} {
		var back, fragment string
		must(t, b.Script(&fragment, `return parts.write({ place: "c2", id: "rise-test", given: { "a-b": arguments[0], other: "1 L" } })`, text))
		must(t, b.Script(&back, `const { place, id, given } = parts.read(arguments[0]); if (place + id + given.other !== "c2rise-test1 L") throw new Error(id); return given["a-b"]`, fragment))
		if back != text {
			t.Errorf("%q became %q by way of %s", text, back, fragment)
		}
		if strings.ContainsAny(fragment[1:], " \n#\"<>") || strings.Count(fragment, "?") != 1 {
			t.Errorf("%s is no fragment", fragment)
		}
	}
	for fragment, want := range map[string]string{"": "nothing", "#step-3": "nothing", "#c2": "nothing", "#who=technician&clear=yes": "nothing", "#job=abc": "nothing",
		"#c2/rise-test?": refusal, "#c2/rise-test?a=%": refusal, "#c2/rise-test?a=1&a=1": refusal, "#c2/Rise?a=1": refusal, "#c2/rise-test?a=\u202e": refusal, "#d2/rise-test?a=1": refusal} {
		var got string
		must(t, b.Script(&got, `try { return parts.read(arguments[0]) ? "read" : "nothing"; } catch (cause) { return cause.message; }`, fragment))
		if got != want {
			t.Errorf("%s: %s, want %s", fragment, got, want)
		}
	}
	// Half a letter can be typed, or pasted; it must not end the page.
	var fragment string
	must(t, b.Script(&fragment, `return parts.write({ place: "c2", id: "rise-test", given: { a: "1\ud800\u00a0L" } })`))
	if fragment != "#c2/rise-test?a=1__L" {
		t.Errorf("half a letter: %s", fragment)
	}
}

// TestAnswersAreSaidOnce: of eight keystrokes without a pause a screen reader hears one answer, and one fault, when the typing ends.
func TestAnswersAreSaidOnce(t *testing.T) {
	t.Parallel()
	h := serve(t, filesOf(t, publish(t)))
	b := phone(t)
	const listen = `window.heard = [];
		const live = (node) => (node.nodeType === 1 ? node : node.parentElement).closest("[aria-live], [role=alert], [role=status]");
		new MutationObserver((all) => all.forEach(({ target }) => live(target) && window.heard.push(live(target).textContent)))
			.observe(document.querySelector("main"), { subtree: true, childList: true, characterData: true, attributes: true, attributeFilter: ["hidden"] });`
	const press = `const entry = document.querySelector("#c1-volume");
		for (const text of arguments[0]) { entry.value = text; entry.dispatchEvent(new Event("input", { bubbles: true })); }`
	for _, c := range []struct{ typed, want string }{
		{"28.125 L", "Pass. "},
		{"28 twelv", ""}, // whatever the calculator says of it
	} {
		must(t, b.Open(h.address+"machines/"))
		must(t, b.Open(h.address+"calculators/rise-test/"))
		untilLive(t, b, "#c1")
		var keys []string
		for n := range c.typed {
			keys = append(keys, c.typed[:n+1])
		}
		must(t, b.Script(nil, listen))
		must(t, b.Script(nil, press, keys))
		var heard []string
		must(t, b.Until("something was said", func() (bool, error) {
			err := b.Script(&heard, "return window.heard")
			return len(heard) > 0, err
		}))
		// The one keystroke that comes after it is said after it: whatever was still to come came before.
		must(t, b.Script(nil, press, []string{"30 L"}))
		must(t, b.Until("the last was said", func() (bool, error) {
			err := b.Script(&heard, "return window.heard")
			return len(heard) > 1, err
		}))
		if len(heard) != 2 || !strings.HasPrefix(heard[0], c.want) || heard[0] == "" {
			t.Errorf("%q: heard %q", c.typed, heard)
		}
	}
}
