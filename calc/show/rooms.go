package show

import (
	"strconv"

	"blankoff/calc/declare"
	"blankoff/calc/plot"
)

// Rooms writes an answer whose working and plot are empty places, which a script fills when somebody opens or nears them: they
// would weigh up to two kilobytes of the first view.
func Rooms(a *declare.Answer) string {
	w := writer{}
	w.verdict(a.Verdict)
	w.outputs(a.Out)
	if len(a.Working) > 0 {
		w.raw(workingOpen + "</details>")
	}
	if a.Plot != nil {
		w.room(a.Plot)
	}
	w.list(cautions, a.Cautions, "</ul>")
	return string(w.out)
}

// room is the place of a plot that a script draws when the page has been read. Where there are no scripts, the readings stand in
// the entry.
func (w *writer) room(d *plot.Drawing) {
	w.put(`<figure class="plot"><svg class="drawn" width="330" viewBox="0 0 330 `, strconv.FormatFloat(d.Height, 'f', -1, 64), `"></svg>`)
	if len(d.Rows) > 0 {
		w.raw("<details><summary>Table</summary></details>")
	}
	w.raw("</figure>")
}
