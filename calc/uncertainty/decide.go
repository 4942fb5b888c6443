package uncertainty

// Decision is the outcome of a decision rule: never only yes or no.
type Decision int

const (
	CannotTell Decision = iota // the uncertainty reaches across the limit
	Pass
	Fail
)

// tie lets a value that equals a limit in all printed figures be decided alike
// natively and in WebAssembly.
const tie = 1e-12

// AtMost decides whether a value lies at or under a limit: pass only if value + U
// does, fail only if value − U lies over it (ISO 14253-1; JCGM 106:2012, 8.3.3:
// guard band of one expanded uncertainty on either side).
func AtMost(value, expanded, limit float64) Decision {
	slack := tie * max(abs(value), abs(limit))
	switch {
	case value+expanded <= limit+slack:
		return Pass
	case value-expanded > limit+slack:
		return Fail
	}
	return CannotTell
}

// AtLeast decides whether a value lies at or over a limit.
func AtLeast(value, expanded, limit float64) Decision {
	return AtMost(-value, expanded, -limit)
}

// Within decides whether a value lies between two limits.
func Within(value, expanded, low, high float64) Decision {
	under, over := AtMost(value, expanded, high), AtLeast(value, expanded, low)
	switch {
	case under == Fail || over == Fail:
		return Fail
	case under == Pass && over == Pass:
		return Pass
	}
	return CannotTell
}

func abs(x float64) float64 {
	if x < 0 {
		return -x
	}
	return x
}
