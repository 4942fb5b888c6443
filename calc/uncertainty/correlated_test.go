package uncertainty

import (
	"math"
	"testing"
)

func TestCorrelated(t *testing.T) {
	for _, c := range []struct {
		name string
		a    []float64
		r    [][]float64
		want float64
	}{
		{"independent: the root of the sum of squares", []float64{3, 4}, [][]float64{{1, 0}, {0, 1}}, 5},
		{"one and the same: they add", []float64{3, 4}, [][]float64{{1, 1}, {1, 1}}, 7},
		{"a difference of one and the same is exact", []float64{3, -3}, [][]float64{{1, 1}, {1, 1}}, 0},
		{"opposite", []float64{3, 4}, [][]float64{{1, -1}, {-1, 1}}, 1},
		{"half (by hand: √(9 + 16 + 12))", []float64{3, 4}, [][]float64{{1, 0.5}, {0.5, 1}}, math.Sqrt(37)},
		{"ten resistors calibrated against one standard (GUM 5.2.2, example): 10 × 100 mΩ, not √10 × 100 mΩ", []float64{0.1, 0.1, 0.1, 0.1, 0.1, 0.1, 0.1, 0.1, 0.1, 0.1}, ones(10), 1},
		{"nothing", nil, nil, 0},
	} {
		if got := Correlated(c.a, c.r); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("%s: got %v, want %v", c.name, got, c.want)
		}
	}
}

func ones(n int) [][]float64 {
	r := make([][]float64, n)
	for i := range r {
		r[i] = make([]float64, n)
		for j := range r[i] {
			r[i][j] = 1
		}
	}
	return r
}

// TestCovarianceOfTwoResults: sum and difference of independent inputs of equal
// uncertainty are not correlated; of unequal ones they are (by hand: 9 − 16).
func TestCovarianceOfTwoResults(t *testing.T) {
	alone := [][]float64{{1, 0}, {0, 1}}
	if got := Covariance([]float64{3, 3}, []float64{3, -3}, alone); got != 0 {
		t.Errorf("equal uncertainties: %v, want 0", got)
	}
	if got := Covariance([]float64{3, 4}, []float64{3, -4}, alone); got != -7 {
		t.Errorf("unequal uncertainties: %v, want -7", got)
	}
}
