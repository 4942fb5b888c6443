package vapour

import (
	"blankoff/calc/declare"
	"blankoff/calc/uncertainty"
)

// atMost decides whether a result lies at or under a limit.
func atMost(r *declare.Result, id string, limit float64) uncertainty.Decision {
	value, u := r.Out(id)
	return uncertainty.AtMost(value, uncertainty.K*u, limit)
}
