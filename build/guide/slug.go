package guide

import (
	"strconv"
	"strings"
	"unicode"
)

// Slug turns a heading into an anchor: "Before you start" into before-you-start.
func Slug(text string) string {
	var b strings.Builder
	gap := false
	for _, r := range strings.ToLower(text) {
		if !unicode.IsLetter(r) && !unicode.IsDigit(r) {
			gap = b.Len() > 0
			continue
		}
		if gap {
			b.WriteByte('-')
			gap = false
		}
		b.WriteRune(r)
	}
	if b.Len() == 0 {
		return "section"
	}
	return b.String()
}

// anchors hands out each anchor once: the second "notes" becomes notes-2. It counts how often a stem was asked for, so that
// a page of thousands of equal headings costs no more than one of different ones.
type anchors map[string]int

func (a anchors) take(text string) string {
	stem := Slug(text)
	if strings.HasPrefix(stem, "step-") { // step-3 belongs to the third step
		stem = "section-" + stem
	}
	name := stem
	for a[name] > 0 {
		a[stem]++
		name = stem + "-" + strconv.Itoa(a[stem])
	}
	a[name]++
	return name
}

// Anchor is the step's place in the page.
func (n *Step) Anchor() string { return "step-" + strconv.Itoa(n.Number) }
