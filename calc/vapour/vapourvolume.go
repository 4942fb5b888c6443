package vapour

import (
	"blankoff/calc/declare"
	"blankoff/calc/quantity"
)

// VapourVolume is what a mass of water becomes as vapour.
var VapourVolume = declare.Calculator{
	ID:       "vapour-volume",
	Title:    "Volume of water vapour",
	Group:    declare.PressureAndGas,
	Decision: "How much gas does this water become, and can a pump or a trap take it?",
	Inputs: []declare.Input{
		{ID: "mass", Label: "Water or ice", Symbol: "m", Kinds: []quantity.Kind{quantity.Mass}, Unit: "g", Units: []string{"kg", "mg", "lb", "oz"},
			Min: "0 g", Max: "10,000 kg", UsualLow: "1 mg", UsualHigh: "100 kg", Required: true, Rising: 1, Help: "What evaporates."},
		{ID: "pressure", Label: "Pressure", Symbol: "p", Kinds: []quantity.Kind{quantity.Pressure}, Unit: "mTorr", Units: []string{"Pa", "mbar", "Torr", "micron"},
			Min: "0.001 Pa", Max: "200 kPa", UsualLow: "1 mTorr", UsualHigh: "110 kPa", Required: true, Rising: -1, Help: "True pressure where the vapour is. A thermal gauge reads 1.5 to 2 times high in it."},
		{ID: "temperature", Label: "Temperature of the vapour", Symbol: "T", Kinds: []quantity.Kind{quantity.Temperature}, Unit: "°C", Units: []string{"°F", "K"},
			Min: "-100 °C", Max: "300 °C", UsualLow: "-60 °C", UsualHigh: "120 °C", Default: "20 °C", Because: "as in a usual room", Negative: true, Rising: 1,
			Help: "Vapour warms on its way to the pump."},
		{ID: "time", Label: "Time", Symbol: "t", Kinds: []quantity.Kind{quantity.Time}, Unit: "h", Units: []string{"min", "s", "d"},
			Min: "1 s", Max: "1000 d", UsualLow: "1 min", UsualHigh: "10 d", Help: "In which it evaporates. Blank: only the volume."},
	},
	Outputs: []declare.Output{
		{ID: "volume", Label: "Volume as vapour", Symbol: "V", Kind: quantity.Volume, Unit: "m³", Also: []string{"L"}},
		{ID: "throughput", Label: "Throughput", Symbol: "Q", Kind: quantity.Throughput, Unit: "mbar·L/s", Also: []string{"Torr·L/s", "Pa·m³/s"}},
		{ID: "flow", Label: "Pumping speed that it takes", Symbol: "S", Kind: quantity.VolumeFlow, Unit: "L/s", Also: []string{"m³/h"}},
		{ID: "rate", Label: "Mass flow", Symbol: "ṁ", Kind: quantity.MassFlow, Unit: "g/h"},
	},
	Formula: []string{
		"V = m R T / (M p); M = 18.015268 g/mol, R = 8.314 J/(mol·K)",
		"Q = p V / t",
		"S = V / t",
		"ṁ = m / t",
	},
	Sources: []declare.Source{
		{Title: "Ideal gas, R = 8.314462618 J/(mol·K)", Where: "SI Brochure, 9th edition; exact", Mark: declare.Published},
		{Title: "Molar mass of water 18.015268 g/mol", Where: "IAPWS, as in testdata/reference/08_latent_heat.csv", Mark: declare.Published},
	},
	Cautions: []string{"The trap, not the pump, takes the water: compare the speed with that of a small pump, 1 to 3 L/s."},
	Hazards:  []string{"vacuum"},
	Limits:   []string{"Ideal gas: within 0.2 % at any pressure where ice can be, too much by 1.6 % where water boils at one atmosphere, by 2.5 % at two."},
	Example: declare.Example{
		In:   []declare.Pair{{Name: "mass", Text: "100 g"}, {Name: "pressure", Text: "13.332237 Pa"}, {Name: "temperature", Text: "-20 °C"}, {Name: "time", Text: "60 min"}},
		Want: []declare.Pair{{Name: "flow", Text: "243.4254 L/s"}, {Name: "rate", Text: "100 g/h"}},
		From: "GNU units 2.22, case 08-O019 of testdata/reference",
	},
	Eval:  volumeEval,
	Judge: volumeJudge,
}

func volumeEval(x *declare.Numbers) {
	mass, pressure := x.In("mass"), x.In("pressure")
	volume := Volume(mass, x.In("temperature"), pressure)
	x.Set("volume", volume)
	if x.Has("time") {
		t := x.In("time")
		x.Set("throughput", pressure*volume/t)
		x.Set("flow", volume/t)
		x.Set("rate", mass/t)
	}
}

func volumeJudge(r *declare.Result) {
	t, pressure := r.In("temperature"), r.In("pressure")
	// With R in J/(mol·K) the line stays in SI units; another one is added.
	result := "{volume}"
	if r.Unit("m³").Symbol != "m³" {
		volume, _ := r.Out("volume")
		result = declare.With(4, "[m³] = {volume}", volume)
	}
	r.Work(declare.With(4, "V = m R T / (M p) = [kg] × 8.314 J/(mol·K) × [K] / (0.018015 kg/mol × [Pa]) = ", r.In("mass"), t, pressure) + result)
	if r.Has("time") {
		r.Work("S = V / t = {volume} / {time} = {flow}; Q = p S = {pressure} × {flow} = {throughput}; ṁ = {mass} / {time} = {rate}")
	}
	if most := Saturation(t); pressure > most*1.001 {
		r.Caution(r.With(4, "There is no vapour of {pressure} at {temperature}: above ["+r.Typed("pressure").Unit.Symbol+"] it turns into water or ice. Check pressure and temperature.", most))
	}
}
