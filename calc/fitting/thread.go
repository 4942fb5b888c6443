package fitting

import (
	"math"

	"blankoff/calc/declare"
	"blankoff/calc/quantity"
	"blankoff/calc/uncertainty"
)

// Accuracies taken of a pitch without ±: half a thread per inch of a count (our notes of the trade),
// in 1/m, and what a caliper gives over some threads, in m (common practice, no source).
const (
	countError = 0.5 / (inch * mm)
	pitchError = 0.01 * mm
)

// Thread names a pipe thread from caliper and thread gauge.
var Thread = declare.Calculator{
	ID:       "thread",
	Title:    "Which pipe thread is it?",
	Group:    declare.TemperaturePowerFitting,
	Decision: "Which pipe thread is this, and may the other part be screwed on it?",
	Inputs: []declare.Input{
		{ID: "diameter", Label: "Diameter", Symbol: "d", Kinds: []quantity.Kind{quantity.Length}, Unit: "mm", Units: []string{"in"},
			Min: "1 mm", Max: "200 mm", UsualLow: "6 mm", UsualHigh: "35 mm", Required: true, Accuracy: "0.15 mm",
			Help: "Over the crests: outside of a fitting, where it is widest; inside of a hole, at its mouth."},
		{ID: "pitch", Label: "Threads per inch, or pitch", Symbol: "n", Kinds: []quantity.Kind{quantity.PitchCount, quantity.Length}, Unit: "TPI", Units: []string{"mm"},
			UsualLow: "8 TPI", UsualHigh: "32 TPI", Help: "By a thread gauge, or counted over 25.4 mm. As 27 TPI or 0.94 mm."},
		{ID: "taper", Label: "Tapered", Choices: []declare.Choice{{Value: "yes"}, {Value: "no"}, {Value: "unknown", Label: "not known"}}, Default: "unknown",
			Help: "A pipe taper loses 1 mm of diameter in 16 mm. A straightedge along the crests shows it."},
		{ID: "part", Label: "Part", Choices: []declare.Choice{{Value: "male", Label: "male: outside thread"}, {Value: "female", Label: "female: thread in a hole"}}, Default: "male", Help: "Which side the thread is on."},
		{ID: "angle", Label: "Flank angle", Choices: []declare.Choice{{Value: "60", Label: "60°"}, {Value: "55", Label: "55°"}, {Value: "unknown", Label: "not known"}}, Default: "unknown",
			Help: "By a thread gauge held against the light: 60° for NPT, 55° for R and G."},
	},
	Influences: []declare.Influence{{ID: "count-error", Text: "error of a pitch without ±", U: assumedCountU}},
	Outputs: []declare.Output{
		{ID: "thread", Label: "Thread"},
		{ID: "candidates", Label: "Candidates", Columns: []declare.Column{
			{ID: "thread", Label: "Thread"},
			{ID: "diameter", Label: "Diameter", Kinds: []quantity.Kind{quantity.Length}, Unit: "mm"},
			{ID: "off", Label: "Diameter off", Kinds: []quantity.Kind{quantity.Length}, Unit: "mm"},
			{ID: "count", Label: "Threads per inch", Kinds: []quantity.Kind{quantity.PitchCount}, Unit: "TPI"},
			{ID: "turns", Label: "Count off", Kinds: []quantity.Kind{quantity.PitchCount}, Unit: "TPI"},
			{ID: "match", Label: "Match"}}},
		{ID: "off", Label: "Diameter less that of the best", Symbol: "Δd", Kind: quantity.Length, Unit: "mm", Also: []string{"in"}},
		{ID: "count", Label: "Threads per inch", Symbol: "n", Kind: quantity.PitchCount, Unit: "TPI"},
		{ID: "pitch", Label: "Pitch", Symbol: "p", Kind: quantity.Length, Unit: "mm"},
		{ID: "engagement", Label: "Hand-tight engagement", Symbol: "L₁", Kind: quantity.Length, Unit: "mm", Also: []string{"in"}, Derived: true},
		{ID: "tape", Label: "Tape"},
	},
	Formula: []string{
		"p = 25.4 / n; in mm",
		"E₀ = D − (0.05 D + 1.1) p; NPT, pitch diameter at the small end, in inches",
		"L₂ = (0.8 D + 6.8) p; NPT, effective thread, in inches",
		"d = E₀ + L₁ / 16 − 0.8 p; hole of NPT at its mouth",
		"d = D − 2 × 0.640327 p; hole of R and G",
	},
	Sources: []declare.Source{
		{Title: "NPT", Where: "ASME B1.20.1, transcriptions that agree, testdata/reference/13_threads.csv", Mark: declare.Published},
		{Title: "R, Rc, Rp (ISO 7-1) and G (ISO 228-1)", Where: "transcribed tables, testdata/reference/13_threads.csv", Mark: declare.Published},
		{Title: "NPT 3/8 and 3/4, R and G 1/4 and 1: what the table lacks", Mark: declare.Memory},
		{Title: "Allowance of 0.35 mm and half a thread per inch; tape; turns", Mark: declare.CommonPractice},
	},
	Cautions: []string{
		"NPT has flanks of 60°, R and G of 55°: the wrong one starts, then jams or leaks. Never force a thread.",
		"Metric, unified, hose and parallel American pipe threads are not in this list: a thread that fits here may still be one of them.",
	},
	Hazards: []string{"thread", "vacuum", "pinch"},
	Limits:  []string{"Sizes 1/16 to 1. Worn, plated and plastic threads measure small."},
	Example: declare.Example{
		In:   []declare.Pair{{Name: "diameter", Text: "9.75 mm ± 0.15 mm"}, {Name: "pitch", Text: "28 TPI ± 0.5 TPI"}, {Name: "taper", Text: "yes"}},
		Want: []declare.Pair{{Name: "thread", Text: "R 1/8"}, {Name: "off", Text: "0.02 ± 0.15 mm"}, {Name: "count", Text: "28.00 ± 0.50 TPI"}, {Name: "pitch", Text: "0.907 ± 0.016 mm"}, {Name: "engagement", Text: "4 mm"}},
		From: "ISO 7-1 basic sizes, 13-O042 to 13-O046 of testdata/reference: 28 TPI, 0.907 mm, 9.728 mm, 4.0 mm",
	},
	Study: threadStudy,
	Eval:  threadEval,
	Judge: threadJudge,
}

// assumedCountU is their standard uncertainty, in 1/m.
func assumedCountU(x *declare.Numbers) float64 {
	q := x.Typed("pitch")
	switch {
	case !x.Has("pitch") || q.HasU || q.Value == 0:
		return 0
	case q.Kind == quantity.Length:
		return pitchError / (q.Value * q.Value) / uncertainty.K
	}
	return countError / uncertainty.K
}

// perMetre is the count of threads, 1/m, whichever way it was written.
func perMetre(x *declare.Numbers) float64 {
	n := x.In("pitch")
	if x.Kind("pitch") == quantity.Length {
		n = 1 / n
	}
	return n + x.Influence("count-error")
}

// threadStudy ranks the list once; less uncertainty cannot change the order.
func threadStudy(x *declare.Numbers) any {
	d, taper, angle := x.Typed("diameter"), x.Choice("taper"), x.Choice("angle")
	k := &ranking{measured: measured{diameter: d.Value / mm, wide: uncertainty.K * d.U / mm, count: math.NaN(), female: x.Choice("part") == "female"}}
	m := &k.measured
	if taper == "yes" {
		m.taper = 1
	}
	if taper == "no" {
		m.taper = -1
	}
	if angle == "60" {
		m.angle = 60
	}
	if angle == "55" {
		m.angle = 55
	}
	if x.Has("pitch") {
		n, q := perMetre(x), x.Typed("pitch")
		if !(n > 100 && n < 5000) {
			x.Refuse("pitch", "no pipe thread has such a pitch; write threads per inch, such as 27 TPI, or the distance from crest to crest, such as {0.94 mm}")
			return k
		}
		u := q.U
		if q.Kind == quantity.Length {
			u *= n * n
		}
		m.count, m.apart = n*inch*mm, uncertainty.K*(u+assumedCountU(x))*inch*mm
	}
	k.list = m.rank()
	return k
}

// ranking is what Study gives.
type ranking struct {
	measured
	list []*candidate
}

func threadEval(x *declare.Numbers) {
	k, _ := x.Studied().(*ranking)
	x.Set("off", x.In("diameter")-k.list[0].expected*mm)
	if !x.Has("pitch") {
		return
	}
	n := perMetre(x)
	if n <= 0 {
		x.Refuse("pitch", "the accuracy of the pitch leaves no pitch at all")
		return
	}
	x.Set("count", n)
	x.Set("pitch", 1/n)
}
