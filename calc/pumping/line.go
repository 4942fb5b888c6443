package pumping

import "math"

// Pump moves gas at the flow S(q) (q − ultimate), q being the pressure at its inlet: at the
// blank-off pressure it moves nothing. S is its speed apart from that.
//
// A maker's curve has the blank-off in it, so its rows are divided by 1 − ultimate/q and
// come out again exactly; between rows S is straight on log-log paper, beyond them constant.
type Pump struct {
	Ultimate float64
	speed    float64   // nameplate, m³/s; 0 when there is a curve
	at, of   []float64 // ln q and ln S of the curve
}

// Nameplate is a pump of one speed.
func Nameplate(speed, ultimate float64) Pump { return Pump{Ultimate: ultimate, speed: speed} }

// Curved is a pump by its curve: inlet pressures, rising, and the speeds measured there.
// ok is false when a row lies at or under the blank-off pressure.
func Curved(pressure, speed []float64, ultimate float64) (pump Pump, ok bool) {
	pump = Pump{Ultimate: ultimate, at: make([]float64, len(pressure)), of: make([]float64, len(pressure))}
	for i, q := range pressure {
		if q <= ultimate {
			return pump, false
		}
		pump.at[i], pump.of[i] = math.Log(q), math.Log(speed[i]*q/(q-ultimate))
	}
	return pump, true
}

// Speed is S at an inlet pressure, m³/s.
func (p *Pump) Speed(q float64) float64 {
	if len(p.at) == 0 {
		return p.speed
	}
	return math.Exp(straight(p.at, p.of, math.Log(q)))
}

// most is the largest speed of the pump, the one its losses are compared with.
func (p *Pump) most() float64 {
	most := p.speed
	for _, s := range p.of {
		most = math.Max(most, math.Exp(s))
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

// scale changes the speed as a whole.
func (p *Pump) scale(by float64) {
	p.speed *= by
	for i := range p.of {
		p.of[i] += math.Log(by)
	}
}

// flow is the gas that the pump moves, Pa·m³/s.
func (p *Pump) flow(q float64) float64 { return p.Speed(q) * (q - p.Ultimate) }

// straight interpolates y over x, which rises; the end values hold beyond the ends.
func straight(x, y []float64, at float64) float64 {
	last := len(x) - 1
	if at <= x[0] {
		return y[0]
	}
	for i := 1; i <= last; i++ {
		if at <= x[i] {
			return y[i-1] + (y[i]-y[i-1])*(at-x[i-1])/(x[i]-x[i-1])
		}
	}
	return y[last]
}

// Line is a pump with the parts before it, from the chamber to the pump.
type Line struct {
	Pump  Pump
	tubes []tube
}

// NewLine joins a pump and its parts for a gas at t kelvin.
func NewLine(pump Pump, gasName string, t float64, parts []Part) *Line {
	l := &Line{Pump: pump, tubes: make([]tube, len(parts))}
	for i := range parts {
		l.tubes[i] = newTube(findGas(gasName), t, parts[i])
	}
	return l
}

// widen changes what every part lets through.
func (l *Line) widen(by float64) {
	for i := range l.tubes {
		u := &l.tubes[i]
		u.wide, u.slip, u.turbulent = u.wide*by, u.slip*by, u.turbulent/(by*by)
	}
}

// chamber gives the pressure in the chamber while the pump's inlet is at q. No iteration
// is needed this way round: the flow through every part is the pump's, and each part's far
// end is known when it is reached.
func (l *Line) chamber(q float64) (p, flow float64) {
	flow = l.Pump.flow(q)
	p = q
	for i := len(l.tubes) - 1; i >= 0; i-- {
		p = l.tubes[i].before(p, flow)
	}
	return p, flow
}

// pressures writes the pressures before each part, then that at the pump, into out.
func (l *Line) pressures(q float64, out []float64) {
	flow := l.Pump.flow(q)
	last := len(l.tubes)
	out[last] = q
	for i := last - 1; i >= 0; i-- {
		out[i] = l.tubes[i].before(out[i+1], flow)
	}
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
	base := l.Pump.Ultimate
	q = base + load/l.Pump.Speed(base+load/l.Pump.most())
	if len(l.Pump.at) > 0 && load > 0 {
		want := math.Log(load)
		miss := func(u float64) float64 { return math.Log(l.Pump.flow(base+math.Exp(u))) - want }
		low := want - math.Log(l.Pump.most())
		high := low + 1
		for miss(high) < 0 && high < low+80 {
			high += 4
		}
		q = base + math.Exp(closeIn(miss, low, high, miss(low), miss(high)))
	}
	p = q
	for i := len(l.tubes) - 1; i >= 0 && load > 0; i-- {
		p = l.tubes[i].before(p, load)
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
