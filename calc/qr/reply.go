package qr

import (
	"strconv"

	"blankoff/calc/declare"
	"blankoff/calc/letters"
	"blankoff/calc/quantity"
)

// ID names the request for a code, beside those for calculators:
//
//	{"id":"qr","in":{"text":"https://example.org/","level":"M"}}
//
// Without a level it is the highest at which the code is no larger.
const ID = "qr"

// Reply answers it: the picture, and how large and how strong the code is.
func Reply(request declare.Request) (a declare.Answer) {
	a.ID = ID
	text, least, most := "", L, H
	for i := range request.In {
		name, said := request.In[i].Name, request.In[i].Text
		switch level := letters.Index("LMQH", said); {
		case name == "text":
			text = said
		case name != "level":
			a.Fault = &declare.Fault{Field: name, Text: "a QR code has no entry " + quantity.Quote(name) + "; it has text and level"}
		case level < 0 || len(said) != 1:
			a.Fault = &declare.Fault{Field: name, Text: quantity.Quote(said) + " is no level of a QR code; there are L, M, Q and H"}
		default:
			least, most = Level(level), Level(level)
		}
	}
	if a.Fault != nil {
		return a
	}
	code, err := encode(text, least, most)
	if text == "" || err != nil {
		a.Fault = &declare.Fault{Field: "text", Text: "what is the code to say?"}
		if err != nil {
			a.Fault.Text = err.Error()
		}
		return a
	}
	a.Out = make([]declare.Given, 3)
	a.Out[0].ID, a.Out[0].Text = "code", code.SVG("QR code of the address")
	a.Out[1].ID, a.Out[1].Text = "version", strconv.Itoa(code.Version)
	a.Out[2].ID, a.Out[2].Text = "level", code.Level.String()
	return a
}
