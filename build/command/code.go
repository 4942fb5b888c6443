package command

import (
	"errors"

	"blankoff/calc"
	"blankoff/calc/declare"
)

// code answers `calc qr text=…`: the SVG, or with --json the answer as it is.
func (o calcOptions) code(t terminal, request declare.Request) error {
	if len(o.units)+len(o.axes)+len(o.svg)+len(given(o.files)) > 0 {
		return errors.New("calc qr takes entries alone and writes the SVG to the standard output; leave the options out")
	}
	return o.tell(t, calc.Answer(request), failed, func(answer declare.Answer) string { return answer.Out[0].Text + "\n" })
}
