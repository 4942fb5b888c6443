package verify

import (
	"strconv"
	"sync"
)

// mention is a step named in words, at words from up to to.
type mention struct{ from, to, number int }

// stepMentions finds "step 4", "steps 5 to 9" (where one begins at 5), "steps 2 and 3". A step of another page is none:
// "step 3 of the rise test".
func stepMentions(words []word) []mention {
	var list []mention
	for i := 0; i+1 < len(words); i++ {
		if words[i].text != "step" && words[i].text != "steps" {
			continue
		}
		k := i + 1
		for ; k < len(words); k++ {
			n, err := strconv.Atoi(words[k].text)
			if err != nil || n < 1 || n > 9999 || words[k].gap > comma {
				break
			}
			list = append(list, mention{i, k + 1, n})
			if k+1 < len(words) && (words[k+1].text == "and" || words[k+1].text == "or") {
				k++
			}
		}
		if k < len(words) && k > i+1 && words[k].text == "of" {
			list = list[:len(list)-1]
		}
	}
	return list
}

var goings = sync.OnceValue(func() *phrases[bool] {
	p := newPhrases[bool]()
	for _, text := range []string{"go to", "go on to", "go on with", "go back to", "go straight to", "continue with", "continue at", "carry on with", "skip to"} {
		p.add(text, true)
	}
	return p
})

// sendsAway tells whether an Expect leads elsewhere than to the next step, whatever the reading: it says "go to" and
// names a place, and sets no condition.
func sendsAway(p *passage, mentioned int) bool {
	if len(p.links)+mentioned == 0 {
		return false
	}
	for _, m := range goings().find(p.words) {
		if !conditional(p.words, m.from) {
			return true
		}
	}
	return false
}

// conditional tells whether the sentence before or around a word says if or when.
func conditional(words []word, at int) bool {
	start, end := at, at+1
	for start > max(0, at-clauseReach) && words[start].gap < sentence {
		start--
	}
	for end < min(len(words), at+clauseReach) && words[end].gap < sentence {
		end++
	}
	for i := start; i < end; i++ {
		if t := words[i].text; t == "if" || t == "when" || t == "where" || t == "unless" || t == "otherwise" {
			return true
		}
	}
	return false
}

// goesOn tells whether a text says to go on without saying where: to the next step.
func goesOn(words []word) bool {
	for i := 0; i+1 < len(words); i++ {
		two := words[i].text + " " + words[i+1].text
		alone := i+2 >= len(words) || words[i+2].gap != beside || words[i+2].text != "to" && words[i+2].text != "with" && words[i+2].text != "at"
		if alone && (two == "go on" || two == "carry on") {
			return true
		}
	}
	return false
}

var handsOver = sync.OnceValue(func() *phrases[bool] {
	p := newPhrases[bool]()
	for _, text := range []string{"call", "send", "tell us", "ask us", "hand over", "hand it over", "stop", "do not go on", "leave it", "is to be replaced", "must be replaced", "refer", "book"} {
		p.add(text, true)
	}
	return p
})
