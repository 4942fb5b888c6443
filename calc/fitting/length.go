package fitting

import (
	"math"

	"blankoff/calc/declare"
	"blankoff/calc/quantity"
	"blankoff/calc/uncertainty"
)

const mm = 1e-3 // m

// caliper is the accuracy taken of a hexagon that was measured without ±, m (common
// practice, no source).
const caliper = 0.05 * mm

// Length writes a length in inches and millimetres, and finds the spanner for a hexagon.
var Length = declare.Calculator{
	ID:       "length",
	Title:    "Length and spanner size",
	Group:    declare.TemperaturePowerFitting,
	Decision: "What is this length in the other system, and which spanner fits?",
	Inputs: []declare.Input{
		{ID: "size", Label: "Measured", Symbol: "s", Kinds: []quantity.Kind{quantity.Length}, Unit: "mm", Units: []string{"in", "cm", "m", "ft"},
			Min: "0 mm", Max: "1 km", Required: true, Rising: 1, Help: "18.9 mm, 11/16 in, 1 3/8 in or 0.75 in."},
		{ID: "shape", Label: "It is", Choices: []declare.Choice{{Value: "length", Label: "a length"}, {Value: "hexagon", Label: "a hexagon, across its flats"}}, Default: "length",
			Help: "For a hexagon the spanner is looked up."},
	},
	Influences: []declare.Influence{{ID: "caliper", Text: "error of a caliper without ±", U: caliperU}},
	Outputs: []declare.Output{
		{ID: "length", Label: "Length", Symbol: "s", Kind: quantity.Length, Unit: "mm", Also: []string{"in"}},
		{ID: "fraction", Label: "Nearest 1/64 inch"},
		{ID: "rest", Label: "Measured less fraction", Kind: quantity.Length, Unit: "mm", Derived: true},
		{ID: "corners", Label: "Across corners", Symbol: "e", Kind: quantity.Length, Unit: "mm", Also: []string{"in"}},
		{ID: "spanner", Label: "Spanner"},
		{ID: "spanners", Label: "Spanners", Columns: []declare.Column{
			{ID: "spanner", Label: "Spanner"}, {ID: "gap", Label: "Gap", Kinds: []quantity.Kind{quantity.Length}, Unit: "mm"}, {ID: "fit", Label: "Fit"}}},
	},
	Formula: []string{"e = 2 s / √3"},
	Sources: []declare.Source{
		{Title: "inch = 25.4 mm exactly", Where: "international yard and pound agreement, 1959", Mark: declare.Published},
		{Title: "Sizes of spanners; caliper without ±: 0.05 mm", Mark: declare.CommonPractice},
		{Title: "Gap of a fit: −0.05 mm to 0.2 mm and 0.7 % of the size", Mark: declare.Memory},
	},
	Cautions: nil,
	Hazards:  []string{"pinch"},
	Limits:   []string{"Spanners of 4 mm to 50 mm and 3/16 in to 2 in. A rounded or painted hexagon measures wrong: try the spanner without force."},
	Converts: true,
	Example: declare.Example{
		In:   []declare.Pair{{Name: "size", Text: "18.9 mm ± 0.05 mm"}, {Name: "shape", Text: "hexagon"}},
		Want: []declare.Pair{{Name: "length", Text: "18.900 ± 0.050 mm"}, {Name: "fraction", Text: "3/4 in"}, {Name: "spanner", Text: "19 mm or 3/4 in"}, {Name: "rest", Text: "−0.15 mm"}, {Name: "corners", Text: "21.824 ± 0.058 mm"}},
		From: "by hand: 3/4 in = 19.05 mm; 18.9 × 2 / √3 = 21.824",
	},
	Eval:  lengthEval,
	Judge: lengthJudge,
}

func isHexagon(x *declare.Numbers) bool { return x.Choice("shape") == "hexagon" }

func caliperU(x *declare.Numbers) float64 {
	if !isHexagon(x) || x.Typed("size").HasU {
		return 0
	}
	return caliper / uncertainty.K
}

func lengthEval(x *declare.Numbers) {
	size := x.In("size") + x.Influence("caliper")
	x.Set("length", size)
	if isHexagon(x) {
		x.Set("corners", size*twoByRootThree)
	}
}

// twoByRootThree is the ratio of a hexagon's width across corners to that across flats.
const twoByRootThree = 1.1547005383792515290182975610039

func lengthJudge(r *declare.Result) {
	size, u := r.Out("length")
	fraction, rest := sixtyFourths(size / mm)
	r.Text("fraction", fraction)
	r.Set("rest", settled(rest)*mm)
	// This calculator shows both systems, and names spanners, whatever units the reader chose.
	r.Work("{in:size} = " + millimetres(size, 7) + " = {fraction} and {rest}")
	if !isHexagon(r.Numbers) {
		return
	}
	r.Work("e = 2 s / √3 = {corners}")
	if caliperU(r.Numbers) > 0 {
		r.Caution("Hexagon given without ±: ± {0.05 mm} taken, as for a caliper (common practice, no source).")
	}
	r.Caution("Measure across the flats in three directions and take the largest. Hold the boss with a second spanner; a ring or socket spares the corners.")
	judgeSpanners(r, size/mm, uncertainty.K*u/mm)
}

// millimetres writes a length in m.
func millimetres(size float64, figures int) string {
	return quantity.Format(size, -1, quantity.MustUnit("mm"), figures)
}

// finest is what a caliper settles at best, mm (common practice, no source).
const finest = 0.02

// judgeSpanners compares a hexagon with the nearest sizes, in mm; expanded is its U.
func judgeSpanners(r *declare.Result, h, expanded float64) {
	good, maybe, nearestName, room := "", "", "", 0.0
	list := nearest(h)
	for i := range list {
		s := &list[i]
		name, fit, loose := s.name(), "fits", s.loose()
		if i == 0 {
			nearestName = name
		}
		switch uncertainty.Within(s.gap, expanded, -tight, loose) {
		case uncertainty.Pass:
			good = join(good, name)
		case uncertainty.CannotTell:
			fit = "may fit"
			if maybe == "" {
				room = min(math.Abs(s.gap+tight), math.Abs(s.gap-loose))
			}
			maybe = join(maybe, name)
		default:
			fit = "too loose: rounds the corners"
			if s.gap < 0 {
				fit = "does not go on"
			}
		}
		r.Row("spanners", declare.Cell{Text: name}, declare.Cell{Value: s.gap * mm}, declare.Cell{Text: fit})
	}
	is, text := declare.Pass, "{spanner}: it fits, not too loose."
	switch {
	case good != "":
	case maybe != "":
		is, good, text = declare.CannotTell, maybe, "{spanner} may fit. Try it without force: that would settle it."
		if room > finest {
			text = "{spanner} may fit. Try it without force, or measure to ± " + r.Num(room*mm, "mm") + ": either would settle it."
		}
	default:
		is, good, text = declare.Fail, "adjustable", "No usual spanner fits: the nearest is "+nearestName+". Measure again, across flats and not corners; else use an adjustable spanner, well closed."
	}
	r.Text("spanner", good)
	r.Verdict(is, text)
}

func (s *spanner) name() string {
	if s.metric {
		return millimetres(s.size*mm, quantity.DefaultFigures)
	}
	name, _ := sixtyFourths(s.size)
	return name
}

func join(list, name string) string {
	if list != "" {
		name = list + " or " + name
	}
	return name
}
