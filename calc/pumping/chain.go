package pumping

import (
	"strconv"

	"blankoff/calc/declare"
	"blankoff/calc/quantity"
	"blankoff/calc/uncertainty"
)

// What net-speed and pump-down ask of the pump and its line is declared once here.
var (
	pressureUnits = []string{"Torr", "Pa", "mbar", "micron"}

	speedInput = declare.Input{ID: "speed", Label: "Pump's speed", Symbol: "S", Kinds: []quantity.Kind{quantity.VolumeFlow}, Unit: "m³/h", Units: []string{"L/s", "cfm", "L/min"},
		Min: "1e-9 L/s", Max: "1e6 m³/h", UsualLow: "0.5 m³/h", UsualHigh: "100 m³/h", Accuracy: "10 %",
		Help: "From the nameplate. Not needed when a curve is given."}

	curveInput = declare.Input{ID: "curve", Label: "Pump's curve", Help: "The maker's, if there is one: pressure at the inlet and speed, 1 to 60 rows.", Columns: []declare.Column{
		{ID: "pressure", Label: "Inlet", Kinds: []quantity.Kind{quantity.Pressure}, Unit: "mTorr", Min: "0 Pa", Max: "200 kPa", Required: true},
		{ID: "speed", Label: "Speed", Kinds: []quantity.Kind{quantity.VolumeFlow}, Unit: "m³/h", Min: "0 L/s", Max: "1e6 m³/h", Required: true}}}

	blankOffInput = declare.Input{ID: "blank-off", Label: "Pump's blank-off pressure", Symbol: "pᵤ", Kinds: []quantity.Kind{quantity.Pressure}, Unit: "mTorr", Units: pressureUnits,
		Min: "0 Pa", Max: "100 kPa", UsualLow: "0.1 mTorr", UsualHigh: "1,000 mTorr", Required: true,
		Help: "What it reaches with its inlet capped, as measured or as on its card."}

	lineInput = declare.Input{ID: "line", Label: "Hoses and fittings", Help: "From the chamber to the pump, 1 to 8 parts; leave it blank when the gauge sits on the pump.", Columns: []declare.Column{
		{ID: "part", Label: "Part"},
		{ID: "elbows", Label: "Elbows", Kinds: []quantity.Kind{quantity.Ratio}, Min: "0", Max: "100"},
		{ID: "bore", Label: "Bore", Kinds: []quantity.Kind{quantity.Length}, Unit: "mm", Min: "0.1 mm", Max: "2 m", Required: true},
		{ID: "length", Label: "Length", Kinds: []quantity.Kind{quantity.Length}, Unit: "m", Min: "0.1 mm", Max: "1 km", Required: true}}}

	hoseInfluence = declare.Influence{ID: "hose", Text: "± 15 % of the conductance of all parts alike: nominal bores, bends, rough walls",
		U: func(x *declare.Numbers) float64 {
			if x.Rows("line") == 0 {
				return 0
			}
			return uncertainty.FromAccuracy(hoseAccuracy)
		}}

	curveInfluence = declare.Influence{ID: "curve-error", Text: "± 10 % of the speeds of the pump's curve",
		U: func(x *declare.Numbers) float64 {
			if x.Rows("curve") == 0 {
				return 0
			}
			return uncertainty.FromAccuracy(0.10)
		}}
)

// chain is the pump and line as entered, in order.
type chain struct {
	parts     []Part
	names     []string
	at, speed []float64 // the pump's curve, rising
}

// Bounds of the two tables.
const (
	mostParts = 8
	mostCurve = 60
)

// studyChain reads the tables, once. It gives nil after a refusal.
func studyChain(x *declare.Numbers) *chain {
	c := &chain{}
	if c.readParts(x) && c.readCurve(x) {
		return c
	}
	return nil
}

func (c *chain) readParts(x *declare.Numbers) bool {
	rows := x.Rows("line")
	if rows > mostParts {
		x.Refuse("line", "more than 8 parts; join those of one bore into one")
		return false
	}
	bore, length, elbows, words := x.Column("line", "bore"), x.Column("line", "length"), x.Column("line", "elbows"), x.Words("line", "part")
	c.parts, c.names = make([]Part, rows), make([]string, rows)
	for i := range c.parts {
		p := &c.parts[i]
		p.Bore, p.Length = bore[i], length[i]
		if elbows != nil && elbows[i] > 0 {
			p.Elbows = elbows[i]
		}
		if !(p.Bore > 0 && p.Length > 0) {
			return refuseRow(x, "line", i, "a part needs a bore and a length")
		}
		if words != nil {
			c.names[i] = words[i]
		}
		if c.names[i] == "" {
			c.names[i] = "part " + strconv.Itoa(i+1)
		}
	}
	return true
}

func refuseRow(x *declare.Numbers, table string, row int, text string) bool {
	x.Refuse(table, "line "+strconv.Itoa(x.Line(table, row))+": "+text)
	return false
}

// readCurve takes the rows above the blank-off pressure. A row at it, or so near that it
// says nothing of the pump's own speed, is left to the blank-off.
func (c *chain) readCurve(x *declare.Numbers) bool {
	rows := x.Rows("curve")
	if rows == 0 {
		if !x.Has("speed") {
			x.Refuse("speed", "the pump's speed is blank; write it with its unit, such as 5 m³/h, or give the pump's curve")
		}
		return x.Has("speed")
	}
	pressure, speed := x.Column("curve", "pressure"), x.Column("curve", "speed")
	kept := make([]int, 0, rows)
	for i, p := range pressure {
		if p > leastAbove*x.In("blank-off") && speed[i] > 0 {
			kept = append(kept, i)
		}
	}
	if len(kept) == 0 || len(kept) > mostCurve {
		x.Refuse("curve", "needs 1 to 60 rows with a speed and a pressure above the blank-off")
		return false
	}
	ascending(kept, pressure)
	c.at, c.speed = make([]float64, len(kept)), make([]float64, len(kept))
	last := 0.0
	for k, i := range kept {
		// Gas flow, the product of the two, rises with the pressure; a pressure that stands
		// twice fails that as well, or is harmless.
		flow := speed[i] * pressure[i]
		if !(flow > last) || k > 0 && pressure[i] == c.at[k-1] {
			return refuseRow(x, "curve", i, "this pressure stands twice, or the pump moves less gas here than at a lower pressure, which no pump does")
		}
		c.at[k], c.speed[k], last = pressure[i], speed[i], flow
	}
	return true
}

// leastAbove: rows of a curve below this many times the blank-off are not used.
const leastAbove = 1.5

// line builds the line of the present values. Nil, with a refusal, where there is none.
func (c *chain) line(x *declare.Numbers) *Line {
	base := x.In("blank-off")
	pump := Nameplate(x.In("speed"), base)
	if c.at != nil {
		var ok bool
		if pump, ok = Curved(c.at, c.speed, base); !ok {
			x.Refuse("blank-off", "lies above rows of the pump's curve")
			return nil
		}
		pump.scale(1 + x.Influence("curve-error"))
	}
	if !(pump.most() > 0) { // while a wide ± is tried out
		x.Refuse("speed", "leaves no speed when its ± is taken off")
		return nil
	}
	l := NewLine(pump, "air", room, c.parts)
	l.widen(1 + x.Influence("hose"))
	return l
}

// cautions say where the line leaves the formula.
func (c *chain) cautions(r *declare.Result) {
	for i, p := range c.parts {
		if p.Length < shortTube*p.Bore {
			r.Caution(c.names[i] + " is shorter than five bores: its end, which is not counted, may hold back as much again.")
			break
		}
	}
	if c.at != nil && r.Written("speed") {
		r.Caution("The pump's curve is used, not the speed of its nameplate.")
	}
}
