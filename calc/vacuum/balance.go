package vacuum

import (
	"math"

	"blankoff/calc/constant"
	"blankoff/calc/declare"
	"blankoff/calc/quantity"
	"blankoff/calc/uncertainty"
	"blankoff/calc/vapour"
)

// Balance is the steady state of a pumped chamber: as much gas enters as the pump takes.
//
// The scale error of the gauge is one influence for the reading and for the blank-off
// pressure, since both are read on it; where two gauges were used, each reading can carry
// its own ± instead.
var Balance = declare.Calculator{
	ID:       "balance",
	Title:    "Balance of leak and pump",
	Group:    declare.Leaks,
	Decision: "What pressure does this leak hold against this pump, or what leak would explain this reading?",
	Inputs: []declare.Input{
		{ID: "leak", Label: "Leak", Symbol: "Q", Kinds: []quantity.Kind{quantity.Throughput}, Unit: "mbar·L/s", Units: []string{"Torr·L/s", "Pa·m³/s"},
			Min: "0 mbar·L/s", Max: "1e6 mbar·L/s", UsualLow: "1e-5 mbar·L/s", UsualHigh: "100 mbar·L/s", Rising: 1,
			Help: "Gives the pressure that it holds. Blank where only a reading is known."},
		{ID: "reading", Label: "Steady reading", Symbol: "p", Kinds: []quantity.Kind{quantity.Pressure}, Unit: "mTorr", Units: []string{"Pa", "mbar", "Torr", "micron"},
			Min: "0 Pa", Max: "200 kPa", UsualLow: "1 mTorr", UsualHigh: "20,000 mTorr",
			Help: "Gives the leak that would explain it. With the leak as well: what the leak leaves unexplained."},
		{ID: "speed", Label: "Net pumping speed", Symbol: "S", Kinds: []quantity.Kind{quantity.VolumeFlow}, Unit: "L/s", Units: []string{"m³/h", "cfm"},
			Min: "1e-6 L/s", Max: "1e5 L/s", UsualLow: "0.02 L/s", UsualHigh: "100 L/s", Accuracy: "10 %", Required: true,
			Help: "At the chamber, with its hose, at about this pressure: calculator net-speed. The nameplate is too much."},
		{ID: "blank-off", Label: "Blank-off pressure", Symbol: "p₀", Kinds: []quantity.Kind{quantity.Pressure}, Unit: "mTorr", Units: []string{"Pa", "mbar", "Torr", "micron"},
			Min: "0 Pa", Max: "100 kPa", UsualLow: "0.1 mTorr", UsualHigh: "200 mTorr", Required: true,
			Help: "The pump's own end pressure, capped and warm."},
		{ID: "gauge", Label: "Gauge accuracy", Symbol: "a", Kinds: []quantity.Kind{quantity.Ratio}, Unit: "%",
			Min: "0 %", Max: "100 %", UsualLow: "0.1 %", UsualHigh: "50 %", Default: "20 %", Because: "from memory for a thermocouple gauge without a certificate",
			Help: "± of reading, the same for both pressures."},
		{ID: "limit", Label: "Pressure to be reached", Symbol: "L", Kinds: []quantity.Kind{quantity.Pressure}, Unit: "mTorr", Units: []string{"Pa", "mbar", "Torr", "micron"},
			Min: "0 Pa", Max: "200 kPa", UsualLow: "1 mTorr", UsualHigh: "5,000 mTorr",
			Help: "With a leak: can it be reached in spite of the leak?"},
	},
	Influences: []declare.Influence{
		{ID: "scale", Text: "scale error of the gauge, the same at the reading and at the blank-off pressure", U: GaugeU},
	},
	Outputs: []declare.Output{
		{ID: "pressure", Label: "Steady pressure with this leak", Symbol: "p", Kind: quantity.Pressure, Unit: "mTorr", Also: []string{"Pa", "mbar"}},
		{ID: "explains", Label: "Leak that would explain the reading", Symbol: "Q", Kind: quantity.Throughput, Unit: "mbar·L/s", Also: []string{"Torr·L/s", "Pa·m³/s"}},
		{ID: "rest", Label: "Left unexplained by the leak given", Symbol: "ΔQ", Kind: quantity.Throughput, Unit: "mbar·L/s"},
		{ID: "water", Label: "Water vapour that would do the same", Symbol: "ṁ", Kind: quantity.MassFlow, Unit: "g/h"},
		{ID: "ice", Label: "Ice that would do the same", Symbol: "T", Kind: quantity.Temperature, Unit: "°C", Derived: true},
	},
	Formula: []string{
		"p = p₀ + Q / S",
		"Q = S (p − p₀)",
		"ṁ = Q M / (R T); M = 18.015268 g/mol, T = 293.15 K",
		"p = p_ice(T); vapour pressure over ice, solved for its temperature",
	},
	Sources: []declare.Source{
		{Title: "Steady state: gas load = net speed × (pressure − end pressure)", Where: "O'Hanlon, A User's Guide to Vacuum Technology, as our notes of the trade cite it", Mark: declare.Published},
		{Title: "Vapour pressure over ice", Where: "Murphy and Koop, Q. J. R. Meteorol. Soc. 131 (2005), equation 7", Mark: declare.Published},
		{Title: "20 % for a gauge without a certificate", Mark: declare.Memory},
		{Title: "10 % for a net speed without a ±", Mark: declare.Memory},
	},
	Limits: []string{
		"The net speed is taken as constant. It falls with the pressure, because the hose lets less through: use its value at about this pressure.",
		"A speed that was worked out as gas load over pressure already holds the blank-off pressure: enter 0 mTorr beside it.",
		"It says how much gas there is, not where it comes from.",
	},
	Cautions: []string{neverPressurise},
	Hazards:  []string{"vacuum", "pane"},
	Example: declare.Example{
		In:   []declare.Pair{{Name: "leak", Text: "0.02 mbar·L/s"}, {Name: "speed", Text: "1.5 L/s"}, {Name: "blank-off", Text: "0.005 mbar"}, {Name: "limit", Text: "350 mTorr"}},
		Want: []declare.Pair{{Name: "pressure", Text: "13.8 ± 1.3 mTorr"}},
		From: "GNU units 2.22, case 04-O014 of testdata/reference (0.018333 mbar); ± by hand: √((10 % of 0.013333)² + (20 % of 0.005)²) = 0.00167 mbar",
	},
	Study: balanceStudy,
	Eval:  balanceEval,
	Judge: balanceJudge,
}

// balanceStudy refuses what leaves nothing to compute, before any entry is varied.
func balanceStudy(x *declare.Numbers) any {
	read := x.Has("reading")
	switch {
	case !read && !x.Has("leak"):
		x.Refuse("leak", "give a leak, to get the pressure that it holds, or a steady reading, to get the leak that would explain it")
	case read && x.In("reading") <= x.In("blank-off")*(1+tie):
		x.Refuse("reading", "the reading is not above the blank-off pressure, so there is no gas load to explain: one of the two is wrong. Read both on the same gauge, with the pump warm")
	}
	return nil
}

// vapourKelvin is the temperature at which a flow of vapour is counted: a usual room.
const vapourKelvin = 293.15

func balanceEval(x *declare.Numbers) {
	scale, speed, leak := 1+x.Influence("scale"), x.In("speed"), x.In("leak")
	least, given := x.In("blank-off")*scale, x.Has("leak")
	if given {
		x.Set("pressure", least+leak/speed)
	}
	if !x.Has("reading") {
		return
	}
	load := speed * (x.In("reading")*scale - least)
	x.Set("explains", load)
	x.Set("water", load*constant.Water/(constant.Gas*vapourKelvin))
	if given {
		x.Set("rest", load-leak)
	}
}

func balanceJudge(r *declare.Result) {
	least, speed, given := r.In("blank-off"), r.In("speed"), r.Has("leak")
	if given {
		r.Work("p = p₀ + Q / S = {blank-off} + {in:leak} / {speed} = {pressure}")
		r.Work(declare.With(4, "in SI units: [Pa] + [Pa·m³/s] / [m³/s]", least, r.In("leak"), speed))
	}
	if r.Has("reading") {
		p := r.In("reading")
		r.Work("Q = S (p − p₀) = {speed} × ({reading} − {blank-off}) = {explains}")
		r.Work(declare.With(4, "in SI units: [m³/s] × [Pa]", speed, p-least))
		orVapour(r, p)
		if given {
			explained(r)
		}
	}
	if !r.Has("limit") {
		return
	}
	if !given {
		r.Caution("The pressure to be reached was not used: it is compared with what a given leak holds.")
		return
	}
	p, u := r.Out("pressure")
	over := "With this leak the chamber settles at {pressure}, over {limit}, uncertainty allowed for. Mend the leak, or the pump must take more."
	if least > r.In("limit") {
		over = "The blank-off pressure alone, {blank-off}, is over {limit}, whatever the leak. See to the pump first."
	}
	r.Decide(uncertainty.AtMost(p, uncertainty.K*u, r.In("limit")),
		"With this leak the chamber settles at {pressure}, not over {limit}, uncertainty allowed for. What keeps it higher is not this leak alone.",
		over,
		"With this leak the chamber settles at {pressure}, which may lie on either side of {limit}. Pumping until the reading stands still would settle it.")
}

// waterInRoom is the vapour pressure of water at 20 °C, Pa (17,547 mTorr; our notes of the trade,
// computed there from Murphy and Koop): more than that is no vapour in such a machine.
const waterInRoom = 2339.4

// thermalInVapour is by how much a thermal gauge reads water vapour too high: the middle
// of 1.5 to 1.6 (our notes of the trade 2.9, computed there).
const thermalInVapour = 1.55

// orVapour names the other explanations of a steady reading. That it cannot be vapour is
// said only of what the gauge's accuracy leaves above the vapour pressure.
func orVapour(r *declare.Result, p float64) {
	if p-math.Hypot(p*r.In("gauge"), uncertainty.K*r.Typed("reading").U) > waterInRoom {
		r.Caution("Above {17,547 mTorr} it is not water at {20 °C} or colder: this is air, or the gauge is wrong. A thermal gauge is not true there.")
		return
	}
	r.Caution("A leak is one explanation. {water} of water coming off, all through the pump, does the same; a cold trap takes more besides. Dry the chamber, cool the trap, pump 30 min more: a leak stays, vapour shrinks.")
	if p < vapour.TriplePointPressure && p > 1e-3 {
		r.Set("ice", vapour.IceTemperature(p))
		r.Caution(r.With(2, "Ice at {ice} holds this reading alone; at about [°C] where a thermal gauge shows it, as that reads vapour 1.5 to 1.6 times too high.", vapour.IceTemperature(p/thermalInVapour)))
	}
	if load, u := r.Out("explains"); load < uncertainty.K*u {
		r.Caution("Reading and blank-off pressure are too close together: the leak is uncertain by more than itself.")
	}
}

// explained compares the leak given with the one that the reading asks for.
func explained(r *declare.Result) {
	rest, u := r.Out("rest")
	u *= uncertainty.K
	text := "The leak given may be the whole explanation: what is left lies within the uncertainty."
	if rest > u {
		text = "The leak given holds {pressure} only. {rest} more comes from elsewhere: vapour, another leak, or a lower net speed; or the gauge reads high."
	} else if rest < -u {
		text = "The leak given would hold {pressure}, above the reading: the leak, the net speed or the gauge is wrong."
	}
	r.Caution(text)
}
