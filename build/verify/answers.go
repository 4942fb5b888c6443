package verify

import (
	"strings"
	"sync"

	"blankoff/calc"
	"blankoff/calc/declare"
)

// answers remembers for one run what calculators gave, and which texts are true for which data: the guides of one machine
// ask and say the same again and again.
type answers struct{ known, agreed sync.Map }

// of asks a calculator, or remembers. The answer is shared: it must not be changed.
func (a *answers) of(id string, in []declare.Pair) declare.Answer {
	if a == nil {
		return calc.Answer(declare.Request{ID: id, In: in})
	}
	key := keyOf(id, in)
	if known, ok := a.known.Load(key); ok {
		return known.(declare.Answer)
	}
	answer := calc.Answer(declare.Request{ID: id, In: in})
	a.known.Store(key, answer)
	return answer
}

// agree tells whether what a page says is true for what the data say.
func (a *answers) agree(said, data string) bool {
	if a == nil {
		return disagreement(read(said), read(data)) == agrees
	}
	key := [2]string{said, data}
	if known, ok := a.agreed.Load(key); ok {
		return known.(bool)
	}
	agree := disagreement(read(said), read(data)) == agrees
	a.agreed.Store(key, agree)
	return agree
}

// keyOf joins the parts with a character that no text of a page holds.
func keyOf(id string, in []declare.Pair) string {
	var key strings.Builder
	key.WriteString(id)
	for _, pair := range in {
		key.WriteByte(0)
		key.WriteString(pair.Name)
		key.WriteByte(0)
		key.WriteString(pair.Text)
	}
	return key.String()
}
