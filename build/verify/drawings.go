package verify

import (
	"errors"
	"strings"

	"blankoff/build/drawn"
	"blankoff/build/guide"
	"blankoff/build/picture"
	"blankoff/build/source"
)

// drawings checks the pictures that are drawn from data: that there is such a one, and that its text tells its content.
func (c *checker) drawings(page *guide.Guide) {
	for _, log := range page.Logs {
		if _, err := (picture.Log{Text: log.Text}).Draw(); err != nil {
			c.refuse("drawn", log.Span, "this log cannot be drawn: "+err.Error(), "write a line such as `min 0 1 2` and one such as `mTorr 120 180 240`, or leave the word drawn out")
		}
	}
	for _, n := range page.Drawings {
		d, err := drawn.Find(c.library, n.Name)
		switch {
		case errors.Is(err, drawn.ErrUnknown):
			hint := c.near(n.Name, func() []string { return drawn.Names(c.library) })
			if !strings.HasPrefix(hint, "did you mean") { // the names of all threads are too many to choose from
				hint = "write pins/TUBE, circuit/MACHINE, ladder/MACHINE, thread/R-1/8, rise/straight, rise/bending or rise/both"
			}
			c.refuse("drawn", n.NameSpan, "there is no picture "+source.Quote(n.Name)+" to be drawn", hint)
		case err != nil:
			c.refuse("drawn", n.NameSpan, err.Error(), "put the data right in its own file")
		case n.Said == "":
			c.refuse("picture-text", n.SaidSpan, "the picture has no text for those who cannot see it", "write "+d.Title+": "+d.Words)
		default:
			if untold := d.Untold(n.Said); len(untold) > 0 {
				c.refuse("picture-text", n.SaidSpan, "the text does not tell what the picture shows: it lacks "+strings.Join(untold, ", "), "write "+d.Title+": "+d.Words)
			}
		}
	}
}
