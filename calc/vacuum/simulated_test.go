package vacuum_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strconv"
	"strings"

	"blankoff/calc/declare"
)

// simulated is a log as a technician writes it down, with the truth that he does not know.
type simulated struct {
	request declare.Request
	class   int
	leak    float64    // true, mbar·L/s
	over    bool       // the leak over the limit
	overAll bool       // the rise as a whole over it
	late    [2]float64 // rise by leak and by vapour from the second minute on
	all     [2]float64 // in the whole log
	story   string
}

var classNames = [4]string{"tight", "leak", "vapour", "both"}

// chamber is a machine with what goes on in it: pressures in mTorr, times in min.
type chamber struct {
	volume, limit            float64 // as written down, L and mTorr/min
	trueVolume               float64
	base, rate, vapour, tau  float64
	burst, burstTau, warming float64
}

// at is the true pressure t minutes after closing the valve.
func (c *chamber) at(t float64) float64 {
	return c.base + c.rate*t - c.vapour*math.Expm1(-t/c.tau) - c.burst*math.Expm1(-t/c.burstTau)
}

// meter is a gauge with its display.
type meter struct {
	accuracy, scale, bend, step    float64
	white, share                   float64 // noise: mTorr, share of reading
	wander, wanderShare, forgetful float64 // slow noise, and the minutes in which it forgets itself
	slow                           float64 // its present value
}

func (m *meter) shown(pressure, since float64, random *rand.Rand) float64 {
	p := pressure / m.scale // the accuracy is ± of reading
	p /= 1 + m.bend*math.Pow(p/2000, 6)
	keep := math.Exp(-since / m.forgetful)
	m.slow = keep*m.slow + math.Sqrt(1-keep*keep)*random.NormFloat64()
	p += m.slow*(m.wander+m.wanderShare*p) + math.Hypot(m.white, m.share*p)*random.NormFloat64()
	return p
}

// even draws evenly on a logarithmic scale, between evenly on a plain one.
func even(random *rand.Rand, low, high float64) float64 {
	return low * math.Pow(high/low, random.Float64())
}
func between(random *rand.Rand, low, high float64) float64 { return low + (high-low)*random.Float64() }

// one draws one of a list.
func one[T any](random *rand.Rand, list ...T) T { return list[random.IntN(len(list))] }

func someChamber(random *rand.Rand) (c chamber, class int) {
	machine := one(random, [2]float64{24, 20}, [2]float64{62, 8}, [2]float64{17.5, 15})
	c = chamber{volume: machine[0], limit: machine[1], base: even(random, 30, 400), tau: even(random, 0.5, 10)}
	c.trueVolume = c.volume * (1 + 0.025*random.NormFloat64())
	c.warming, c.burst, c.burstTau = 0.5*random.NormFloat64(), between(random, 0, 15), between(random, 0.1, 0.3)
	amount := even(random, 20, 600)
	switch kind := random.Float64(); {
	case kind < 0.15:
		c.rate = even(random, 0.02, 0.5) * c.limit
	case kind < 0.45:
		class, c.rate = 1, even(random, 0.3, 30)*c.limit
	case kind < 0.70:
		class, c.rate, c.vapour = 2, even(random, 0.005, 0.1)*c.limit, amount
	default:
		class, c.rate, c.vapour = 3, even(random, 0.1, 10)*c.limit, amount
	}
	return c, class
}

func someMeter(random *rand.Rand) meter {
	m := meter{accuracy: one(random, 20.0, 20, 20, 5), step: one(random, 1.0, 1, 1, 1, 0.1, 5, 10)}
	m.scale = 1 + m.accuracy/200*random.NormFloat64()
	m.bend = between(random, 0, 0.01)
	m.white, m.share = even(random, 0.3, 2), even(random, 0.0005, 0.004)
	m.wander, m.wanderShare, m.forgetful = between(random, 0, 1), between(random, 0, 0.003), between(random, 1, 5)
	m.slow = random.NormFloat64()
	return m
}

// simulate draws a log with eight usable readings or more.
func simulate(random *rand.Rand) simulated {
	for {
		c, class := someChamber(random)
		m := someMeter(random)
		if s, usable := take(random, c, m); usable >= 8 {
			s.class = class
			s.story = fmt.Sprintf("%s: %.3g mTorr/min (limit %g), vapour %.3g mTorr in %.3g min, %s", classNames[class], c.rate, c.limit, c.vapour, c.tau, s.story)
			return s
		}
	}
}

const ceiling = 2000.0

// plan says when readings are taken: how often, until when, and when the gauge still shows
// true for the last time.
func plan(random *rand.Rand, c chamber, m meter, started float64) (interval, end, last float64) {
	interval, end = one(random, 1, 1, 0.5, 0.25), one(random, 10.0, 10, 15, 20)
	last = end
	for last > 0.1 && c.at(started+last)/m.scale > ceiling {
		last -= 0.05
	}
	if goesOn := random.IntN(2) == 0; last < end {
		if end = last; goesOn {
			end = 1.3 * last
		}
	}
	for interval > 1.0/60 && interval*10 > last {
		interval /= 2
	}
	return interval, end, last
}

// take writes the log.
func take(random *rand.Rand, c chamber, m meter) (s simulated, usable int) {
	started := one(random, 0, 2.0) // after closing the valve
	interval, end, last := plan(random, c, m, started)
	count := int(end/interval+1e-9) + 1
	wrong, lost := -1, between(random, 0, 0.1)
	if random.IntN(20) == 0 {
		wrong = random.IntN(count)
	}
	log := strings.Builder{}
	log.WriteString("time s,pressure mTorr\n")
	for i := 0; i < count; i++ {
		at := float64(i) * interval
		watch := between(random, -0.5, 0.5) / 60
		p := c.at(math.Max(0, started+at+watch)) * (1 + c.warming/293*at/end)
		shown := m.shown(p, interval, random)
		if i == wrong {
			shown *= 1 + one(random, -1.0, 1)*between(random, 0.05, 0.3)
		}
		shown = math.Max(0, m.step*math.Round(shown/m.step))
		text := strconv.FormatFloat(shown, 'f', 1, 64)
		if random.Float64() < lost {
			text = ""
		} else if shown <= ceiling {
			usable++
		}
		log.WriteString(strconv.FormatFloat(60*at, 'f', 1, 64) + "," + text + "\n")
	}
	limit, perLitre := figures(c.limit)+" mTorr/min", c.limit
	if random.IntN(2) == 0 {
		limit, perLitre = figures(leakRate(c.limit, c.volume))+" mbar·L/s", c.limit*c.volume/c.trueVolume
	}
	s = c.truth(started, last, perLitre)
	s.story = fmt.Sprintf("%d readings in %.3g min from %g min on, step %g, gauge %+.0f %% of ± %g %%", count, end, started, m.step, 100*(m.scale-1), m.accuracy)
	s.request = declare.Request{ID: "rise-log", In: []declare.Pair{{Name: "log", Text: log.String()}, {Name: "volume", Text: figures(c.volume) + " L"},
		{Name: "limit", Text: limit}, {Name: "gauge", Text: figures(m.accuracy) + " %"}, {Name: "step", Text: figures(m.step) + " mTorr"}}}
	return s, usable
}

// leakRate turns mTorr/min in litres into mbar·L/s.
func leakRate(rate, volume float64) float64 { return rate * volume * 1.33322368421 / 60000 }

func figures(x float64) string { return strconv.FormatFloat(x, 'g', -1, 64) }

// truth is what the log should say; limit is that on the rise, for the true volume.
func (c *chamber) truth(started, last, limit float64) (s simulated) {
	parts := func(from, to float64) [2]float64 {
		return [2]float64{c.rate * (to - from), c.vapour * (math.Exp(-from/c.tau) - math.Exp(-to/c.tau))}
	}
	s.leak, s.over = leakRate(c.rate, c.trueVolume), c.rate > limit
	s.all = parts(started, started+last)
	s.late = parts(2, math.Max(2.01, started+last))
	s.overAll = (s.late[0]+s.late[1])/math.Max(0.01, started+last-2) > limit
	return s
}
