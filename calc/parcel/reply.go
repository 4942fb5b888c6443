package parcel

import "blankoff/calc/declare"

// ID names the request, beside those for calculators:
//
//	{"id":"parcel","in":{"text":"{…}"}}      gives digits
//	{"id":"parcel","in":{"digits":"2718…"}}  gives text
const ID = "parcel"

// Reply answers it.
func Reply(request declare.Request) (a declare.Answer) {
	a.ID = ID
	a.Fault = &declare.Fault{Text: "a parcel has one entry: text or digits"}
	if len(request.In) != 1 {
		return a
	}
	name, said, ok := request.In[0].Name, request.In[0].Text, false
	gives := "text"
	switch name {
	case "text":
		gives = "digits"
		a.Fault.Text = "this is too long for an address"
		said, ok = Pack(said)
	case "digits":
		a.Fault.Text = "This address holds no whole work record: it was cut off, or changed."
		said, ok = Unpack(said)
	}
	a.Fault.Field = name
	if ok {
		a.Fault = nil
		a.Out = make([]declare.Given, 1)
		a.Out[0].ID, a.Out[0].Text = gives, said
	}
	return a
}
