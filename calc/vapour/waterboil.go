package vapour

import (
	"math"

	"blankoff/calc/declare"
	"blankoff/calc/quantity"
	"blankoff/calc/uncertainty"
)

// WaterBoil is the boiling curve of water, in either direction, and that of ice below the
// triple point.
var WaterBoil = declare.Calculator{
	ID:       "water-boil",
	Title:    "Boiling point of water and ice",
	Group:    declare.PressureAndGas,
	Decision: "At what temperature does water boil, or ice turn into vapour, at this pressure?",
	Inputs: []declare.Input{
		{ID: "pressure", Label: "Pressure", Symbol: "p", Kinds: []quantity.Kind{quantity.Pressure}, Unit: "mbar", Units: []string{"mTorr", "Pa", "Torr", "kPa", "micron"},
			Min: "0.001 Pa", Max: "22.064 MPa", UsualLow: "0.1 Pa", UsualHigh: "110 kPa", Rising: 1, Help: "Absolute, true pressure. Give this or the temperature."},
		{ID: "temperature", Label: "Temperature", Symbol: "T", Kinds: []quantity.Kind{quantity.Temperature}, Unit: "°C", Units: []string{"°F", "K"},
			Min: "-100 °C", Max: "373.946 °C", UsualLow: "-90 °C", UsualHigh: "105 °C", Negative: true, Help: "Of the water or ice itself. Give this or the pressure."},
	},
	Influences: []declare.Influence{{ID: "line", Text: "spread of the published lines", U: boilSpread}},
	Outputs: []declare.Output{
		{ID: "boiling", Label: "Boils, or turns into vapour, at", Symbol: "T", Kind: quantity.Temperature, Unit: "°C", Also: []string{"°F"}},
		{ID: "vapour", Label: "Vapour pressure", Symbol: "p", Kind: quantity.Pressure, Unit: "mbar", Also: []string{"mTorr", "Pa", "Torr"}},
		{ID: "unfrozen", Label: "Over water that has not frozen", Kind: quantity.Pressure, Unit: "mbar", Also: []string{"mTorr", "Pa"}},
		{ID: "phase", Label: "Phase"},
	},
	Formula: []string{
		"ln(p / pₜ) = (a₁ θ^(b₁) + a₂ θ^(b₂) + a₃ θ^(b₃)) / θ; ice, up to the triple point Tₜ = 273.16 K, pₜ = 611.657 Pa; θ = T/Tₜ, a = −21.2144006, 27.3203819, −6.1059813, b = 0.00333333333, 1.20666667, 1.70333333",
		"p = (2 c / (√(b² − 4 a c) − b))⁴; water above, in MPa, with a, b and c quadratic in t = T + n₉ / (T − n₁₀); n₁ to n₁₀ in table 34 of the source",
	},
	Sources: []declare.Source{
		{Title: "Ice: sublimation pressure", Where: "IAPWS R14-08 (2011), equation 6 and table 3", Mark: declare.Published},
		{Title: "Water: saturation pressure and temperature, region 4", Where: "IAPWS R7-97 (2012), equations 30 and 31", Mark: declare.Published},
		{Title: "Water that has not frozen", Where: "Murphy and Koop, Q. J. R. Meteorol. Soc. 131 (2005), equation 10", Mark: declare.Published},
		{Title: "± 0.1 % for ice: the difference from Murphy and Koop, equation 7", Where: "", Mark: declare.Computed},
		{Title: "± 0.03 % for water", Where: "", Mark: declare.Memory},
	},
	Cautions: []string{"For pure water. Sugar, salt or alcohol in it move the point, and a thermal gauge reads 1.5 to 2 times high in its vapour."},
	Hazards:  []string{"vacuum"},
	Limits:   []string{"Water may stay liquid below its freezing point or fail to boil at its boiling point: this is where the two are in balance."},
	Example: declare.Example{
		In:   []declare.Pair{{Name: "pressure", Text: "100 mTorr"}},
		Want: []declare.Pair{{Name: "boiling", Text: "−39.6679 ± 0.0089 °C"}, {Name: "phase", Text: "ice and vapour"}},
		From: "python3-iapws 1.5.2 inverted, case 07-O027 of testdata/reference; ± by hand: 0.1 % at 11.3 % for 1 K",
	},
	Eval:  boilEval,
	Judge: boilJudge,
}

// boilSpread is the relative uncertainty of the line: for water as IAPWS states it, from
// memory; for ice what two published lines differ by.
func boilSpread(x *declare.Numbers) float64 {
	spread := iceSpread
	if x.In("pressure") > TriplePointPressure || x.In("temperature") > TriplePointKelvin {
		spread = 0.0003
	}
	return uncertainty.FromAccuracy(spread)
}

// melts is how near to the triple point ice and water are alike, K.
const melts = 1e-6

// homogeneous is the temperature in K below which no water stays liquid, about -40 °C
// (from memory).
const homogeneous = 233

func boilEval(x *declare.Numbers) {
	line := 1 + x.Influence("line")
	pressure, warm := x.Has("pressure"), x.Has("temperature")
	switch {
	case pressure && warm:
		x.Refuse("temperature", "give the pressure or the temperature, not both: each follows from the other")
	case pressure:
		x.Set("boiling", settled(Boiling(x.In("pressure")/line)))
	case warm:
		t := x.In("temperature")
		x.Set("vapour", Saturation(t)*line)
		if typed := x.Typed("temperature").Value; typed > homogeneous && typed < TriplePointKelvin-melts {
			x.Set("unfrozen", SupercooledPressure(t)*line)
		}
	default:
		x.Refuse("pressure", "give the pressure, or the temperature: the other is computed")
	}
}

func boilJudge(r *declare.Result) {
	kelvin, result := r.In("temperature"), "p = {vapour}"
	if !r.Has("temperature") {
		result = "T = {boiling}"
		kelvin, _ = r.Out("boiling")
	}
	phase, line := "water and vapour", "above the triple point ({611.657 Pa}, {0.01 °C}) water boils; the saturation line gives "
	if off := kelvin - TriplePointKelvin; math.Abs(off) < melts {
		phase, line = "the triple point: ice, water and vapour", "at the triple point, {273.16 K} and {611.657 Pa}: "
	} else if off < 0 {
		phase = "ice and vapour"
		line = "below the triple point ({611.657 Pa}, {0.01 °C}) only ice and vapour last; the sublimation line, θ = " + quantity.Format(kelvin/TriplePointKelvin, -1, quantity.One, 6) + ", gives "
	}
	r.Text("phase", phase)
	r.Work(line + result)
	if _, known := r.Value("unfrozen"); known {
		r.Caution("A film of water that has not frozen gives more vapour than ice: {unfrozen}.")
	}
}
