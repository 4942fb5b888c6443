package verify

import "blankoff/build/guide"

// quantities warns of numbers that could be read in two ways. Nobody can tell which was meant but their author, and a
// reader who asks for other units would get the wrong one.
func (c *checker) quantities(page *guide.Guide) {
	for _, doubt := range page.Doubts {
		c.warn("ambiguous-quantity", doubt.Span, doubt.Message, doubt.Hint)
	}
}
