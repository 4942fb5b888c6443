package gauge

import (
	"math"

	"blankoff/calc/constant"
	"blankoff/calc/declare"
	"blankoff/calc/letters"
	"blankoff/calc/quantity"
	"blankoff/calc/uncertainty"
	"blankoff/calc/vacuum"
)

// Jump asks whether gas can do what a reading did. A jump up of tens of thousands of
// mTorr in a second is possible where a drain-sized port opens; the jump back down is
// what no small pump can do. So both directions are tested.
//
// The numbers shown are those of the trade: air let in stays at room temperature, air
// pumped out is taken away by the pump alone. The verdict is kinder to the gas: within
// seconds air warms as it is let in and cools as it is pumped out, up to γ times faster
// than at one temperature, and up to 17,547 mTorr of either reading may be water vapour,
// which boils off and freezes out without any port or pump.
var Jump = declare.Calculator{
	ID:       "reading-jump",
	Title:    "A reading that jumps",
	Group:    declare.GaugeAndSensor,
	Decision: "Can gas do that, or is it the plug, the cable or the display?",
	Inputs: []declare.Input{
		{ID: "before", Label: "Reading before", Symbol: "p₁", Kinds: []quantity.Kind{quantity.Pressure}, Unit: "mTorr", Units: []string{"Torr", "Pa", "mbar"},
			Min: "0 Pa", Max: "200 kPa", Required: true, Help: "The last reading before it moved."},
		{ID: "after", Label: "Reading after", Symbol: "p₂", Kinds: []quantity.Kind{quantity.Pressure}, Unit: "mTorr", Units: []string{"Torr", "Pa", "mbar"},
			Min: "0 Pa", Max: "200 kPa", Required: true, Help: "The next reading."},
		{ID: "interval", Label: "Time between them", Symbol: "t", Kinds: []quantity.Kind{quantity.Time}, Unit: "s", Units: []string{"min"},
			Min: "1 ms", Max: "10 d", UsualLow: "0.1 s", UsualHigh: "10 min", Required: true, Help: "From the log, or counted on a film of the display. The longer it may have been, the better for the gas."},
		{ID: "return", Label: "Reading after that", Symbol: "p₃", Kinds: []quantity.Kind{quantity.Pressure}, Unit: "mTorr", Units: []string{"Torr", "Pa", "mbar"},
			Min: "0 Pa", Max: "200 kPa", Help: "Where it went next. The way back decides most cases."},
		{ID: "return-interval", Label: "Time to that", Symbol: "t′", Kinds: []quantity.Kind{quantity.Time}, Unit: "s", Units: []string{"min"},
			Min: "1 ms", Max: "10 d", UsualLow: "0.1 s", UsualHigh: "10 min", Help: "Blank: as long as the first."},
		{ID: "volume", Label: "Chamber volume", Symbol: "V", Kinds: []quantity.Kind{quantity.Volume}, Unit: "L", Units: []string{"m³", "ft³", "gal"},
			Min: "1 mL", Max: "100 m³", UsualLow: "2 L", UsualHigh: "500 L", Accuracy: "5 %", Required: true, Help: "From the machine's card."},
		{ID: "speed", Label: "Pump speed", Symbol: "S", Kinds: []quantity.Kind{quantity.VolumeFlow}, Unit: "L/s", Units: []string{"m³/h", "cfm", "L/min"},
			Min: "0 L/s", Max: "100 m³/s", UsualLow: "0.2 L/s", UsualHigh: "50 L/s", Required: true, Help: "The nameplate's: more than the pump reaches through its hose."},
		{ID: "ultimate", Label: "Lowest pressure of the pump", Symbol: "p_u", Kinds: []quantity.Kind{quantity.Pressure}, Unit: "mTorr", Units: []string{"Pa", "mbar"},
			Min: "0 Pa", Max: "10 kPa", Default: "0 Pa", Help: "Blank: nought, which favours the gas."},
		{ID: "port", Label: "Largest port", Symbol: "D", Kinds: []quantity.Kind{quantity.Length}, Unit: "mm", Units: []string{"in"},
			Min: "0.01 mm", Max: "1 m", UsualLow: "2 mm", UsualHigh: "50 mm", Help: "Bore of the largest port that could open, such as the drain."},
		{ID: "ambient", Label: "Air pressure here", Symbol: "pₐ", Kinds: []quantity.Kind{quantity.Pressure}, Unit: "mbar", Units: []string{"inHg", "kPa", "Torr"},
			Min: "30 kPa", Max: "115 kPa", Help: "Blank: from the altitude, or a standard atmosphere."},
		{ID: "altitude", Label: "Altitude", Symbol: "z", Kinds: []quantity.Kind{quantity.Length}, Unit: "m", Units: []string{"ft"}, Min: "-500 m", Max: "9000 m", Negative: true,
			Help: "Used where no air pressure is given."},
		{ID: "discharge", Label: "Discharge coefficient", Symbol: "C", Kinds: []quantity.Kind{quantity.Ratio}, Unit: "",
			Min: "0.1", Max: "1", UsualLow: "0.6", UsualHigh: "0.85", Default: "0.8", Because: "as for a short hole, ± 0.1", Help: "0.6 for a sharp edge, near 1 for a rounded nozzle."},
		{ID: "gauge", Label: "Gauge accuracy", Symbol: "a", Kinds: []quantity.Kind{quantity.Ratio}, Unit: "%",
			Min: "0 %", Max: "100 %", UsualLow: "0.1 %", UsualHigh: "50 %", Default: thermalAccuracy, Because: thermalBecause, Help: "± of reading, the same at all readings."},
	},
	Influences: []declare.Influence{
		{ID: "scale", Text: "scale error of the gauge, common to its readings", U: vacuum.GaugeU},
		{ID: "edge", Text: "shape of the hole, ± 0.1 of its coefficient where none was given", U: edgeU},
	},
	Outputs: []declare.Output{
		{ID: "leak", Label: "Gas that the rise needs", Symbol: "Q", Kind: quantity.Throughput, Unit: "mbar·L/s", Also: []string{"Pa·m³/s", "Torr·L/s"}},
		{ID: "hole", Label: "Equivalent hole", Symbol: "d", Kind: quantity.Length, Unit: "mm", Also: []string{"in"}},
		{ID: "fall", Label: "Largest fall by the pump", Kind: quantity.Ratio, Unit: "%"},
		{ID: "lowest", Label: "Lowest reading by the pump", Symbol: "p_min", Kind: quantity.Pressure, Unit: "mTorr", UnitOf: "after", Also: []string{"Pa"}},
		{ID: "least", Label: "The same, vapour frozen out, gas cooled", Kind: quantity.Pressure, Unit: "mTorr", UnitOf: "after", Also: []string{"Pa"}},
		{ID: "time", Label: "Shortest time for the fall", Symbol: "t_min", Kind: quantity.Time, Unit: "s", Also: []string{"min"}},
		{ID: "state", Label: "State"},
	},
	Formula: []string{
		"Q = V (p₂ − p₁) / t",
		"d = √(4 A / π); A = Q / (C pₐ w), the flow choked all the way",
		"w = √(γ R T / M) (2 / (γ + 1))^((γ + 1) / (2 (γ − 1))); air at 20 °C, γ = 1.4",
		"p_min = p_u + (p − p_u) exp(−S t / V); p is the higher reading",
		"t_min = (V / S) ln((p − p_u) / (p′ − p_u)); p′ is the lower reading",
	},
	Sources: []declare.Source{
		{Title: "Choked flow of air", Where: "testdata/reference/06_choked_flow.csv, cases 06-O002 and 06-O006", Mark: declare.Computed},
		{Title: "Discharge coefficient 0.6 to 0.85", Where: "our notes of the trade, 2.4", Mark: declare.Computed},
		{Title: "1 mm, and what a port or a plug means", Where: "", Mark: declare.CommonPractice},
		{Title: "17,547 mTorr: water vapour over water at 20 °C", Where: "Murphy and Koop (2005), equation 10", Mark: declare.Computed},
	},
	Cautions: []string{
		"“Electrical” means plug, cable, tube or board. Pull the plug out before a cover comes off; live work is for a licensed electrician or qualified person.",
		"A display that lags by seconds makes gas still less likely, never more.",
	},
	Hazards: []string{"mains", "vacuum", "pane"},
	Limits: []string{
		"Above 2,000 mTorr a thermocouple gauge is crude: trust the verdict, not the figures.",
		"It says what gas can do, not what happened. A passing verdict does not clear the plug.",
		"A chamber warmer than 20 °C holds more vapour than is allowed for.",
	},
	Example: declare.Example{
		In: []declare.Pair{{Name: "before", Text: "211 mTorr"}, {Name: "after", Text: "47,300 mTorr"}, {Name: "interval", Text: "1 s"}, {Name: "return", Text: "209 mTorr"},
			{Name: "volume", Text: "62.0 L ± 2.5 L"}, {Name: "speed", Text: "10.4 m³/h"}, {Name: "ultimate", Text: "18 mTorr"}, {Name: "port", Text: "10 mm"}},
		Want: []declare.Pair{{Name: "leak", Text: "3,890 ± 790 mbar·L/s"}, {Name: "hole", Text: "5.55 ± 0.66 mm"}, {Name: "state", Text: "electrical or display"}},
		From: "our notes of the trade, case 5: 3,890 mbar·L/s, 5.5 mm, electrical; the hole with 201.26 mbar·L/s for each mm² (GNU units, case 06-O001) by hand; ±: √(0.2² + 0.0403²), and half of √(0.2² + 0.0403² + 0.125²)",
	},
	Study: jumpLegs,
	Eval:  jumpEval,
	Judge: jumpJudge,
}

const (
	// roomKelvin is the temperature at which gas is counted, 20 °C.
	roomKelvin = 293.15
	// mostVapour is the vapour pressure of water at 20 °C, Pa: 17,547 mTorr (Murphy and
	// Koop 2005, equation 10). What lies above it is air.
	mostVapour = 2339.4
	// pinhole is the hole that may open unseen at a seal, m: 1 mm (common practice). A
	// rise that needs no more is plausible.
	pinhole = 1e-3
)

func edgeU(x *declare.Numbers) float64 {
	if x.Written("discharge") {
		return 0
	}
	return 0.1 / uncertainty.K
}

// leg names the inputs of one step: two readings and the time between them.
type leg struct {
	name [3]string
	_    [0]func() // never compared: saves the code for it
}

// ways are the steps that there can be; the first is none.
var ways = [...]leg{
	{},
	{name: [3]string{"before", "after", "interval"}},
	{name: [3]string{"after", "return", "return-interval"}},
	{name: [3]string{"after", "return", "interval"}},
	{name: [3]string{"after", "before", "interval"}},
}

// marks stand in texts, in capitals, for the inputs of a leg.
var marks = [3]string{"FROM", "TO", "TIME"}

// named puts the names of the inputs where a text has marks.
func (l *leg) named(text string) string {
	for i := range marks {
		text = letters.Replace(text, marks[i], l.name[i])
	}
	return text
}

// legs says which step rises, if one does, and which falls. Without a step that falls the
// way back is asked for: how far, how fast could the reading return?
type legs struct {
	rise, fall int // of the ways
	falls      bool
	_          [0]func() // never compared: saves the code for it
}

func jumpLegs(x *declare.Numbers) any {
	l, after := &legs{}, x.In("after")
	up := after - x.In("before")
	l.step(1, up)
	if up == 0 {
		x.Refuse("after", "the readings are equal: nothing jumped")
	}
	if x.Has("return") {
		back, way := x.In("return")-after, 3
		if up*back > 0 {
			x.Refuse("return", "the reading went on in the same direction; ask for the two steps one by one")
		}
		if x.Has("return-interval") {
			way = 2
		}
		l.step(way, back)
	}
	if l.falls = l.fall > 0; !l.falls {
		l.fall = 4
	}
	return l
}

// step notes a step that rises or falls by some pressure.
func (l *legs) step(way int, by float64) {
	if by > 0 {
		l.rise = way
	} else if by < 0 {
		l.fall = way
	}
}

func jumpEval(x *declare.Numbers) {
	l, _ := x.Studied().(*legs)
	scale, volume := 1+x.Influence("scale"), x.In("volume")
	if rise := &ways[l.rise]; l.rise > 0 {
		leak := volume * (x.In(rise.name[1]) - x.In(rise.name[0])) * scale / x.In(rise.name[2])
		x.Set("leak", leak)
		if leak < 0 {
			leak = 0
		}
		x.Set("hole", vacuum.RoundHole(leak/flowOf(x)))
	}
	fall := &ways[l.fall]
	top, bottom, time := x.In(fall.name[0]), x.In(fall.name[1]), x.In(fall.name[2])
	ultimate, emptied := x.In("ultimate"), x.In("speed")*time/volume
	if ultimate > top {
		ultimate = top
	}
	lowest := ultimate + (top-ultimate)*math.Exp(-emptied)
	x.Set("lowest", lowest)
	x.Set("fall", 1-lowest/top)
	air := top - mostVapour/scale
	if air < 0 {
		air = 0
	}
	x.Set("least", air*math.Exp(-vacuum.AirGamma*emptied))
	if bottom > ultimate && emptied > 0 {
		x.Set("time", time/emptied*math.Log((top-ultimate)/(bottom-ultimate)))
	}
}

// flowOf is the choked flow of air through each m², Pa·m³/s.
func flowOf(x *declare.Numbers) float64 {
	return vacuum.ChokedThroughput(1, ambientOf(x), roomKelvin, vacuum.AirGamma, constant.Air, x.In("discharge")+x.Influence("edge"))
}

func ambientOf(x *declare.Numbers) float64 {
	if x.Has("ambient") {
		return x.In("ambient")
	}
	return vacuum.StandardAtmosphere(x.In("altitude")) // a blank altitude is 0
}
