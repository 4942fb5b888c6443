package journey

import (
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"

	"blankoff/build/schema"
	"blankoff/calc/parcel"
)

// keyNamed taps the key of the jobs' page with these words.
func keyNamed(t *testing.T, b *Browser, word string) {
	t.Helper()
	must(t, b.Until("there is a key "+word, func() (there bool, err error) {
		err = b.Script(&there, `document.querySelectorAll("[data-journey]").forEach((old) => delete old.dataset.journey);
			const key = [...document.querySelectorAll(".jobs :is(button, summary, a.on)")].find((key) => key.innerText === arguments[0] && key.checkVisibility());
			if (key) key.dataset.journey = "";
			return key !== undefined`, word)
		return there, err
	}))
	tap(t, b, ".jobs [data-journey]")
}

// catches what the page copies and saves, since a test has no clipboard and no folder for downloads.
const catches = `navigator.clipboard.writeText = async (text) => { window.caught = text; };
	Object.defineProperty(navigator, "share", { value: undefined, configurable: true }); delete Navigator.prototype.share;
	URL.createObjectURL = (blob) => { blob.text().then((text) => { window.caught = text; }); return "blob:none"; };
	HTMLAnchorElement.prototype.click = function () { window.named = this.download; };`

func caught(t *testing.T, b *Browser) (text string) {
	t.Helper()
	must(t, b.Until("something was handed out", func() (bool, error) {
		err := b.Script(&text, `const text = window.caught ?? ""; window.caught = ""; return text`)
		return text != "", err
	}))
	return text
}

func jobNames(t *testing.T, b *Browser) (names string) {
	t.Helper()
	must(t, b.Script(&names, `return [...document.querySelectorAll(".jobs-list b")].map((name) => name.textContent).join("; ")`))
	return names
}

func untilJobs(t *testing.T, b *Browser, want string) {
	t.Helper()
	var got string
	if err := b.Until("the jobs are "+want, func() (bool, error) {
		got = jobNames(t, b)
		return got == want, nil
	}); err != nil {
		t.Fatalf("%v; they are %q", err, got)
	}
}

// TestAJobIsWrittenDownAndHandedOn follows one job from its first tick to another phone.
func TestAJobIsWrittenDownAndHandedOn(t *testing.T) {
	h := serve(t, filesOf(t, publish(t)))
	b := phone(t)
	must(t, b.Open(h.address+"record/"))
	keyNamed(t, b, "Begin a job")
	untilJobs(t, b, "Unnamed job")
	for name, text := range map[string]string{"serial": "CN14-2617-00473-J", "who": "R. T.", "customer": "Q <b>7</b>"} {
		entry, err := b.Find("#job-" + name)
		must(t, err)
		must(t, entry.Type(text+Enter))
	}
	untilJobs(t, b, "CN14-2617-00473-J")
	openSteps(t, b, h.address+risePage)
	b.untilText(t, ".work-strip .job", "CN14-2617-00473-J")
	tap(t, b, "#step-1 .tick input")
	untilStep(t, b, "step-1", isDone)
	entry, err := b.Find(`main section.calculator [data-input] input`)
	must(t, err)
	must(t, entry.Retype("31"))
	untilResult(t, b)

	must(t, b.Open(h.address+"record/"))
	untilSheet(t, b)
	wantWithinWidth(t, b)
	picture(t, b, "record")
	must(t, b.Script(nil, catches))
	keyNamed(t, b, "Share as text")
	text := caught(t, b)
	for _, part := range []string{"Work record: CN14-2617-00473-J", "Initials: R. T.", "Customer reference: Q <b>7</b>", "Step 1 done ", "Chamber rise test\n  revision ", "\n  Plug out, chamber at air.", "Entered: volume 31 L", "Verdict: ", "Formula: Q = V (p₂ − p₁) / t", ", text ", ", edition ", ", calculators "} {
		if !strings.Contains(text, part) {
			t.Errorf("the text lacks %q:\n%s", part, text)
		}
	}
	keyNamed(t, b, "Save as a file")
	file := caught(t, b)
	wantRecord(t, file, true)
	keyNamed(t, b, "Hand on")
	b.untilText(t, "dialog h2", "Hand on")
	tap(t, b, "dialog .keys button")
	address := caught(t, b)

	other := phone(t)
	must(t, other.Open(address))
	other.untilText(t, ".jobs .offer", "This address holds a job: CN14-2617-00473-J. Keep it on this phone Leave it")
	if names := jobNames(t, other); names != "" {
		t.Errorf("a job was kept before anybody said so: %s", names)
	}
	var left string
	must(t, other.Script(&left, `return location.hash`))
	if left != "" {
		t.Errorf("the job stays in the address: %q", left)
	}
	keyNamed(t, other, "Keep it on this phone")
	untilJobs(t, other, "CN14-2617-00473-J")
	must(t, other.Script(nil, catches))
	keyNamed(t, other, "Share as text")
	if there := caught(t, other); there != text {
		t.Errorf("on the other phone it reads\n%s\nwant\n%s", there, text)
	}

	// A file comes in whole, as a job of its own.
	path := filepath.Join(t.TempDir(), "job.json")
	must(t, os.WriteFile(path, []byte(file), 0o644))
	input, err := other.Find(`.jobs input[type=file]`)
	must(t, err)
	must(t, input.Type(path))
	untilJobs(t, other, "CN14-2617-00473-J; CN14-2617-00473-J")
	keyNamed(t, other, "Erase all jobs")
	keyNamed(t, other, "Erase all")
	untilJobs(t, other, "")
	wantQuietConsole(t, b)
	wantQuietConsole(t, other)
}

// untilResult waits until the answer to what was typed is kept.
func untilResult(t *testing.T, b *Browser) {
	t.Helper()
	must(t, b.Until("the result is kept", func() (bool, error) { return len(resultsKept(t, b)) > 0, nil }))
}

// wantRecord holds a file against the schema that the site publishes.
func wantRecord(t *testing.T, text string, good bool) {
	t.Helper()
	if wrong := againstSchema(t, text); (wrong == nil) != good {
		t.Errorf("by the schema: %v, want good: %v\n%.600s", wrong, good, text)
	}
}

func againstSchema(t *testing.T, text string) error {
	t.Helper()
	compiler := jsonschema.NewCompiler()
	for _, file := range schema.Files() {
		if file.Path == schema.Folder+"work-record.json" {
			described, err := jsonschema.UnmarshalJSON(strings.NewReader(string(file.Bytes)))
			must(t, err)
			must(t, compiler.AddResource("work-record.json", described))
		}
	}
	compiled, err := compiler.Compile("work-record.json")
	must(t, err)
	value, err := jsonschema.UnmarshalJSON(strings.NewReader(text))
	if err != nil {
		return err
	}
	return compiled.Validate(value)
}

// TestWhatComesInIsLookedAt gives files to the page and to the schema: both take the same ones, and the page says where one is damaged.
func TestWhatComesInIsLookedAt(t *testing.T) {
	const entry = `{"key": 1, "job": "a", "at": 5, "beat": ["l", 1], "page": "p/", "place": "step-1", "is": "tick"}`
	job := func(entries string) string {
		return `{"format": "blankoff work record 1", "jobs": [{"job": {"id": "a", "begun": 1, "machine": "", "serial": "S", "customer": "", "who": ""}, "entries": [` + entries + `]}]}`
	}
	replace := func(old, new string) string {
		if !strings.Contains(job(entry), old) {
			t.Fatalf("the example has no %s", old)
		}
		return strings.Replace(job(entry), old, new, 1)
	}
	b, _ := openExchange(t)
	for _, test := range []struct{ name, text, want string }{
		{"good", job(entry), ""},
		{"empty", job(""), ""},
		{"more than is known", replace(`"serial"`, `"colour": "red", "serial"`), ""},
		{"a reading with figures", job(strings.Replace(entry, `"is": "tick"`, `"is": "reading", "given": {"time": "0 s", "pressure": "327 mTorr"}`, 1)), ""},
		{"an undo", job(entry + `, {"key": 2, "job": "a", "at": 5, "beat": ["l", 1], "page": "p/", "place": "step-1", "is": "undo", "of": 1}`), ""},
		{"no JSON", "{", "This is no work record of this program, or it was cut off."},
		{"nothing", "", "This is no work record of this program, or it was cut off."},
		{"null", "null", "This is no work record of"},
		{"a list", "[]", "This is no work record of"},
		{"another format", replace("record 1", "record 2"), "This is no work record of"},
		{"jobs that are none", replace(`"jobs": [`, `"jobs": [7, `), "This work record is damaged at jobs"},
		{"no entries", replace(`"entries"`, `"entriez"`), "This work record is damaged at jobs[0].entries"},
		{"a job without a time", replace(`"begun": 1`, `"begun": null`), "This work record is damaged at jobs[0].job.begun"},
		{"a name that is a number", replace(`"serial": "S"`, `"serial": 5`), "This work record is damaged at jobs[0].job.serial"},
		{"an id that is a path", replace(`"id": "a"`, `"id": "../a"`), "This work record is damaged at jobs[0].job.id"},
		{"an unknown kind", replace(`"is": "tick"`, `"is": "script"`), "This work record is damaged at jobs[0].entries[0].is"},
		{"a time before all", replace(`"at": 5`, `"at": -5`), "This work record is damaged at jobs[0].entries[0].at"},
		{"no beat", replace(`["l", 1]`, `["l"]`), "This work record is damaged at jobs[0].entries[0].beat"},
		{"a tick about another", replace(`"is": "tick"`, `"is": "tick", "of": 1`), "This work record is damaged at jobs[0].entries[0].of"},
		{"an undo about nothing", replace(`"is": "tick"`, `"is": "undo"`), "This work record is damaged at jobs[0].entries[0].of"},
		{"figures that are none", replace(`"is": "tick"`, `"is": "reading", "given": {"a": 1}`), "This work record is damaged at jobs[0].entries[0].given"},
		{"a key that is half", replace(`"key": 1`, `"key": 1.5`), "This work record is damaged at jobs[0].entries[0].key"},
		{"a text of many letters", replace(`"serial": "S"`, `"serial": "`+strings.Repeat("S", 20001)+`"`), "This work record is damaged at jobs[0].job.serial"},
	} {
		var said string
		must(t, b.Script(&said, `try { window.parts.unparcel(arguments[0]); return ""; } catch (cause) { return cause.message; }`, test.text))
		if !strings.HasPrefix(said, test.want) || (said == "") != (test.want == "") {
			t.Errorf("%s: the page says %q, want %q", test.name, said, test.want)
		}
		wantRecord(t, test.text, test.want == "")
	}
	// What a schema cannot say.
	for name, text := range map[string]string{
		"the same key twice":         job(entry + ", " + entry),
		"an undo of what comes next": job(`{"key": 2, "job": "a", "at": 5, "beat": ["l", 1], "page": "p/", "place": "", "is": "undo", "of": 3}, ` + strings.Replace(entry, `"key": 1`, `"key": 3`, 1)),
	} {
		var said string
		must(t, b.Script(&said, `try { window.parts.unparcel(arguments[0]); return ""; } catch (cause) { return cause.message; }`, text))
		if said == "" {
			t.Errorf("%s is taken", name)
		}
	}
	// A name that would reach into the language's own objects is a name like any other.
	var own bool
	must(t, b.Script(&own, `const [{ entries }] = window.parts.unparcel(arguments[0]); return Object.hasOwn(entries[0].given, "__proto__") && ({}).a === undefined`,
		job(strings.Replace(entry, `"is": "tick"`, `"is": "reading", "given": {"__proto__": "a"}`, 1))))
	if !own {
		t.Error("a name of the language itself is not kept as a name")
	}
}

func inDigits(t *testing.T, text string) string {
	t.Helper()
	digits, ok := parcel.Pack(text)
	if !ok {
		t.Fatalf("%.40q is too long", text)
	}
	return "job=" + digits
}

// TestHostileAddressesOfJobs: a fragment that anybody can send does nothing but show a sentence.
func TestHostileAddressesOfJobs(t *testing.T) {
	t.Parallel()
	h := serve(t, filesOf(t, publish(t)))
	b := phone(t)
	const (
		job     = `{"format":"blankoff work record 1","jobs":[{"job":{"id":"a","begun":1,"machine":"","serial":"<img src=x onerror=alert(1)>","customer":"","who":""},"entries":[{"key":1,"job":"a","at":5,"beat":["l",1],"page":"javascript:alert(1)","place":"step-1","is":"tick","text":"<script>alert(1)</script>"}]}]}`
		refused = "This address holds no whole work record: it was cut off, or changed."
		asked   = "This address holds a job: <img src=x onerror=alert(1)>."
	)
	digits := inDigits(t, job)
	middle := len(digits) / 2
	for _, test := range []struct{ name, fragment, want string }{
		{"digits that are none", "job=%%%", refused},
		{"letters among the digits", "job=12ab34", refused},
		{"no digits", "job=", refused},
		{"digits cut off", digits[:middle], refused},
		{"a digit changed", digits[:middle] + string('0'+('9'-digits[middle])) + digits[middle+1:], refused},
		{"a digit lost", digits[:middle] + digits[middle+1:], refused},
		{"digits for nothing", "job=" + strings.Repeat("0", 8000), refused},
		{"a million digits", "job=" + strings.Repeat("31", 5e5), refused},
		{"131 kB in few digits", inDigits(t, strings.Repeat("0", parcel.Most)), "This is no work record of this program, or it was cut off."},
		{"another text", inDigits(t, `{"jobs":[]}`), "This is no work record of this program, or it was cut off."},
		{"a damaged piece", inDigits(t, strings.Replace(job, `"at":5`, `"at":-5`, 1)), "This work record is damaged at jobs[0].entries[0].at, so nothing was taken."},
		{"elements and scripts", digits, asked},
	} {
		t.Run(test.name, func(t *testing.T) {
			must(t, b.Open("about:blank"))
			must(t, b.Open(h.address+"record/#"+test.fragment))
			var said string
			must(t, b.Until("the page says something", func() (bool, error) {
				err := b.Script(&said, `return [...document.querySelectorAll(".jobs .told, .jobs .offer:not([hidden])")].map((part) => part.innerText).join("")`)
				return said != "", err
			}))
			if !strings.HasPrefix(said, test.want) {
				t.Errorf("it says %q, want %q", said, test.want)
			}
			if names := jobNames(t, b); names != "" {
				t.Errorf("jobs were taken: %s", names)
			}
		})
	}
	keyNamed(t, b, "Keep it on this phone")
	must(t, b.Until("the job is open", func() (there bool, err error) {
		err = b.Script(&there, `return document.querySelector(".job-sheet .lines") !== null`)
		return there, err
	}))
	var alive []string
	must(t, b.Script(&alive, `return [...document.querySelectorAll(".jobs img, .jobs script, .jobs a[href^=javascript]")].map((e) => e.outerHTML)`))
	if len(alive) > 0 {
		t.Errorf("the job brought %v", alive)
	}
}

// TestDamagedDigitsAreRefused puts a job's digits before an open page, each time spoilt in another way.
func TestDamagedDigitsAreRefused(t *testing.T) {
	t.Parallel()
	h := serve(t, filesOf(t, publish(t)))
	b := phone(t)
	job, err := os.ReadFile("../../calc/parcel/testdata/job.json")
	must(t, err)
	must(t, b.Open(h.address+"record/"))
	keyNamed(t, b, "Begin a job")
	untilJobs(t, b, "Unnamed job")
	r := rand.New(rand.NewPCG(4, 18004))
	whole := inDigits(t, string(job))
	for range 60 {
		spoilt := []byte(whole)
		at := len("job=") + r.IntN(len(spoilt)-100) // the last digits may say more than is needed
		switch r.IntN(4) {
		case 0:
			spoilt[at] = '0' + (spoilt[at]-'0'+byte(1+r.IntN(9)))%10
		case 1:
			spoilt = spoilt[:at]
		case 2:
			spoilt = append(spoilt[:at], spoilt[at+1+r.IntN(3):]...)
		case 3:
			for i := at; i < len(spoilt); i++ {
				spoilt[i] = byte('0' + r.IntN(10))
			}
		}
		var said string
		must(t, b.Script(&said, `return (async (fragment) => {
			const told = document.querySelector(".jobs .told");
			told.textContent = "";
			const said = new Promise((done) => new MutationObserver(() => done(document.querySelector(".jobs .offer").hidden ? told.textContent : "a job is offered")).observe(told, { childList: true }));
			location.hash = fragment;
			return said; })(arguments[0])`, string(spoilt)))
		if said != "This address holds no whole work record: it was cut off, or changed." {
			t.Errorf("it says %q of %s", said, spoilt)
		}
	}
	if names := jobNames(t, b); names != "Unnamed job" {
		t.Errorf("jobs were taken: %s", names)
	}
	wantQuietConsole(t, b)
}

// openExchange shows a page on which window.parts takes jobs in.
func openExchange(t *testing.T) (*Browser, *host) {
	t.Helper()
	return openPart(t, `import * as exchange from "./exchange"; Object.assign(window, { parts: exchange });`, "")
}
