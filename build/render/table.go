package render

import (
	"html/template"
	"strings"

	"blankoff/calc/declare"
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
