package uncertainty

import (
	"math"
	"testing"
)

func TestStandardUncertainties(t *testing.T) {
	for _, c := range []struct {
		name      string
		got, want float64
	}{
		{"accuracy ± 5 as U with k = 2 (GUM 4.3.3)", FromAccuracy(5), 2.5},
		{"accuracy without a sign of its own", FromAccuracy(-5), 2.5},
		{"rectangular, half width 15 µV (reference 12-O010)", FromHalfWidth(15), 8.660254037844},
		{"display step of 1 mΩ (reference 12-O008: half width 0.5 mΩ)", FromStep(1), 0.2886751345948},
		{"combination 3, 4", Combine(3, 4), 5},
		{"combination of nothing", Combine(), 0},
		{"meter, 1 % + 2 on 100.0 V (reference 12-O002)", MeterLimit(100, 0.01, 2, 0.1), 1.2},
		{"meter, negative reading", MeterLimit(-100, 0.01, 2, 0.1), 1.2},
	} {
		if math.Abs(c.got-c.want) > 1e-12*c.want {
			t.Errorf("%s: got %v, want %v", c.name, c.got, c.want)
		}
	}
}

// model is a function with its first-order uncertainty worked out by hand.
type model struct {
	name     string
	f        func(x []float64) float64
	x, u     []float64
	want     float64
	relative float64 // 0 for exact to rounding
}

func TestPropagate(t *testing.T) {
	for _, m := range []model{
		{"sum: GUM 5.1.2", func(x []float64) float64 { return x[0] + x[1] - x[2] }, []float64{1, 2, 3}, []float64{3, 4, 12}, 13, 0},
		{"one entry, linear", func(x []float64) float64 { return 7 * x[0] }, []float64{2}, []float64{0.1}, 0.7, 0},
		{"product: relative variances add", func(x []float64) float64 { return x[0] * x[1] }, []float64{20, 5}, []float64{0.4, 0.2}, 100 * math.Hypot(0.02, 0.04), 0},
		{"quotient", func(x []float64) float64 { return x[0] / x[1] }, []float64{20, 5}, []float64{0.2, 0.05}, 4 * math.Hypot(0.01, 0.01), 1e-4},
		{"power law (GUM 5.1.6): d⁴", func(x []float64) float64 { return math.Pow(x[0], 4) }, []float64{12}, []float64{0.012}, math.Pow(12, 4) * 4 * 0.001, 1e-5},
		{"logarithm", func(x []float64) float64 { return math.Log(x[0]) }, []float64{50}, []float64{0.05}, 0.001, 1e-5},
		{"what enters twice is one: x − x", func(x []float64) float64 { return x[0] - x[0] }, []float64{5}, []float64{1}, 0, 0},
		{"and x + x is 2x, not √2 x", func(x []float64) float64 { return x[0] + x[0] }, []float64{5}, []float64{1}, 2, 0},
		{"exact entries add nothing", func(x []float64) float64 { return x[0] * x[1] }, []float64{5, 3}, []float64{0, 0}, 0, 0},
		// GUM H.1.3: l = ls + d − ls (δα θ + αs δθ), values and u of table H.1 (nm, °C).
		// H.1.4 prints 32 nm; the unrounded sum of its components is 31.7.
		{"GUM H.1 end gauge", func(x []float64) float64 {
			ls, d, alpha, theta, dAlpha, dTheta := x[0], x[1], x[2], x[3], x[4], x[5]
			return ls + d - ls*(dAlpha*theta+alpha*dTheta)
		}, []float64{50000623, 215, 11.5e-6, -0.1, 0, 0}, []float64{25, 9.7, 1.2e-6, 0.41, 0.58e-6, 0.029}, math.Sqrt(25*25 + 9.7*9.7 + 2.9*2.9 + 16.6*16.6), 0.005},
		// Rise test: V (p₂ − p₁) / t, each term by hand.
		{"V Δp / t", func(x []float64) float64 { return x[0] * (x[2] - x[1]) / x[3] }, []float64{0.06, 5, 25, 600}, []float64{0.0006, 0.1, 0.1, 0},
			math.Sqrt(math.Pow(0.002*0.01, 2) + 2*math.Pow(0.06/600*0.1, 2)), 0},
	} {
		got := Propagate(func(x, out []float64) bool { out[0] = m.f(x); return true }, m.x, m.u, 1)[0]
		if math.Abs(got-m.want) > (m.relative+1e-9)*math.Abs(m.want)+1e-15 {
			t.Errorf("%s: got %v, want %v", m.name, got, m.want)
		}
	}
}

func TestPropagateManyResultsAtOnce(t *testing.T) {
	u := Propagate(func(x, out []float64) bool { out[0], out[1], out[2] = x[0], x[0]+x[1], 5; return true }, []float64{1, 2}, []float64{3, 4}, 3)
	if u[0] != 3 || u[1] != 5 || u[2] != 0 {
		t.Errorf("got %v, want [3 5 0]", u)
	}
}

// TestPropagateAtAnEdge: where one side is refused the other counts whole; where both
// are, the answer must not be that the entry is exact.
func TestPropagateAtAnEdge(t *testing.T) {
	for _, c := range []struct {
		name      string
		low, high float64 // f is refused outside
		want      float64
	}{
		{"both sides", -10, 20, 2},
		{"only below", -10, 10, 2},
		{"only above", 10, 20, 2},
		{"neither", 10, 10, math.Inf(1)},
		{"not even the value itself", 11, 20, 0},
	} {
		got := Propagate(func(x, out []float64) bool { out[0] = 2 * x[0]; return x[0] >= c.low && x[0] <= c.high }, []float64{10}, []float64{1}, 1)[0]
		if got != c.want {
			t.Errorf("%s: got %v, want %v", c.name, got, c.want)
		}
	}
}

func TestPropagateKeepsVastAndTinyNumbers(t *testing.T) {
	for _, scale := range []float64{1e-300, 1e-200, 1, 1e200, 1e300} {
		got := Propagate(func(x, out []float64) bool { out[0] = x[0] + x[1]; return true }, []float64{scale, scale}, []float64{3 * scale, 4 * scale}, 1)[0]
		if math.Abs(got/scale-5) > 1e-12 {
			t.Errorf("scale %g: got %v, want 5", scale, got/scale)
		}
	}
}

func TestPropagateLeavesItsEntriesAlone(t *testing.T) {
	x, u := []float64{1, 2}, []float64{0.1, 0.2}
	Propagate(func(x, out []float64) bool { out[0] = x[0] * x[1]; return true }, x, u, 1)
	if x[0] != 1 || x[1] != 2 || u[0] != 0.1 || u[1] != 0.2 {
		t.Errorf("entries changed to %v, %v", x, u)
	}
}

// The rule of ISO 14253-1 and JCGM 106:2012, 8.3.3: acceptance and rejection limits lie
// one expanded uncertainty inside and outside the tolerance limit.
func TestDecideAgainstUpperLimit(t *testing.T) {
	for _, c := range []struct {
		name                   string
		value, expanded, limit float64
		want                   Decision
	}{
		{"far under", 1, 1, 10, Pass},
		{"at the acceptance limit", 9, 1, 10, Pass},
		{"just over the acceptance limit", 9.0001, 1, 10, CannotTell},
		{"on the limit", 10, 1, 10, CannotTell},
		{"at the rejection limit", 11, 1, 10, CannotTell},
		{"just over the rejection limit", 11.0001, 1, 10, Fail},
		{"far over", 20, 1, 10, Fail},
		{"exact, under", 9.999, 0, 10, Pass},
		{"exact, on the limit", 10, 0, 10, Pass},
		{"exact, over", 10.001, 0, 10, Fail},
		{"tie in the last bit above", math.Nextafter(10, 11), 0, 10, Pass},
		{"tie in the last bit below", math.Nextafter(10, 9), 0, 10, Pass},
		{"sum that rounds over the limit", 0.1, 0.2, 0.3, Pass},
		{"limit nought, value nought", 0, 0, 0, Pass},
		{"limit nought, rise", 1, 0.5, 0, Fail},
		{"negative value", -1, 0.5, 0, Pass},
		{"uncertainty larger than all", 1, 1e9, 10, CannotTell},
		{"no upper limit", 1e9, 1, math.Inf(1), Pass},
	} {
		if got := AtMost(c.value, c.expanded, c.limit); got != c.want {
			t.Errorf("%s: at most %v with %v ± %v: got %v, want %v", c.name, c.limit, c.value, c.expanded, got, c.want)
		}
		if got := AtLeast(-c.value, c.expanded, -c.limit); got != c.want {
			t.Errorf("%s, mirrored: got %v, want %v", c.name, got, c.want)
		}
	}
}

// A two-sided tolerance of 6.9 Ω to 9.3 Ω with U = 0.5 Ω: the guard bands reach from
// 6.4 to 7.4 and from 8.8 to 9.8 (JCGM 106:2012, figure 9, in numbers).
func TestDecideBetweenLimits(t *testing.T) {
	for value, want := range map[float64]Decision{
		5: Fail, 6.39: Fail, 6.4: CannotTell, 6.9: CannotTell, 7.39: CannotTell, 7.4: Pass, 8.1: Pass, 8.8: Pass, 8.81: CannotTell, 9.3: CannotTell, 9.8: CannotTell, 9.81: Fail, 12: Fail,
	} {
		if got := Within(value, 0.5, 6.9, 9.3); got != want {
			t.Errorf("%v: got %v, want %v", value, got, want)
		}
	}
	if got := Within(8.1, 2, 6.9, 9.3); got != CannotTell {
		t.Errorf("an uncertainty wider than the tolerance: got %v, want cannot tell", got)
	}
}

// Less uncertainty may settle a doubt, but never turn one verdict into the other.
func TestLessUncertaintyNeverReverses(t *testing.T) {
	for value := -2.0; value <= 2; value += 0.125 {
		before := CannotTell
		for _, expanded := range []float64{4, 2, 1, 0.5, 0.25, 0.01, 0} {
			now := Within(value, expanded, -1, 1)
			if before != CannotTell && now != before {
				t.Errorf("%v: %v turns into %v at U = %v", value, before, now, expanded)
			}
			before = now
		}
	}
}
