package verify

import "strings"

// The words that decide whether a sentence denies what it names.
var (
	negators   = wordSet("not never no nor neither without cannot none avoid refuse")
	nouns      = wordSet("no none instead rather") // they deny the thing behind them, not the rest of the clause
	commands   = wordSet("do must may should can")
	forbidders = wordSet("not never forbidden banned refused prohibited")
	fillers    = wordSet("is are be was were may might must can could shall should will would does has have")
	turns      = wordSet("but then so") // what follows is said anew: not this but that
	conditions = wordSet("if when where once while whenever because since after")
	exceptions = wordSet("until unless before except")      // do not open it until …: in the end it is opened
	measures   = wordSet("more less fewer later only just") // no more than, not only
	aways      = wordSet("off away out")
)

func wordSet(text string) map[string]bool {
	set := map[string]bool{}
	for _, w := range strings.Fields(text) {
		set[w] = true
	}
	return set
}

// clauseReach is how many words are looked at on each side: more than a clause has, and a bound on what hostile pages cost.
const clauseReach = 60

// nounReach is how far a word such as "no" reaches: "no spanner or long lever".
const nounReach = 4

// negated tells whether the words from up to to are denied: "do not open", "never use acetone", "no spanner", "acetone is
// forbidden". It looks at the clause; over a comma only in a list: "do not bend, pull or press".
func negated(words []word, from, to int) bool {
	if deniedAfter(words, to) || keptAway(words, from, to) {
		return true
	}
	start := segmentStart(words, from)
	denied := deniedIn(words, start, from, false)
	for !denied && start > max(0, from-clauseReach) && words[start].gap == comma && !turns[words[start].text] && isList(words, start) {
		end := start
		if start = segmentStart(words, end-1); conditions[words[start].text] {
			return false
		}
		denied = deniedIn(words, start, end, true)
	}
	return denied && !excepted(words, to)
}

// segmentStart is the first word of the segment, between commas and stronger marks, that holds word i.
func segmentStart(words []word, i int) int {
	for least := i - clauseReach; i > 0 && i > least && words[i].gap == beside; {
		i--
	}
	return i
}

// behind gives the words from i on that can belong to its clause.
func behind(words []word, i int) []word { return words[i:min(i+clauseReach, len(words))] }

// deniedIn looks back from a word for what denies it. Into a list only an order reaches: "do not bend, pull or press",
// and not "it does not move, wipe or spray it".
func deniedIn(words []word, start, end int, list bool) bool {
	for k := end - 1; k >= start; k-- {
		switch {
		case turns[words[k].text]:
			return false
		case !isNegator(words, k, start):
		case nouns[words[k].text] && !list && end-k > nounReach:
		case list && words[k].text == "not" && (k == 0 || !commands[words[k-1].text]):
		case words[k].text == "without":
			return !deniedIn(words, start, k, false) // "never without goggles" asks for them
		default:
			return true
		}
	}
	return false
}

func isNegator(words []word, k, start int) bool {
	text := words[k].text
	next, last := "", ""
	if k+1 < len(words) {
		next = words[k+1].text
	}
	if k > start {
		last = words[k-1].text
	}
	switch {
	case strings.HasSuffix(text, "n't"):
		return true
	case text == "instead":
		return next == "of"
	case text == "rather":
		return next == "than"
	case text == "not" && (last == "if" || last == "or" || last == "whether"):
		return false
	}
	return negators[text] && !measures[next]
}

// isList tells whether the clause goes on with "or" from a word on.
func isList(words []word, start int) bool {
	for i, w := range behind(words, start) {
		if i > 0 && w.gap >= clause {
			return false
		}
		if w.text == "or" || w.text == "nor" {
			return true
		}
	}
	return false
}

// deniedAfter: acetone is never used, solvent must not be used.
func deniedAfter(words []word, to int) bool {
	for i := to; i < len(words) && words[i].gap == beside; i++ {
		if forbidders[words[i].text] || strings.HasSuffix(words[i].text, "n't") {
			return true
		}
		if !fillers[words[i].text] {
			return false
		}
	}
	return false
}

// keptAway: keep solvent away from the pane.
func keptAway(words []word, from, to int) bool {
	kept := false
	for i := segmentStart(words, from); i < from; i++ {
		kept = kept || words[i].text == "keep"
	}
	return kept && followed(words, to, aways)
}

// excepted: do not open it before the plug is out. Who says so tells how to open it.
func excepted(words []word, to int) bool { return followed(words, to, exceptions) }

// followed tells whether one of some words follows in the segment.
func followed(words []word, to int, by map[string]bool) bool {
	for _, w := range behind(words, to) {
		if w.gap != beside {
			return false
		}
		if by[w.text] {
			return true
		}
	}
	return false
}
