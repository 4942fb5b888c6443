package parallel

import (
	"slices"
	"sync/atomic"
	"testing"
)

func TestEachIsCalledOnce(t *testing.T) {
	for _, n := range []int{0, 1, 2, 1000} {
		calls := make([]atomic.Int32, n)
		Each(n, func(i int) { calls[i].Add(1) })
		for i := range calls {
			if got := calls[i].Load(); got != 1 {
				t.Errorf("n = %d: %d was done %d times", n, i, got)
			}
		}
	}
}

func TestResultsKeepTheirPlace(t *testing.T) {
	squares := make([]int, 500)
	Each(len(squares), func(i int) { squares[i] = i * i })
	if !slices.IsSorted(squares) || squares[499] != 499*499 {
		t.Error("results are out of place")
	}
}
