package show

import (
	"blankoff/calc/declare"
	"blankoff/calc/letters"
	"blankoff/calc/plot"
)

// frame begins a table. What is around it can be scrolled, so a keyboard must be able to reach it.
func (w *writer) frame(name string) {
	w.put(`<div class="rows" tabindex="0" role="group" aria-label="`, name, `"><table><thead><tr>`)
}

const frameEnd = "</tbody></table></div>"

// table writes a result that is one. Words begin at the left, numbers end at the right.
func (w *writer) table(g *declare.Given) {
	w.frame(g.Label)
	for i := range g.Columns {
		w.put(`<th scope="col"`+kind(g, i), g.Columns[i].Head(), "</th>")
	}
	w.raw("</tr></thead><tbody>")
	for _, row := range g.Rows {
		w.raw("<tr>")
		for i := range row {
			w.put("<td"+kind(g, i), row[i].Text, "</td>")
		}
		w.raw("</tr>")
	}
	w.raw(frameEnd)
}

// kind ends the tag of a cell; a column without any number is one of words.
func kind(g *declare.Given, column int) string {
	for _, row := range g.Rows {
		if row[column].IsNumber {
			return ">"
		}
	}
	return ` class="words">`
}

// plot writes a picture with the table of its readings behind it.
func (w *writer) plot(d *plot.Drawing) {
	w.raw(`<figure class="plot">`)
	w.raw(d.SVG())
	if len(d.Rows) > 0 {
		name := "Table"
		if d.Every > 1 {
			name += ": one reading of " + letters.Whole(d.Every)
		}
		w.put("<details><summary>", name, "</summary>")
		w.frame(name)
		for _, head := range d.Head {
			w.put(`<th scope="col">`, head, "</th>")
		}
		w.raw("</tr></thead><tbody>")
		for _, row := range d.Rows {
			w.raw("<tr>")
			for _, cell := range row {
				w.put("<td>", cell, "</td>")
			}
			w.raw("</tr>")
		}
		w.raw(frameEnd + "</details>")
	}
	w.raw("</figure>")
}
