package verify

import (
	"fmt"
	"strings"
	"sync"

	"github.com/yuin/goldmark/ast"

	"blankoff/build/guide"
	"blankoff/build/source"
)

// What an "If not" may tell the reader to do, so that it leads on. The person at the machine has just seen something
// unexpected; a name for it alone ("the heater is broken") leaves them standing there.
var (
	// Wherever it stands in the text.
	leadsOn = []string{
		// They go to another place of the guide.
		"go on", "goes on", "go to", "go back", "go by", "carry on", "start over", "begin again", "start again", "from step", "see step",
		// They do the step again, now or later.
		"again", "once more", "one more time", "repeat", "is repeated", "three more times",
		// They hand it over to somebody.
		"call us", "call the shop", "tell us", "tell the owner", "send us", "ask us", "hand over", "hand it over", "write down",
		// They end.
		"do not", "don't", "stop here", "no further", "leave it",
		// They mend it and then see the step again; said in the passive.
		"is changed", "is replaced", "is to be replaced", "must be replaced", "is cleaned", "must be cleaned", "is dried",
	}
	// At the beginning of a clause, where English gives orders. Elsewhere the same words describe.
	orders = "add adjust apply ask begin blow bring call carry change check close come compare connect continue count decide defrost disconnect " +
		"discard do drain enter examine exchange fetch fill find finish fit fix follow get give go hand have hold inspect isolate keep leave let " +
		"lift listen look loosen make measure mend mop move order pass photograph pick pour prove pull push put raise re-make read reboot record " +
		"refer refill release remake remove repair replace report rescue reseat reset restart return rinse run say search see send shake shorten " +
		"show shut skip soak start straighten switch take talk tell test throw thaw tighten top try turn unplug use vent wait wash weigh wipe write"
	// The same, of words that describe or name a thing as well. They need something to act on: "dry it", and not "dry ice".
	halfOrders = "back bend blank bleed book brush clean clear cool correct cover cut draw dry empty end free grease heat lower mark name note " +
		"oil open plug press pump repeat seal set stop touch warm watch work"
)

var ways = sync.OnceValue(func() *phrases[bool] {
	p := newPhrases[bool]()
	for _, text := range leadsOn {
		p.add(text, true)
	}
	return p
})

var (
	orderWords     = wordSet(orders)
	halfOrderWords = wordSet(halfOrders)
	// objects are what an order acts on, or the way it is done.
	objects = wordSet("the a an it its them this that these those all both each every any one two your our there here until till for again up down out and")
)

// leadIns are words that an order may follow: "so wait", "then change it", "first let it dry", "and repeat".
var leadIns = wordSet("so then first now and or please just simply only next also still instead")

// ordered tells whether a passage gives an order, besides that of going to a place.
func ordered(words []word) bool {
	for i := range words {
		if beginsClause(words, i) && isOrder(words, i) {
			return true
		}
	}
	return false
}

func beginsClause(words []word, i int) bool {
	for least := i - 4; i > max(0, least) && words[i].gap == beside && leadIns[words[i-1].text]; { // "and then first please"
		i--
	}
	return i == 0 || words[i].gap != beside
}

func isOrder(words []word, i int) bool {
	text, last := words[i].text, i+1 == len(words) || words[i+1].gap != beside
	switch {
	case text == "go":
		return !last && words[i+1].text != "to"
	case orderWords[text]:
		return true
	}
	return halfOrderWords[text] && (last || objects[words[i+1].text])
}

// ways checks that each "Expect" says something, and that each "If not" leads somewhere.
func (c *checker) ways(page *guide.Guide) {
	for _, step := range page.Steps {
		for _, expect := range step.Expects {
			if saysNothing(expect, expect.Span) {
				c.refuse("step-expect", expect.Span, fmt.Sprintf("the `Expect` of step %d is empty", step.Number), "write what the reader sees, hears or reads when all is well")
			}
		}
		for _, ifNot := range step.IfNots {
			if saysNothing(ifNot, ifNot.Span) {
				c.refuse("step-if-not", ifNot.Span, fmt.Sprintf("the `If not` of step %d is empty", step.Number), "write what to do when the step does not go as expected")
			} else if why := c.endsBlind(step, ifNot); why != "" {
				c.refuse("if-not-end", ifNot.Span, fmt.Sprintf("the `If not` of step %d %s", step.Number, why), mendWay)
			}
		}
	}
}

// saysNothing tells whether a part of a step holds its label and nothing else.
func saysNothing(n ast.Node, span source.Span) bool {
	_, rest, _ := strings.Cut(span.Text(), ":")
	return n.ChildCount() <= 1 && strings.TrimSpace(rest) == ""
}

const mendWay = "say what to do: wait and look again, change something, go to [step 3](#step-3) or another page, call somebody, or end with [STOP: who goes on](stop:NAME)"

// endsBlind says why an "If not" leads nowhere; empty when it leads somewhere.
func (c *checker) endsBlind(step *guide.Step, ifNot *guide.IfNot) string {
	for n := ifNot.FirstChild(); n != nil; n = n.NextSibling() {
		if n.Kind() == guide.KindStopRef {
			return ""
		}
	}
	back, away, said, order := false, false, false, false
	for _, p := range c.ofStep[step] {
		if p.in != ifNot {
			continue
		}
		for _, link := range p.links {
			itself := link.Target == "#"+step.Anchor()
			back, away = back || itself, away || !itself && !link.Picture
		}
		order = order || ordered(p.words)
		said = said || len(ways().find(p.words)) > 0 || len(stepMentions(p.words)) > 0
	}
	switch {
	case away || order || said && !back:
		return ""
	case back:
		return "leads back to the step itself, with nothing to do first"
	}
	return "does not say what to do"
}
