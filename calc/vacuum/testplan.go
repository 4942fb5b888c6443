package vacuum

import (
	"math"

	"blankoff/calc/declare"
	"blankoff/calc/quantity"
	"blankoff/calc/uncertainty"
)

// TestPlan says beforehand how long a rise test must run with a given gauge, and whether
// that gauge can decide at all. It plans for a leak that is plain, half or twice the
// limit: for one nearer to the limit the rise test itself says how long to go on.
//
// A gauge that cannot decide gets 'cannot tell', never 'fail': what it lacks is accuracy,
// and a better one would turn the answer round.
var TestPlan = declare.Calculator{
	ID:       "test-plan",
	Title:    "Plan of a rise test",
	Group:    declare.Leaks,
	Decision: "How long must a rise test run, and can this gauge decide it at all?",
	Inputs: []declare.Input{
		{ID: "limit", Label: "Limit", Symbol: "L", Kinds: []quantity.Kind{quantity.Throughput, quantity.PressureRate}, Unit: "mbar·L/s",
			Units: []string{"Torr·L/s", "Pa·m³/s", "mTorr/min"}, Min: "1e-12 mbar·L/s", UsualLow: "0.0001 mbar·L/s", UsualHigh: "1 mbar·L/s", Required: true,
			Help: "As a leak rate, or as a rise such as 20 mTorr/min."},
		{ID: "volume", Label: "Closed volume", Symbol: "V", Kinds: []quantity.Kind{quantity.Volume}, Unit: "L", Units: []string{"m³", "ft³", "gal"},
			Min: "1 mL", Max: "100 m³", UsualLow: "2 L", UsualHigh: "500 L", Accuracy: "5 %", Required: true,
			Help: "Chamber with lines up to the closed valve. Its accuracy may follow: 24 L ± 1 L."},
		{ID: "start", Label: "Pressure at the start", Symbol: "p₁", Kinds: []quantity.Kind{quantity.Pressure}, Unit: "mTorr", Units: []string{"Pa", "mbar", "Torr", "micron"},
			Min: "0 Pa", Max: "200 kPa", UsualLow: "1 mTorr", UsualHigh: "2,000 mTorr", Required: true,
			Help: "What the pump reaches, two minutes after the valve is closed."},
		{ID: "gauge", Label: "Gauge accuracy", Symbol: "a", Kinds: []quantity.Kind{quantity.Ratio}, Unit: "%",
			Min: "0 %", Max: "100 %", UsualLow: "0.1 %", UsualHigh: "50 %", Default: "20 %", Because: "from memory for a thermocouple gauge without a certificate",
			Help: "± of reading. No longer test makes it matter less."},
		stepInput, ceilingInput,
	},
	Influences: []declare.Influence{
		{ID: "scale", Text: "scale error of the gauge, which shows the rise too large or too small", U: GaugeU},
	},
	Outputs: []declare.Output{
		{ID: "time", Label: "Length of the test", Symbol: "t", Kind: quantity.Time, Unit: "min", Derived: true},
		{ID: "expect", Label: "Reading then, with a leak at the limit", Symbol: "p₂", Kind: quantity.Pressure, Unit: "mTorr", Also: []string{"Pa"}},
		{ID: "highest", Label: "Highest useful reading", Symbol: "pₕ", Kind: quantity.Pressure, Unit: "mTorr", Also: []string{"Pa"}},
		{ID: "pass-below", Label: "Can pass, below this share of the limit", Symbol: "q₁", Kind: quantity.Ratio, Unit: "%"},
		{ID: "fail-above", Label: "Can fail, above this share of the limit", Symbol: "q₂", Kind: quantity.Ratio, Unit: "%"},
	},
	Formula: []string{
		"q₁ = 1 / (1 + w); w = √(a² + b²), b being the accuracy of the volume, 0 for a limit that is a rise",
		"q₂ = 1 / (1 − w); where w is under 1, else nothing can fail. Between the two, rounded outwards to whole per cent, no length of test decides",
		"|1 − q ∓ x| = √(w² (q ± x)² + (e x / d)²); solved for x at q = ½ (upper signs) and q = 2 (lower): the leak is seen off by one display step, x of the limit, and e = 2 d/√6 is the ± of a difference of two displays",
		"t = V d / (x L); the longer of the two, at least ten display steps at half the limit and one minute, rounded up to two figures",
		"pₕ = min(c, p₁ + 2 L t / V)",
	},
	Sources: []declare.Source{
		{Title: "Verdict by guard bands", Where: "JCGM 106:2012; ISO 14253-1", Mark: declare.Memory},
		{Title: "Q = V Δp / t", Where: "Pfeiffer Vacuum Technology Book, 7.1.2, formula 1-35", Mark: declare.Published},
		{Title: "Ten display steps; stay below 2,000 mTorr with a thermocouple gauge", Mark: declare.CommonPractice},
		{Title: "Half and twice the limit", Where: "chosen here: a leak that is plain must be decided, one at the limit never can be", Mark: declare.CommonPractice},
	},
	Cautions: []string{
		"This is what the arithmetic needs. Ten minutes with a reading each minute also show whether the rise bends, as vapour's does: calculator rise-log.",
		neverPressurise,
	},
	Limits: []string{
		"It plans for a straight rise. Vapour comes off faster at first and slower later.",
		"The accuracy of the gauge is taken as the same share of both readings; a zero error falls out of the difference.",
	},
	Hazards: []string{"vacuum", "pane"},
	Example: declare.Example{
		In: []declare.Pair{{Name: "limit", Text: "0.001 mbar·L/s"}, {Name: "volume", Text: "100 L ± 0 %"}, {Name: "start", Text: "0.05 mbar"}, {Name: "step", Text: "0.001 mbar"},
			{Name: "gauge", Text: "1 %"}, {Name: "ceiling", Text: "2 mbar"}},
		Want: []declare.Pair{{Name: "time", Text: "34 min"}, {Name: "expect", Text: "52.80 ± 0.15 mTorr"}, {Name: "pass-below", Text: "99 %"}, {Name: "fail-above", Text: "102 %"}},
		From: "by hand: half the limit lifts 100 L by 0.3 µbar in a minute, so ten steps of 1 µbar take 33.3 min; at the limit the reading then is 0.05 + 0.0204 mbar = 52.8 mTorr, the rise ± 1 %; 1/1.01 and 1/0.99, rounded outwards",
	},
	Study: planStudy,
	Eval:  planEval,
	Judge: planJudge,
}

// plan is what a rise test needs, in SI units.
type plan struct {
	start, ceiling, step float64
	volume               float64   // its accuracy, a share; 0 for a limit that is a rise
	w                    float64   // accuracy of the leak that time does not improve, a share
	rate                 float64   // rise at the limit, Pa/s
	low, high            float64   // the doubt, as shares of the limit
	pass, fail           float64   // times after which a plain leak is decided, s; infinite where none decides
	fails                bool      // twice the limit is decided below the ceiling, and in time
	time                 float64   // of the test, s; 0 where there is none that is worth it
	room                 float64   // for the reading to rise, Pa
	_                    [0]func() // never compared: saves the code for it
}

// leastRise is the slowest rise worth a limit, Pa/s: a millionth of 1 mTorr in a day.
const leastRise = 1e-12

// longest is the longest test worth planning, s: 100 days.
const longest = 100 * 86400.0

// planStudy plans with the entries as they are: what is uncertain in them is what is
// planned for.
func planStudy(x *declare.Numbers) any {
	p := &plan{start: x.In("start"), ceiling: x.In("ceiling"), step: x.In("step"), w: x.In("gauge"), rate: riseAtLimit(x)}
	if x.Kind("limit") == quantity.Throughput {
		p.volume = volumeShare(x)
		p.w = math.Hypot(p.w, p.volume)
	}
	if p.rate < leastRise {
		x.Refuse("limit", "no gauge sees so small a limit, and nothing can be shown to be under a limit of nought; give the leak that may be tolerated")
		return p
	}
	p.low, p.high = Doubtful(p.w)
	p.pass, p.fail = p.decides(1/plain), p.decides(plain)
	if seen := 10 * plain * p.step / p.rate; p.pass < seen {
		p.pass = seen
	}
	p.room = p.ceiling - p.start - p.step // a display may be a step off
	t := p.pass
	p.fails = p.rate*plain*p.fail <= p.room && p.fail <= longest
	if p.fails && p.fail > t {
		t = p.fail
	}
	if t < shortest {
		t = shortest
	}
	t = 60 * roundUp(t/60)
	if t <= longest && p.rate/plain*t <= p.room {
		p.time = t
	}
	return p
}

// riseAtLimit is the limit as a rise, Pa/s.
func riseAtLimit(x *declare.Numbers) float64 {
	rate := x.In("limit")
	if x.Kind("limit") == quantity.Throughput {
		rate /= x.In("volume")
	}
	return rate
}

// volumeShare is the accuracy of the volume, as a share of it.
func volumeShare(x *declare.Numbers) float64 {
	return uncertainty.K * x.Typed("volume").U / x.In("volume")
}

// decides is the time after which a leak that is a share q of the limit is decided.
func (p *plan) decides(q float64) float64 {
	steps, ok := RiseToDecide(q, p.w)
	if !ok {
		return math.Inf(1)
	}
	return steps * p.step / p.rate
}

func planEval(x *declare.Numbers) {
	if p, _ := x.Studied().(*plan); p.time > 0 && p.start+p.rate*p.time <= p.ceiling { // above it the gauge shows something else
		x.Set("expect", x.In("start")+riseAtLimit(x)*p.time*(1+x.Influence("scale")))
	}
}

// planJudge says whether the gauge decides.
func planJudge(r *declare.Result) {
	p, _ := r.Studied().(*plan)
	r.Set("pass-below", math.Floor(100*p.low+1e-9)/100)
	if p.high <= math.MaxFloat64 {
		r.Set("fail-above", math.Ceil(100*p.high-1e-9)/100)
	}
	if p.time > 0 {
		r.Set("time", p.time)
		highest := p.start + plain*p.rate*p.time
		if highest > p.ceiling {
			highest = p.ceiling
		}
		r.Set("highest", highest)
	}
	r.WorkWith(4, "time does not help w = [%]: it passes below 1 / (1 + w) = {pass-below} of the limit", p.w)
	r.WorkWith(4, "a leak at the limit lifts the reading by [mTorr/min]; half of it is decided after [min], twice it after [min]", p.rate, p.pass, p.fail)
	is, text := declare.CannotTell, "This gauge can pass a tight chamber in {time}, but never fail one with twice the limit. "
	switch {
	case p.start >= p.ceiling*(1-tie):
		is, text = declare.Fail, "No test can start there: {start} is not below {ceiling}, where the gauge no longer reads true. Pump lower first, or use another gauge."
	case !(p.pass <= math.MaxFloat64):
		text = "This gauge decides nothing: half the limit cannot pass, twice it cannot fail. " + p.better()
	case p.time == 0:
		text = declare.With(4, "Half the limit is decided after [min], too long for a test or above {ceiling} by then. A gauge with a finer step or a higher ceiling, or a lower start, would settle it.", p.pass)
	case !(p.fail <= math.MaxFloat64):
		text += p.better()
	case !p.fails:
		text = "This gauge can pass a tight chamber in {time}, but with twice the limit it reaches {ceiling}, or 100 days, before that is sure. A finer step, or a lower start, would settle it."
	default:
		is, text = declare.Pass, "This gauge decides: run it {time}. Half the limit will pass and twice the limit fail; what lies between {pass-below} and {fail-above} of the limit stays open. End early only above {highest}."
	}
	r.Verdict(is, text)
}

// better names the accuracy that would do: w must be under ½ for twice the limit to fail.
func (p *plan) better() string {
	const enough = 0.9 * (plain - 1) / plain // a tenth better than the least, so that some time is left
	if room := enough*enough - p.volume*p.volume; room > leastShare {
		return accuracy(room, gaugeBetter)
	}
	return accuracy(enough*enough/2, bothBetter)
}
