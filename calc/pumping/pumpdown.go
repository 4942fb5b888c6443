package pumping

import (
	"math"

	"blankoff/calc/declare"
	"blankoff/calc/quantity"
	"blankoff/calc/uncertainty"
)

// PumpDown is how long a chamber takes to a pressure, and whether it gets there.
var PumpDown = declare.Calculator{
	ID:       "pump-down",
	Title:    "Time to pump down",
	Group:    declare.PumpAndLines,
	Decision: "How long does this pump take to bring the chamber down, and does it ever get there?",
	Inputs: []declare.Input{
		{ID: "volume", Label: "Chamber volume", Symbol: "V", Kinds: []quantity.Kind{quantity.Volume}, Unit: "L", Units: []string{"m³", "ft³", "gal"},
			Min: "1 mL", Max: "1e6 m³", UsualLow: "2 L", UsualHigh: "500 L", Accuracy: "5 %", Required: true, Rising: 1, Help: "With lines up to the pump, empty of anything wet."},
		speedInput, curveInput, blankOffInput, lineInput,
		{ID: "leak", Label: "Leak", Symbol: "Q₀", Kinds: []quantity.Kind{quantity.Throughput}, Unit: "mbar·L/s", Units: leakUnits,
			Min: "0 mbar·L/s", Max: "1e4 mbar·L/s", UsualLow: "0 mbar·L/s", UsualHigh: "10 mbar·L/s", Default: "0 mbar·L/s", Because: "as for a chamber that is tight and dry", Rising: 1,
			Help: "Gas that always enters, such as a rise test gives."},
		{ID: "outgassing", Label: "Vapour off the walls after 1 h", Symbol: "Q₁", Kinds: []quantity.Kind{quantity.Throughput}, Unit: "mbar·L/s", Units: leakUnits,
			Min: "0 mbar·L/s", Max: "100 mbar·L/s", UsualLow: "0 mbar·L/s", UsualHigh: "1 mbar·L/s", Default: "0 mbar·L/s", Because: "as for a chamber that is tight and dry", Rising: 1,
			Help: "Falls as 1/t; the three machines of the demo fit 0.004 to 0.010 mbar·L/s."},
		{ID: "start", Label: "Pressure at the start", Symbol: "p₁", Kinds: []quantity.Kind{quantity.Pressure}, Unit: "mbar", Units: []string{"atm", "Torr", "mTorr", "Pa"},
			Min: "1e-9 Pa", Max: "200 kPa", UsualLow: "100 mTorr", UsualHigh: "1,100 mbar", Required: true, Help: "The air outside, as a rule: 1,013 mbar at sea level."},
		{ID: "end", Label: "Pressure wanted", Symbol: "p₂", Kinds: []quantity.Kind{quantity.Pressure}, Unit: "mTorr", Units: pressureUnits,
			Min: "1e-9 Pa", Max: "200 kPa", UsualLow: "1 mTorr", UsualHigh: "10 Torr", Required: true, Rising: -1, Help: "Such as the dry-empty limit of its card."},
		{ID: "limit", Label: "Time allowed", Kinds: []quantity.Kind{quantity.Time}, Unit: "min", Units: []string{"s", "h"}, Min: "0 s", Max: "1000 d",
			UsualLow: "1 min", UsualHigh: "24 h", Help: "Gives a verdict; such as 30 min."},
	},
	Influences: chainInfluences,
	Outputs: []declare.Output{
		{ID: "time", Label: "Time", Symbol: "t", Kind: quantity.Time, Unit: "min", Also: []string{"s", "h"}},
		{ID: "floor", Label: "Lowest pressure with this leak", Symbol: "p₀", Kind: quantity.Pressure, Unit: "mTorr", UnitOf: "end"},
		{ID: "course", Label: "Course", Columns: []declare.Column{
			{ID: "time", Label: "Time", Kinds: []quantity.Kind{quantity.Time}, Unit: "min"},
			{ID: "pressure", Label: "Pressure", Kinds: []quantity.Kind{quantity.Pressure}, Unit: "mTorr"}}},
	},
	Formula: []string{
		"p_next = p + (t_step / V) (Q₀ + Q₁ h / t − Q); for each of many small steps, h one hour, Q what the line draws at p as in net-speed",
		"t = (V/S) ln((p₁ − pᵤ) / (p₂ − pᵤ)); what comes of it with no line and no load",
	},
	Sources: []declare.Source{
		{Title: "Gas balance of a pumped volume, and its closed form", Where: "our notes of the trade, 2.6; cases of testdata/reference/04_pumpdown.csv", Mark: declare.Computed},
		{Title: "Walls: 1/t for metal, held at its value of the first minute before that", Where: "O'Hanlon, A User's Guide to Vacuum Technology (the law)", Mark: declare.Published},
		{Title: "Knudsen's formula for each part at its own mean pressure", Where: "Leybold, Fundamentals of Vacuum Technology, eq. 1.26", Mark: declare.Published},
		{Title: "± 10 % of a pump's speed, ± 20 % of its blank-off pressure, ± 15 % of a hose, Blasius' law of turbulent friction", Where: "", Mark: declare.Memory},
	},
	Cautions: []string{
		"Real machines are slower: water, ice and a cold pump are not in it. Keep a measured curve of each machine and compare with that.",
		"A good time proves no tightness: only a rise test measures a leak.",
	},
	Hazards: []string{"vacuum", "pane"},
	Limits: []string{
		"Water and ice boil off at their own vapour pressure, for hours, and hold the pressure there; nothing of that is reckoned.",
		"Air at 20 °C in the hose. Near the lowest pressure the time depends on everything at once, and ± is then only a lower bound.",
	},
	Example: declare.Example{
		In: []declare.Pair{{Name: "volume", Text: "60 L ± 2 %"}, {Name: "speed", Text: "1.4 L/s ± 10 %"}, {Name: "blank-off", Text: "0.05 mbar ± 10 %"},
			{Name: "start", Text: "1013.25 mbar"}, {Name: "end", Text: "0.2 mbar"}},
		Want: []declare.Pair{{Name: "time", Text: "6.30 ± 0.64 min"}},
		From: "GNU units 2.22, case 04-O006 of testdata/reference: 377.914 s; ± by hand: √((6.30 · 0.02)² + (6.30 · 0.1)² + 0.024²) min, the last being V/S · 0.005 / (0.2 − 0.05)",
	},
	Study: pumpStudy,
	Eval:  pumpEval,
	Judge: pumpJudge,
	Plot:  &pumpPlot,
}

var leakUnits = []string{"Torr·L/s", "Pa·m³/s", "mTorr·L/s"}

// pumping is what Study finds: the chain, and whether the end is reached at all.
type pumping struct {
	chain
	never bool
}

func pumpStudy(x *declare.Numbers) any {
	s := &pumping{}
	if !s.study(x) {
		return s
	}
	_, time := s.solve(x)
	s.never = time > math.MaxFloat64
	start := x.In("start")
	if start <= x.In("end") {
		x.Refuse("end", "is not below the pressure at the start")
	}
	if start <= x.In("blank-off") {
		x.Refuse("start", "is at or below the pump's blank-off pressure, so nothing is pumped")
	}
	return s
}

// solve gives the lowest pressure and the time at the present values; infinite when the end
// is never reached.
func (s *pumping) solve(x *declare.Numbers) (floor, time float64) {
	l := s.line(x)
	if l == nil {
		return
	}
	load := loadOf(x)
	_, floor = l.For(load.Leak)
	start, end := x.In("start"), x.In("end")
	ends := [1]float64{end}
	if end > floor*(1+1e-9) && start > l.Pump.Ultimate && l.Times(x.In("volume"), load, start, ends[:]) == 1 {
		return floor, ends[0]
	}
	return floor, math.Inf(1)
}

func loadOf(x *declare.Numbers) Load {
	return Load{max(0, x.In("leak")), max(0, x.In("outgassing"))}
}

func pumpEval(x *declare.Numbers) {
	s, _ := x.Studied().(*pumping)
	floor, time := s.solve(x)
	x.Set("floor", floor)
	if !s.never {
		x.Set("time", time) // infinite only while something is varied; then the other side counts
	}
}

func pumpJudge(r *declare.Result) {
	s, _ := r.Studied().(*pumping)
	l := s.line(r.Numbers)
	floor, u := r.Out("floor")
	end, base := r.In("end"), l.Pump.Ultimate
	if end > base && s.curve == nil {
		alone := r.In("volume") / l.Pump.speed * math.Log((r.In("start")-base)/(end-base))
		work(r, "with no line and no load: (V/S) ln((p₁ − pᵤ) / (p₂ − pᵤ)) = [min]", "", alone)
	}
	r.Work("the pump draws {leak} through the line at {floor}, so it comes no lower")
	s.course(r, l, floor)
	s.cautions(r)
	safe := uncertainty.AtMost(floor, uncertainty.K*u, end)
	switch {
	case s.never && safe != uncertainty.CannotTell:
		r.Verdict(declare.Fail, "Never: this pump, line and leak end at {floor}, above {end}. A smaller leak, a wider hose or a lower blank-off would help; net-speed shows which.")
		return
	case safe != uncertainty.Pass:
		r.Verdict(declare.CannotTell, "It may never get there: it ends at {floor}, which reaches across {end}. The leak by a rise test and the blank-off pressure with a good gauge would settle it.")
		return
	}
	r.Work("with them, summed up in small steps: t = {time}")
	near, above := uncertainty.K*u, end-floor
	if near > above/4 {
		r.Caution("So near {floor} the time changes out of proportion: its ± is a lower bound.")
	}
	if r.Has("limit") {
		t, u := r.Out("time")
		// The time goes with the logarithm of what is left above the floor: with the floor at
		// the upper end of its ± it changes so many times faster than here. With none left,
		// no time is sure.
		expanded := uncertainty.K * u * above / (above*(1+1e-9) - near)
		r.Decide(uncertainty.AtMost(t, expanded, r.In("limit")), "{time} is within {limit}.",
			"{time} is longer than {limit}: it cannot be done with this pump, line and load.",
			"{time} may lie on either side of {limit}. One pump-down by the clock would settle it.")
	}
}

// courseRows of the table, the first at time nought.
const courseRows = 33

// course adds the table: pressures from start to end, evenly on the ladder. Where the end
// is never reached it goes down to a hundredth above the floor.
func (s *pumping) course(r *declare.Result, l *Line, floor float64) {
	start, end := r.In("start"), r.In("end")
	if s.never {
		end = floor * 1.01
	}
	if end >= start {
		return
	}
	var ends, times [courseRows]float64
	for i := range ends {
		ends[i] = start * math.Pow(end/start, float64(i)/(courseRows-1))
	}
	times = ends
	times[0] = 0
	reached := l.Times(r.In("volume"), loadOf(r.Numbers), start, times[1:])
	for i := 0; i <= reached && i < courseRows; i++ {
		addRow(r, "course", "", times[i], ends[i])
	}
}
