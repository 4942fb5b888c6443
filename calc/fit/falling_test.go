package fit

import (
	"math"
	"math/big"
	"math/rand/v2"
	"testing"
)

// TestFalling against the standard library, and against the series in numbers of 200 bits.
func TestFalling(t *testing.T) {
	dice := rand.New(rand.NewPCG(5, 6))
	worst := 0.0
	for i := range 200_000 {
		x := -math.Pow(10, 17.8*dice.Float64()-15)
		if i%2 == 0 {
			x = -700 * dice.Float64()
		}
		want := math.Exp(x)
		worst = max(worst, math.Abs(falling(x)-want)/want)
	}
	if t.Logf("off by %.2g at most", worst); !(worst < 5e-16) {
		t.Errorf("it is off by %g", worst)
	}
	for _, x := range []float64{0, math.Copysign(0, -1), -1, -0.5, -math.Ln2, -math.Ln2 / 2, -10, -100, -699.999} {
		want, _ := exact(x).Float64()
		if got := falling(x); math.Abs(got-want) > 5e-16*want {
			t.Errorf("exp(%g) is %v, want %v", x, got, want)
		}
	}
	for x, want := range map[float64]float64{-800: 0, math.Inf(-1): 0} {
		if got := falling(x); got != want {
			t.Errorf("exp(%g) is %v, want %v", x, got, want)
		}
	}
	if got := falling(math.NaN()); got == got {
		t.Errorf("exp of no number is %v", got)
	}
}

// exact sums the series of exp(-x) and takes its inverse.
func exact(x float64) *big.Float {
	wide := func(x float64) *big.Float { return new(big.Float).SetPrec(2000).SetFloat64(x) }
	sum, term := wide(1), wide(1)
	for n := 1.0; n < 4000; n++ {
		term.Mul(term, wide(-x)).Quo(term, wide(n))
		sum.Add(sum, term)
	}
	return wide(1).Quo(wide(1), sum)
}

func BenchmarkFalling(b *testing.B) {
	b.Run("here", func(b *testing.B) {
		for i := range b.N {
			falling(-float64(i%1000) / 37)
		}
	})
	b.Run("library", func(b *testing.B) {
		for i := range b.N {
			math.Exp(-float64(i%1000) / 37)
		}
	})
}
