package guide

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/yuin/goldmark/ast"

	"blankoff/build/source"
)

// writtenNumber is the number that an author wrote before a step. Markdown counts by itself, so it may be another than
// the one that the page shows.
type writtenNumber struct {
	number int
	span   source.Span
}

// numberOf reads the number before the first block of a list item. It is zero where none can be seen.
func (s *shaper) numberOf(item ast.Node) writtenNumber {
	at := blockPlace(item, s.file).Start
	line := s.file.Text[strings.LastIndexByte(s.file.Text[:at], '\n')+1 : at]
	marker := strings.TrimRight(line, " \t")
	digits := strings.TrimRight(marker, ".)")
	from := strings.LastIndexFunc(digits, func(r rune) bool { return r < '0' || r > '9' }) + 1
	n, err := strconv.Atoi(digits[from:])
	if err != nil || len(digits) == len(marker) {
		return writtenNumber{}
	}
	start := at - len(line) + from
	return writtenNumber{n, s.file.Span(start, start+len(digits)-from)}
}

// checkNumbers compares what is written with what the page shows: text and links speak of steps by their numbers. To
// write 1 before every step is a habit of those who let Markdown count.
func (s *shaper) checkNumbers(written []writtenNumber) {
	lazy := true
	for _, w := range written {
		lazy = lazy && w.number <= 1
	}
	for i, w := range written {
		if w.span.File == nil || w.number == i+1 || lazy && w.number == 1 {
			continue
		}
		hint := fmt.Sprintf("write %d", i+1)
		if w.number > i+1 {
			hint = fmt.Sprintf("look for a step before it that has lost its number, or write %d", i+1)
		}
		s.refuse("step-number", w.span, fmt.Sprintf("this is step %d of the page, and %d is written before it", i+1, w.number), hint+"; other places speak of steps by their numbers")
		return // the steps below it follow
	}
}

// strayParts refuses the parts of a step that stand in no step: nobody would read them as such.
func (s *shaper) strayParts(section *Section) {
	for _, n := range section.Nodes {
		list, ok := n.(*ast.List)
		if !ok {
			continue
		}
		for _, item := range children(list) {
			first := item.FirstChild()
			if first == nil || !isText(first) {
				continue
			}
			for _, word := range []string{"Expect:", "If not:"} {
				if text := plain(first, s.body); len(text) >= len(word) && strings.EqualFold(text[:len(word)], word) {
					s.guide.Strays = append(s.guide.Strays, blockPlace(first, s.file))
					s.refuse("step", blockPlace(first, s.file), "`"+word+"` stands in no step", "write a number before its step, `1. What to do.`, and indent this bullet to the step's text")
				}
			}
		}
	}
}
