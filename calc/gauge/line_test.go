package gauge

import (
	"math"
	"math/rand/v2"
	"testing"
)

func pointsOf(x, y, ux, uy []float64) []point {
	var list []point
	for i := range x {
		list = append(list, point{x: x[i], y: y[i], ux: ux[i], uy: uy[i]})
	}
	return list
}

// Pearson's points with York's weights, the test case of every program of this kind.
// Offset, gain and the sum of squares were found for this test by direct minimisation
// (golden section on the gain, to 1e-8); they are also the values known from York's
// papers, from memory: 5.47991, −0.480533, 11.866.
func TestLineThroughPearsonsPoints(t *testing.T) {
	x := []float64{0, 0.9, 1.8, 2.6, 3.3, 4.4, 5.2, 6.1, 6.5, 7.4}
	y := []float64{5.9, 5.4, 4.4, 4.6, 3.5, 3.7, 2.8, 2.8, 2.4, 1.5}
	weightX := []float64{1000, 1000, 500, 800, 200, 80, 60, 20, 1.8, 1}
	weightY := []float64{1, 1.8, 4, 8, 20, 20, 70, 70, 100, 500}
	ux, uy := make([]float64, 10), make([]float64, 10)
	for i := range x {
		ux[i], uy[i] = 1/math.Sqrt(weightX[i]), 1/math.Sqrt(weightY[i])
	}
	l := lineThrough(pointsOf(x, y, ux, uy))
	for _, c := range []struct {
		name            string
		got, want, near float64
	}{
		{"offset", l.offset, 5.47991023, 1e-7}, {"gain", l.gain, -0.48053341, 1e-7}, {"sum of squares", l.chi2, 11.8663532, 1e-6},
		{"u of the offset (York 2004, from memory: 0.295)", l.offsetU, 0.295, 0.0005}, {"u of the gain (0.0580)", l.gainU, 0.0580, 0.0005},
	} {
		if !l.ok || !(math.Abs(c.got-c.want) <= c.near) {
			t.Errorf("%s: got %.9g, want %.9g", c.name, c.got, c.want)
		}
	}
}

// randomLine gives points off a line by their own errors.
func randomLine(random *rand.Rand, offset, gain float64, true_, ux, uy []float64) (x, y []float64) {
	for i, at := range true_ {
		x = append(x, at+ux[i]*random.NormFloat64())
		y = append(y, offset+gain*at+uy[i]*random.NormFloat64())
	}
	return x, y
}

// TestLineIsTheLeast: no line near the one found has a smaller sum of squares, the
// definition of the fit, which the iteration nowhere uses.
func TestLineIsTheLeast(t *testing.T) {
	random := rand.New(rand.NewPCG(41, 42))
	for range 500 {
		n := 3 + random.IntN(8)
		at, ux, uy := make([]float64, n), make([]float64, n), make([]float64, n)
		for i := range at {
			at[i] = 10 + 300*random.Float64() + 50*float64(i)
			ux[i], uy[i] = 0.1+0.02*at[i]*random.Float64(), 0.1+0.03*at[i]*random.Float64()
		}
		x, y := randomLine(random, 100*random.NormFloat64(), 0.5+2*random.Float64(), at, ux, uy)
		l := lineThrough(pointsOf(x, y, ux, uy))
		sum := func(offset, gain float64) (s float64) {
			for i := range x {
				left := y[i] - offset - gain*x[i]
				s += left * left / (uy[i]*uy[i] + gain*gain*ux[i]*ux[i])
			}
			return s
		}
		best := sum(l.offset, l.gain)
		if !l.ok || math.Abs(best-l.chi2) > 1e-9*(1+best) {
			t.Fatalf("%v %v: %+v, sum %g", x, y, l, best)
		}
		for range 40 {
			step := math.Pow(10, -3*random.Float64())
			if near := sum(l.offset+step*l.offsetU*random.NormFloat64(), l.gain+step*l.gainU*random.NormFloat64()); near < best-1e-9*(1+best) {
				t.Fatalf("%v %v: a line beside the fit has %g, the fit %g", x, y, near, best)
			}
		}
	}
}

// TestLineSpread: the uncertainties are what fits to fresh points scatter by.
func TestLineSpread(t *testing.T) {
	random := rand.New(rand.NewPCG(43, 44))
	at, ux, uy := []float64{92, 250, 600, 900, 1500}, []float64{1, 2.5, 6, 9, 15}, []float64{4, 6, 10, 14, 20}
	const fits = 4000
	var offset, gain, offset2, gain2, wantOffset, wantGain float64
	for range fits {
		x, y := randomLine(random, 300, 1.2, at, ux, uy)
		l := lineThrough(pointsOf(x, y, ux, uy))
		offset, offset2, wantOffset = offset+l.offset-300, offset2+math.Pow(l.offset-300, 2), wantOffset+l.offsetU/fits
		gain, gain2, wantGain = gain+l.gain-1.2, gain2+math.Pow(l.gain-1.2, 2), wantGain+l.gainU/fits
	}
	for _, c := range []struct {
		name              string
		mean, spread, own float64
	}{{"offset", offset / fits, math.Sqrt(offset2 / fits), wantOffset}, {"gain", gain / fits, math.Sqrt(gain2 / fits), wantGain}} {
		if math.Abs(c.spread-c.own) > 0.05*c.own || math.Abs(c.mean) > 0.05*c.own {
			t.Errorf("%s: mean error %.3g, spread %.4g, own uncertainty %.4g", c.name, c.mean, c.spread, c.own)
		}
	}
}

func TestLineThatIsNone(t *testing.T) {
	same, two, u := []float64{5, 5, 5}, []float64{1, 2}, []float64{1, 1, 1}
	if l := lineThrough(pointsOf(two, two, u[:2], u[:2])); l.ok {
		t.Errorf("two points: %+v", l)
	}
	if l := lineThrough(pointsOf(same, []float64{1, 2, 3}, u, u)); l.ok {
		t.Errorf("all at one x: %+v", l)
	}
}

// Published tables of the chi-squared distribution, 99 % points, from memory: 6.635,
// 9.210, 11.345, 15.086, 23.209, 37.566, 76.154.
func TestChi2Limit(t *testing.T) {
	for n, want := range map[float64]float64{1: 6.635, 2: 9.210, 3: 11.345, 5: 15.086, 10: 23.209, 20: 37.566, 50: 76.154} {
		if got := chi2Limit(n); math.Abs(got-want) > 0.02*want {
			t.Errorf("%g: got %g, want %g", n, got, want)
		}
	}
}
