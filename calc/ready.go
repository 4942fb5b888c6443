//go:build !wasm

package calc

import "blankoff/calc/declare"

// all are prepared before anybody asks, since many may ask at once.
var all = func() []*declare.Calculator {
	prepared := make([]*declare.Calculator, len(list))
	for i, declared := range list {
		prepared[i] = declared.Prepare()
	}
	return prepared
}()

// All lists every calculator. The list and what it points at must not be changed.
func All() []*declare.Calculator { return all }

func ready(i int) *declare.Calculator { return all[i] }
