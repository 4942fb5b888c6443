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

// anchors hands out each anchor once: the second "notes" becomes notes-2.
type anchors map[string]bool

func (a anchors) take(text string) string {
	stem := Slug(text)
	if strings.HasPrefix(stem, "step-") { // step-3 belongs to the third step
		stem = "section-" + stem
	}
	name := stem
	for n := 2; a[name]; n++ {
		name = stem + "-" + strconv.Itoa(n)
	}
	a[name] = true
	return name
}

// Anchor is the step's place in the page.
func (n *Step) Anchor() string { return "step-" + strconv.Itoa(n.Number) }
