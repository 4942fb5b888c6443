package fit

import (
	"math"
	"math/rand/v2"
	"testing"
)

func near(t *testing.T, what string, got, want, relative float64) {
	t.Helper()
	if math.IsNaN(got) || math.Abs(got-want) > relative*math.Abs(want) {
		t.Errorf("%s: got %.12g, want %.12g", what, got, want)
	}
}

// The values of t stand in testdata/reference/12_uncertainty.csv (scipy 1.10.1) where a
// row is named; the others follow in closed form: one degree of freedom is tan(πp/2), two
// are p√(2/(1−p²)), none that is finite is the normal distribution.
func TestCoverage(t *testing.T) {
	for _, c := range []struct {
		name             string
		p, freedom, want float64
	}{
		{"12-O021", 0.95, 10, 2.22813885196},
		{"12-O022", 0.99, 16, 2.92078162235},
		{"12-O023", 0.95, 4, 2.7764451052},
		{"one: tan", 0.95, 1, math.Tan(0.95 * math.Pi / 2)},
		{"two: closed form", 0.99, 2, 0.99 * math.Sqrt(2/(1-0.99*0.99))},
		{"normal, 95 %: taken as a million", 0.95, math.Inf(1), 1.959966356},
		{"many are as good as normal", 0.95, 1e6, 1.959966356},
		{"nothing to cover", 0, 5, 0},
	} {
		near(t, c.name, Coverage(c.p, c.freedom), c.want, 1e-9)
	}
	for _, c := range [][2]float64{{1, 5}, {0.95, 0}, {0.95, -1}, {2, 5}, {math.NaN(), 5}} {
		if k := Coverage(c[0], c[1]); k != 0 && !math.IsInf(k, 1) {
			t.Errorf("Coverage(%v, %v) = %v, want none", c[0], c[1], k)
		}
	}
}

func TestCoverageIsTheInverseOfWithin(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	for i := 0; i < 2000; i++ {
		freedom, p := math.Exp(8*random.Float64()), 0.001+0.998*random.Float64()
		k := Coverage(p, freedom)
		near(t, "share within ± k", Within(k, freedom), p, 1e-9)
		if more := Coverage(p, freedom*1.1); more > k*(1+1e-12) {
			t.Errorf("more degrees of freedom than %v give a larger factor for %v: %v, %v", freedom, p, k, more)
		}
	}
}

// Rows 12-O016 of testdata/reference, and the two limiting cases of GUM G.4.1.
func TestEffective(t *testing.T) {
	near(t, "GUM H.1.6", Effective([]float64{25, 9.7, 2.9, 16.6}, []float64{18, 25.6, 50, 2}), 16.76455398092, 1e-7)
	near(t, "one part alone", Effective([]float64{3, 0}, []float64{7, 1}), 7, 1e-12)
	near(t, "two equal parts: twice the freedom", Effective([]float64{2, 2}, []float64{6, 6}), 12, 1e-12)
	if f := Effective([]float64{2, 1}, []float64{math.Inf(1), math.Inf(1)}); !math.IsInf(f, 1) {
		t.Errorf("without readings: %v, want +Inf", f)
	}
}

func TestRepeat(t *testing.T) {
	// By hand: 1 2 3 4 has mean 2.5, s² = 5/3.
	r, ok := Repeat([]float64{1, 2, 3, 4})
	if !ok || r.Mean != 2.5 || r.Freedom != 3 || r.N != 4 {
		t.Errorf("got %+v", r)
	}
	near(t, "s", r.S, math.Sqrt(5.0/3), 1e-14)
	near(t, "u", r.U, math.Sqrt(5.0/12), 1e-14)
	// NIST StRD NumAcc4 (from memory: 1001 readings about 10,000,000.2, s = 0.1): large and
	// close together. Half are 0.1 above, half below, and one is at the mean.
	x := []float64{10000000.2}
	for i := 0; i < 500; i++ {
		x = append(x, 10000000.1, 10000000.3)
	}
	r, _ = Repeat(x)
	near(t, "NumAcc4 mean", r.Mean, 10000000.2, 1e-15)
	near(t, "NumAcc4 standard deviation", r.S, 0.1, 1e-8)
	for _, bad := range [][]float64{nil, {1}, {1, math.NaN()}, {1, math.Inf(1)}} {
		if _, ok := Repeat(bad); ok {
			t.Errorf("%v has statistics", bad)
		}
	}
}

func TestCorrelation(t *testing.T) {
	x := []float64{1, 2, 3, 4, 5}
	for _, c := range []struct {
		name string
		y    []float64
		want float64
	}{
		{"line up", []float64{3, 5, 7, 9, 11}, 1},
		{"line down", []float64{5, 4, 3, 2, 1}, -1},
		{"by hand: Sxy 8, Sxx 10, Syy 10", []float64{2, 1, 4, 3, 5}, 0.8},
		{"one stays", []float64{7, 7, 7, 7, 7}, 0},
	} {
		if got, ok := Correlation(x, c.y); !ok || math.Abs(got-c.want) > 1e-14 {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
	}
}

func TestMedianAndTheilSen(t *testing.T) {
	for _, c := range []struct {
		list []float64
		want float64
	}{{[]float64{3}, 3}, {[]float64{9, 1}, 5}, {[]float64{5, 1, 3}, 3}, {[]float64{4, 1, 3, 2}, 2.5}} {
		if got := Median(c.list); got != c.want {
			t.Errorf("Median(%v) = %v, want %v", c.list, got, c.want)
		}
	}
	x, y := data(t, "15_data_sen1968.csv", "y", "x")
	slope, intercept, ok := TheilSen(x, y)
	if !ok || math.Abs(slope-4) > 1e-9 || math.Abs(intercept-6) > 1e-9 {
		t.Errorf("Sen 1968: %v x + %v, want 4 x + 6", slope, intercept)
	}
	// A quarter of wild readings does not carry it off.
	x, y = nil, nil
	for i := 0; i < 40; i++ {
		x, y = append(x, float64(i)), append(y, 5+2*float64(i))
		if i%4 == 0 {
			y[i] += 1000
		}
	}
	if slope, _, _ := TheilSen(x, y); math.Abs(slope-2) > 1e-12 {
		t.Errorf("with a quarter of wild readings the slope is %v, want 2", slope)
	}
}

func TestAICc(t *testing.T) {
	// Trade brief, case 2 (13 readings): 31.4, 46.6 and 106.4 from the sums of squares that
	// scipy 1.10.1 gives.
	near(t, "both", AICc(13, 5, 34.78913914289077), 31.368055, 1e-7)
	near(t, "saturating", AICc(13, 4, 172.7075079705964), 46.626451, 1e-7)
	near(t, "straight", AICc(13, 3, 23897.232349014383), 106.382058, 1e-7)
	if !math.IsInf(AICc(6, 5, 1), 1) {
		t.Errorf("six readings bear five parameters")
	}
}

// TestLinesFollowTheirReadings: shifted and stretched readings give the line shifted and
// stretched, and readings on a line give that line without uncertainty.
func TestLinesFollowTheirReadings(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 4))
	for i := 0; i < 500; i++ {
		n := 3 + random.IntN(40)
		x, y, u := make([]float64, n), make([]float64, n), make([]float64, n)
		shift, stretch := 1000*random.NormFloat64(), math.Exp(5*random.NormFloat64())
		for j := range x {
			x[j], y[j], u[j] = float64(j)+0.3*random.Float64(), random.NormFloat64(), 1
		}
		a, _ := Straight(x, y)
		w, _ := Weighted(x, y, u)
		near(t, "equal weights", w.Slope, a.Slope, 1e-9)
		near(t, "equal weights, u", w.USlope*a.S, a.USlope, 1e-9)
		far, out := make([]float64, n), make([]float64, n)
		for j := range x {
			far[j], out[j] = x[j]+shift, y[j]*stretch+3*(x[j]+shift)
		}
		b, _ := Straight(far, out)
		if math.Abs(b.Slope-3-stretch*a.Slope) > 1e-7*(b.USlope+1) {
			t.Errorf("slope %v, want %v", b.Slope, 3+stretch*a.Slope)
		}
		near(t, "s", b.S, stretch*a.S, 1e-6)
		for j := range x {
			out[j] = 7 - 0.25*x[j]
		}
		c, _ := Straight(x, out)
		if math.Abs(c.Slope+0.25) > 1e-12 || math.Abs(c.Intercept-7) > 1e-11 || c.S > 1e-12 {
			t.Errorf("readings on a line: %+v", c)
		}
		near(t, "uncertainty at the mean is s/√n", a.UAt(Mean(x)), a.S/math.Sqrt(float64(n)), 1e-6)
	}
}

// TestCurvesAreAtAMinimum: from any start, the residuals are at right angles to every
// derivative of the curve, which is what least squares means; and a curve without
// scatter comes back.
func TestCurvesAreAtAMinimum(t *testing.T) {
	random := rand.New(rand.NewPCG(5, 6))
	for i := 0; i < 300; i++ {
		q := question(random, []string{"saturating", "both"}[i%2])
		terms := Start | Bend
		if q.Kind == "both" {
			terms |= Slope
		}
		length := q.X[len(q.X)-1]
		for _, start := range []float64{0.05, 0.2, 0.6} {
			c, ok := Fit(q.X, q.Y, terms, start*length)
			if !ok {
				t.Fatalf("no fit from %v", start)
			}
			var derivative [4][]float64
			off := make([]float64, len(q.X))
			for j, x := range q.X {
				off[j] = q.Y[j] - c.At(x)
				e := math.Exp(-x / c.Tau)
				for k, v := range [4]float64{1, x, 1 - e, x / c.Tau * e} {
					derivative[k] = append(derivative[k], v)
				}
			}
			for k, d := range derivative {
				if k == 1 && q.Kind != "both" {
					continue
				}
				if share := dot(d, off) / math.Sqrt(dot(d, d)) / c.S; math.Abs(share) > 1e-5 {
					t.Errorf("%s from %v: residuals lean by %v s on derivative %d", q.Kind, start, share, k)
				}
			}
		}
		exact := make([]float64, len(q.X))
		for j, x := range q.X {
			exact[j] = 50 + 2*x/length - 200*math.Expm1(-x/(0.2*length))
		}
		c, ok := Fit(q.X, exact, Start|Slope|Bend, length/2)
		if !ok || math.Abs(c.Rise-200) > 1e-5 || math.Abs(c.Tau/length-0.2) > 1e-7 || math.Abs(c.Slope*length-2) > 1e-4 {
			t.Errorf("a curve without scatter comes back as %+v (%v)", c, ok)
		}
	}
}

// TestWhatIsNotDetermined is said, not computed.
func TestWhatIsNotDetermined(t *testing.T) {
	same, up, odd := []float64{5, 5, 5, 5, 5}, []float64{1, 2, 3, 4, 5}, []float64{1, 2, math.NaN(), 4, 5}
	zero := make([]float64, 5)
	for name, ok := range map[string]bool{
		"line, one time":                 second(Straight(same, up)),
		"line, two readings":             second(Straight(up[:2], up[:2])),
		"line, NaN":                      second(Straight(up, odd)),
		"line, unequal length":           second(Straight(up, up[:4])),
		"weighted, one time":             second(Weighted(same, up, up)),
		"weighted, u of zero":            second(Weighted(up, up, zero)),
		"weighted, one reading":          second(Weighted(up[:1], up[:1], up[:1])),
		"origin, all at zero":            second(Origin(zero, up)),
		"origin, NaN":                    second(Origin(up, odd)),
		"curve, one time":                second(Fit(same, up, Start|Slope, 1)),
		"curve, too few":                 second(Fit(up[:4], up[:4], Start|Slope|Bend, 1)),
		"curve, all at time zero":        second(Fit(zero, up, Start|Bend, 1)),
		"curve, bend far beyond the log": second(Fit(up, up, Start|Slope|Bend, 1e300)),
	} {
		if ok {
			t.Errorf("%s: is fitted", name)
		}
	}
	if _, _, ok := TheilSen(same, up); ok {
		t.Errorf("Theil and Sen's line of one time")
	}
}

func second[T any](_ T, ok bool) bool { return ok }

func FuzzFit(f *testing.F) {
	f.Add(int64(1), 10, 1.0, 0.1)
	f.Add(int64(2), 5, 1e-300, 1e300)
	f.Add(int64(3), 40, 1e200, -1e-200)
	f.Fuzz(func(t *testing.T, seed int64, n int, size, tau float64) {
		random := rand.New(rand.NewPCG(uint64(seed), 1))
		n = min(max(n, 0), 60)
		x, y, u := make([]float64, n), make([]float64, n), make([]float64, n)
		for i := range x {
			x[i], y[i], u[i] = float64(random.IntN(n+3))*size, random.NormFloat64()*size, random.Float64()*size
		}
		for name, line := range map[string]func() (Line, bool){
			"straight": func() (Line, bool) { return Straight(x, y) }, "weighted": func() (Line, bool) { return Weighted(x, y, u) }, "origin": func() (Line, bool) { return Origin(x, y) },
		} {
			if l, ok := line(); ok && !finite([]float64{l.Slope, l.S}) && math.Abs(size) > 1e-100 && math.Abs(size) < 1e100 {
				t.Errorf("%s: %+v", name, l)
			}
		}
		for _, terms := range []Terms{Start, Start | Slope, Bend, Start | Bend, Start | Slope | Bend} {
			if c, ok := Fit(x, y, terms, tau); ok && !finite([]float64{c.Start, c.Slope, c.Rise, c.SS}) && math.Abs(size) > 1e-100 && math.Abs(size) < 1e100 {
				t.Errorf("terms %d: %+v", terms, c)
			}
		}
		TheilSen(x, y)
		Repeat(y)
		Correlation(x, y)
	})
}

// log500 is a log of 500 readings, as long as the calculators promise to be quick for.
func log500() (x, y []float64) {
	random := rand.New(rand.NewPCG(7, 8))
	for i := 0; i < 500; i++ {
		x = append(x, float64(i)*1.5)
		y = append(y, 300+0.05*x[i]-200*math.Expm1(-x[i]/90)+random.NormFloat64())
	}
	return x, y
}

func BenchmarkFit(b *testing.B) {
	x, y := log500()
	b.Run("straight", func(b *testing.B) {
		for b.Loop() {
			Straight(x, y)
		}
	})
	b.Run("both", func(b *testing.B) {
		for b.Loop() {
			Fit(x, y, Start|Slope|Bend, 200)
		}
	})
	b.Run("theil-sen", func(b *testing.B) {
		for b.Loop() {
			TheilSen(x, y)
		}
	})
}
