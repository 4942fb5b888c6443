package vapour

import (
	"math"

	"blankoff/calc/constant"
	"blankoff/calc/declare"
	"blankoff/calc/quantity"
	"blankoff/calc/uncertainty"
)

// IceFloor is the lowest pressure that ice allows, and a reading held against it.
//
// The two are compared as temperatures: how much warmer than its sensor the ice would
// have to be to explain the reading. Vapour pressure rises by a tenth with each kelvin,
// so a difference in kelvin is nearly linear in everything that is uncertain, where a
// ratio of pressures is not.
var IceFloor = declare.Calculator{
	ID:       "ice-floor",
	Title:    "Ice floor of the trap",
	Group:    declare.PressureAndGas,
	Decision: "Is it the ice in the trap that holds the pressure up, or must I look elsewhere?",
	Inputs: []declare.Input{
		{ID: "temperature", Label: "Ice temperature", Symbol: "T", Kinds: []quantity.Kind{quantity.Temperature}, Unit: "°C", Units: []string{"°F", "K"},
			Min: "-100 °C", Max: "100 °C", UsualLow: "-90 °C", UsualHigh: "0 °C", Accuracy: "1 K", Negative: true, Rising: 1,
			Help: "The trap's sensor, or a probe on the ice. Blank: only the reading is turned into a temperature."},
		{ID: "reading", Label: "Gauge shows", Symbol: "p_g", Kinds: []quantity.Kind{quantity.Pressure}, Unit: "mTorr", Units: []string{"Pa", "mbar", "Torr", "micron"},
			Min: "0.001 Pa", Max: "200 kPa", UsualLow: "1 mTorr", UsualHigh: "20 Torr", Help: "Steady, pump running. Blank: only the floor is computed."},
		{ID: "principle", Label: "Kind of gauge", Choices: []declare.Choice{{Value: "thermal", Label: "thermal (thermocouple, Pirani), set for air"}, {Value: "capacitance", Label: "capacitance, or a reading already corrected"}},
			Default: "thermal", Because: "as in most small machines", Help: "In water vapour a thermal gauge shows 1.5 to 2 times the true pressure."},
		{ID: "gauge", Label: "Gauge accuracy", Symbol: "a", Kinds: []quantity.Kind{quantity.Ratio}, Unit: "%",
			Min: "0 %", Max: "100 %", UsualLow: "0.1 %", UsualHigh: "50 %", Help: "± of reading. Blank: the reading's own ±, else 20 %."},
	},
	Influences: []declare.Influence{
		{ID: "line", Text: "spread of the two published lines of ice", U: func(x *declare.Numbers) float64 { return uncertainty.FromAccuracy(iceSpread) }},
		{ID: "scale", Text: "scale error of the gauge", U: scaleU},
		{ID: "factor", Text: "what water vapour does to a thermal gauge, anywhere in its range", U: factorU},
	},
	Outputs: []declare.Output{
		{ID: "floor", Label: "Lowest pressure while ice is there", Symbol: "p_f", Kind: quantity.Pressure, Unit: "mTorr", UnitOf: "reading", Also: []string{"Pa", "mbar"}},
		{ID: "shown", Label: "A thermal gauge shows there", Kind: quantity.Pressure, Unit: "mTorr", UnitOf: "reading"},
		{ID: "true", Label: "True pressure, if all is water vapour", Symbol: "p", Kind: quantity.Pressure, Unit: "mTorr", UnitOf: "reading", Also: []string{"Pa"}},
		{ID: "ice", Label: "Ice that would explain the reading", Symbol: "T_i", Kind: quantity.Temperature, Unit: "°C", UnitOf: "temperature"},
		{ID: "excess", Label: "Warmer than the sensor by", Symbol: "ΔT", Kind: quantity.TemperatureDifference, Unit: "K"},
		{ID: "ratio", Label: "True pressure over floor", Symbol: "n", Kind: quantity.Ratio},
		{ID: "times", Label: "Reading over floor", Symbol: "n_g", Kind: quantity.Ratio},
		{ID: "state", Label: "State"},
	},
	Formula: []string{
		"ln(p_f) = 9.550426 − 5723.265 / T + 3.53068 ln(T) − 0.00728332 T; p in Pa, T in K, up to 273.16 K; above, the line of liquid water",
		"p = p_g / f; f is 1 for a capacitance gauge, 1.49 to 2.0 for a thermal one, best value √(1.49 · 2)",
		"ΔT = T_i − T; T_i is the ice whose vapour pressure is p",
		"n = p / p_f; n_g = p_g / p_f",
	},
	Sources: []declare.Source{
		{Title: "Vapour pressure of ice", Where: "Murphy and Koop, Q. J. R. Meteorol. Soc. 131 (2005), equation 7", Mark: declare.Published},
		{Title: "Vapour pressure of water, above 0.01 °C", Where: "IAPWS R7-97 (2012), equation 30", Mark: declare.Published},
		{Title: "A thermal gauge shows 1.49 to 1.62 times by kinetic theory, 2.0 times by one maker's factor 0.5", Where: "INFICON BCG450 operating manual (tina40e1), p. 54, and our notes of the trade, 2.9", Mark: declare.Published},
		{Title: "The ice surface is up to 5 K warmer than the coil's sensor", Where: "", Mark: declare.CommonPractice},
		{Title: "Gauge ± 20 % where nothing is stated", Where: "", Mark: declare.Memory},
		{Title: "Sensor ± 1 K", Where: "our notes of the trade, section 7", Mark: declare.CommonPractice},
	},
	Cautions: []string{
		"The surface of the ice is warmer than the sensor on the coil, the more the thicker the ice: its floor is higher.",
		"A dry and empty chamber has no ice floor: it must go well below.",
	},
	Hazards: []string{"vacuum", "cold"},
	Limits: []string{
		"It compares pressures, it does not see the gas: air that enters can hide below the floor's uncertainty.",
		"Ice or water elsewhere, in a gutter or in the load, makes a floor of its own that may be the higher one.",
	},
	Example: declare.Example{
		In:   []declare.Pair{{Name: "temperature", Text: "-34 °C"}, {Name: "reading", Text: "350 mTorr"}},
		Want: []declare.Pair{{Name: "floor", Text: "187 ± 20 mTorr"}, {Name: "state", Text: "near the floor, not settled"}},
		From: "our notes of the trade, 2.2: 187 mTorr at -34 °C; ± by hand: 10.8 % for 1 K",
	},
	Eval:  floorEval,
	Judge: floorJudge,
	Plot:  &floorPlot,
}

const (
	// iceSpread is what the two published lines of ice differ by at most, from -100 °C up.
	iceSpread = 0.001
	// thermalLow and thermalHigh are how many times the true pressure of water vapour a
	// thermal gauge shows that is set for air: the low end is kinetic theory, the high end
	// one maker's published factor. Nothing says which is nearer for a given tube.
	thermalLow, thermalHigh = 1.49, 2.0
	// surface is how much warmer than the coil's sensor the surface of thick ice is taken
	// to be at most, K (common practice, no source).
	surface = 5.0
	// ceiling is 2,000 mTorr in Pa, above which a thermal gauge does not follow a gas by
	// one factor (common practice).
	ceiling = 2 * constant.Torr
)

// unstated is the accuracy taken where neither gauge nor reading has one (from memory for
// a thermal gauge without a certificate).
const unstated = 0.2

func scaleU(x *declare.Numbers) float64 {
	a := unstated
	if x.Has("gauge") {
		a = x.In("gauge")
	} else if x.Typed("reading").HasU {
		a = 0
	}
	return uncertainty.FromAccuracy(a)
}

func factorU(x *declare.Numbers) float64 {
	if !thermal(x) {
		return 0
	}
	return uncertainty.FromHalfWidth(math.Log(thermalHigh/thermalLow) / 2)
}

func thermal(x *declare.Numbers) bool { return x.Choice("principle") == "thermal" }

// floorOf is the vapour pressure over ice, or over water where it is too warm for ice.
func floorOf(kelvin float64) float64 {
	if kelvin <= TriplePointKelvin {
		return IcePressure(kelvin)
	}
	return WaterPressure(kelvin)
}

// iceOf is the inverse of floorOf.
func iceOf(pascal float64) float64 {
	if pascal <= TriplePointPressure {
		return IceTemperature(pascal)
	}
	return WaterTemperature(pascal)
}

func floorEval(x *declare.Numbers) {
	warm, read, gauge := x.Has("temperature"), x.Has("reading"), thermal(x)
	if !warm && !read {
		x.Refuse("temperature", "give the temperature of the ice, the reading of the gauge, or both")
		return
	}
	factor, line := 1.0, 1+x.Influence("line")
	if gauge {
		factor = math.Sqrt(thermalLow*thermalHigh) * math.Exp(x.Influence("factor"))
	}
	t := x.In("temperature")
	floor := floorOf(t) * line
	if warm {
		x.Set("floor", floor)
		if gauge && floorOf(x.Typed("temperature").Value)*math.Sqrt(thermalLow*thermalHigh) <= ceiling {
			x.Set("shown", floor*factor)
		}
	}
	if read {
		shown := x.In("reading") * (1 + x.Influence("scale"))
		p := shown / factor
		ice := settled(iceOf(p / line))
		x.Set("true", p)
		x.Set("ice", ice)
		if warm {
			x.Set("excess", ice-t)
			x.Set("ratio", p/floor)
			x.Set("times", shown/floor)
		}
	}
}
