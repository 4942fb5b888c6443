package calc

import "blankoff/calc/declare"

// prepared are those that were asked for: a phone needs one or two of them, one after the other, and starts sooner without the rest.
var prepared [len(list)]*declare.Calculator

// All lists every calculator. The list and what it points at must not be changed.
func All() []*declare.Calculator {
	for i := range list {
		ready(i)
	}
	return prepared[:]
}

func ready(i int) *declare.Calculator {
	if prepared[i] == nil {
		prepared[i] = list[i].Prepare()
	}
	return prepared[i]
}
