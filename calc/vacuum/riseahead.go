package vacuum

import (
	"math"

	"blankoff/calc/declare"
	"blankoff/calc/fit"
	"blankoff/calc/quantity"
	"blankoff/calc/uncertainty"
)

// claim is the limit that a rise is held to. For a limit on the leak, size is the volume;
// for one on the rise it is 1.
type claim struct{ limit, size, doubt float64 } // doubt: standard uncertainty of gauge and volume, as a share

func claimOf(r *declare.Result) claim {
	c := claim{r.In("limit"), 1, GaugeU(r.Numbers)}
	if r.Kind("limit") != quantity.PressureRate {
		c.size = r.In("volume")
		c.doubt = math.Hypot(c.doubt, r.Typed("volume").U/c.size)
	}
	return c
}

// decide holds a rise, as displayed, to the limit.
func (c *claim) decide(rise, u float64) uncertainty.Decision {
	u = uncertainty.K * math.Hypot(u, rise*c.doubt)
	return uncertainty.AtMost(rise*c.size, u*c.size, c.limit)
}

// finding is what a log says of the leak and its limit.
type finding int

const (
	open     finding = iota
	allUnder         // even the rise as a whole is under the limit; the leak is no more than that
	under
	over
)

func (s *riseLog) finds(c *claim) finding {
	if s.fell > 0 || !s.risen {
		return open
	}
	if c.decide(s.whole, s.uWhole) == uncertainty.Pass {
		return allUnder
	}
	switch is := c.decide(s.slope, s.u); {
	case is == uncertainty.Pass:
		return under
	case is == uncertainty.Fail && s.doubt != leftOver:
		return over
	}
	return open
}

const (
	// reach is how many times as long as it is a log is thought on, in steps of one in
	// ahead: beyond, a guess about a guess.
	reach = 8.0
	steps = 24
	// dense is how many readings stand for the log that is thought on.
	dense = 48
	// wander is by how much slow drift, which a short log cannot show, is worse than scatter:
	// with it half of the simulated logs decide by the time that was foreseen (TestAhead).
	wander = 1.3
)

// settles gives the length at which a log that goes on as it is would decide, or 0 where it
// would not: neither up to reach nor up to the ceiling. It goes on along its best curve; where
// that leads nowhere and another is not excluded, along that one.
func (s *riseLog) settles(c *claim, step, ceiling float64) float64 {
	for _, shape := range s.order {
		if s.own[shape] && s.aicc[shape] < s.aicc[s.best]+decisive {
			if length := s.along(&s.curve[shape], c, step, ceiling); length > 0 {
				return length
			}
		}
		if s.doubt == none {
			break
		}
	}
	return 0
}

// along halves the lengths between this one, which does not decide, and the longest.
func (s *riseLog) along(curve *fit.Curve, c *claim, step, ceiling float64) float64 {
	high := 0
	for high < steps && curve.At(s.ahead(high+1)) <= ceiling {
		high++
	}
	if high == 0 || !s.decides(curve, c, step, s.ahead(high)) {
		return 0
	}
	for low := 0; high-low > 1; {
		if mid := (low + high) / 2; s.decides(curve, c, step, s.ahead(mid)) {
			high = mid
		} else {
			low = mid
		}
	}
	return s.ahead(high)
}

// ahead is a length of the log, the more steps the longer.
func (s *riseLog) ahead(n int) float64 { return s.length() * math.Pow(reach, float64(n)/steps) }

// decides thinks the log on to a length: along a curve, with its scatter and as many readings
// to the minute, and judges that as it would judge a log. Many readings are drawn together to
// a few, with as much less scatter.
func (s *riseLog) decides(curve *fit.Curve, c *claim, step, length float64) bool {
	count := math.Floor(1 + float64(len(s.t)-1)*length/s.length())
	n := int(math.Min(count, dense))
	together := s.crowd * float64(n) / count // of the variance of a reading
	t, p := make([]float64, n), make([]float64, n)
	scatter := wander * math.Sqrt(12*together) * curve.S
	for i := range t {
		t[i] = length * float64(i) / float64(n-1)
		_, even := math.Modf(float64(i+1) * golden)
		p[i] = curve.At(t[i]) + scatter*(even-0.5)
	}
	f, ok := fitRise(t, p, step*math.Sqrt(together))
	if !ok {
		return false
	}
	next := riseLog{riseFit: f}
	next.conclude(step)
	return next.finds(c) != open
}

// golden spreads numbers evenly, and in no order that a curve could follow.
const golden = 0.6180339887498949
