package pumping

import (
	"math"
	"testing"
)

// TestLogarithmsWrittenOut: those that stand as numbers, against the pressures they are of.
func TestLogarithmsWrittenOut(t *testing.T) {
	for _, c := range []struct {
		name          string
		got, pressure float64 // Pa
	}{
		{"end of the early part", splitAt, 1000 * mTorr},
		{"least end of it", lowestSplit, 500 * mTorr},
		{"foot of the decades", edgeAt, mTorr},
	} {
		if want := math.Log(c.pressure); math.Abs(c.got-want) > 1e-14 {
			t.Errorf("%s: %v, want %v", c.name, c.got, want)
		}
	}
}
