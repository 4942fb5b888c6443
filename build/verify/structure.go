package verify

import (
	"fmt"

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
	for _, step := range page.Steps {
		what := fmt.Sprintf("step %d", step.Number)
		if step.Action == nil {
			c.refuse("step", step.Span, what+" does not say what to do", "write the action as the first paragraph of the list item")
		}
		if len(step.Expects) == 0 {
			c.refuse("step-expect", step.Span, what+" does not say what to expect", "add an indented bullet `- Expect: …`")
		}
		if len(step.IfNots) == 0 {
			c.refuse("step-if-not", step.Span, what+" does not say what to do if not", "add an indented bullet `- If not: …`")
		}
	}
}

// rawHTML refuses HTML in the text: it is not passed through, so its reader would miss something.
func (c *checker) rawHTML(page *guide.Guide) {
	for _, span := range page.RawHTML {
		c.refuse("raw-html", span, "HTML is not passed through to the page", "write it in Markdown, or leave it out; for a plain < write \\<")
	}
}
