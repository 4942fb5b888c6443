package main

import (
	"blankoff/calc/declare"
	"blankoff/calc/letters"
	"blankoff/calc/triage"
	"blankoff/calc/wire"
)

// maxRequest is far above any request that a form can make, and keeps a mistake from taking the phone's memory.
const maxRequest = 1 << 20

// exchange holds the two buffers between host and calculators. They are used again, so that a call allocates little.
type exchange struct {
	in, out []byte
	model   *triage.Known // by which a triage is answered that brings no model; nil until one was handed over
}

// request gives n bytes to write to; at least one, so that they have an address.
func (e *exchange) request(n int) ([]byte, bool) {
	if n < 0 || n > maxRequest {
		return nil, false
	}
	if n >= cap(e.in) {
		e.in = make([]byte, n+1)
	}
	e.in = e.in[:n+1]
	return e.in, true
}

// know reads the first n bytes of the request as a fault model, so that those who ask often need not bring it each time. What
// is wrong with it is told in the answers.
func (e *exchange) know(n int) {
	text := ""
	if n >= 0 && n <= len(e.in) {
		text = letters.Valid(string(e.in[:n]))
	}
	e.model = triage.Know(text)
}

// answer reads the first n bytes of the request and gives the length of the answer, which lies in out.
func (e *exchange) answer(n int) int {
	e.out = e.answered(n)
	return len(e.out)
}

func (e *exchange) answered(n int) (out []byte) {
	// A panic would end the instance for the whole page. One here is a fault in a calculator; the next request is answered again.
	defer func() {
		if recover() != nil {
			out = refuse(e.out[:0], "this calculator failed at these entries; the fault is in the program, please report them")
		}
	}()
	switch {
	case n < 0 || n > maxRequest:
		return refuse(e.out[:0], "the request is longer than 1 MiB; shorten the entries")
	case n > len(e.in):
		return refuse(e.out[:0], "the request is longer than the room that was asked for it")
	}
	return serve(e.model, e.out[:0], e.in[:n])
}

// serve is replaced in the test of the recovery.
var serve = wire.ServeBy

func refuse(dst []byte, text string) []byte {
	return wire.AppendAnswer(dst, declare.Answer{Fault: &declare.Fault{Text: text}})
}
