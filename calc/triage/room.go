package triage

// room is what a planner writes on. It is used again and again: a plan looks at some hundred states, and on a phone taking and
// clearing new memory for each would cost more than the reckoning.
type room struct {
	lists   [][]float64 // lent from the first on, given back from the last on
	lent    int
	size    int
	marked  []int // steps that were noted as done on the way down
	open    []int // repairs that could come next
	waiting []int // those of them that need another step first
}

// fit makes it large enough for the beliefs and the steps of a model.
func (r *room) fit(m *Model) {
	r.size = max(m.hypotheses(), len(m.Steps))
	n := len(m.Steps)
	ints := make([]int, 3*n)
	r.marked, r.open, r.waiting = ints[:0:n], ints[n:n:2*n], ints[2*n:2*n]
}

// list lends one that holds whatever it held before.
func (r *room) list(n int) []float64 {
	if r.lent == len(r.lists) {
		r.lists = append(r.lists, make([]float64, r.size))
	}
	r.lent++
	return r.lists[r.lent-1][:n]
}

func (r *room) copied(list []float64) []float64 {
	lent := r.list(len(list))
	copy(lent, list)
	return lent
}

// back returns the last n.
func (r *room) back(n int) { r.lent -= n }
