package load

import (
	"blankoff/calc/constant"
	"blankoff/calc/declare"
	"blankoff/calc/quantity"
	"blankoff/calc/uncertainty"
)

// Energy is what a test, a run or a defrost takes from the mains.
var Energy = declare.Calculator{
	ID:       "energy",
	Title:    "Energy and cost of a run",
	Group:    declare.TemperaturePowerFitting,
	Decision: "What does this test, run or defrost cost in electricity?",
	Inputs: []declare.Input{
		{ID: "power", Label: "Power while running", Symbol: "P", Kinds: []quantity.Kind{quantity.Power}, Unit: "W", Units: []string{"kW"},
			Min: "0 W", Max: "10000 kW", UsualLow: "50 W", UsualHigh: "20 kW", Accuracy: "10 %", Rising: 1, Help: "By a plug-in meter, a mean over the run. A nameplate says more than is used."},
		{ID: "time", Label: "Running time", Symbol: "t", Kinds: []quantity.Kind{quantity.Time}, Unit: "h", Units: []string{"min", "d"},
			Min: "0 s", Max: "10000 d", UsualLow: "1 min", UsualHigh: "10 d", Rising: 1, Help: "Warming up included."},
		{ID: "price", Label: "Price of a kWh", Symbol: "c", Kinds: []quantity.Kind{quantity.Ratio}, Unit: "",
			Min: "0", Max: "1e6", UsualLow: "0.01", UsualHigh: "100", Help: "A plain number in your own money, such as 0.30."},
		{ID: "ice", Label: "Ice to melt", Symbol: "m", Kinds: []quantity.Kind{quantity.Mass}, Unit: "kg", Units: []string{"g", "lb"},
			Min: "0 g", Max: "100000 kg", UsualLow: "10 g", UsualHigh: "100 kg", Rising: 1, Help: "What a heater melts. Ice that the room's air melts costs nothing: leave it out."},
		{ID: "temperature", Label: "Temperature of the ice", Symbol: "T", Kinds: []quantity.Kind{quantity.Temperature}, Unit: "°C", Units: []string{"°F", "K"},
			Min: "-100 °C", Max: "0 °C", UsualLow: "-80 °C", UsualHigh: "0 °C", Negative: true, Help: "Where the thaw begins."},
		{ID: "losses", Label: "Heater's energy over the ice's", Symbol: "f", Kinds: []quantity.Kind{quantity.Ratio}, Unit: "",
			Min: "1", Max: "10", UsualLow: "1", UsualHigh: "2", Default: "1.65", Help: "Metal and air are warmed too: 1.3 to 2. 1 counts the ice alone."},
	},
	Influences: []declare.Influence{{ID: "lost", Text: "losses of a thaw, anywhere from 1.3 to 2", U: lossesU}},
	Outputs: []declare.Output{
		{ID: "energy", Label: "Energy from the mains", Symbol: "E", Kind: quantity.Energy, Unit: "kWh", Also: []string{"MJ"}},
		{ID: "cost", Label: "Cost", Symbol: "C", Kind: quantity.Ratio},
		{ID: "melt", Label: "Heat that the ice takes", Symbol: "H", Kind: quantity.Energy, Unit: "kWh", Also: []string{"MJ"}},
	},
	Formula: []string{
		"H = m (c_i (T₀ − T) + L); c_i = 2.05 kJ/(kg·K), L = 334 kJ/kg, T₀ = 0 °C",
		"E = P t + f H",
		"C = c E; E in kWh",
	},
	Sources: []declare.Source{
		{Title: "Heat of ice: 2.05 kJ/(kg·K) and 334 kJ/kg", Where: "our notes of the trade, section 7, no. 30", Mark: declare.Memory},
		{Title: "Losses of a thaw, 1.3 to 2 times", Where: "our notes of the trade, section 7, no. 30", Mark: declare.CommonPractice},
	},
	Cautions: []string{"An estimate for a quote: a compressor's power changes with its room and its load."},
	Hazards:  []string{},
	Limits:   []string{"The ice ends as water at 0 °C; warming that water is not counted, nor is any fixed charge of the supplier."},
	Example: declare.Example{
		In:   []declare.Pair{{Name: "ice", Text: "3.6 kg"}, {Name: "temperature", Text: "-34 °C"}, {Name: "losses", Text: "1"}, {Name: "price", Text: "0.30"}},
		Want: []declare.Pair{{Name: "melt", Text: "0.4037 kWh"}, {Name: "energy", Text: "0.4037 kWh"}, {Name: "cost", Text: "0.1211"}},
		From: "our notes of the trade, section 7: 1.45 MJ = 0.40 kWh; digits by GNU units 2.22",
	},
	Eval:  energyEval,
	Judge: energyJudge,
}

func lossesU(x *declare.Numbers) float64 {
	if x.Written("losses") || !x.Has("ice") {
		return 0
	}
	return uncertainty.FromHalfWidth(0.35)
}

const kilowattHour = 3.6e6 // J

func energyEval(x *declare.Numbers) {
	power, time, ice, cold := x.Has("power"), x.Has("time"), x.Has("ice"), x.Has("temperature")
	field, text := "", ""
	switch {
	case power && !time:
		field, text = "time", "how long does it run? Write the time, such as 2 h"
	case time && !power:
		field, text = "power", "what power does it take while it runs? Write it, such as 900 W"
	case ice && !cold:
		field, text = "temperature", "how cold is the ice? Write its temperature, such as {-34 °C}"
	case cold && !ice:
		field, text = "ice", "how much ice is to be melted? Write its mass, or leave its temperature blank"
	case !power && !ice:
		field, text = "power", "give power and time of a run, or ice to melt, or both"
	}
	if field != "" {
		x.Refuse(field, text)
	}
	energy := x.In("power") * x.In("time") // nought where they are not given
	if ice {
		melt := MeltHeat(x.In("ice"), x.In("temperature"))
		x.Set("melt", melt)
		energy += melt * (x.In("losses") + x.Influence("lost"))
	}
	x.Set("energy", energy)
	if x.Has("price") {
		x.Set("cost", x.In("price")*energy/kilowattHour)
	}
}

func energyJudge(r *declare.Result) {
	line := "E = P t = {power} × {time} = {energy}"
	if r.Has("ice") {
		// [K] stays a kelvin: the heat is of a kilogram and a kelvin.
		r.WorkWith(4, "H = m (c_i (T₀ − T) + L) = {in:ice} × (2.05 kJ/(kg·K) × [K] + 334 kJ/kg) = {melt}", constant.ZeroCelsius-r.In("temperature"))
		if !r.Written("losses") {
			r.Caution("Not given, so taken as usual: losses of the thaw from 1.3 to 2 times (common practice, no source).")
		}
		line = "E = f H = {losses} × {melt} = {energy}"
		if r.Has("power") {
			line = "E = P t + f H = {power} × {time} + {losses} × {melt} = {energy}"
		}
	}
	r.Work(line)
	if r.Has("price") {
		r.Work("C = c E = {price} × {energy} = {cost}")
	}
}
