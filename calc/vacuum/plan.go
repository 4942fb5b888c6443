package vacuum

import "math"

// A rise test is planned so that it decides a leak that is plain: half the limit or less
// is to pass, twice the limit or more is to fail. Nearer to the limit the time needed
// grows without end, and with a gauge of ordinary accuracy no time is enough.
const plain = 2.0

// Doubtful gives the leaks, as shares of the limit, between which no rise test decides,
// however long: its accuracy, a share w of the leak, does not shrink with time. Where w
// is 1 or more no leak is surely over the limit, and high is infinite.
//
// Passing asks Q (1 + w) ≤ L, failing Q (1 − w) > L: the guard bands of the rise test.
func Doubtful(w float64) (low, high float64) {
	if w >= 1 {
		return 1 / (1 + w), math.Inf(1)
	}
	return 1 / (1 + w), 1 / (1 - w)
}

// stepsOf is the ± of a difference of two displays, in display steps: each is off by
// step/√12 (standard), so 2 √2 / √12 with coverage 2.
const stepsOf = 0.816496580927726 // 2/√6

// RiseToDecide is how far the reading must rise, in display steps, for each limit's worth
// of leak (L t/V, the rise at the limit), until a leak that is a share q of the limit is
// decided. ok is false where no rise is enough. It allows for a difference of displays
// that is off by a whole step, the most that two roundings can make of it.
//
// With x = one step as a share of the rise at the limit, passing asks
// (1 − q − x)² ≥ w² (q + x)² + (2/√6)² x², failing (q − x − 1)² ≥ w² (q − x)² + (2/√6)² x².
// Both are quadratic in x, and hold from 0 to the smaller root.
func RiseToDecide(q, w float64) (steps float64, ok bool) {
	room, drift := 1-q, w*w*q // passing
	if q > 1 {
		room, drift = q-1, -drift // failing
	}
	a, b, c := 1-w*w-stepsOf*stepsOf, room+drift, room*room-w*w*q*q
	if c <= 0 {
		return 0, false
	}
	return (b + math.Sqrt(math.Max(0, b*b-a*c))) / c, true
}
