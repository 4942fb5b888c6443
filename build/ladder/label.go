package ladder

import (
	"cmp"
	"math"
	"slices"
	"strings"
	"unicode/utf8"
)

// Room for text, in shares of the font size. System fonts differ; these are the wide ones, so that nothing is cut.
const (
	letter = 0.6
	digit  = 0.65
)

func width(text string, size, each float64) float64 {
	return math.Ceil(float64(utf8.RuneCountInString(text)) * size * each)
}

// label is a text with the place on the axis that it belongs to.
type label struct {
	lines []string
	class string
	at    float64 // place on the axis, px
	mark  bool    // a pressure of the page, drawn with a pointer
	tick  bool    // has a place of its own on the axis; the band has not
	kind  Kind
}

// labels gives what stands beside the axis, in the axis' order.
func (l Ladder) labels(place func(pa float64) float64) []label {
	var all []label
	for _, rung := range l.Rungs {
		all = append(all, label{lines: wrap(rung.Label, lineLength), class: "rung " + string(rung.Kind), at: place(rung.Pa), tick: true, kind: rung.Kind})
	}
	if l.Band.Label != "" {
		middle := math.Sqrt(l.Band.FromPa * l.Band.ToPa)
		all = append(all, label{lines: wrap(l.Band.Label, lineLength), class: "working", at: place(middle)})
	}
	for _, mark := range l.Marks {
		all = append(all, label{lines: wrap(mark.Label, lineLength), class: "mark", at: place(mark.Pa), tick: true, mark: true})
	}
	slices.SortStableFunc(all, func(a, b label) int { return cmp.Compare(a.at, b.at) })
	return all
}

// lineLength is about what the margin of a wide screen holds, in characters.
const lineLength = 22

// wrap breaks a text at its blanks into lines of about the length given. A longer word stays whole.
func wrap(text string, length int) []string {
	var lines []string
	for _, word := range strings.Fields(text) {
		last := len(lines) - 1
		if last >= 0 && utf8.RuneCountInString(lines[last])+1+utf8.RuneCountInString(word) <= length {
			lines[last] += " " + word
			continue
		}
		lines = append(lines, word)
	}
	return lines
}

// inWords tells the whole ladder in one sentence, for screen readers and as the drawing's title.
func (l Ladder) inWords() string {
	type said struct {
		pa   float64
		text string
	}
	var all []said
	for _, rung := range l.Rungs {
		all = append(all, said{rung.Pa, rung.Label + " " + l.Scale.amount(rung.Pa)})
	}
	for _, mark := range l.Marks {
		all = append(all, said{mark.Pa, "on this page " + mark.Label})
	}
	slices.SortStableFunc(all, func(a, b said) int { return cmp.Compare(b.pa, a.pa) })
	parts := make([]string, len(all))
	for i, part := range all {
		parts[i] = part.text
	}
	return "Pressure ladder. " + strings.Join(parts, "; ")
}
