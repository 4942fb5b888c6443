package load

import (
	"math"

	"blankoff/calc/constant"
	"blankoff/calc/declare"
	"blankoff/calc/quantity"
	"blankoff/calc/vacuum"
	"blankoff/calc/vapour"
)

// DryingTime is a lower bound on the time in which a batch can dry: heat must reach the
// ice, and its vapour must reach the trap and stay there. Whichever is slower limits.
var DryingTime = declare.Calculator{
	ID:       "drying-time",
	Title:    "Shortest drying time",
	Group:    declare.TemperaturePowerFitting,
	Decision: "How long must this batch take at the least, and is it heat or vapour that limits it?",
	Inputs: []declare.Input{
		{ID: "water", Label: "Water to remove", Symbol: "w", Kinds: []quantity.Kind{quantity.Mass}, Unit: "kg", Units: []string{"g", "lb"},
			Min: "1 g", Max: "100000 kg", UsualLow: "0.1 kg", UsualHigh: "100 kg", Accuracy: "5 %", Required: true, Rising: 1, Help: "From the water of the batch."},
		{ID: "power", Label: "Heat that reaches the product", Symbol: "P", Kinds: []quantity.Kind{quantity.Power}, Unit: "W", Units: []string{"kW"},
			Min: "0.1 W", Max: "10000 kW", UsualLow: "10 W", UsualHigh: "20 kW", Help: "Mean power of the shelf heaters, and what the room adds. Blank: heat does not limit."},
		{ID: "share", Label: "Share of it used", Symbol: "η", Kinds: []quantity.Kind{quantity.Ratio}, Unit: "%", Min: "1 %", Max: "100 %",
			Default: "100 %", Because: "as a lower bound asks", Help: "What does not warm trays and walls. Less makes the time longer."},
		{ID: "ice", Label: "Temperature of the ice in the product", Symbol: "T", Kinds: []quantity.Kind{quantity.Temperature}, Unit: "°C", Units: []string{"°F", "K"},
			Min: "-80 °C", Max: "273.16 K", UsualLow: "-50 °C", UsualHigh: "-5 °C", Default: "-20 °C", Because: "as usual for food, from memory", Negative: true, Help: "It sets the heat, and the most pressure that the vapour can have."},
		{ID: "heat", Label: "Heat of sublimation", Symbol: "L", Kinds: []quantity.Kind{quantity.SpecificEnergy}, Unit: "kJ/kg", Units: []string{"J/kg"},
			Min: "1000 kJ/kg", Max: "5000 kJ/kg", UsualLow: "2800 kJ/kg", UsualHigh: "2850 kJ/kg", Help: "Blank: that of ice at its temperature."},
		{ID: "trap", Label: "Ice that the trap makes", Symbol: "ṁ_t", Kinds: []quantity.Kind{quantity.MassFlow}, Unit: "g/h", Units: []string{"kg/d", "kg/h"},
			Min: "0.01 g/h", Max: "100000 kg/h", UsualLow: "10 g/h", UsualHigh: "50 kg/h", Help: "Rating of the condenser. Blank: the trap does not limit."},
		{ID: "speed", Label: "Net speed for vapour", Symbol: "S", Kinds: []quantity.Kind{quantity.VolumeFlow}, Unit: "L/s", Units: []string{"m³/h"},
			Min: "0.001 L/s", Max: "1000 m³/s", UsualLow: "1 L/s", UsualHigh: "10 m³/s", Help: "From the product to the trap, where it is known."},
		{ID: "port", Label: "Narrowest port", Symbol: "D", Kinds: []quantity.Kind{quantity.Length}, Unit: "mm", Units: []string{"cm", "in"},
			Min: "0.1 mm", Max: "5 m", UsualLow: "5 mm", UsualHigh: "500 mm", Help: "Bore between product and trap, taken as choked: it passes no more than at the speed of sound."},
		{ID: "pressure", Label: "Vapour pressure before the port", Symbol: "p", Kinds: []quantity.Kind{quantity.Pressure}, Unit: "mTorr", Units: []string{"Pa", "mbar", "Torr"},
			Min: "0.01 Pa", Max: "611 Pa", UsualLow: "10 mTorr", UsualHigh: "4,500 mTorr", Help: "True pressure. Blank: that of the ice, the most it can be."},
		{ID: "planned", Label: "Planned time", Symbol: "t_p", Kinds: []quantity.Kind{quantity.Time}, Unit: "h", Units: []string{"d", "min"},
			Min: "1 min", Max: "1000 d", UsualLow: "1 h", UsualHigh: "10 d", Help: "To hold the bound against, and to see what heat it asks for."},
	},
	Outputs: []declare.Output{
		{ID: "time", Label: "Not before", Symbol: "t", Kind: quantity.Time, Unit: "h", Also: []string{"d"}},
		{ID: "rate", Label: "Mean rate", Symbol: "ṁ", Kind: quantity.MassFlow, Unit: "g/h"},
		{ID: "throughput", Label: "The same as vapour of 20 °C", Symbol: "Q", Kind: quantity.Throughput, Unit: "mbar·L/s", Also: []string{"Torr·L/s"}},
		{ID: "by-heat", Label: "By heat alone", Symbol: "t_h", Kind: quantity.Time, Unit: "h"},
		{ID: "by-vapour", Label: "By vapour alone", Symbol: "t_v", Kind: quantity.Time, Unit: "h"},
		{ID: "needed", Label: "Heat that the planned time needs", Symbol: "P_p", Kind: quantity.Power, Unit: "W"},
		{ID: "limits", Label: "What limits it"},
	},
	Formula: []string{
		"t_h = w L / (η P); L is the heat of sublimation at T, where none is given",
		"t_v = w / ṁ_v; ṁ_v is the least of ṁ_t, p S M / (R T) and the choked flow of the port",
		"t = max(t_h, t_v)",
		"P_p = w L / (η t_p)",
		"ṁ = w / t; over the planned time where one is given",
	},
	Sources: []declare.Source{
		{Title: "Heat of sublimation", Where: "Murphy and Koop, Q. J. R. Meteorol. Soc. 131 (2005), equation 5, from memory; checked against IAPWS-95 in testdata/reference/08_latent_heat.csv", Mark: declare.Computed},
		{Title: "Vapour pressure of ice", Where: "Murphy and Koop (2005), equation 7", Mark: declare.Published},
		{Title: "Choked flow, ratio of specific heats 1.33", Where: "isentropic flow, as in testdata/reference/06_choked_flow.csv", Mark: declare.Computed},
	},
	Cautions: []string{"It is a lower bound. As the dry layer grows, heat and vapour pass it more slowly; a real run takes longer, often twice or more (common practice, no source). It never says that the batch is dry."},
	Hazards:  []string{"food", "cold"},
	Limits: []string{
		"Only water that was ice is counted; the last bound water needs heat and time of its own.",
		"Heat that nobody entered, from the room through pane and walls, comes on top and can beat the bound.",
	},
	Example: declare.Example{
		In:   []declare.Pair{{Name: "water", Text: "3.6 kg ± 0 %"}, {Name: "power", Text: "142 W"}, {Name: "heat", Text: "2,834 kJ/kg"}, {Name: "planned", Text: "20 h"}},
		Want: []declare.Pair{{Name: "rate", Text: "180 g/h"}, {Name: "throughput", Text: "67.65 mbar·L/s"}, {Name: "needed", Text: "141.7 W"}, {Name: "limits", Text: "heat"}},
		From: "our notes of the trade, 2.2: 3.6 kg in 20 h is 180 g/h, 68 mbar·L/s, and needs 142 W at 2,834 kJ/kg; digits by GNU units 2.22",
	},
	Eval:  dryingEval,
	Judge: dryingJudge,
}

const (
	vapourGamma = 1.33   // ratio of specific heats of water vapour (our notes of the trade, 2.9)
	roomKelvin  = 293.15 // 20 °C, at which throughputs are counted

	endless = math.MaxFloat64 // kg/s, of a limit that is not there
)

// vapourLimits are the mass flows in kg/s that the three limits allow; endless where one
// was not given.
func vapourLimits(x *declare.Numbers) (trap, speed, port float64) {
	trap, speed, port = x.Or("trap", endless), endless, endless
	t, p := x.In("ice"), pressureOf(x)
	if x.Has("speed") {
		speed = vapourRate(p*x.In("speed"), t)
	}
	if x.Has("port") {
		port = vapourRate(vacuum.ChokedThroughput(vacuum.RoundArea(x.In("port")), p, t, vapourGamma, constant.Water, 1), t)
	}
	return trap, speed, port
}

func pressureOf(x *declare.Numbers) float64 {
	return x.Or("pressure", vapour.IcePressure(x.In("ice")))
}

func heatOf(x *declare.Numbers) float64 {
	return x.Or("heat", vapour.SublimationHeat(x.In("ice")))
}

func dryingEval(x *declare.Numbers) {
	water := x.In("water")
	heat, share := water*heatOf(x), x.In("share")
	trap, speed, port := vapourLimits(x)
	bound := 0.0
	if x.Has("power") {
		bound = heat / (share * x.In("power"))
		x.Set("by-heat", bound)
	}
	if flow := min(trap, speed, port); flow != endless {
		x.Set("by-vapour", water/flow)
		if water/flow > bound {
			bound = water / flow
		}
	}
	if bound != 0 {
		x.Set("time", bound)
	}
	if x.Has("planned") {
		bound = x.In("planned")
		x.Set("needed", heat/(share*bound))
	}
	if bound == 0 {
		x.Refuse("power", "give the heat, a limit of the vapour (trap, speed or port) or a planned time: from the water alone no time follows")
		return
	}
	x.Set("rate", water/bound)
	x.Set("throughput", vapour.Volume(water/bound, roomKelvin, 1))
}
