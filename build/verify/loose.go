package verify

import (
	"regexp"
	"slices"
	"strings"

	"github.com/yuin/goldmark/ast"

	"blankoff/build/guide"
	"blankoff/build/source"
)

// looseFact is what an author meant as a fact: a target behind brackets.
var looseFact = regexp.MustCompile(`\]\s?\(\s?<?((?i:spec|calc):[^)\n]*)`)

// looseFacts refuses facts that Markdown takes for mere text: `[28 L](spec:chamber volume)` is no link, for a target with
// spaces needs angle brackets. Nothing would prove the figure, and readers would see the brackets.
func (c *checker) looseFacts(page *guide.Guide) {
	text := page.File.Text
	var shown []ast.Node
	for _, at := range looseFact.FindAllStringSubmatchIndex(text, -1) {
		if isFact(page, at[2]) || at[0] > 0 && text[at[0]-1] == '\\' { // an escaped bracket is meant to be seen
			continue
		}
		if shown == nil {
			shown = shownText(page)
		}
		if slices.ContainsFunc(shown, func(n ast.Node) bool {
			segment := n.(*ast.Text).Segment
			return segment.Start <= at[2] && at[2] < segment.Stop
		}) {
			c.refuseLoose(page.File.Span(at[2], at[3]), text[at[0]:at[2]])
		}
	}
}

// isFact tells whether a target belongs to a fact; the facts of a page are in the order of its text.
func isFact(page *guide.Guide, at int) bool {
	_, found := slices.BinarySearchFunc(page.Facts, at, func(f *guide.Fact, at int) int { return f.Span.Start - at })
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

func (c *checker) refuseLoose(target source.Span, before string) {
	hint := "write it as […](spec:NAME), without anything between the brackets"
	switch {
	case strings.Contains(before, "] ") || strings.Contains(before, "]\n"):
		hint = "leave out the space between ] and ("
	case strings.ContainsAny(target.Text(), " \t"):
		hint = "a target with spaces stands in angle brackets: […](<" + strings.TrimSuffix(target.Text(), ">") + ">)"
	}
	c.refuse("loose-fact", target, source.Quote(target.Text())+" is no link, so nothing proves the text before it", hint)
}
