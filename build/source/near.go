package source

import (
	"slices"
	"strings"
	"unicode/utf8"
)

// Nearest gives the word of a list that someone probably meant, or "".
// A guess must share more with the word than it differs: at most one edit in three letters.
func Nearest(word string, known []string) string {
	return nearest(word, known, len([]rune(word))/3)
}

// NearMiss gives the known word of which another is surely a slip: one edit, two in a word of twelve letters or more.
// It is for names that may be somebody's own.
func NearMiss(word string, known []string) string {
	return nearest(word, known, min(1+len([]rune(word))/12, 2))
}

// longestName is longer than any name: comparing costs the product of two lengths.
const longestName = 100

func nearest(word string, known []string, edits int) string {
	if len(word) > longestName || edits == 0 && !hasFolded(known, word) {
		return ""
	}
	best, least := "", edits+1
	from := []rune(strings.ToLower(word))
	for _, candidate := range slices.Sorted(slices.Values(known)) {
		if diff := len(from) - utf8.RuneCountInString(candidate); diff > edits || -diff > edits {
			continue
		}
		if d := distance(from, []rune(strings.ToLower(candidate)), least); d < least {
			best, least = candidate, d
		}
	}
	return best
}

// hasFolded tells whether a list has a word but for capitals.
func hasFolded(known []string, word string) bool {
	return slices.ContainsFunc(known, func(candidate string) bool { return strings.EqualFold(candidate, word) })
}

// DidYouMean is the hint for an unknown word: the nearest known one, or all that are known.
func DidYouMean(word string, known []string) string {
	if near := Nearest(word, known); near != "" {
		return "did you mean " + near + "?"
	}
	if len(known) == 0 {
		return ""
	}
	const most = 24 // a longer list is no help to anyone
	sorted := slices.Sorted(slices.Values(known))
	if len(sorted) > most {
		return "known: " + strings.Join(sorted[:most], ", ") + ", …"
	}
	return "known: " + strings.Join(sorted, ", ")
}

// distance counts the edits (insert, delete, replace, swap neighbours) between two words;
// anything that is not under the limit comes back as some number not under it.
func distance(from, to []rune, limit int) int {
	width := len(to) + 1
	rows := make([]int, 3*width)
	older, last, row := rows[:width], rows[width:2*width], rows[2*width:]
	for j := range last {
		last[j] = j
	}
	for i := 1; i <= len(from); i++ {
		row[0] = i
		least := i
		for j := 1; j <= len(to); j++ {
			row[j] = min(last[j]+1, row[j-1]+1, last[j-1]+unequal(from[i-1], to[j-1]))
			if i > 1 && j > 1 && from[i-1] == to[j-2] && from[i-2] == to[j-1] {
				row[j] = min(row[j], older[j-2]+1)
			}
			least = min(least, row[j])
		}
		if least >= limit { // no later row has less, not even by a swap
			return least
		}
		older, last, row = last, row, older
	}
	return last[len(to)]
}

func unequal(a, b rune) int {
	if a == b {
		return 0
	}
	return 1
}
