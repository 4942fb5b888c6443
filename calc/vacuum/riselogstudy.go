package vacuum

import (
	"math"
	"strconv"

	"blankoff/calc/declare"
	"blankoff/calc/fit"
	"blankoff/calc/uncertainty"
)

// leastReadings is the least that the procedure asks for; the five parameters of “both”,
// that of the scatter among them, need seven.
const leastReadings = 8

const (
	// named is the share of the rise from which a part is named. Less may be the gauge's
	// own bend, and changes nothing of what is hunted.
	named = 0.1
	// denied is the share that must be ruled out before a part is said not to be there:
	// that of the accuracy of a thermal gauge.
	denied = 0.2
)

// doubt is why the shape is not told.
type doubt int

const (
	none doubt = iota
	fewSteps
	leftOver
	closeRivals
	vapourOpen
	leakOpen
	fellBack
)

// riseLog is what Study makes of the log.
type riseLog struct {
	riseFit
	start               float64 // time of the first reading of the fit, as logged
	total, blank, above int
	few                 bool  // too few for a curve: t, from the log's own nought, and p are all there is
	first               int   // readings of the first two minutes, left out
	wild                []int // rows of the table
	mixed               bool  // the times were not in order
	risen               bool  // by a display step: flicker is no rise, a dead sensor may flicker
	fell                int   // reading of the fit that lies too far under the one before; 0: none
	shape               int
	doubt               doubt
	slope, u            float64 // of the leak, as displayed
	whole, uWhole       float64 // of all, likewise
	highest             float64 // reading used
	times, pressures    []float64
}

func riseLogStudy(x *declare.Numbers) any {
	s := &riseLog{times: x.Column("log", "time"), pressures: x.Column("log", "pressure")}
	rows := s.usable(x)
	if rows == nil {
		return s
	}
	if s.few = len(rows) < leastReadings; s.few {
		s.t, s.p = pick(s.times, rows), pick(s.pressures, rows)
		return s
	}
	step := x.In("step")
	f, kept, ok := fitWithout(pick(s.times, rows), pick(s.pressures, rows), step)
	if !ok {
		x.Refuse("log", "the times lie too close together, or too far from zero, to draw a curve through the readings; count the time from closing the valve")
		return s
	}
	s.riseFit, s.start = f, s.times[rows[kept[0]]]
	for i, at := 0, 0; i < len(rows); i++ {
		if at < len(kept) && kept[at] == i {
			at++
		} else {
			s.wild = append(s.wild, rows[i])
		}
	}
	s.leaveFirst(step)
	s.conclude(step)
	return s
}

// usable lists the rows that can be used, in order of time, or refuses the log.
func (s *riseLog) usable(x *declare.Numbers) []int {
	ceiling := x.In("ceiling") * (1 + tie)
	s.total = len(s.times)
	rows := make([]int, 0, s.total)
	for row, t := range s.times {
		switch p := s.pressures[row]; {
		case math.IsNaN(t) || math.IsNaN(p):
			s.blank++
		case p > ceiling:
			s.above++
		default:
			s.mixed = s.mixed || len(rows) > 0 && t < s.times[rows[len(rows)-1]]
			rows = append(rows, row)
		}
	}
	fit.Order(rows, s.times)
	for i := 1; i < len(rows); i++ {
		if a, b := rows[i-1], rows[i]; s.times[a] == s.times[b] {
			x.Refuse("log", "lines "+strconv.Itoa(x.Line("log", min(a, b)))+" and "+strconv.Itoa(x.Line("log", max(a, b)))+" have the same time; correct one of them, or leave it out")
			return nil
		}
	}
	if len(rows) < 2 {
		x.Refuse("log", s.tooFew(len(rows))+"Read more often, or use the rise test on two of them")
		return nil
	}
	return rows
}

// tooFew says how many readings there are and what became of the others.
func (s *riseLog) tooFew(usable int) string {
	text := strconv.Itoa(s.total) + " readings"
	if s.total == 1 {
		text = "one reading"
	}
	if usable < s.total {
		text = strconv.Itoa(usable) + " of " + text + " can be used (" + s.lost() + ")"
	}
	return text + ": at least eight are needed to tell a leak from vapour. "
}

// lost counts the readings that say nothing.
func (s *riseLog) lost() string {
	switch {
	case s.above > 0 && s.blank > 0:
		return strconv.Itoa(s.above) + " above the ceiling, " + strconv.Itoa(s.blank) + " blank or over range"
	case s.above > 0:
		return strconv.Itoa(s.above) + " above the ceiling"
	}
	return strconv.Itoa(s.blank) + " blank or over range"
}

// leaveFirst leaves the first two minutes out where the log bends in them and in them
// alone, or where they do not belong to the curve of the later readings, if the log is
// long enough. A bend that goes on is vapour, which the first minutes show best: then they
// stay, but what the leak would be without them is allowed too.
func (s *riseLog) leaveFirst(step float64) {
	first := early(s.t)
	if first == 0 {
		return
	}
	later, ok := fitRise(s.t[first:], s.p[first:], step)
	switch {
	case !ok:
	case s.bentEarly() || s.foreign(&later):
		s.start += s.t[first]
		s.riseFit, s.first = later, first
	case s.best != straight && later.own[both]:
		s.allow(later.curve[both].Slope, later.curve[both].Slope)
	}
}

// parts tells what a shape says is there: what makes a tenth of the rise or more. The
// first two minutes, of which vapour has the most, count only if there are no others.
func (s *riseLog) parts(shape int) (leak, vapour bool) {
	c := &s.curve[shape]
	from := settled
	if s.length() < 2*settled {
		from = 0
	}
	byLeak, byVapour := c.Slope*(s.length()-from), 0.0
	if shape != straight {
		byVapour = c.Rise * (math.Exp(-from/c.Tau) - math.Exp(-s.length()/c.Tau))
	}
	least := named * (byLeak + byVapour)
	return byLeak >= least, byVapour >= least
}

// conclude settles what shape it is, if any, and what the readings say of the leak.
func (s *riseLog) conclude(step float64) {
	leak, vapour := s.parts(s.best)
	switch {
	case !vapour:
		s.shape = straight
	case !leak:
		s.shape, s.low = saturating, math.Min(s.low, 0)
	default:
		s.shape = both
	}
	s.highest = s.p[0]
	for _, p := range s.p {
		s.highest = max(s.highest, p)
	}
	s.risen = s.rise() > math.Max(step*(1-tie), tie*s.highest)
	s.fell = s.falls(step)
	s.doubt = s.doubts(leak, vapour, step)
	s.measure(step)
	if s.doubt == none && s.shape == both && s.slope <= uncertainty.K*s.u {
		s.doubt = leakOpen
	}
	s.round()
}

// doubts tells what speaks against the shape. A shape that contains the best one, with a
// part more, cannot fall behind it by 4: each parameter costs only about 2 in a long log.
// It is held off instead by what that part could be at most.
func (s *riseLog) doubts(leak, vapour bool, step float64) doubt {
	rise := s.rise()
	switch {
	case s.fell > 0:
		return fellBack
	case rise < 10*step*(1-tie):
		return fewSteps
	case s.structured():
		return leftOver
	}
	for shape := range s.curve {
		if shape == s.best || shape == both || !s.own[shape] || s.aicc[shape] >= s.aicc[s.best]+decisive {
			continue
		}
		if l, v := s.parts(shape); l != leak || v != vapour {
			return closeRivals
		}
	}
	c := &s.curve[s.best]
	switch {
	case s.shape == straight && s.vapour >= denied*rise, s.shape != straight && c.Rise < uncertainty.K*c.URise:
		return vapourOpen
	case s.shape == saturating && s.high*s.length() >= denied*rise:
		return leakOpen
	}
	return none
}

// measure takes the slope of the best shape, with an uncertainty that reaches as far as
// any slope that the readings allow. A straight rise that is sure has that of its line.
// Where the curve leaves more than scatter, all that is left is taken to lean on the
// slope one way (√12 s/T: a ramp of that size has the standard deviation s). Rounding
// counts as in a test of two readings, as it need not average out.
func (s *riseLog) measure(step float64) {
	c, length := &s.curve[s.best], s.length()
	s.slope = c.Slope
	s.u = math.Max(s.high-s.slope, s.slope-s.low) / uncertainty.K
	if s.doubt == none && s.best == straight {
		s.u = c.USlope * math.Sqrt(s.crowd)
	}
	for shape := range s.curve { // model averaging (Burnham & Anderson, 4.3.2), for shapes that are not all but excluded
		if gap := s.aicc[shape] - s.aicc[s.best]; s.own[shape] && gap >= decisive {
			s.u = math.Hypot(s.u, math.Exp(-gap/4)*(s.curve[shape].Slope-s.slope))
		}
	}
	if s.doubt == leftOver {
		s.u = math.Max(s.u, math.Sqrt(12)*c.S/length)
	}
	ends := math.Sqrt2 / length
	s.u = math.Hypot(s.u, ends*uncertainty.FromStep(step))
	s.whole, s.uWhole = s.rise()/length, ends*math.Hypot(c.S*math.Sqrt(s.crowd), uncertainty.FromStep(step))
}

// round leaves eight figures of what is given out, six of an uncertainty. A curve that the
// readings hardly determine carries the last bits of exp, which differ between machines,
// some powers of ten further up; what is left is the same everywhere.
func (s *riseLog) round() {
	c := &s.curve[s.best]
	for _, x := range [...]*float64{&s.slope, &s.whole, &s.crowd, &c.Start, &c.Slope, &c.Rise, &c.Tau, &c.S} {
		*x = rounded(*x, 1e7)
	}
	for _, x := range [...]*float64{&s.u, &s.uWhole, &c.UStart, &c.USlope, &c.URise, &c.UTau, &c.UPlateau} {
		*x = rounded(*x, 1e5)
	}
}

func rounded(x, figures float64) float64 {
	if math.Abs(x) < 1e-200 {
		return 0
	}
	scale := figures / math.Pow(10, math.Floor(math.Log10(math.Abs(x))))
	return math.Round(x*scale) / scale
}

func riseLogEval(x *declare.Numbers) {
	s := x.Studied().(*riseLog)
	if s.few {
		return
	}
	scale, off := 1+x.Influence("scale"), x.Influence("fit")
	m := (s.slope + s.u*off) * scale
	x.Set("leak", x.In("volume")*m)
	x.Set("rate", m)
	x.Set("whole", (s.whole+s.uWhole*off)*scale)
	if s.doubt != none || s.shape == straight || s.best == straight {
		return
	}
	c := &s.curve[s.best]
	off *= math.Sqrt(s.crowd)
	x.Set("vapour", c.Rise+c.URise*off)
	x.Set("constant", c.Tau+c.UTau*off)
	x.Set("plateau", c.Start+c.Rise+c.UPlateau*off)
}
