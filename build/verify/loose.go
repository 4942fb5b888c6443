package verify

import (
	"slices"
	"strings"

	"github.com/yuin/goldmark/ast"

	"blankoff/build/guide"
	"blankoff/build/source"
)

// looseFacts refuses facts that Markdown takes for mere text: `[28 L](spec:chamber volume)` is no link, for a target with
// spaces needs angle brackets. Nothing would prove the figure, and readers would see the brackets.
func (c *checker) looseFacts(page *guide.Guide) {
	text := page.File.Text
	var shown []ast.Node
	for open := strings.IndexByte(text, '('); open >= 0; open = nextOpen(text, open) {
		spaced, from := factTarget(text, open)
		if from == 0 || isFact(page, from) {
			continue
		}
		if shown == nil {
			shown = shownText(page)
		}
		if isShown(shown, from) {
			end := from + strings.IndexAny(text[from:]+"\n", ")\n")
			c.refuseLoose(page.File.Span(from, end), spaced)
		}
	}
}

func nextOpen(text string, after int) int {
	if at := strings.IndexByte(text[after+1:], '('); at >= 0 {
		return after + 1 + at
	}
	return -1
}

// factTarget tells where a fact's target starts behind an opening bracket, 0 if there is none; spaced tells that a space
// stands before the bracket. A bracket that is escaped is meant to be seen.
func factTarget(text string, open int) (spaced bool, from int) {
	before := text[:open]
	if spaced = strings.HasSuffix(before, " ") || strings.HasSuffix(before, "\n"); spaced {
		before = before[:open-1]
	}
	if !strings.HasSuffix(before, "]") || strings.HasSuffix(before, "\\]") {
		return false, 0
	}
	rest := strings.TrimPrefix(strings.TrimLeft(text[open+1:], " "), "<")
	if len(rest) < 5 || !strings.EqualFold(rest[:5], "spec:") && !strings.EqualFold(rest[:5], "calc:") {
		return false, 0
	}
	return spaced, len(text) - len(rest)
}

// isFact tells whether a target belongs to a fact; the facts of a page are in the order of its text.
func isFact(page *guide.Guide, at int) bool {
	_, found := slices.BinarySearchFunc(page.Facts, at, func(f *guide.Fact, at int) int { return f.Span.Start - at })
	return found
}

// isShown tells whether a byte of the file is in one of the pieces, which are in the order of the text.
func isShown(shown []ast.Node, at int) bool {
	_, found := slices.BinarySearchFunc(shown, at, func(n ast.Node, at int) int {
		switch segment := n.(*ast.Text).Segment; {
		case segment.Stop <= at:
			return -1
		case segment.Start > at:
			return 1
		}
		return 0
	})
	return found
}

// shownText lists the pieces of text that readers see as they stand: outside code and facts.
func shownText(page *guide.Guide) []ast.Node {
	list := []ast.Node{}
	_ = ast.Walk(page.Doc, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering {
			return ast.WalkContinue, nil
		}
		switch n.(type) {
		case *ast.CodeSpan, *guide.Fact:
			return ast.WalkSkipChildren, nil
		case *ast.Text:
			list = append(list, n)
		}
		return ast.WalkContinue, nil
	})
	return list
}

func (c *checker) refuseLoose(target source.Span, spaced bool) {
	hint := "write it as […](spec:NAME), without anything between the brackets"
	switch {
	case spaced:
		hint = "leave out the space between ] and ("
	case strings.ContainsAny(target.Text(), " \t"):
		hint = "a target with spaces stands in angle brackets: […](<" + strings.TrimSuffix(target.Text(), ">") + ">)"
	}
	c.refuse("loose-fact", target, source.Quote(target.Text())+" is no link, so nothing proves the text before it", hint)
}
