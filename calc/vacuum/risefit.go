package vacuum

import (
	"math"

	"blankoff/calc/fit"
)

// The three shapes that the rise of a closed chamber is tried for. Gas that enters at a
// steady rate gives the first; vapour that runs to the pressure of what it comes from
// gives the second (our notes of the trade, 2.3 and 2.5).
const (
	straight   = iota // p₀ + m t
	saturating        // p₀ + A (1 − exp(−t/τ)), A not negative
	both              // p₀ + m t + A (1 − exp(−t/τ)), m and A not negative
)

var (
	shapeNames = [3]string{"straight", "saturating", "both"}
	shapeTerms = [3]fit.Terms{fit.Start | fit.Slope, fit.Start | fit.Bend, fit.Start | fit.Slope | fit.Bend}
)

const (
	// decisive is the lead in AICc that settles which shape it is (our notes of the trade, 2.5; common
	// practice for the “considerably less support” of Burnham & Anderson, 2.6).
	decisive = 4.0
)

// riseFit is what the readings of a log say of the three shapes. Pressures in Pa, times
// in s from the first reading.
type riseFit struct {
	t, p  []float64
	floor float64 // variance of the rounding of the display: less scatter is not believed
	curve [3]fit.Curve
	own   [3]bool // has an optimum of its own; else it is one of the others
	aicc  [3]float64
	order [3]int // the shapes by AICc
	best  int    // the first of them
	// crowd is how many readings stand for one that is independent: slow wander makes
	// neighbours alike (ĉ of Burnham & Anderson, 2.5).
	crowd float64
	// The slopes that the readings allow at 95 % whatever the shape, and the largest part
	// of the rise that they allow to vapour.
	low, high, vapour float64
}

// scanned is how many time constants are tried, each under one and a half times the last.
const scanned = 16

// fitRise tries the three shapes on readings in order of time. A time constant is sought
// between half the first interval and the length of the log: a bend that is faster is one
// reading out of place, one that is slower cannot be told from a leak by this log.
func fitRise(times, p []float64, step float64) (f riseFit, ok bool) {
	t := make([]float64, len(times))
	for i := range t {
		t[i] = times[i] - times[0]
	}
	f = riseFit{t: t, p: p, floor: step * step / 12}
	plain, good := fit.NewPlane(t, p, shapeTerms[straight])
	narrow, fine := fit.NewPlane(t, p, shapeTerms[saturating])
	wide, ok := fit.NewPlane(t, p, shapeTerms[both])
	if !good || !fine || !ok {
		return f, false
	}
	if f.curve[straight], f.own[straight] = plain.Curve(0); !f.own[straight] {
		return f, false
	}
	longest := f.length()
	shortest := math.Max(t[1]/2, longest/200)
	trials := make([]fit.Trial, 0, 2*scanned)
	var widest, bent fit.Trial
	for i := 0; i < scanned; i++ {
		trial, ok := wide.At(shortest * math.Pow(longest/shortest, float64(i)/(scanned-1)))
		if !ok {
			continue
		}
		trials = append(trials, trial)
		if trial.Rise > 0 && trial.Slope >= 0 && (widest.Tau == 0 || trial.SS < widest.SS) {
			widest = trial
		}
		if trial = wide.Unsloped(trial); trial.Rise > 0 && (bent.Tau == 0 || trial.SS < bent.SS) {
			bent = trial
		}
	}
	f.refine(saturating, narrow, bent, shortest)
	f.refine(both, wide, widest, shortest)
	f.choose()
	f.bound(append(trials, f.around(wide)...))
	return f, true
}

func (f *riseFit) length() float64 { return f.t[len(f.t)-1] }

// refine finds the best curve near a trial.
func (f *riseFit) refine(shape int, plane *fit.Plane, from fit.Trial, shortest float64) {
	if from.Tau == 0 {
		return
	}
	tau, _ := plane.Descend(from.Tau, shortest, f.length(), 1e-10)
	if at, ok := plane.At(tau); !ok || !(at.Rise > 0) || at.Slope < 0 {
		return // on the way to a minimum that is not possible lies one of the other shapes
	}
	f.curve[shape], f.own[shape] = plane.Curve(tau)
}

// around tries time constants as far about the best ones as their uncertainty reaches.
func (f *riseFit) around(wide *fit.Plane) (trials []fit.Trial) {
	for _, shape := range [2]int{saturating, both} {
		c := &f.curve[shape]
		if !f.own[shape] || shape == saturating && f.own[both] {
			continue
		}
		for k := -2.0; k <= 2; k += 0.5 {
			tau := c.Tau * math.Exp(k*math.Min(0.5, c.UTau/c.Tau))
			if trial, ok := wide.At(math.Min(f.length(), tau)); ok {
				trials = append(trials, trial)
			}
		}
	}
	return trials
}

// least is the shape that leaves the smallest sum of squares.
func (f *riseFit) least() int {
	least := straight
	for shape := range f.curve {
		if f.own[shape] && f.curve[shape].SS < f.curve[least].SS {
			least = shape
		}
	}
	return least
}

// choose ranks the shapes by AICc.
func (f *riseFit) choose() {
	n := float64(len(f.t))
	f.crowd = f.crowding(f.least())
	for shape := range f.curve {
		f.aicc[shape] = math.Inf(1)
		if f.own[shape] {
			square := math.Max(f.curve[shape].SS/n, f.floor) // what rounding leaves is no evidence
			square = math.Max(square, 1e-300)
			f.aicc[shape] = n/f.crowd*math.Log(square) + fit.Penalty(n, shapeTerms[shape].Parameters()+1)
		}
		at := shape
		for ; at > 0 && f.aicc[shape] < f.aicc[f.order[at-1]]; at-- {
			f.order[at] = f.order[at-1]
		}
		f.order[at] = shape
	}
	f.best = f.order[0]
}

// residuals of a shape.
func (f *riseFit) residuals(shape int) []float64 {
	off := make([]float64, len(f.t))
	for i, t := range f.t {
		off[i] = f.p[i] - f.curve[shape].At(t)
	}
	return off
}

// crowding estimates from the likeness of neighbouring residuals how many readings stand
// for one: (1 + r)/(1 − r) for the correlation r of neighbours, as in a wander that dies
// away evenly. A fit of k parameters makes residuals less alike by about k/n, which is
// added back; what chance makes of independent readings nine times in ten is let pass.
func (f *riseFit) crowding(shape int) float64 {
	off := f.residuals(shape)
	n := float64(len(off))
	product, square := 0.0, off[0]*off[0]
	for i := 1; i < len(off); i++ {
		product += off[i] * off[i-1]
		square += off[i] * off[i]
	}
	if !(square > 0) {
		return 1
	}
	r := math.Min(0.9, product/square+float64(shapeTerms[shape].Parameters())/n)
	if r < 1.28/math.Sqrt(n) {
		return 1
	}
	return (1 + r) / (1 - r)
}

// bound finds what the readings allow at 95 %: the slopes of every curve whose sum of
// squares is not more than t² s² above the least (the profile likelihood within “both”),
// and those of the shapes that AICc does not decide against.
func (f *riseFit) bound(trials []fit.Trial) {
	freedom := float64(len(f.t) - 4)
	k := fit.Coverage(0.95, math.Max(1, freedom/f.crowd))
	least := f.curve[f.least()].SS
	most := least + k*k*f.crowd*math.Max(least/freedom, f.floor)
	f.low, f.high = math.Inf(1), math.Inf(-1)
	for shape := range f.curve {
		if c := &f.curve[shape]; f.own[shape] && f.aicc[shape] < f.aicc[f.best]+decisive {
			half := 0.0
			if shape == straight {
				half = k * math.Sqrt(f.crowd) * c.USlope
			}
			f.allow(c.Slope-half, c.Slope+half)
		}
	}
	spread := f.spread()
	if room := most - f.curve[straight].SS; room >= 0 {
		half := math.Sqrt(room / spread)
		f.allow(f.curve[straight].Slope-half, f.curve[straight].Slope+half)
	}
	for _, trial := range trials {
		if room := most - trial.SS; room >= 0 {
			f.allowTrial(trial, room, spread)
		}
	}
}

// spread is Σ(t − t̄)².
func (f *riseFit) spread() (sum float64) {
	mean := fit.Mean(f.t)
	for _, t := range f.t {
		sum += (t - mean) * (t - mean)
	}
	return sum
}

func (f *riseFit) allow(low, high float64) {
	f.low, f.high = math.Min(f.low, low), math.Max(f.high, high)
}

// allowTrial adds the slopes and rises of one time constant, for a sum of squares that may
// grow by room: an ellipse, cut where one of the two would be negative. What lies on the
// cut is the straight or the saturating curve. Vapour slower than half the log looks like
// a leak and is not counted as vapour that might be there.
func (f *riseFit) allowTrial(trial fit.Trial, room, spread float64) {
	variance := 1/spread + trial.Lean*trial.Lean/trial.Width // of the slope, in s²
	half := math.Sqrt(room * variance)
	rise := trial.Rise + math.Sqrt(room/trial.Width)
	if rise <= 0 || trial.Slope+half < 0 {
		return
	}
	f.low = math.Min(f.low, math.Max(0, trial.Slope-half))
	if trial.Rise-half*trial.Lean/trial.Width/variance >= 0 {
		f.high = math.Max(f.high, trial.Slope+half)
	}
	if trial.Tau <= f.length()/2 {
		f.vapour = math.Max(f.vapour, -rise*math.Expm1(-f.length()/trial.Tau))
	}
}
