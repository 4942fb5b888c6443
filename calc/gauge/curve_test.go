package gauge

import (
	"math"
	"math/rand/v2"
	"testing"
)

// model is the invented tube TQ-4 of the trade brief, V for Pa.
const torr = 101325.0 / 760 // Pa

func model(p float64) float64 { return 9.6e-3 / (1 + 12*p/(p+3.5*torr)) }

// modelAt makes its curve with rows at the given pressures, Pa, rising.
func modelAt(pressures []float64) *curve {
	var s, p []float64
	for i := len(pressures) - 1; i >= 0; i-- {
		s, p = append(s, model(pressures[i])), append(p, pressures[i])
	}
	return newCurve(s, p)
}

// steps gives n pressures from low to high, Pa, in equal steps of the logarithm.
func steps(low, high float64, n int) []float64 {
	var list []float64
	for i := range n {
		list = append(list, low*math.Pow(high/low, float64(i)/float64(n-1)))
	}
	return list
}

var sparse = []float64{1e-3, 1e-2, 0.05, 0.1, 0.25, 0.5, 1, 2, 10, 30, 760} // Torr, as the brief prints

func sparseCurve() *curve {
	var p []float64
	for _, x := range sparse {
		p = append(p, x*torr)
	}
	return modelAt(p)
}

func TestCurveMeetsItsRows(t *testing.T) {
	c := sparseCurve()
	for i, row := range c.rows {
		s := row.signal
		p, _ := c.at(s)
		if want := math.Exp(row.log); math.Abs(p-want) > 1e-12*want || c.doubt(s) > 1e-12 {
			t.Errorf("row %d: %g, want %g, doubt %g", i, p, want, c.doubt(s))
		}
	}
}

// A dense card is as good as the formula behind it; slopes too.
func TestCurveOfADenseCard(t *testing.T) {
	c := modelAt(steps(1e-3*torr, 760*torr, 120))
	for _, p := range steps(1.1e-3*torr, 700*torr, 331) {
		got, slope := c.at(model(p))
		want := -1 / (p * 9.6e-3 * 12 * 3.5 * torr / math.Pow(p+3.5*torr, 2) / math.Pow(1+12*p/(p+3.5*torr), 2)) // by hand
		if math.Abs(got-p) > 0.005*p || math.Abs(slope-want) > 0.03*math.Abs(want) {
			t.Errorf("%g mTorr: got %g, slope %g, want %g", p/torr*1000, got/torr*1000, slope, want)
		}
	}
}

// Eleven rows: the error stays within what the comment promises, and within twice the
// standard doubt and a percent, up to the last pair of rows, 25 times apart, for which
// the calculator warns.
func TestCurveOfASparseCard(t *testing.T) {
	c := sparseCurve()
	for _, p := range steps(1.01e-3*torr, 29*torr, 2000) {
		got, _ := c.at(model(p))
		off := math.Abs(math.Log(got / p))
		if p > 0.02*torr && p < 3*torr && off > 0.02 {
			t.Errorf("%g mTorr is read as %g", p/torr*1000, got/torr*1000)
		}
		if off > 2*c.doubt(model(p))+0.01 {
			t.Errorf("%g mTorr is read as %g, outside twice the doubt of %g", p/torr*1000, got/torr*1000, c.doubt(model(p)))
		}
	}
}

// TestCurveNeverTurns on random cards, and its slope is that of its own values.
func TestCurveNeverTurns(t *testing.T) {
	random := rand.New(rand.NewPCG(45, 46))
	for range 300 {
		n := 3 + random.IntN(12)
		s, p := []float64{random.Float64()}, []float64{math.Exp(10 * random.Float64())}
		for len(s) < n {
			s, p = append(s, s[len(s)-1]+math.Exp(1.5*random.NormFloat64())), append(p, p[len(p)-1]*math.Exp(-math.Exp(random.NormFloat64())))
		}
		c := newCurve(s, p)
		for i := range n - 1 {
			last, _ := c.at(s[i])
			for k := 1; k <= 50; k++ {
				at := s[i] + c.rows[i].width*float64(k)/50
				now, slope := c.at(math.Min(at, s[i+1]))
				if now > last*(1+1e-9) || slope > 1e-9*math.Abs(c.rows[i].chord) {
					t.Fatalf("%v %v turns at %g: %g after %g, slope %g", s, p, at, now, last, slope)
				}
				last = now
			}
			middle, h := s[i]+0.37*c.rows[i].width, 1e-5*c.rows[i].width
			up, _ := c.at(middle + h)
			down, _ := c.at(middle - h)
			if _, slope := c.at(middle); up > 0 && math.Abs(math.Log(up/down)/(2*h)-slope) > 1e-4*math.Abs(c.rows[i].chord) {
				t.Fatalf("%v %v: slope %g at %g, differences give %g", s, p, slope, middle, math.Log(up/down)/(2*h))
			}
		}
	}
}
