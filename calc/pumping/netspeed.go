package pumping

import (
	"math"

	"blankoff/calc/declare"
	"blankoff/calc/quantity"
)

// NetSpeed is what is left of the pump's speed at the chamber.
//
// A hose's conductance depends on the mean pressure in it, which depends on the gas flow,
// which depends on the conductance. Taking the chamber's pressure throughout, in one pass,
// promises a third too much (our notes of the trade, 2.6). Here the pump's inlet pressure is varied
// until the chamber that goes with it is the one asked for.
var NetSpeed = declare.Calculator{
	ID:       "net-speed",
	Title:    "Net speed at the chamber",
	Group:    declare.PumpAndLines,
	Decision: "How much of the pump's speed is left at the chamber, and which part of the line takes the rest?",
	Inputs: []declare.Input{speedInput, curveInput, blankOffInput, lineInput,
		{ID: "pressure", Label: "Chamber pressure", Symbol: "p", Kinds: []quantity.Kind{quantity.Pressure}, Unit: "mTorr", Units: pressureUnits,
			Min: "1e-12 Pa", Max: "200 kPa", UsualLow: "10 mTorr", UsualHigh: "5,000 mTorr", Required: true, Help: "Where the speed is wanted."},
	},
	Influences: chainInfluences,
	Outputs: []declare.Output{
		{ID: "net", Label: "Net speed", Symbol: "Sₙ", Kind: quantity.VolumeFlow, Unit: "L/s", Also: []string{"m³/h", "cfm"}},
		{ID: "left", Label: "Share of the pump's speed", Kind: quantity.Ratio, Unit: "%"},
		{ID: "inlet", Label: "Pressure at the pump", Symbol: "q", Kind: quantity.Pressure, Unit: "mTorr", UnitOf: "pressure"},
		{ID: "flow", Label: "Gas flow", Symbol: "Q", Kind: quantity.Throughput, Unit: "mbar·L/s"},
		{ID: "parts", Label: "Where it is lost", Columns: []declare.Column{
			{ID: "part", Label: "Part"},
			{ID: "before", Label: "Pressure before", Kinds: []quantity.Kind{quantity.Pressure}, Unit: "mTorr"},
			{ID: "after", Label: "Pressure after", Kinds: []quantity.Kind{quantity.Pressure}, Unit: "mTorr"},
			{ID: "conductance", Label: "Conductance", Kinds: []quantity.Kind{quantity.VolumeFlow}, Unit: "L/s"},
			{ID: "lost", Label: "Share lost", Kinds: []quantity.Kind{quantity.Ratio}, Unit: "%"}}},
	},
	Formula: []string{
		"Q = S (q − pᵤ)",
		"Q = C (p₁ − p₂); for each part, C at its mean pressure (p₁ + p₂) / 2",
		"Sₙ = Q / p",
		"l = (p₁ − p₂) / p; the share of the pump's speed that a part takes",
	},
	Sources: []declare.Source{
		{Title: "Knudsen's formula for each part at its own mean pressure", Where: "Leybold, Fundamentals of Vacuum Technology, eq. 1.26", Mark: declare.Published},
		{Title: "± 10 % of a pump's speed, ± 20 % of its blank-off pressure, ± 15 % of a hose, Blasius' law of turbulent friction", Where: "", Mark: declare.Memory},
	},
	Cautions: []string{
		"Below {200 mTorr} the hose usually rules, not the pump: never lengthen or narrow it.",
		"Reckoned for air at {20 °C}. Water vapour meets other resistance, and a cold trap takes it before the pump does.",
	},
	Hazards: []string{"vacuum"},
	Limits: []string{
		"Elbows count as 1.33 bores of length each. Filters and valves are not tubes: enter one as the tube of its narrowest bore.",
		"Where the flow is turbulent or choked its own resistance is taken, not Knudsen's.",
	},
	Example: declare.Example{
		In: []declare.Pair{{Name: "speed", Text: "5.1 m³/h"}, {Name: "blank-off", Text: "25 mTorr"}, {Name: "line", Text: "part,bore mm,length m\nhose,12,1.20"},
			{Name: "pressure", Text: "200 mTorr"}},
		Want: []declare.Pair{{Name: "net", Text: "0.356 ± 0.043 L/s"}, {Name: "inlet", Text: "75.2 ± 8.2 mTorr"}},
		From: "our notes of the trade, 2.6, computed: 0.36 L/s; figures and ± by a separate program that halves an interval",
	},
	Study: netStudy,
	Eval:  netEval,
	Judge: netJudge,
}

func netStudy(x *declare.Numbers) any {
	c := &chain{}
	c.study(x)
	return c
}

func netEval(x *declare.Numbers) {
	c, _ := x.Studied().(*chain)
	l := c.line(x)
	p := x.In("pressure")
	if l == nil {
		return
	}
	if p-l.Pump.Ultimate <= 1e-9*p {
		x.Refuse("pressure", "the chamber is at or below the blank-off pressure, where this pump moves nothing; give a higher one")
		return
	}
	q, flow := l.At(p)
	x.Set("net", flow/p)
	x.Set("left", flow/p/l.Pump.most())
	x.Set("inlet", q)
	x.Set("flow", flow)
}

func netJudge(r *declare.Result) {
	c, _ := r.Studied().(*chain)
	l := c.line(r.Numbers)
	q, _ := r.Out("inlet")
	flow, _ := r.Out("flow")
	p := r.In("pressure")
	l.chamber(q)
	// The flow counts in the unit of the pressures: in the reader's unit of a leak rate no line could be redone by hand.
	load := declare.With(4, "["+r.Unit("mTorr").Symbol+"·L/s]", flow)
	work(r, "Q = S (q − pᵤ) = [L/s] × ([mTorr] − {blank-off}) = #", load, l.Pump.Speed(q), q)
	parts, tubes := c.parts, l.tubes[:len(c.parts)]
	for i := len(parts) - 1; i >= 0; i-- {
		u, name := &tubes[i], parts[i].Name
		work(r, "#: p₁ = p₂ + Q/C = [mTorr] + "+load+" / [L/s] = [mTorr]", name, u.low, flow/(u.high-u.low), u.high)
		if flow > u.laminar/2 {
			caution(r, "The flow is turbulent, or near it, in #.", name)
		}
	}
	own := l.Pump.missing(q) / p
	worst, name := own, "the pump itself, near its blank-off"
	for i := 0; i <= len(parts); i++ {
		part, high, low, lost := "pump", q, math.NaN(), own
		if i < len(parts) {
			u := &tubes[i]
			part, high, low = parts[i].Name, u.high, u.low
			lost = (high - low) / p
			if lost > worst {
				worst, name = lost, part
			}
		}
		addRow(r, "parts", part, high, low, flow/(high-low), lost)
	}
	r.Work("Sₙ = Q / p = {net}")
	c.cautions(r)
	if flow < p*l.Pump.most()/2 {
		caution(r, "The largest loss, [%], is in #.", name, worst)
	}
}
