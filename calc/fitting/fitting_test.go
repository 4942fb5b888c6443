package fitting

import (
	"math"
	"math/rand/v2"
	"testing"
)

// TestPipesOfTheTradeBrief: the check values of its section 7, published there.
func TestPipesOfTheTradeBrief(t *testing.T) {
	for _, c := range []struct {
		form     form
		size     string
		diameter float64
		pitch    float64 // 0: not printed
	}{
		{npt, "1/8", 10.29, 0.941}, {r, "1/8", 9.728, 0.907}, {npt, "1/4", 13.72, 1.411}, {r, "1/4", 13.157, 1.337},
		{npt, "3/8", 17.15, 0}, {r, "3/8", 16.662, 0}, {npt, "1/2", 21.34, 0},
	} {
		p := find(t, c.form, c.size)
		if math.Abs(p.major-c.diameter) > 0.0051 || c.pitch != 0 && math.Abs(p.pitch()-c.pitch) > 0.00051 {
			t.Errorf("%s: %.3f mm, pitch %.4f mm; want %v, %v", p.name(false), p.major, p.pitch(), c.diameter, c.pitch)
		}
	}
}

func find(t *testing.T, f form, size string) *pipe {
	t.Helper()
	for i := range pipes {
		if pipes[i].form == f && pipes[i].size == size {
			return &pipes[i]
		}
	}
	t.Fatalf("no pipe %d %s", f, size)
	return nil
}

// TestEveryThreadIsFoundByItsOwnMeasures, exactly measured, its kind known; and never
// another one.
func TestEveryThreadIsFoundByItsOwnMeasures(t *testing.T) {
	for i := range pipes {
		p := &pipes[i]
		for _, female := range []bool{false, true} {
			m := measured{diameter: p.major, count: p.count, female: female, taper: -1, angle: 55}
			if female {
				m.diameter = p.minor()
			}
			if p.tapered() {
				m.taper = 1
			}
			if p.form == npt {
				m.angle = 60
			}
			list := m.rank()
			if list[0].pipe != p || list[0].standing != fits || list[0].misfit > 1e-9 {
				t.Errorf("%s is taken for %s (misfit %v)", p.name(female), list[0].pipe.name(female), list[0].misfit)
			}
			if list[1].standing != excluded {
				t.Errorf("%s is not told from %s", p.name(female), list[1].pipe.name(female))
			}
		}
	}
}

// TestWhatAloneDecides: the traps of the trade.
func TestWhatAloneDecides(t *testing.T) {
	for _, c := range []struct {
		name   string
		m      measured
		wanted []string // not excluded, in order
	}{
		{"1/8 NPT by pitch", measured{diameter: 10.29, wide: 0.15, count: 27, apart: 0.5}, []string{"1/8 NPT"}},
		{"1/8 R or G: the taper decides", measured{diameter: 9.73, wide: 0.15, count: 28, apart: 0.5}, []string{"R 1/8", "G 1/8"}},
		{"R 1/8", measured{diameter: 9.73, wide: 0.15, count: 28, apart: 0.5, taper: 1}, []string{"R 1/8"}},
		{"without the pitch", measured{diameter: 10.1, wide: 0.15, count: math.NaN(), taper: 1}, []string{"1/8 NPT", "R 1/8"}},
		{"1/2: 14 in both, the angle decides", measured{diameter: 21.2, wide: 0.15, count: 14, apart: 0.5, taper: 1}, []string{"1/2 NPT", "R 1/2"}},
		{"1/2 with the angle", measured{diameter: 21.2, wide: 0.15, count: 14, apart: 0.5, taper: 1, angle: 55}, []string{"R 1/2"}},
		{"a count between two", measured{diameter: 10, wide: 0.15, count: 27.5, apart: 0.5, taper: 1}, []string{"R 1/8", "1/8 NPT"}},
		{"no pipe thread", measured{diameter: 12, wide: 0.15, count: 25.4, apart: 0.2}, nil},
		{"a hole of R 1/8", measured{diameter: 8.57, wide: 0.15, count: 28, apart: 0.5, female: true, taper: 1}, []string{"Rc 1/8"}},
	} {
		var got []string
		for _, k := range c.m.rank() {
			if k.standing != excluded {
				got = append(got, k.pipe.name(c.m.female))
			}
		}
		if len(got) != len(c.wanted) {
			t.Errorf("%s: %q, want %q", c.name, got, c.wanted)
			continue
		}
		for i := range got {
			if got[i] != c.wanted[i] {
				t.Errorf("%s: %q, want %q", c.name, got, c.wanted)
			}
		}
	}
}

// TestBetterMeasuresNeverTurnATable: what fits goes on to fit and what is excluded stays
// so as the uncertainty falls.
func TestBetterMeasuresNeverTurnATable(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	settled := 0
	for range 20_000 {
		p := &pipes[random.IntN(len(pipes))]
		m := measured{diameter: p.major + random.NormFloat64()*0.3, wide: random.Float64() * 0.5, count: p.count + random.NormFloat64()*0.5, apart: random.Float64()}
		before := m.compare(p)
		m.wide, m.apart = m.wide*random.Float64(), m.apart*random.Float64()
		after := m.compare(p)
		if before.standing != possible && after.standing != before.standing {
			t.Fatalf("%+v goes from %v to %v", m, before.standing, after.standing)
		}
		if before.standing == possible && after.standing != possible {
			settled++
		}
	}
	if settled < 1000 {
		t.Errorf("only %d doubts were settled", settled)
	}
}

// TestSmallEndOfNPT: E₀ and L₂ of the larger sizes, which the reference table lacks.
// Expected values from memory of ASME B1.20.1.
func TestSmallEndOfNPT(t *testing.T) {
	for size, want := range map[string][2]float64{"3/8": {0.61201, 0.4078}, "3/4": {0.96768, 0.5457}} {
		p := find(t, npt, size)
		if math.Abs(p.smallEnd()/inch-want[0]) > 1.1e-5 || math.Abs(p.effective()/inch-want[1]) > 6e-5 {
			t.Errorf("%s NPT: E₀ %.5f in, L₂ %.5f in; want %v", size, p.smallEnd()/inch, p.effective()/inch, want)
		}
	}
}

func TestNearestSpanners(t *testing.T) {
	for _, c := range []struct {
		h      float64
		metric [2]float64
		inches [2]float64 // in thirty-seconds
	}{
		{18.9, [2]float64{19, 18}, [2]float64{24, 22}},
		{13, [2]float64{13, 14}, [2]float64{16, 18}}, // of 12 and 14, as near, the one that goes on
		{0, [2]float64{4, 5}, [2]float64{6, 8}},
		{80, [2]float64{50, 46}, [2]float64{64, 60}},
	} {
		var metric, inches []float64
		last := 0.0
		for _, s := range nearest(c.h) {
			if math.Abs(s.gap) < last-tie || math.Abs(s.gap-(s.size-c.h)) > 1e-12 {
				t.Errorf("%v mm: %+v is out of order", c.h, s)
			}
			last = math.Abs(s.gap)
			if s.metric {
				metric = append(metric, s.size)
			} else {
				inches = append(inches, s.size/inch*32)
			}
		}
		if len(metric) != 2 || len(inches) != 2 || metric[0] != c.metric[0] || metric[1] != c.metric[1] || math.Abs(inches[0]-c.inches[0]) > 1e-9 || math.Abs(inches[1]-c.inches[1]) > 1e-9 {
			t.Errorf("%v mm: %v and %v, want %v and %v", c.h, metric, inches, c.metric, c.inches)
		}
	}
}

func TestSixtyFourths(t *testing.T) {
	for _, c := range []struct {
		mm   float64
		text string
		rest float64
	}{
		{0, "0 in", 0}, {25.4, "1 in", 0}, {11.1125, "7/16 in", 0}, {34.925, "1 3/8 in", 0}, {10, "25/64 in", 0.078125},
		{25.4 - 0.1, "1 in", -0.1}, {0.1, "0 in", 0.1}, {25.4 / 64, "1/64 in", 0}, {2540 + 12.7, "100 1/2 in", 0},
	} {
		text, rest := sixtyFourths(c.mm)
		if text != c.text || math.Abs(rest-c.rest) > 1e-9 {
			t.Errorf("%v mm is %q and %v mm, want %q and %v", c.mm, text, rest, c.text, c.rest)
		}
	}
	for parts := range 640 { // every size is found again, whatever is left is within half a step
		mm := float64(parts) * inch / 64
		if text, rest := sixtyFourths(mm + 0.19); math.Abs(rest-0.19) > 1e-9 || text == "" {
			t.Errorf("%d/64 in and 0.19 mm: %q, %v", parts, text, rest)
		}
	}
}
