package verify

import (
	"fmt"
	"slices"
	"strings"

	"blankoff/build/guide"
	"blankoff/build/source"
)

// structure checks headings. The title comes from the header, so the body starts at ##.
func (c *checker) structure(page *guide.Guide) {
	last := 1
	for _, h := range page.Headings {
		switch {
		case h.Level == 1:
			c.refuse("heading", h.Span, "the page's title stands in its header", "start this heading with ##, or leave it out")
		case h.Level > last+1:
			c.refuse("heading", h.Span, fmt.Sprintf("the heading %s skips a level", source.Quote(h.Text)),
				fmt.Sprintf("write it with %s", "######"[:last+1]))
		}
		if h.Text == "" {
			c.refuse("heading", h.Span, "the heading is empty", "write its words, or leave it out")
		}
		last = max(h.Level, 1)
	}
	if page.Kind == guide.Procedure && len(page.Steps) == 0 && page.Section("steps") == nil {
		c.refuse("steps", page.Header.Span, "the procedure has no steps", "write a section `## Steps` with a numbered list")
	}
}

// steps checks that each step tells what to do, what to expect, and what to do if not.
func (c *checker) steps(page *guide.Guide) {
	for i, step := range page.Steps {
		what := fmt.Sprintf("step %d", step.Number)
		if step.Action == nil {
			c.refuse("step", step.Span, what+" does not say what to do", "write the action as the first paragraph of the list item")
		}
		if strayBelow(page, i) {
			continue // its parts are there, in the wrong place
		}
		if len(step.Expects) == 0 {
			c.refuse("step-expect", step.Span, what+" does not say what to expect", c.misspelt(step, "expect", "Expect:", "add an indented bullet `- Expect: …`"))
		}
		if len(step.IfNots) == 0 {
			c.refuse("step-if-not", step.Span, what+" does not say what to do if not", c.misspelt(step, "if", "If not:", "add an indented bullet `- If not: …`"))
		}
	}
}

// strayBelow tells whether a part that stands in no step follows a step, before the next one.
func strayBelow(page *guide.Guide, i int) bool {
	return slices.ContainsFunc(page.Strays, func(at source.Span) bool {
		return at.Start > page.Steps[i].Span.Start && (i+1 == len(page.Steps) || at.Start < page.Steps[i+1].Span.Start)
	})
}

// misspelt says of a bullet that was probably meant as a part of its step how it is written; else it gives the hint
// that it was given.
func (c *checker) misspelt(step *guide.Step, begins, part, hint string) string {
	for _, p := range c.ofStep[step] {
		if p.part == restPart && len(p.words) > 0 && strings.HasPrefix(p.words[0].text, begins) {
			at := step.Span.File.Span(p.words[0].from, p.words[0].to)
			return fmt.Sprintf("the bullet in line %d begins with %s: it is read when it begins with `%s`, without emphasis", at.Position().Line, source.Quote(at.Text()), part)
		}
	}
	return hint
}

// rawHTML refuses HTML in the text: it is not passed through, so its reader would miss something.
func (c *checker) rawHTML(page *guide.Guide) {
	for _, span := range page.RawHTML {
		c.refuse("raw-html", span, "HTML is not passed through to the page", "write it in Markdown, or leave it out; for a plain < write \\<")
	}
}
