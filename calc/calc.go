// Package calc is the whole of the computations, as the build step and the reader's
// browser use them: every calculator by name, and one call that answers a request.
//
// It and everything below it import the standard library alone, and of that nothing
// that reads a file, a clock or a network. See DEVELOPERS.md for the reasons.
package calc

import (
	"strings"
	"sync"

	"blankoff/calc/declare"
	"blankoff/calc/electrical"
	"blankoff/calc/quantity"
	"blankoff/calc/vacuum"
)

// all is the list of calculators, in the order in which a page shows them. It is
// made on first use: a page that only reads pays nothing.
var all = sync.OnceValue(func() []*declare.Calculator {
	list := []declare.Calculator{
		vacuum.Pressure,
		vacuum.Throughput,
		vacuum.RiseTest,
		electrical.Continuity,
	}
	prepared := make([]*declare.Calculator, len(list))
	for i := range list {
		prepared[i] = list[i].Prepare()
	}
	return prepared
})

// All lists every calculator. The list and what it points at must not be changed.
func All() []*declare.Calculator { return all() }

// Find gives the calculator with an ID, or nil.
func Find(id string) *declare.Calculator {
	for _, c := range all() {
		if c.ID == id {
			return c
		}
	}
	return nil
}

// Answer runs the calculator that the request names. It never panics.
func Answer(request declare.Request) declare.Answer {
	c := Find(request.ID)
	if c == nil {
		return declare.Answer{ID: request.ID, Fault: &declare.Fault{Text: "there is no calculator " + quantity.Quote(request.ID) + "; there are " + names()}}
	}
	return c.Answer(request)
}

func names() string {
	list := make([]string, len(all()))
	for i, c := range all() {
		list[i] = c.ID
	}
	return strings.Join(list, ", ")
}
