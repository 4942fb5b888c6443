package verify

import "strings"

// oddSyllables are common words that the rules below get wrong.
var oddSyllables = map[string]int{
	"something": 2, "sometimes": 2, "somebody": 3, "someone": 2, "business": 2, "every": 2, "everything": 3, "different": 3, "area": 3, "idea": 3,
	"being": 2, "science": 2, "whole": 1, "we're": 1, "you're": 1, "movement": 2, "careful": 2, "carefully": 3, "homemade": 2, "lifetime": 2,
}

// syllables counts those of a word in small letters, about as it is spoken: groups of vowels, less the silent e, more
// where two vowels are spoken apart. A number or a unit counts as one.
func syllables(word string) int {
	if n, odd := oddSyllables[word]; odd {
		return n
	}
	count := vowelGroups(word) + apart(word)
	if count > 1 && silentEnd(word) {
		count--
	}
	return max(count, 1)
}

func isVowel(c byte) bool { return strings.IndexByte("aeiouy", c) >= 0 }

func vowelGroups(word string) int {
	count := 0
	for i := range len(word) {
		if isVowel(word[i]) && (i == 0 || !isVowel(word[i-1])) {
			count++
		}
	}
	return count
}

// pairsApart are vowels that stand side by side and are spoken apart, and the letters before which they are one after all:
// radio, but not motion.
var pairsApart = []struct{ pair, notAfter string }{
	{"ia", "cstg"}, {"io", "cstgx"}, {"iu", ""}, {"ua", "gq"}, {"iet", ""}, {"ying", ""}, {"uing", "gq"},
}

func apart(word string) int {
	count := 0
	for _, p := range pairsApart {
		if i := strings.Index(word, p.pair); i > 0 && !strings.Contains(p.notAfter, word[i-1:i]) {
			count++
		}
	}
	return count
}

// silentEnd tells whether the last e is not spoken: in hole, holes, safely, turned; not in table, boxes, tested.
func silentEnd(word string) bool {
	before := func(ending, spoken string) bool {
		stem, found := strings.CutSuffix(word, ending)
		return found && len(stem) > 1 && !strings.HasSuffix(stem, "e") && strings.IndexByte(spoken, stem[len(stem)-1]) < 0
	}
	switch {
	case strings.HasSuffix(word, "le") || strings.HasSuffix(word, "les"):
		stem := strings.TrimSuffix(strings.TrimSuffix(word, "s"), "le")
		return stem != "" && isVowel(stem[len(stem)-1])
	case strings.HasSuffix(word, "ches") || strings.HasSuffix(word, "shes"):
		return false
	}
	return before("e", "") || before("es", "sxzcg") || before("ed", "td") || before("ely", "")
}
