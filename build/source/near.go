package source

import (
	"slices"
	"strings"
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

func nearest(word string, known []string, edits int) string {
	best, least := "", edits+1
	for _, candidate := range slices.Sorted(slices.Values(known)) {
		if d := distance(strings.ToLower(word), strings.ToLower(candidate), least); d < least {
			best, least = candidate, d
		}
	}
	return best
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
// anything over the limit comes back as some number over the limit.
func distance(a, b string, limit int) int {
	from, to := []rune(a), []rune(b)
	if diff := len(from) - len(to); diff > limit || -diff > limit {
		return limit + 1
	}
	var older []int
	last := make([]int, len(to)+1)
	for j := range last {
		last[j] = j
	}
	for i := 1; i <= len(from); i++ {
		row := make([]int, len(to)+1)
		row[0] = i
		for j := 1; j <= len(to); j++ {
			row[j] = min(last[j]+1, row[j-1]+1, last[j-1]+unequal(from[i-1], to[j-1]))
			if i > 1 && j > 1 && from[i-1] == to[j-2] && from[i-2] == to[j-1] {
				row[j] = min(row[j], older[j-2]+1)
			}
		}
		older, last = last, row
	}
	return last[len(to)]
}

func unequal(a, b rune) int {
	if a == b {
		return 0
	}
	return 1
}
