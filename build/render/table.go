package render

import (
	"html/template"
	"strconv"
	"strings"

	"blankoff/calc/declare"
	"blankoff/calc/plot"
)

// givenTable writes a result that is a table; answer.ts writes the same elements. The
// frame around it can be scrolled, so a keyboard must be able to reach it.
func givenTable(g *declare.Given) template.HTML {
	var out strings.Builder
	out.WriteString(`<div class="rows" tabindex="0" role="group" aria-label="` + esc(g.Label) + `"><table><thead><tr>`)
	for i := range g.Columns {
		out.WriteString(`<th scope="col"` + wordsClass(g, i) + `>` + esc(columnHead(&g.Columns[i])) + `</th>`)
	}
	out.WriteString(`</tr></thead><tbody>`)
	for _, row := range g.Rows {
		out.WriteString(`<tr>`)
		for i := range row {
			out.WriteString(`<td` + wordsClass(g, i) + `>` + esc(row[i].Text) + `</td>`)
		}
		out.WriteString(`</tr>`)
	}
	out.WriteString(`</tbody></table></div>`)
	return template.HTML(out.String())
}

// plotted is a plot with the table of its readings behind it; answer.ts writes the same elements.
func plotted(d *plot.Drawing) template.HTML {
	var out strings.Builder
	out.WriteString(`<figure class="plot">` + d.SVG())
	if len(d.Rows) > 0 {
		name := "Table"
		if d.Every > 1 {
			name += ": one reading of " + strconv.Itoa(d.Every)
		}
		out.WriteString(`<details><summary>` + name + `</summary><div class="rows" tabindex="0" role="group" aria-label="` + name + `"><table><thead><tr>`)
		for _, head := range d.Head {
			out.WriteString(`<th scope="col">` + esc(head) + `</th>`)
		}
		out.WriteString(`</tr></thead><tbody>`)
		for _, row := range d.Rows {
			out.WriteString(`<tr>`)
			for _, cell := range row {
				out.WriteString(`<td>` + esc(cell) + `</td>`)
			}
			out.WriteString(`</tr>`)
		}
		out.WriteString(`</tbody></table></div></details>`)
	}
	out.WriteString(`</figure>`)
	return template.HTML(out.String())
}

// roomOf is the place of a plot that a script draws when the page has been read. On paper pages, and where there are no
// scripts, the readings stand in the entry; the whole plot would weigh up to a kilobyte of the first view.
func roomOf(d *plot.Drawing) template.HTML {
	fold := ""
	if len(d.Rows) > 0 {
		fold = `<details><summary>Table</summary></details>`
	}
	return template.HTML(`<figure class="plot"><svg class="drawn" width="330" viewBox="0 0 330 ` + strconv.FormatFloat(d.Height, 'f', -1, 64) + `"></svg>` + fold + `</figure>`)
}

// wordsClass marks a column without any number: words begin at the left, numbers end at the right.
func wordsClass(g *declare.Given, column int) string {
	for _, row := range g.Rows {
		if row[column].IsNumber {
			return ""
		}
	}
	return ` class="words"`
}

func columnHead(c *declare.Column) string {
	if c.Unit == "" {
		return c.Label
	}
	return c.Label + ", " + c.Unit
}

func esc(text string) string { return template.HTMLEscapeString(text) }
