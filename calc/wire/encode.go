package wire

import (
	"math"
	"strconv"

	"blankoff/calc"
	"blankoff/calc/declare"
	"blankoff/calc/letters"
)

// Serve answers one request in JSON, appending to dst. Whatever the request holds,
// the answer is valid JSON.
func Serve(dst, request []byte) []byte {
	r, err := DecodeRequest(request)
	if err != nil {
		return AppendAnswer(dst, declare.Answer{ID: r.ID, Fault: &declare.Fault{Text: err.Error()}})
	}
	return AppendAnswer(dst, calc.Answer(r))
}

// AppendAnswer writes an answer as JSON; see design of the contract in DEVELOPERS.md.
func AppendAnswer(dst []byte, a declare.Answer) []byte {
	dst = append(dst, `{"id":`...)
	dst = appendText(dst, a.ID)
	if a.Fault != nil {
		dst = append(dst, `,"error":{"field":`...)
		dst = appendText(dst, a.Fault.Field)
		dst = append(dst, `,"text":`...)
		dst = appendText(dst, a.Fault.Text)
		return append(dst, '}', '}')
	}
	dst = append(dst, `,"out":{`...)
	for i := range a.Out {
		g := &a.Out[i]
		if i > 0 {
			dst = append(dst, ',')
		}
		dst = appendText(dst, g.ID)
		dst = append(dst, ':')
		dst = appendGiven(dst, g)
	}
	dst = append(dst, '}')
	if a.Verdict.Is != "" {
		dst = append(dst, `,"verdict":{"is":`...)
		dst = appendText(dst, a.Verdict.Is)
		dst = append(dst, `,"text":`...)
		dst = appendText(dst, a.Verdict.Text)
		dst = append(dst, '}')
	}
	dst = appendList(append(dst, `,"working":`...), a.Working)
	dst = appendList(append(dst, `,"cautions":`...), a.Cautions)
	return append(dst, '}')
}

func appendGiven(dst []byte, g *declare.Given) []byte {
	dst = append(dst, '{')
	if g.Columns != nil {
		return append(appendTable(dst, g.Columns, g.Rows), '}')
	}
	if g.HasValue {
		dst = append(dst, `"value":`...)
		dst = appendNumber(dst, g.Value)
		dst = append(dst, `,"unit":`...)
		dst = appendText(dst, g.Unit)
		if g.HasU {
			dst = append(dst, `,"u":`...)
			dst = appendNumber(dst, g.U)
		}
		dst = append(dst, ',')
	}
	dst = append(dst, `"text":`...)
	dst = appendText(dst, g.Text)
	if len(g.Also) > 0 {
		dst = appendList(append(dst, `,"also":`...), g.Also)
	}
	return append(dst, '}')
}

// appendTable writes the columns with their units, the rows as numbers or texts, and as
// "shown" the rows as a page shows them.
func appendTable(dst []byte, columns []declare.Column, rows [][]declare.Cell) []byte {
	dst = append(dst, `"columns":[`...)
	for i := range columns {
		if i > 0 {
			dst = append(dst, ',')
		}
		dst = appendText(append(dst, `{"name":`...), columns[i].ID)
		dst = appendText(append(dst, `,"label":`...), columns[i].Label)
		dst = appendText(append(dst, `,"unit":`...), columns[i].Unit)
		dst = append(dst, '}')
	}
	dst = appendRows(append(dst, `],"rows":`...), rows, false)
	return appendRows(append(dst, `,"shown":`...), rows, true)
}

func appendRows(dst []byte, rows [][]declare.Cell, shown bool) []byte {
	dst = append(dst, '[')
	for i, row := range rows {
		if i > 0 {
			dst = append(dst, ',')
		}
		dst = append(dst, '[')
		for j := range row {
			if j > 0 {
				dst = append(dst, ',')
			}
			if row[j].IsNumber && !shown {
				dst = appendNumber(dst, row[j].Value)
			} else {
				dst = appendText(dst, row[j].Text)
			}
		}
		dst = append(dst, ']')
	}
	return append(dst, ']')
}

func appendList(dst []byte, list []string) []byte {
	dst = append(dst, '[')
	for i, text := range list {
		if i > 0 {
			dst = append(dst, ',')
		}
		dst = appendText(dst, text)
	}
	return append(dst, ']')
}

// appendNumber writes a finite number; there is no other kind in an answer, and were
// there one, null would be honest.
func appendNumber(dst []byte, x float64) []byte {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return append(dst, "null"...)
	}
	return strconv.AppendFloat(dst, x, 'g', -1, 64)
}

// appendText writes a JSON text. < > & are escaped too, so that an answer can stand
// inside a page.
func appendText(dst []byte, s string) []byte {
	const hex = "0123456789abcdef"
	dst = append(dst, '"')
	s = letters.Valid(s)
	plain := 0 // from here on nothing needs an escape
	for i := 0; i < len(s); i++ {
		c := s[i]
		if c != '"' && c != '\\' && c >= ' ' && c != '<' && c != '>' && c != '&' && c != 0x7f {
			continue
		}
		dst = append(dst, s[plain:i]...)
		if c == '"' || c == '\\' {
			dst = append(dst, '\\', c)
		} else {
			dst = append(dst, '\\', 'u', '0', '0', hex[c>>4], hex[c&15])
		}
		plain = i + 1
	}
	return append(append(dst, s[plain:]...), '"')
}
