// Package parallel does many small things on all processors at once. What each gives
// belongs at its index, so the order of the work never shows in the result.
package parallel

import (
	"runtime"
	"sync"
	"sync/atomic"
)

// Each calls do once for every i from 0 to n-1 and returns when all are done.
func Each(n int, do func(i int)) {
	var next atomic.Int64
	var all sync.WaitGroup
	for range min(n, runtime.GOMAXPROCS(0)) {
		all.Go(func() {
			for i := int(next.Add(1)) - 1; i < n; i = int(next.Add(1)) - 1 {
				do(i)
			}
		})
	}
	all.Wait()
}
