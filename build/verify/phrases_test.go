package verify

import (
	"fmt"
	"strings"
	"testing"
)

// said writes each match as the words it covers; a denied one with a minus.
func saidOf(p *phrases[string], text string) string {
	words := wordsOf(text)
	var list []string
	for _, m := range p.find(words) {
		covered := text[words[m.from].from:words[m.to-1].to]
		if negated(words, m.from, m.to) {
			covered = "-" + covered
		}
		list = append(list, covered)
	}
	return strings.Join(list, " | ")
}

// All sentences are our own; the plural forms follow the rules of English spelling.
func TestPhrases(t *testing.T) {
	p := newPhrases[string]()
	for _, text := range []string{"two spanners", "ohm-meter", "torch", "body", "shelf", "gas", "goggles", "take … cover off", "tap", "brush", "", "the", "…", "hose … clamp"} {
		p.add(text, text)
	}
	p.addBehindArticle("watch", "watch")
	for _, c := range []struct{ text, want string }{
		{"Two spanners, and TWO SPANNERS.", "Two spanners | TWO SPANNERS"},
		{"The ohm-meters and the ohm meter", "ohm-meters | ohm meter"},
		{"torches, torch's light, a torchlight", "torches | torch's"},
		{"body bodies somebody", "body | bodies"},
		{"shelves, shelf", "shelves | shelf"},
		{"gases and gas, a gasket", "gases | gas"},
		{"a goggle", "goggle"},
		{"tap, taps, tape, taped", "tap | taps"},
		{"brush and brushes", "brush | brushes"},
		{"take the cover off", "take the cover off"},
		{"Take the upper rear cover off now", "Take the upper rear cover off"},
		{"Take one, two; three. cover off", ""},
		{"take the heavy old rusty upper cover off", ""},
		{"take the plug, cover off", ""},
		{"the hose and the clamp, hose clamp", "hose and the clamp | hose clamp"},
		{"watch it on a watch, with watch in hand", "watch | watch"},
		{"", ""},
		{"1,500 torch. 0.5 torch", "torch | torch"},
	} {
		if got := saidOf(p, c.text); got != c.want {
			t.Errorf("%q: %q, want %q", c.text, got, c.want)
		}
	}
}

// Deeds are told from things: a plug-in meter plugs nothing in.
func TestDeeds(t *testing.T) {
	p := newPhrases[string]()
	for _, text := range []string{"plug in", "pump for", "hand-tight", "the oil window", "weld"} {
		p.addDeed(text, text)
	}
	for _, c := range []struct{ text, want string }{
		{"Plug in. Plugs in", "Plug in | Plugs in"},
		{"A plug-in meter", ""},
		{"Pump for an hour", "Pump for"},
		{"The pump for oil", ""},
		{"hand-tight, hand tight", "hand-tight"},
		{"an oil window; the oil window", "oil window | oil window"},
		{"The weld held, so weld no more", "weld"},
		{"spot-weld it", ""},
	} {
		if got := saidOf(p, c.text); got != c.want {
			t.Errorf("%q: %q, want %q", c.text, got, c.want)
		}
	}
}

func TestNegation(t *testing.T) {
	p := newPhrases[string]()
	for _, text := range []string{"acetone", "spanner", "open … panel", "press", "spray", "goggles", "chip"} {
		p.add(text, text)
	}
	for _, c := range []struct {
		text   string
		denied bool
	}{
		{"Use acetone.", false},
		{"Never use acetone.", true},
		{"Do not ever use acetone", true},
		{"Don’t use acetone.", true},
		{"Acetone is not allowed.", true},
		{"Acetone must never be used", true},
		{"Acetone isn't for plastics", true},
		{"Use alcohol, not acetone.", true},
		{"Use alcohol instead of acetone.", true},
		{"Use alcohol rather than acetone.", true},
		{"Keep acetone away from the pane.", true},
		{"Keep the acetone at hand.", false},
		{"Not alcohol but acetone", false},
		{"It does not dissolve, so use acetone.", false},
		{"It does not dissolve, wipe or rub with acetone.", false},
		{"If it does not dissolve, take alcohol or acetone.", false},
		{"It is not clean. Use acetone.", false},
		{"It is not clean; use acetone.", false},
		{"No more than 5 mL of acetone", false},
		{"Not only acetone", false},
		{"Clean or not, acetone", false},
		{"Hand-tight, no spanner.", true},
		{"No long lever or spanner.", true},
		{"There is no room for anything longer than this spanner", false},
		{"Without a spanner.", true},
		{"Never without goggles.", false},
		{"Start without goggles.", true},
		{"Do not bend, pull or press cables.", true},
		{"Bleed air only, never steam, gas from a can or spray.", true},
		{"No crack, chip or web", true},
		{"Do not wait, press.", false},
		{"Do not open a panel.", true},
		{"Do not open a panel before the plug is out.", false},
		{"Never open the panel unless the plug is out.", false},
		{"Neither heat nor spray", true},
		{"Avoid acetone", true},
	} {
		words := wordsOf(c.text)
		found := p.find(words)
		if len(found) != 1 {
			t.Errorf("%q: %d phrases found", c.text, len(found))
			continue
		}
		if got := negated(words, found[0].from, found[0].to); got != c.denied {
			t.Errorf("%q: denied %v, want %v", c.text, got, c.denied)
		}
	}
}

func BenchmarkPhrases(b *testing.B) {
	p := newPhrases[int]()
	for i := range 500 {
		p.add(fmt.Sprintf("word%d … other%d", i%97, i), i)
	}
	words := wordsOf(strings.Repeat("Take word3 off the other3, then word5 and never word7 or other7 again. ", 50))
	b.ReportAllocs()
	for b.Loop() {
		p.mentions(words)
	}
}
