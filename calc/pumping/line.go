package pumping

import "math"

// Pump moves gas at the flow S(q) (q − ultimate), q being the pressure at its inlet: at the
// blank-off pressure it moves nothing. S is its speed apart from that.
//
// A maker's curve has the blank-off in it, so its rows are divided by 1 − ultimate/q and
// come out again exactly; between rows S is straight on log-log paper, beyond them constant.
type Pump struct {
	Ultimate float64
	speed    float64 // nameplate, m³/s; 0 when there is a curve
	curve    []point // ln q and ln S
}

// bend gives the pump a curve, its speeds changed by a factor. It is false when a row lies at
// or under the blank-off pressure.
func (p *Pump) bend(curve []point, by float64) bool {
	bent, up := make([]point, len(curve)), math.Log(by)
	p.speed, p.curve = 0, bent
	for i, at := range curve {
		q := at.x
		if q <= p.Ultimate {
			return false
		}
		to := &bent[i]
		to.x, to.y = math.Log(q), math.Log(at.y*q/(q-p.Ultimate))+up
	}
	return true
}

// Speed is S at an inlet pressure, m³/s.
func (p *Pump) Speed(q float64) float64 {
	if p.curve == nil {
		return p.speed
	}
	return math.Exp(straight(p.curve, math.Log(q)))
}

// most is the largest speed of the pump, the one its losses are compared with.
func (p *Pump) most() float64 {
	most := p.speed
	for _, at := range p.curve {
		if s := math.Exp(at.y); s > most {
			most = s
		}
	}
	return most
}

// missing is what the pump itself leaves of q, through its blank-off pressure and through
// a curve that is not at its best there: q − Q over its best speed, written so that
// nothing cancels.
func (p *Pump) missing(q float64) float64 {
	share := p.Speed(q) / p.most()
	if share > 1-1e-12 {
		share = 1
	}
	return q*(1-share) + share*p.Ultimate
}

// flow is the gas that the pump moves, Pa·m³/s.
func (p *Pump) flow(q float64) float64 { return p.Speed(q) * (q - p.Ultimate) }

// straight interpolates between points; the end values hold beyond the ends.
func straight(list []point, x float64) float64 {
	var before point
	for i, p := range list {
		if x <= p.x {
			if i == 0 {
				return p.y
			}
			return before.y + (p.y-before.y)*(x-before.x)/(p.x-before.x)
		}
		before = p
	}
	return before.y
}

// Line is a pump with the parts before it, from the chamber to the pump.
type Line struct {
	_     [0]func() // never compared: saves the code for it
	Pump  Pump
	tubes []tube
}

// join sets the parts; what every one lets through is changed by a factor.
func (l *Line) join(g *gas, t float64, parts []Part, by float64) {
	tubes := make([]tube, len(parts))
	for i := range tubes {
		u := &tubes[i]
		u.set(g, t, &parts[i])
		u.wide *= by
		u.slip *= by
		u.turbulent /= by * by
	}
	l.tubes = tubes
}

// chamber gives the pressure in the chamber while the pump's inlet is at q. No iteration
// is needed this way round: the flow through every part is the pump's, and each part's far
// end is known when it is reached.
func (l *Line) chamber(q float64) (p, flow float64) {
	flow = l.Pump.flow(q)
	p = q
	tubes := l.tubes
	for i := len(tubes) - 1; i >= 0; i-- {
		u := &tubes[i]
		u.low = p
		p = u.before(p, flow)
		u.high = p
	}
	return p, flow
}

// At finds the pump's inlet pressure and the gas flow with the chamber at p, which must be
// above the blank-off pressure. Chamber pressure rises with q, so the two ends close in on
// it; on logarithms of what exceeds the blank-off the relation is almost straight.
func (l *Line) At(p float64) (q, flow float64) {
	base := l.Pump.Ultimate
	want := math.Log(p - base)
	miss := func(u float64) float64 {
		at, _ := l.chamber(base + math.Exp(u))
		return math.Log(at-base) - want
	}
	high := want // without any line the inlet is at p
	low := high - 1
	fLow, fHigh := miss(low), miss(high)
	for fLow > 0 && low > high-80 {
		high, fHigh = low, fLow
		low -= 4
		fLow = miss(low)
	}
	u := closeIn(miss, low, high, fLow, fHigh)
	q = base + math.Exp(u)
	return q, l.Pump.flow(q)
}

// For finds the pressures at inlet and chamber at which the line carries a gas flow: the
// pressure at which a load of that size holds the chamber.
func (l *Line) For(load float64) (q, p float64) {
	base, most := l.Pump.Ultimate, l.Pump.most()
	q = base + load/l.Pump.Speed(base+load/most)
	if l.Pump.curve != nil && load > 0 {
		want := math.Log(load)
		miss := func(u float64) float64 { return math.Log(l.Pump.flow(base+math.Exp(u))) - want }
		low := want - math.Log(most)
		high := low + 1
		for miss(high) < 0 && high < low+80 {
			high += 4
		}
		q = base + math.Exp(closeIn(miss, low, high, miss(low), miss(high)))
	}
	p = q
	tubes := l.tubes
	for i := len(tubes) - 1; i >= 0 && load > 0; i-- {
		p = tubes[i].before(p, load)
	}
	return q, p
}

// closeIn finds the root of a rising f between low and high, where f is fLow and fHigh, by
// false position; an end that stays put has its value halved (the Illinois rule).
func closeIn(f func(float64) float64, low, high, fLow, fHigh float64) float64 {
	side := 0
	u := high
	for range 100 {
		if fHigh <= 0 || math.Abs(high-low) <= 1e-15*(1+math.Abs(high)) {
			return high
		}
		u = high - fHigh*(high-low)/(fHigh-fLow)
		value := f(u)
		switch {
		case math.Abs(value) < 1e-14:
			return u
		case value > 0:
			high, fHigh = u, value
			if side == 1 {
				fLow /= 2
			}
			side = 1
		default:
			low, fLow = u, value
			if side == -1 {
				fHigh /= 2
			}
			side = -1
		}
	}
	return u
}
