package vacuum

import (
	"math"
	"math/rand/v2"
	"testing"
)

func TestDoubtful(t *testing.T) {
	for _, c := range []struct{ w, low, high float64 }{
		{0, 1, 1}, {0.2, 0.83333333333, 1.25}, {0.5, 0.66666666667, 2}, {1, 0.5, math.Inf(1)}, {3, 0.25, math.Inf(1)},
	} {
		low, high := Doubtful(c.w)
		if math.Abs(low-c.low) > 1e-9 || high != c.high {
			t.Errorf("w = %v: %v to %v, want %v to %v", c.w, low, high, c.low, c.high)
		}
	}
}

// Without an error of scale: passing q = ½ asks ½ − x ≥ 0.8165 x, so the rise at the limit
// is 2 (1 + 0.8165) steps; failing q = 2 asks 1 − x ≥ 0.8165 x, 1.8165 steps. By hand.
func TestRiseToDecideByHand(t *testing.T) {
	for q, want := range map[float64]float64{0.5: 3.632993, 2: 1.816497, 0.9: 18.16497} {
		if got, ok := RiseToDecide(q, 0); !ok || math.Abs(got-want) > 1e-5 {
			t.Errorf("q = %v: %v steps, want %v", q, got, want)
		}
	}
}

// The rise it gives decides by the rule itself, and any smaller one does not.
func TestRiseToDecideIsTheLeast(t *testing.T) {
	decides := func(q, w, steps float64) bool {
		x := 1 / steps
		seen := q + x
		if q > 1 {
			seen = q - x
		}
		return math.Abs(1-seen) >= math.Hypot(w*seen, 2/math.Sqrt(6)*x) && (1-seen)*(1-q) > 0
	}
	random := rand.New(rand.NewPCG(3, 4))
	never := 0
	for range 10000 {
		q, w := math.Exp(4*random.Float64()-2), 1.2*random.Float64()
		steps, ok := RiseToDecide(q, w)
		low, high := Doubtful(w)
		if ok != (q < low || q > high) {
			t.Fatalf("q = %v, w = %v: ok is %v, but the doubt lies from %v to %v", q, w, ok, low, high)
		}
		if !ok {
			never++
			if decides(q, w, 1e12) {
				t.Fatalf("q = %v, w = %v: a long test decides after all", q, w)
			}
			continue
		}
		if !decides(q, w, steps*(1+1e-9)) || decides(q, w, steps*(1-1e-6)) {
			t.Fatalf("q = %v, w = %v: %v steps are not the least", q, w, steps)
		}
	}
	if never < 500 {
		t.Errorf("only %d cases without an end", never)
	}
}
