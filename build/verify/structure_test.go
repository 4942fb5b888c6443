package verify

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
	"unicode/utf8"

	"blankoff/build/diagnostic"
	"blankoff/build/guide"
	"blankoff/build/load"
	"blankoff/build/source"
)

func ours(t testing.TB) *load.Library {
	t.Helper()
	library, found, err := load.Load(os.DirFS("../../content"), "content")
	if err != nil || len(found) > 0 {
		t.Fatal(found, err)
	}
	return library
}

// TestWordsOfOurActs puts sentences as a technician writes them to the catalogue that is published with the program.
// The sentences are our own; whether one names the act is common practice, no source.
func TestWordsOfOurActs(t *testing.T) {
	words := newVocabulary(ours(t))
	for _, c := range []struct{ text, want string }{
		{"Take the rear cover off and look.", "opens-cabinet"},
		{"Remove both side covers.", "opens-cabinet"},
		{"Do not open a panel.", ""},
		{"Never take the cover off while the plug is in.", ""},
		{"Covers stay on.", ""},
		{"Put the cover back on.", ""},
		{"Loosen the joint at the pump.", "opens-line"},
		{"Open the service tee, slowly.", "opens-line"},
		{"Plug in and pump for 30 min.", "runs-machine evacuates"},
		{"The plug is out.", ""},
		{"Close the door and pump down.", "opens-door evacuates"},
		{"Wipe the seal with a dry cloth.", "opens-door"},
		{"Leave the door shut.", ""},
		{"Look across the door pane.", ""},
		{"Drain the old oil and refill with oil of the card's grade.", "services-oil"},
		{"Leave the oil to us.", ""},
		{"Rinse it with isopropyl alcohol.", "uses-solvent"},
		{"Never rinse it with alcohol.", ""},
		{"Measure the voltage live.", "works-live"},
		{"It must not be measured live.", ""},
		{"Charge the circuit with refrigerant.", "opens-refrigerant"},
		{"Add some refrigerant.", "opens-refrigerant"},
		{"Fit a refrigerant gauge to the service valve.", "opens-refrigerant"},
		{"Weld the crack.", "welds-chamber"},
		{"Fit a new pane.", "fits-pane"},
		{"Say that the food is safe to eat.", "releases-food"},
		{"The reading does not tell whether food is safe.", ""},
		{"Watch the compressor for a minute.", "screens-refrigeration"},
		{"Wipe the frost off the trap.", "touches-trap"},
		{"The trap shows -34 °C.", ""},
		{"Lift the pump onto the bench.", "lifts"},
		{"Count the pins to the tube's key.", ""},
		{"Read it with a plug-in meter.", ""},
		{"The pump for this machine is heavy.", ""},
	} {
		var got []string
		found := wordsOf(c.text)
		for _, m := range words.acts.mentions(found) {
			if !slices.Contains(got, m.of.Name) {
				got = append(got, m.of.Name)
			}
		}
		if s := strings.Join(got, " "); s != c.want {
			t.Errorf("%q: %q, want %q", c.text, s, c.want)
		}
	}
}

// TestWaysOn: what an "If not" may say. All sentences are our own; whether a person knows from one what to do is our
// judgement.
func TestWaysOn(t *testing.T) {
	for _, c := range []struct {
		text  string
		leads bool
	}{
		{"close it and start the clock anew.", true},
		{"let it dry for 24 h, repeat.", true},
		{"wipe the pins and try three more times; still over range means the wire is broken.", true},
		{"it jams, so it is another thread. Never force it; use the right adaptor.", true},
		{"both still fall, wait.", true},
		{"an O-ring that is flat is changed now.", true},
		{"over 0.5 Ω: clean the tips or change the leads.", true},
		{"too fast, so open the valve.", true},
		{"a hiss: please call us.", true},
		{"milky: do not let it run overnight.", true},
		{"the tube is to be replaced.", true},
		{"fail, go on to step 9.", true},
		{"no unit on the display, so write none.", true},
		{"step 4 again.", true},
		{"cold oil. Then first warm it for 20 min.", true},
		{"the two ways differ: the tube is still warm, so wait 10 min.", true},
		{"any other colour, and tell us which.", true},
		{"leave it as it is.", true},
		{"the heater is broken.", false},
		{"a worn vane.", false},
		{"oil on the floor.", false},
		{"dry ice in the trap.", false},
		{"clear water at the drain, open joint above it.", false},
		{"dry it.", true},
		{"wipe, dry, close.", true},
		{"wet: dry both ends.", true},
		{"the fault is in the clean tube, most likely.", false},
		{"the reading is too high, which is bad.", false},
		{"the pump may need a change of oil.", false},
		{"it does not fall.", false},
		{"call it a bad contact? No: a leak.", true}, // an order by its form
		{"leak.", false},
		{"that is not normal.", false},
		{"the valve leaks, and the seat is dirty.", false},
	} {
		words := wordsOf(c.text)
		leads := ordered(words) || len(ways().find(words)) > 0 || len(stepMentions(words)) > 0
		if leads != c.leads {
			t.Errorf("%q leads on: %v, want %v", c.text, leads, c.leads)
		}
	}
}

func TestStepMentions(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"see step 4", "4"},
		{"do steps 5 to 9 again", "5"},
		{"steps 2 and 3, step 7 or 8", "2 3 7 8"},
		{"steps 1, 2 and 3", "1 2 3"},
		{"step 3 of the rise test", ""},
		{"step 0, step 99999, step one, step", ""},
		{"step 4. 5 min later", "4"},
	} {
		var got []string
		for _, m := range stepMentions(wordsOf(c.text)) {
			got = append(got, fmt.Sprint(m.number))
		}
		if s := strings.Join(got, " "); s != c.want {
			t.Errorf("%q: %q, want %q", c.text, s, c.want)
		}
	}
}

// TestOurForbidden: each phrase of our catalogue is refused where a page says to do it, and none where it denies it.
func TestOurForbidden(t *testing.T) {
	library := ours(t)
	words := newVocabulary(library)
	tried := 0
	for _, part := range library.Catalogue.Parts {
		for _, f := range part.Forbidden {
			for _, phrase := range f.Words {
				tried++
				text := strings.ReplaceAll(phrase.Text, "…", "a small")
				names := func(text string) bool {
					return slices.ContainsFunc(words.forbidden.mentions(wordsOf(text)), func(m match[ban]) bool { return m.of.Forbidden == f })
				}
				if said := "Take " + text + " for it."; !names(said) {
					t.Errorf("%s: nothing said of %q", part.Name, said)
				}
				if denied := "Never use " + text + "."; names(denied) {
					t.Errorf("%s: %q is refused", part.Name, denied)
				}
			}
		}
	}
	if tried < 50 {
		t.Errorf("only %d phrases", tried)
	}
}

// TestTakingActsOut takes each act out of the header of each of our pages: its steps must betray it. Those that they do not
// betray, since no words tell them from reading and waiting, are listed.
func TestTakingActsOut(t *testing.T) {
	var silent strings.Builder
	for _, page := range ours(t).Guides {
		fsys := withoutOthers(t, page)
		for _, does := range page.Does {
			text := page.File.Text[:does.Span.Start] + page.File.Text[does.Span.End():]
			fsys[page.File.Path] = &fstest.MapFile{Data: []byte(emptyItems.ReplaceAllString(text, "$1"))}
			_, found := check(t, fsys)
			if !slices.ContainsFunc(found, func(d diagnostic.Diagnostic) bool {
				return d.Rule == "act-unnamed" && strings.Contains(d.Message, `"`+does.Text+`"`)
			}) {
				fmt.Fprintln(&silent, page.Name, does.Text)
			}
		}
	}
	const golden = "testdata/silent-acts.golden"
	if *update {
		if err := os.WriteFile(golden, []byte(silent.String()), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	if want, err := os.ReadFile(golden); err != nil || silent.String() != string(want) {
		t.Errorf("the acts that no words betray are others (%v; read the difference, then -update):\n%s", err, silent.String())
	}
}

// emptyItems is what a word taken out of a list leaves.
var emptyItems = regexp.MustCompile(`([\[,]) *,`)

// FuzzStructure: whatever a page says, each message has a rule, words and a place inside the file.
func FuzzStructure(f *testing.F) {
	for _, pattern := range []string{"testdata/*.txt", "../../content/*/*.md"} {
		paths, _ := filepath.Glob(pattern)
		for _, path := range paths {
			text, err := os.ReadFile(path)
			if err != nil {
				f.Fatal(err)
			}
			if strings.HasSuffix(path, ".md") {
				f.Add(string(text))
			}
			for name, file := range parseArchive(string(text)).files {
				if strings.HasSuffix(name, ".md") {
					f.Add(file)
				}
			}
		}
	}
	f.Add("---\ntitle: x\nreader: shop\ndoes: []\n---\n## Steps\n\n1. step 1, steps 99999999999999999999 to 2 of step\n   - Expect: go to [x](#step-0) [y](#step-1)\n   - If not: step 1 and 2 or\n")
	shop := *ours(f)
	f.Fuzz(func(t *testing.T, text string) {
		if !utf8.ValidString(text) {
			return // refused before it is read as a page
		}
		page, _ := guide.Parse(&source.File{Name: "content/procedures/fuzzed.md", Path: "procedures/fuzzed.md", Text: text}, guide.Procedure)
		library := shop
		library.Guides = []*guide.Guide{page}
		found, _ := Check(&library, today)
		for _, d := range found {
			if d.Rule == "" || d.Message == "" || d.Span.File == nil || d.Span.Start < 0 || d.Span.End() > len(d.Span.File.Text) {
				t.Fatalf("not a usable message: %+v", d)
			}
			diagnostic.Text(d, diagnostic.Style{})
		}
	})
}

// many is our own content with so many copies of its procedures besides.
func many(b *testing.B, n int) *load.Library {
	b.Helper()
	fsys := copyOf(b, "../../content")
	paths, _ := filepath.Glob("../../content/procedures/*.md")
	for i := range n {
		page := fsys["procedures/"+filepath.Base(paths[i%len(paths)])]
		fsys[fmt.Sprintf("procedures/guide-%d.md", i)] = page
	}
	library, _, err := load.Load(fsys, "content")
	if err != nil {
		b.Fatal(err)
	}
	return library
}

// BenchmarkStructure measures the rules about words and steps on our own guides, reading their words included.
func BenchmarkStructure(b *testing.B) {
	library := many(b, 0)
	c := &checker{library: library, today: today, words: newVocabulary(library), linked: linkedSteps(library.Guides, library.Guide)}
	b.ReportAllocs()
	for b.Loop() {
		for _, page := range library.Guides {
			c.found = c.found[:0]
			c.read(page)
			for _, rule := range []func(*checker, *guide.Guide){(*checker).sections, (*checker).ways, (*checker).flow, (*checker).acts,
				(*checker).forbidden, (*checker).tools, (*checker).abbreviations, (*checker).presets, (*checker).pictureTexts} {
				rule(c, page)
			}
		}
	}
}

// BenchmarkCheck is all rules on 300 guides more.
func BenchmarkCheck(b *testing.B) {
	library := many(b, 300)
	b.ReportAllocs()
	for b.Loop() {
		Check(library, today)
	}
}
