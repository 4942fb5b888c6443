package command

import (
	"fmt"

	"blankoff/calc"
	"blankoff/calc/declare"
)

// plainly answers `calc qr text=…` with the SVG alone, `calc parcel text=…` with the digits; with --json there is the answer as it is.
func (o calcOptions) plainly(t terminal, request declare.Request) error {
	if len(o.units)+len(o.axes)+len(o.svg)+len(given(o.files)) > 0 {
		return fmt.Errorf("calc %s takes entries alone and writes to the standard output; leave the options out", request.ID)
	}
	return o.tell(t, calc.Answer(request), failed, func(answer declare.Answer) string { return answer.Out[0].Text + "\n" })
}
