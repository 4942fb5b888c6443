package load

import (
	"reflect"
	"strings"
	"testing"
)

const (
	wordsText = `tools:
  torch: {also: [flashlight, hand lamp], means: a lamp}
  watch: {verb: yes}
  spanner:
supplies:
  wipe: {also: [lint-free wipe]}
abbreviations:
  ESD: electrostatic discharge
  NPT: {means: American taper thread, also: [N.P.T.]}
  GUM: the long guide to uncertainty in measurement
synonyms:
  seal: {also: [gasket]}
`
	fullCatalogue = hazards + `parts:
  sensor-tube:
    title: The sensor tube
    forbidden:
      - {words: [acetone, nail-polish remover], why: Residue., instead: alcohol}
      - words: [brush]
        why: The wire breaks.
        instead: pour
`
)

func TestWords(t *testing.T) {
	reserved := strings.Replace(fullCatalogue, "hazards: [pane]", "hazards: [pane], words: [pump … down, evacuate], readers: [shop], stop: electrical", 1)
	library, found, err := Load(shop(map[string]string{"words.yaml": wordsText, "hazards.yaml": reserved}), "content")
	if err != nil || len(found) > 0 {
		t.Fatal(err, short(found))
	}
	words, act, part := library.Words, library.Catalogue.Act("evacuates"), library.Catalogue.Part("sensor-tube")
	for _, c := range []struct{ what, got, want string }{
		{"spellings", strings.Join(words.Tools[0].Spellings(), "; "), "torch; flashlight; hand lamp"},
		{"meaning", words.Tools[0].Means.Text, "a lamp"},
		{"a word alone", words.Tools[2].Name, "spanner"},
		{"supply", words.Supplies[0].Name, "wipe"},
		{"abbreviation as a text", words.Abbreviations[0].Name + ": " + words.Abbreviations[0].Means.Text, "ESD: electrostatic discharge"},
		{"abbreviation", words.Abbreviations[1].Also[0].Text, "N.P.T."},
		{"words of an act", act.Words[0].Text + "; " + act.Words[1].Text, "pump … down; evacuate"},
		{"place of a word", act.Words[1].Span.Text(), "evacuate"},
		{"reader and stop", act.Readers[0].Text + " " + act.Stop.Text, "shop electrical"},
		{"part", part.Title.Text, "The sensor tube"},
		{"forbidden", part.Forbidden[0].Words[1].Text + "; " + part.Forbidden[1].Instead.Text, "nail-polish remover; pour"},
	} {
		if c.got != c.want {
			t.Errorf("%s: %q, want %q", c.what, c.got, c.want)
		}
	}
	want := [][]string{{"seal", "gasket"}, {"torch", "flashlight", "hand lamp"}, {"wipe", "lint-free wipe"}, {"ESD", "electrostatic discharge"}, {"NPT", "N.P.T.", "American taper thread"}}
	if got := words.Same(); !reflect.DeepEqual(got, want) {
		t.Errorf("words that mean the same: %q, want %q", got, want)
	}
	if words.Tools[0].Verb || !words.Tools[1].Verb || library.Catalogue.Part("x") != nil {
		t.Error("verb, or a part that is not there")
	}
}

func TestWordsFaults(t *testing.T) {
	for _, c := range []struct{ name, file, text, want string }{
		{"unknown list", "words.yaml", "tool: {torch: }", `content/words.yaml:1:1: error: the list of words has no key "tool" = did you mean tools?`},
		{"word that is a list", "words.yaml", "tools: {torch: [a]}", "content/words.yaml:1:16: error: torch holds a list, not a mapping = write `torch: {also: [other spelling]}`"},
		{"unknown key of a word", "words.yaml", "tools: {torch: {als: [a]}}", `content/words.yaml:1:17: error: the word "torch" has no key "als" = did you mean also?`},
		{"verb that is not yes", "words.yaml", "tools: {torch: {verb: no}}", `content/words.yaml:1:23: error: verb holds "no", not yes = write ` + "`verb: yes`, or leave it out"},
		{"abbreviation without meaning", "words.yaml", "abbreviations: {ESD: }", "content/words.yaml:1:17: error: the word \"ESD\" needs the key means = add a line `means: …`"},
		{"spelling that is a mapping", "words.yaml", "tools: {torch: {also: [{a: b}]}}", "content/words.yaml:1:24: error: also holds a mapping in its list = write it as `also: [one, two]`; put a text with a colon or comma into quotes"},
		{"phrase without a word", "hazards.yaml", strings.Replace(hazards, "hazards: [pane]", "hazards: [pane], words: [… 5]", 1),
			`content/hazards.yaml:4:71: error: the phrase "… 5" holds no word = write the words by which it is known in a step; … stands for up to three words`},
		{"phrase of many gaps", "hazards.yaml", strings.Replace(hazards, "hazards: [pane]", "hazards: [pane], words: [a … b ... c … d … e]", 1),
			`content/hazards.yaml:4:71: error: the phrase "a … b ... c … d … e" has 4 gaps; 3 is the most = write several shorter phrases`},
		{"spelling of many gaps", "words.yaml", "tools: {torch: {also: [a … b … c … d … e]}}", `content/words.yaml:1:24: error: the phrase "a … b … c … d … e" has 4 gaps; 3 is the most = write several shorter phrases`},
		{"word without a letter", "words.yaml", "tools: {5: {verb: yes}}", `content/words.yaml:1:9: error: the phrase "5" holds no word = write the words by which it is known in a step; … stands for up to three words`},
		{"forbidden text", "hazards.yaml", strings.Replace(fullCatalogue, "- words: [brush]\n        why: The wire breaks.\n        instead: pour", "- brush", 1),
			"content/hazards.yaml:12:9: error: what is forbidden for a part holds a text, not a mapping = write `- words: [one, two]` with `why:` and `instead:` indented below"},
		{"forbidden without why", "hazards.yaml", strings.Replace(fullCatalogue, "why: Residue., ", "", 1),
			"content/hazards.yaml:11:9: error: what is forbidden needs the key why = add a line `why: …`"},
		{"unknown stop of an act", "hazards.yaml", strings.Replace(hazards, "hazards: [pane]", "hazards: [pane], stop: electric", 1),
			`content/hazards.yaml:4:69: error: the catalogue has no stop "electric" = did you mean electrical?`},
		{"unknown reader of an act", "hazards.yaml", strings.Replace(hazards, "hazards: [pane]", "hazards: [pane], readers: [owner]", 1),
			`content/hazards.yaml:4:73: error: there is no reader "owner" = known: customer, shop, technician`},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, found, err := Load(shop(map[string]string{c.file: c.text}), "content")
			if err != nil {
				t.Fatal(err)
			}
			if got := short(found); got != c.want {
				t.Errorf("\n got %s\nwant %s", got, c.want)
			}
		})
	}
}
