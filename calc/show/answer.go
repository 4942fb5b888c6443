// Package show writes what a calculator says as a page shows it: HTML, in the same words and elements whether the page is
// published or a phone has just computed it.
package show

import (
	"strconv"

	"blankoff/calc/declare"
	"blankoff/calc/letters"
)

// Answer writes an answer without a fault.
//
//	<p class="verdict" data-is="pass"><strong>Pass</strong> <span class="because">…</span></p><dl class="outputs">…
func Answer(a *declare.Answer) string {
	w := writer{}
	w.verdict(a.Verdict)
	w.outputs(a.Out)
	w.list(workingOpen+"<ol>", a.Working, "</ol></details>")
	if a.Plot != nil {
		w.plot(a.Plot)
	}
	w.list(cautions, a.Cautions, "</ul>")
	return string(w.out)
}

const (
	workingOpen = `<details class="working"><summary>Working</summary>`
	cautions    = `<ul class="cautions">`
)

// Waiting stands alone where there is no answer yet.
func Waiting(text string) string {
	w := writer{}
	w.put(`<p class="waiting">`, text, "</p>")
	return string(w.out)
}

// Told is the same in words, as a job's record keeps it: the verdict, each result by its label, and the working.
func Told(a *declare.Answer) []declare.Pair {
	var told []declare.Pair
	if word := verdictWord(a.Verdict.Is); word != "" {
		told = append(told, declare.Pair{Name: "Verdict", Text: word + ". " + a.Verdict.Text})
	}
	for i := range a.Out {
		g := &a.Out[i]
		text := g.Text
		for j, row := range g.Rows {
			if j > 0 {
				text += "\n"
			}
			for k := range row {
				if k > 0 {
					text += ", "
				}
				text += row[k].Text
			}
		}
		told = append(told, declare.Pair{Name: g.Label, Text: text})
	}
	if len(a.Working) > 0 {
		told = append(told, declare.Pair{Name: "Working", Text: letters.Join(a.Working, "\n")})
	}
	return told
}

func verdictWord(is string) string {
	switch is {
	case declare.Pass:
		return "Pass"
	case declare.Fail:
		return "Fail"
	case declare.CannotTell:
		return "Cannot tell yet"
	}
	return ""
}

// writer appends HTML to a text.
type writer struct{ out []byte }

func (w *writer) raw(html string) { w.out = append(w.out, html...) }

// put writes a text between two tags.
func (w *writer) put(before, text, after string) {
	w.raw(before)
	w.text(text)
	w.raw(after)
}

// text writes a text, also one that stands in a quoted attribute.
func (w *writer) text(text string) {
	plain := 0
	for i := 0; i < len(text); i++ {
		sign := ""
		switch text[i] {
		case ' ':
			if !binds(text[:i], text[i+1:]) {
				continue
			}
			sign = noBreak
		case '&':
			sign = "&amp;"
		case '<':
			sign = "&lt;"
		case '>':
			sign = "&gt;"
		case '"':
			sign = "&#34;"
		default:
			continue
		}
		w.raw(text[plain:i])
		w.raw(sign)
		plain = i + 1
	}
	w.raw(text[plain:])
}

func (w *writer) list(open string, lines []string, end string) {
	if len(lines) == 0 {
		return
	}
	w.raw(open)
	for _, line := range lines {
		w.put("<li>", line, "</li>")
	}
	w.raw(end)
}

func (w *writer) verdict(v declare.Verdict) {
	word := verdictWord(v.Is)
	if word == "" {
		return
	}
	w.put(`<p class="verdict" data-is="`, letters.Replace(v.Is, " ", "-"), `">`)
	w.put("<strong>", word, "</strong> ")
	w.put(`<span class="because">`, v.Text, "</span></p>")
}

func (w *writer) outputs(out []declare.Given) {
	if len(out) == 0 {
		return
	}
	w.raw(`<dl class="outputs">`)
	for i := range out {
		g := &out[i]
		w.put(`<div data-output="`, g.ID, `"><dt>`)
		w.put("", g.Label, "</dt><dd>")
		switch {
		case g.Columns != nil:
			w.table(g)
		case g.HasValue:
			w.put(`<data class="value" value="`, number(g.Value), `">`)
			w.put("", g.Text, "</data>")
		default:
			w.put(`<span class="value">`, g.Text, "</span>")
		}
		if len(g.Also) > 0 {
			w.put(` <span class="also">= `, letters.Join(g.Also, "; "), "</span>")
		}
		w.raw("</dd></div>")
	}
	w.raw("</dl>")
}

// number has 12 figures: beyond them a phone's computation and a native one may differ.
func number(x float64) string { return strconv.FormatFloat(x, 'g', 12, 64) }
