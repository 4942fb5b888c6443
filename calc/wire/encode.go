package wire

import (
	"math"
	"strconv"

	"blankoff/calc"
	"blankoff/calc/declare"
	"blankoff/calc/letters"
	"blankoff/calc/plot"
	"blankoff/calc/show"
	"blankoff/calc/triage"
)

// Serve answers one request in JSON, appending to dst. Whatever the request holds,
// the answer is valid JSON.
func Serve(dst, request []byte) []byte { return ServeBy(nil, dst, request) }

// ServeBy does so by a fault model that was read before, where a request brings none.
func ServeBy(model *triage.Known, dst, request []byte) []byte {
	r, page, err := decode(request)
	if err != nil {
		return AppendAnswer(dst, declare.Answer{ID: r.ID, Fault: &declare.Fault{Text: err.Error()}})
	}
	a := calc.AnswerBy(model, r)
	if page && a.Fault == nil {
		return appendPage(dst, a)
	}
	return AppendAnswer(dst, a)
}

// appendPage writes an answer as a page shows it, and in the words of a record.
func appendPage(dst []byte, a declare.Answer) []byte {
	w := writer{dst}
	w.member(`{"id":`, a.ID)
	w.member(`,"html":`, show.Answer(&a))
	w.raw(`,"told":{`)
	for i, one := range show.Told(&a) {
		w.next(i)
		w.text(one.Name)
		w.member(":", one.Text)
	}
	w.raw("}}")
	return w.out
}

// AppendAnswer writes an answer as JSON; see design of the contract in DEVELOPERS.md.
func AppendAnswer(dst []byte, a declare.Answer) []byte {
	w := writer{dst}
	w.answer(&a)
	return w.out
}

// writer appends to a text. Its methods do little each, and are called, not copied.
type writer struct{ out []byte }

func (w *writer) raw(s string) { w.out = append(w.out, s...) }

// next writes a comma before every element but the first.
func (w *writer) next(i int) {
	if i > 0 {
		w.raw(",")
	}
}

// member writes a name that needs no escape, with what stands before it, and a text.
func (w *writer) member(name, text string) {
	w.raw(name)
	w.text(text)
}

func (w *writer) answer(a *declare.Answer) {
	w.member(`{"id":`, a.ID)
	if a.Fault != nil {
		w.member(`,"error":{"field":`, a.Fault.Field)
		w.member(`,"text":`, a.Fault.Text)
		w.raw("}}")
		return
	}
	w.raw(`,"out":{`)
	for i := range a.Out {
		w.next(i)
		w.given(&a.Out[i])
	}
	w.raw("}")
	if a.Verdict.Is != "" {
		w.member(`,"verdict":{"is":`, a.Verdict.Is)
		w.member(`,"text":`, a.Verdict.Text)
		w.raw("}")
	}
	w.list(`,"working":`, a.Working)
	w.list(`,"cautions":`, a.Cautions)
	if a.Plot != nil {
		w.plot(a.Plot)
	}
	w.raw("}")
}

// plot writes the SVG and the table of its readings, one of every so many.
func (w *writer) plot(d *plot.Drawing) {
	w.member(`,"plot":{"svg":`, d.SVG())
	w.raw(`,"every":`)
	w.number(float64(d.Every))
	w.list(`,"head":`, d.Head)
	w.raw(`,"rows":[`)
	for i, row := range d.Rows {
		w.next(i)
		w.list("", row)
	}
	w.raw("]}")
}

func (w *writer) given(g *declare.Given) {
	w.text(g.ID)
	w.raw(":{")
	if g.Columns != nil {
		w.table(g)
		return
	}
	if g.HasValue {
		w.raw(`"value":`)
		w.number(g.Value)
		w.member(`,"unit":`, g.Unit)
		if g.HasU {
			w.raw(`,"u":`)
			w.number(g.U)
		}
		w.raw(",")
	}
	w.member(`"text":`, g.Text)
	if len(g.Also) > 0 {
		w.list(`,"also":`, g.Also)
	}
	w.raw("}")
}

// table writes the columns with their units, the rows as numbers or texts, and as
// "shown" the rows as a page shows them.
func (w *writer) table(g *declare.Given) {
	w.raw(`"columns":[`)
	for i := range g.Columns {
		w.next(i)
		w.member(`{"name":`, g.Columns[i].ID)
		w.member(`,"label":`, g.Columns[i].Label)
		w.member(`,"unit":`, g.Columns[i].Unit)
		w.raw("}")
	}
	w.raw(`],"rows":`)
	w.rows(g.Rows, false)
	w.raw(`,"shown":`)
	w.rows(g.Rows, true)
	w.raw("}")
}

func (w *writer) rows(rows [][]declare.Cell, shown bool) {
	w.raw("[")
	for i, row := range rows {
		w.next(i)
		w.raw("[")
		for j := range row {
			w.next(j)
			if row[j].IsNumber && !shown {
				w.number(row[j].Value)
			} else {
				w.text(row[j].Text)
			}
		}
		w.raw("]")
	}
	w.raw("]")
}

func (w *writer) list(name string, list []string) {
	w.raw(name)
	w.raw("[")
	for i := range list {
		w.next(i)
		w.text(list[i])
	}
	w.raw("]")
}

// number writes a finite number; there is no other kind in an answer, and were there
// one, null would be honest.
func (w *writer) number(x float64) {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		w.raw("null")
		return
	}
	w.out = strconv.AppendFloat(w.out, x, 'g', -1, 64)
}

// text writes a JSON text. < > & are escaped too, so that an answer can stand inside a
// page.
func (w *writer) text(s string) {
	const hex = "0123456789abcdef"
	s = letters.Valid(s)
	w.raw(`"`)
	plain := 0 // from here on nothing needs an escape
	for i := 0; i < len(s); i++ {
		c := s[i]
		if c != '"' && c != '\\' && c >= ' ' && c != '<' && c != '>' && c != '&' && c != 0x7f {
			continue
		}
		w.raw(s[plain:i])
		if plain = i + 1; c == '"' || c == '\\' {
			w.raw(`\`)
			plain = i
			continue
		}
		w.raw(`\u00`)
		w.raw(hex[c>>4 : c>>4+1])
		w.raw(hex[c&15 : c&15+1])
	}
	w.raw(s[plain:])
	w.raw(`"`)
}
