package pumping

import (
	"math"
	"math/rand/v2"
	"testing"
)

// Time is how long a volume takes from start to end; infinite when the end is not reached.
func (l *Line) Time(volume float64, load Load, start, end float64) float64 {
	times := []float64{end}
	if l.Times(volume, load, start, times) == 0 {
		return math.Inf(1)
	}
	return times[0]
}

// TestClosedForms: constant speed, with and without a constant load, has the logarithm.
func TestClosedForms(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 8))
	for range 300 {
		volume, speed, base := math.Exp(-6+6*random.Float64()), math.Exp(-8+5*random.Float64()), 5*random.Float64()
		load := Load{Leak: speed * 10 * random.Float64()}
		l := NewLine(Nameplate(speed, base), "air", room, nil)
		floor := base + load.Leak/speed
		start := floor * (2 + 1e4*random.Float64())
		end := floor + (start-floor)*math.Exp(-9*random.Float64())
		want := volume / speed * math.Log((start-floor)/(end-floor))
		got := l.Time(volume, load, start, end)
		if tolerance := 2e-5; load.Leak == 0 && math.Abs(got/want-1) > 1e-11 || math.Abs(got/want-1) > tolerance {
			t.Errorf("V %v S %v load %v from %v to %v: %v s, want %v", volume, speed, load, start, end, got, want)
		}
	}
}

// TestAgainstFineEuler: the same balance in plain steps of its own, with the line asked
// afresh at each: no table, no logarithm, no Rosenbrock.
func TestAgainstFineEuler(t *testing.T) {
	load := Load{Leak: 0.006 / 10, Outgassing: 0.4 / 60 / 10}
	for _, m := range machines[:3] {
		l := m.line()
		ends := []float64{20000 * mTorr, 2000 * mTorr, 500 * mTorr, 150 * mTorr}
		times := append([]float64(nil), ends...)
		if l.Times(m.volume, load, 101325, times) != len(ends) {
			t.Fatalf("%s does not come down", m.name)
		}
		p, at, next := 101325.0, 0.0, 0
		for next < len(ends) && at < 4000 {
			// a thousandth of the time in which the pressure would halve
			rate := func(p, at float64) float64 {
				_, out := l.At(p)
				in, _ := load.at(at)
				return (in - out) / m.volume
			}
			now := rate(p, at)
			h := math.Min(0.02*p/math.Abs(now), 2)
			middle := rate(p+now*h/2, at+h/2) // second order, so that few steps do
			after := p + h*middle
			for next < len(ends) && after <= ends[next] {
				reached := at + h*(p-ends[next])/(p-after)
				if math.Abs(times[next]/reached-1) > 3e-4 {
					t.Errorf("%s: %v mTorr at %v s, Euler's way %v s", m.name, ends[next]/mTorr, times[next], reached)
				}
				next++
			}
			p, at = after, at+h
		}
		if next < len(ends) {
			t.Errorf("%s: Euler's way only comes to %v mTorr", m.name, p/mTorr)
		}
	}
}

// TestMassBalance: what the volume held and what came in is what the pump took out.
func TestMassBalance(t *testing.T) {
	m := machines[0]
	l := m.line()
	load := Load{Leak: 1e-3, Outgassing: 5e-4}
	const rows = 2000
	start, end := 101325.0, 20.0
	ends, times := make([]float64, rows), make([]float64, rows)
	for i := range ends {
		ends[i] = start * math.Pow(end/start, float64(i+1)/rows)
	}
	copy(times, ends)
	if n := l.Times(m.volume, load, start, times); n != rows {
		t.Fatalf("%d of %d pressures reached", n, rows)
	}
	in, out := 0.0, 0.0
	p, at := start, 0.0
	for i := range ends {
		_, a := l.At(p)
		_, b := l.At(ends[i])
		ga, _ := load.at(at)
		gb, _ := load.at(times[i])
		out += (a + b) / 2 * (times[i] - at)
		in += (ga + gb) / 2 * (times[i] - at)
		p, at = ends[i], times[i]
	}
	if held := m.volume * (start - end); math.Abs((held+in)/out-1) > 1e-4 {
		t.Errorf("held %v, came in %v, pumped out %v", held, in, out)
	}
}

// TestStepHasOrderFour: the coefficients are from memory, so their order is measured: half
// the step, a sixteenth of the error (a thirty-second over one step).
func TestStepHasOrderFour(t *testing.T) {
	d := descent{volume: 4.5e-3, load: Load{Leak: 1e-4, Outgassing: 1e-5},
		table: &flowTable{nodes: []node{{-50, -60, 1}, {50, 40, 1}}}} // Q = e⁻¹⁰ (p − base), smooth
	over := func(h float64, steps int) float64 {
		y, t := 2.0, 100.0
		for range steps {
			f, byY, byT := d.slopes(t, y)
			y, _ = d.step(t, y, h, f, byY, byT)
			t += h
		}
		return y
	}
	exact := over(0.01, 1<<14)
	last := 0.0
	for i, h := range []float64{0.16 * 64, 0.08 * 64, 0.04 * 64} {
		miss := math.Abs(over(h, int(math.Round(163.84/h))) - exact)
		if i > 0 && (last/miss < 12 || last/miss > 40) {
			t.Errorf("half the step makes the error %v times smaller, want 16 (%v, %v)", last/miss, last, miss)
		}
		last = miss
	}
}

// TestStoredCurves: the stored dry curves of the trade brief, section 10. It says of them
// only 'section 2.6, small leak, outgassing 1/t'; the two were inferred here from the curves
// themselves and come out as round numbers: 0.006, 0.006 and 0.004 mbar·L/s, and 0.4, 0.6
// and 0.25 mbar·L/s at one minute. With them, from 101,325 Pa, the times agree within 1 %
// and the pressures after the third minute within 1 %, the rounding of the curve included.
func TestStoredCurves(t *testing.T) {
	minutes := []float64{0.5, 1, 1.5, 2, 3, 5, 8, 12, 20, 30}
	for i, c := range []struct {
		leak, wall float64 // mbar·L/s; the wall's at 1 min
		pressure   []float64
	}{
		{0.006, 0.4, []float64{129500, 22500, 4350, 1170, 358, 208, 156, 125, 97, 82}},
		{0.006, 0.6, []float64{188000, 46700, 11900, 3280, 522, 176, 120, 94, 72, 59}},
		{0.004, 0.25, []float64{151000, 30300, 6490, 1720, 407, 199, 144, 112, 85, 69}},
	} {
		m := machines[i]
		for j, mt := range c.pressure {
			load := Load{Leak: c.leak / 10, Outgassing: c.wall / 600}
			slow, fast := m.line().Time(m.volume, load, 101325, mt*0.99*mTorr), m.line().Time(m.volume, load, 101325, mt*1.01*mTorr)
			if at := minutes[j] * 60; slow < at*0.99 || fast > at*1.01 {
				t.Errorf("%s: %v mTorr between %.3f and %.3f min, the stored curve has %v", m.name, mt, fast/60, slow/60, minutes[j])
			}
		}
	}
}

// TestFloorIsNeverReached: at the floor and under it there is no time, just above it there
// is one, and it grows without bound.
func TestFloorIsNeverReached(t *testing.T) {
	m := machines[1]
	l := m.line()
	load := Load{Leak: 1e-3}
	_, floor := l.For(load.Leak)
	last := 0.0
	for _, over := range []float64{1, 0.1, 0.01, 1e-4, 1e-6} {
		at := l.Time(m.volume, load, 1e5, floor*(1+over))
		if math.IsInf(at, 0) || at <= last {
			t.Errorf("%v over the floor: %v s after %v", over, at, last)
		}
		last = at
	}
	if at := l.Time(m.volume, load, 1e5, floor*(1-1e-6)); !math.IsInf(at, 1) {
		t.Errorf("under the floor after %v s", at)
	}
	load.Outgassing = 1e-4
	if at := l.Time(m.volume, load, 1e5, floor*1.0001); at < 1e4 || math.IsInf(at, 0) {
		t.Errorf("with outgassing the floor is near after %v s", at)
	}
}

// TestTimesMoveAsTheyShould with volume, speed, load and ends, over random machines.
func TestTimesMoveAsTheyShould(t *testing.T) {
	random := rand.New(rand.NewPCG(9, 10))
	for range 200 {
		l := randomLine(random)
		load := Load{Leak: l.Pump.most() * l.Pump.Ultimate * random.Float64(), Outgassing: l.Pump.most() * l.Pump.Ultimate * random.Float64()}
		_, floor := l.For(load.Leak)
		volume, end := math.Exp(-5+5*random.Float64()), floor*(1.05+3*random.Float64())
		start := 1e5
		if end > start/2 {
			continue
		}
		t0 := l.Time(volume, load, start, end)
		more := Load{Leak: load.Leak * 1.01, Outgassing: load.Outgassing * 1.01}
		if math.IsInf(t0, 0) || l.Time(volume*1.01, load, start, end) <= t0 || l.Time(volume, more, start, end) <= t0 || l.Time(volume, load, start, end*1.01) >= t0 || l.Time(volume, load, start*0.99, end) > t0*(1+1e-6) {
			t.Errorf("%+v %+v: %v s from %v to %v does not move as it should", l.Pump, load, t0, start, end)
		}
	}
}

func BenchmarkPumpDown(b *testing.B) {
	m := machines[0]
	load := Load{Leak: 6e-4, Outgassing: 6.7e-4}
	for b.Loop() {
		m.line().Time(m.volume, load, 101325, 82*mTorr)
	}
}

func BenchmarkPumpDownEightParts(b *testing.B) {
	parts := make([]Part, 8)
	for i := range parts {
		parts[i] = Part{Bore: 0.016, Length: 0.2, Elbows: 1}
	}
	for b.Loop() {
		NewLine(Nameplate(1.4e-3, 3), "air", room, parts).Time(0.024, Load{Leak: 6e-4, Outgassing: 6.7e-4}, 101325, 82*mTorr)
	}
}
