package vapour

import (
	"blankoff/calc/declare"
	"blankoff/calc/letters"
	"blankoff/calc/uncertainty"
)

// figure is a number in SI units with the unit in which a text shows it.
type figure struct {
	si   float64
	unit string
}

// with writes figures into a text, each in place of a #.
func with(r *declare.Result, text string, figures ...figure) string {
	for i := range figures {
		before, after, _ := letters.Cut(text, "#")
		text = before + r.Num(figures[i].si, figures[i].unit) + after
	}
	return text
}

// atMost decides whether a result lies at or under a limit.
func atMost(r *declare.Result, id string, limit float64) uncertainty.Decision {
	value, u := r.Out(id)
	return uncertainty.AtMost(value, uncertainty.K*u, limit)
}
