package pumping

import (
	"blankoff/calc/declare"
	"blankoff/calc/letters"
	"blankoff/calc/quantity"
	"blankoff/calc/uncertainty"
)

// What net-speed and pump-down ask of the pump and its line is declared once here. Each list
// in it has a name: one written out in place would be copied by code as the page starts.
var (
	pressureUnits = []string{"Torr", "Pa", "mbar", "micron"}
	speedUnits    = []string{"L/s", "cfm", "L/min"}
	pressureKinds = []quantity.Kind{quantity.Pressure}
	speedKinds    = []quantity.Kind{quantity.VolumeFlow}

	curveColumns = []declare.Column{
		{ID: "pressure", Label: "Inlet", Kinds: pressureKinds, Unit: "mTorr", Min: "0 Pa", Max: "200 kPa", Required: true},
		{ID: "speed", Label: "Speed", Kinds: speedKinds, Unit: "m³/h", Min: "0 L/s", Max: "1e6 m³/h", Required: true}}

	lineColumns = []declare.Column{
		{ID: "part", Label: "Part"},
		{ID: "elbows", Label: "Elbows", Kinds: []quantity.Kind{quantity.Ratio}, Min: "0", Max: "100"},
		{ID: "bore", Label: "Bore", Kinds: []quantity.Kind{quantity.Length}, Unit: "mm", Min: "0.1 mm", Max: "2 m", Required: true},
		{ID: "length", Label: "Length", Kinds: []quantity.Kind{quantity.Length}, Unit: "m", Min: "0.1 mm", Max: "1 km", Required: true}}

	// timeColumns are those of a log.
	timeColumns = []declare.Column{
		{ID: "time", Label: "Time", Kinds: []quantity.Kind{quantity.Time}, Unit: "min", Min: "0 s", Required: true},
		{ID: "pressure", Label: "Reading", Kinds: pressureKinds, Unit: "mTorr", Min: "0 Pa", Max: "200 kPa", Required: true}}

	speedInput = declare.Input{ID: "speed", Label: "Pump's speed", Symbol: "S", Kinds: speedKinds, Unit: "m³/h", Units: speedUnits,
		Min: "1e-9 L/s", Max: "1e6 m³/h", UsualLow: "0.5 m³/h", UsualHigh: "100 m³/h", Accuracy: "10 %",
		Help: "From the nameplate. Not needed when a curve is given."}

	curveInput = declare.Input{ID: "curve", Label: "Pump's curve", Help: "The maker's, if there is one: pressure at the inlet and speed, 1 to 60 rows.", Columns: curveColumns}

	blankOffInput = declare.Input{ID: "blank-off", Label: "Pump's blank-off pressure", Symbol: "pᵤ", Kinds: pressureKinds, Unit: "mTorr", Units: pressureUnits,
		Min: "0 Pa", Max: "100 kPa", UsualLow: "0.1 mTorr", UsualHigh: "1,000 mTorr", Accuracy: "20 %", Required: true,
		Help: "What it reaches with its inlet capped, as measured or as on its card."}

	lineInput = declare.Input{ID: "line", Label: "Hoses and fittings", Help: "From the chamber to the pump, 1 to 8 parts; leave it blank when the gauge sits on the pump.", Columns: lineColumns}

	chainInfluences = []declare.Influence{
		{ID: "hose", Text: "± 15 % of the conductance of all parts alike: nominal bores, bends, rough walls", U: hoseU},
		{ID: "curve-error", Text: "± 10 % of the speeds of the pump's curve", U: curveU}}
)

func hoseU(x *declare.Numbers) float64 {
	if x.Rows("line") == 0 {
		return 0
	}
	return hoseAccuracy / uncertainty.K
}

func curveU(x *declare.Numbers) float64 {
	if x.Rows("curve") == 0 {
		return 0
	}
	return curveAccuracy / uncertainty.K
}

// curveAccuracy is how far a maker's curve is trusted, ± of its speeds (from memory).
const curveAccuracy = 0.10

// chain is the pump and line as entered, in order.
type chain struct {
	parts []Part
	curve []point // the pump's: pressures, rising, and speeds
}

// Bounds of the two tables.
const (
	mostParts = 8
	mostCurve = 60
)

// study reads the tables, once. It is false after a refusal.
func (c *chain) study(x *declare.Numbers) bool {
	table, wrong := "line", "more than 8 parts; join those of one bore into one"
	if rows := x.Rows("line"); rows <= mostParts {
		c.parts = make([]Part, rows)
		wrong = c.readParts(x)
	}
	if wrong == "" && x.Rows("curve") > 0 {
		table = "curve"
		wrong = c.readCurve(x)
	} else if wrong == "" && !x.Has("speed") {
		table, wrong = "speed", "the pump's speed is blank; write it with its unit, such as 5 m³/h, or give the pump's curve"
	}
	if wrong != "" {
		x.Refuse(table, wrong)
	}
	return wrong == ""
}

func (c *chain) readParts(x *declare.Numbers) (wrong string) {
	words := x.Words("line", "part")
	parts := c.parts
	for i := range parts {
		p := &parts[i]
		p.Bore, p.Length = cell(x, "line", "bore", i), cell(x, "line", "length", i)
		if !(p.Bore > 0 && p.Length > 0) {
			return inLine(x, "line", i) + ": a part needs a bore and a length"
		}
		if elbows := cell(x, "line", "elbows", i); elbows > 0 {
			p.Elbows = elbows
		}
		if i < len(words) {
			p.Name = words[i]
		}
		if p.Name == "" {
			p.Name = "part " + letters.Whole(i+1)
		}
	}
	return ""
}

func inLine(x *declare.Numbers, table string, row int) string {
	return "line " + letters.Whole(x.Line(table, row))
}

// readCurve takes the rows above the blank-off pressure. A row at it, or so near that it
// says nothing of the pump's own speed, is left to the blank-off. Gas flow, the product of
// the two, rises with the pressure; a pressure that stands twice fails that as well, or is
// harmless.
func (c *chain) readCurve(x *declare.Numbers) (wrong string) {
	n, least, list := 0, leastAbove*x.In("blank-off"), pairs(x, "curve", "pressure", "speed")
	for _, p := range list {
		if p.x > least && p.y > 0 {
			list[n] = p
			n++
		}
	}
	list = list[:n]
	c.curve = list
	if n == 0 || n > mostCurve {
		return "needs 1 to 60 rows with a speed and a pressure above the blank-off"
	}
	ascending(list)
	last, before := 0.0, -1.0
	for _, p := range list {
		flow := p.y * p.x
		if !(flow > last) || p.x == before {
			return inLine(x, "curve", p.row) + ": this pressure stands twice, or less gas is moved here than at a lower pressure, which no pump does"
		}
		last, before = flow, p.x
	}
	return ""
}

// leastAbove: rows of a curve below this many times the blank-off are not used.
const leastAbove = 1.5

// line builds the line of the present values. Nil, with a refusal, where there is none.
func (c *chain) line(x *declare.Numbers) *Line {
	l := &Line{}
	pump := &l.Pump
	pump.Ultimate, pump.speed = x.In("blank-off"), x.In("speed")
	if c.curve != nil && !pump.bend(c.curve, 1+x.Influence("curve-error")) {
		x.Refuse("blank-off", "lies above rows of the pump's curve")
		return nil
	}
	if !(pump.most() > 0) { // while a wide ± is tried out
		x.Refuse("speed", "leaves no speed when its ± is taken off")
		return nil
	}
	l.join(&gases[0], room, c.parts, 1+x.Influence("hose"))
	return l
}

// cautions say where the line leaves the formula.
func (c *chain) cautions(r *declare.Result) {
	parts := c.parts
	for i := range parts {
		p := &parts[i]
		if p.Length < shortTube*p.Bore {
			caution(r, "# is shorter than five bores: its end, which is not counted, may hold back as much again.", p.Name)
			break
		}
	}
	if c.curve != nil && r.Written("speed") {
		r.Caution("The pump's curve is used, not the speed of its nameplate.")
	}
}
