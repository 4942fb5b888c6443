package vacuum

import (
	"math"

	"blankoff/calc/fit"
)

// fitWithout tries the shapes on the readings that belong to one curve, and lists those
// that do, by Rosner's many-outlier procedure (Technometrics 25 (1983) 165): the reading
// that is furthest off is taken out, again and again, and as many are condemned as the
// last one that is still too far off for chance (0.1 % for the whole log). Taking out
// first and judging afterwards keeps two wild readings from hiding each other. It ends
// where the furthest is no further off than in every other log. At most a tenth of the
// readings, and never more than five, are condemned: more than that is not a log with
// outliers but a loose plug.
func fitWithout(t, p []float64, step float64) (best riseFit, kept []int, ok bool) {
	rest := make([]int, len(t))
	for i := range rest {
		rest[i] = i
	}
	f, ok := fitRise(t, p, step)
	best, kept = f, rest
	for round := 0; ok && round < min(5, max(1, len(t)/10)) && len(rest) > leastReadings; round++ {
		at, distance, freedom := f.furthest()
		n := float64(len(rest))
		if at < 0 || distance < fit.Coverage(1-0.5/n, freedom) {
			break
		}
		rest = append(append([]int(nil), rest[:at]...), rest[at+1:]...)
		next, fine := fitRise(pick(t, rest), pick(p, rest), step)
		if !fine {
			break
		}
		if f = next; distance > fit.Coverage(1-0.001/n, freedom) {
			best, kept = f, rest
		}
	}
	return best, kept, ok
}

// pick lists some of the readings.
func pick(list []float64, rows []int) []float64 {
	picked := make([]float64, len(rows))
	for i, row := range rows {
		picked[i] = list[row]
	}
	return picked
}

// furthest is the reading that is furthest from the curve of the others, in units of
// their scatter (the externally studentised residual).
func (f *riseFit) furthest() (at int, distance, freedom float64) {
	c := &f.curve[f.best]
	at, freedom = -1, float64(c.Freedom-1)
	for i, off := range f.residuals(f.best) {
		alone := off * off / math.Max(1e-9, 1-c.Pull[i])
		scatter := math.Max((c.SS-alone)/freedom, f.floor)
		if d := math.Sqrt(alone / scatter); scatter > 0 && d > distance {
			at, distance = i, d
		}
	}
	return at, distance, freedom
}

// settled is how long the valve's own bend lasts after closing: it moves gas, and the
// gauge follows slowly (our notes of the trade 2.5, common practice).
const settled = 120.0

// early counts the readings of the first two minutes, if the log is long enough to do
// without them: eight readings over three times as long must remain.
func early(t []float64) int {
	first := 0
	for first < len(t) && t[first] < t[0]+settled*(1-tie) {
		first++
	}
	if len(t)-first < leastReadings || t[len(t)-1]-t[first] < 3*settled {
		return 0
	}
	return first
}

// bentEarly tells whether the log bends within its first two minutes only: the best
// shape, or one that is as good, has a bend that is over by then (after 3 τ, to 5 %).
func (f *riseFit) bentEarly() bool {
	for _, shape := range [2]int{saturating, both} {
		if f.own[shape] && f.aicc[shape] < f.aicc[f.best]+decisive && 3*f.curve[shape].Tau < settled {
			return true
		}
	}
	return false
}

// foreign tells whether the first readings do not belong to the curve of the later ones:
// Chow's test (Econometrica 28 (1960) 591) at 5 %.
func (f *riseFit) foreign(later *riseFit) bool {
	a, b := &f.curve[f.best], &later.curve[later.best]
	freedom := float64(b.Freedom)
	scatter := math.Max(b.SS/freedom, later.floor)
	k := fit.Coverage(0.95, freedom)
	return a.SS-b.SS > k*k*scatter*float64(len(f.t)-len(later.t))
}

// falls finds a reading that lies further under the one before than flicker explains: a
// closed chamber does not fall, so it was opened to the pump, or the gauge was touched. The
// median of the second differences tells the flicker, of which it is 1.65 times the
// standard deviation; six times that is a fall of seven standard deviations of a difference.
func (s *riseLog) falls(step float64) (at int) {
	n := len(s.p)
	bends := make([]float64, n-2)
	for i := range bends {
		bends[i] = math.Abs(s.p[i+2] - 2*s.p[i+1] + s.p[i])
	}
	most := 6 * math.Max(fit.Median(bends), 2*step)
	for i := 1; i < n; i++ {
		if fall := s.p[i-1] - s.p[i]; fall > most*(1+tie) {
			at, most = i, fall
		}
	}
	return at
}

// structured tells whether the curve leaves more than scatter: the residuals keep their
// sign too long for chance (Wald & Wolfowitz, Ann. Math. Stat. 11 (1940) 147; 0.5 %), and
// they are large enough to matter, over 1 % of the rise. A wander that is smaller has its
// place in the uncertainty (crowd).
func (f *riseFit) structured() bool {
	c := &f.curve[f.best]
	return runs(f.residuals(f.best)) > 2.576 && c.S > 0.01*math.Abs(f.rise())
}

// rise is that of the best curve over the log.
func (f *riseFit) rise() float64 {
	c := &f.curve[f.best]
	return c.At(f.length()) - c.Start
}

// runs tells by how many standard deviations the residuals change sign less often than
// chance would have it.
func runs(off []float64) float64 {
	up, count := 0.0, 1.0
	for i, v := range off {
		if v >= 0 {
			up++
		}
		if i > 0 && (v >= 0) != (off[i-1] >= 0) {
			count++
		}
	}
	n := float64(len(off))
	mean := 2*up*(n-up)/n + 1
	variance := (mean - 1) * (mean - 2) / (n - 1)
	if !(variance > 0) {
		return 0
	}
	return (mean - count) / math.Sqrt(variance)
}
