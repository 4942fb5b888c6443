package pumping

import (
	"math/rand/v2"
	"testing"
)

// TestAscending: rows come out by x, and those of equal x as they stood.
func TestAscending(t *testing.T) {
	random := rand.New(rand.NewPCG(11, 12))
	for n := range 200 {
		list := make([]point, n)
		for i := range list {
			list[i] = point{x: float64(random.IntN(1 + n/2)), row: i}
		}
		ascending(list)
		for i := 1; i < n; i++ {
			if a, b := list[i-1], list[i]; a.x > b.x || a.x == b.x && a.row >= b.row {
				t.Fatalf("%d points: %v stands before %v", n, a, b)
			}
		}
	}
}
