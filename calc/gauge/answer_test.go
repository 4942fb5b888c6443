package gauge_test

import (
	"math"
	"strings"
	"testing"

	"blankoff/calc"
	"blankoff/calc/declare"
)

// ask puts a request as a page does; in holds name, text, name, text...
func ask(t *testing.T, id string, in ...string) declare.Answer {
	t.Helper()
	r := declare.Request{ID: id}
	for i := 0; i < len(in); i += 2 {
		r.In = append(r.In, declare.Pair{Name: in[i], Text: in[i+1]})
	}
	return calc.Answer(r)
}

func given(a declare.Answer, id string) declare.Given {
	for _, g := range a.Out {
		if g.ID == id {
			return g
		}
	}
	return declare.Given{Value: math.NaN(), SI: math.NaN()}
}

// answered is ask for requests that must not be refused.
func answered(t *testing.T, id string, in ...string) declare.Answer {
	t.Helper()
	a := ask(t, id, in...)
	if a.Fault != nil {
		t.Fatalf("%s %v: %s: %s", id, in, a.Fault.Field, a.Fault.Text)
	}
	return a
}

// near compares a value in the unit shown.
func near(t *testing.T, what string, a declare.Answer, id string, want, relative float64) {
	t.Helper()
	if got := given(a, id).Value; !(math.Abs(got-want) <= relative*math.Abs(want)) {
		t.Errorf("%s: %s is %.6g, want %g", what, id, got, want)
	}
}

// refused is a request that must be refused, naming a field and saying some words.
type refused struct {
	name         string
	in           []string // put after the entries that are right
	field, words string
}

func refuse(t *testing.T, id string, base []string, list []refused) {
	t.Helper()
	for _, c := range list {
		a := ask(t, id, append(append([]string(nil), base...), c.in...)...)
		if a.Fault == nil || a.Fault.Field != c.field || !strings.Contains(a.Fault.Text, c.words) {
			t.Errorf("%s: %s: got %+v, want a fault of %s with %q", id, c.name, a.Fault, c.field, c.words)
		}
	}
}
