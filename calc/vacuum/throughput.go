package vacuum

import (
	"blankoff/calc/constant"
	"blankoff/calc/declare"
	"blankoff/calc/quantity"
)

// Throughput turns a leak rate or a gas flow into every other way of stating it.
var Throughput = declare.Calculator{
	ID:       "throughput",
	Title:    "Leak rate and gas flow",
	Group:    declare.PressureAndGas,
	Decision: "What is this leak rate or gas flow in the unit of my limit, and how much gas or water is it?",
	Inputs: []declare.Input{
		{ID: "rate", Label: "Rate", Symbol: "Q", Kinds: []quantity.Kind{quantity.Throughput, quantity.StandardFlow, quantity.MolarFlow}, Unit: "mbar·L/s",
			Units: []string{"Pa·m³/s", "Torr·L/s", "mTorr·L/s", "atm·cm³/s", "sccm", "mol/s"},
			Min:   "0 mbar·L/s", Max: "1e6 mbar·L/s", UsualLow: "1e-6 mbar·L/s", UsualHigh: "1000 mbar·L/s", Required: true, Rising: 1,
			Help: "A leak rate, a standard flow (sccm) or mol/s."},
		{ID: "gas-temperature", Label: "Gas temperature", Symbol: "T", Kinds: []quantity.Kind{quantity.Temperature}, Unit: "°C", Units: []string{"°F", "K"},
			Min: "-150 °C", Max: "500 °C", UsualLow: "-60 °C", UsualHigh: "80 °C", Default: "20 °C", Because: "as in a usual room", Negative: true,
			Help: "Where the pressure and volume of the leak rate are counted."},
		{ID: "reference", Label: "Reference temperature of sccm", Symbol: "Tᵣ", Kinds: []quantity.Kind{quantity.Temperature}, Unit: "°C", Units: []string{"°F", "K"},
			Min: "-50 °C", Max: "100 °C", Negative: true,
			Help: "0 °C or 20 °C, as the flow meter's maker states it: they differ by 7.3 %."},
	},
	Outputs: []declare.Output{
		{ID: "leak", Label: "Leak rate", Symbol: "Q", Kind: quantity.Throughput, Unit: "mbar·L/s", Also: []string{"Pa·m³/s", "Torr·L/s", "mTorr·L/s", "atm·cm³/s"}},
		{ID: "standard", Label: "Standard flow", Symbol: "F", Kind: quantity.StandardFlow, Unit: "sccm"},
		{ID: "molar", Label: "Molar flow", Symbol: "ṅ", Kind: quantity.MolarFlow, Unit: "mol/s"},
		{ID: "air", Label: "If it is air", Symbol: "ṁ", Kind: quantity.MassFlow, Unit: "g/h"},
		{ID: "water", Label: "If it is water vapour", Symbol: "ṁ", Kind: quantity.MassFlow, Unit: "g/h"},
	},
	Formula: []string{"ṅ = Q / (R T)", "F = ṅ R Tᵣ / p₀; p₀ = 101,325 Pa", "ṁ = ṅ M; M = 28.9647 g/mol for air and 18.015268 g/mol for water"},
	Sources: []declare.Source{
		{Title: "Gas constant 8.314462618 J/(mol·K)", Where: "SI Brochure, 9th edition; exact", Mark: declare.Published},
		{Title: "sccm at 0 °C and 101,325 Pa", Where: "leak-rate table of a leak-test supplier (LIWO): Tn = 0 °C, pn = 1013 mbar", Mark: declare.Published},
	},
	Limits:   []string{"Ideal gas, which is exact enough for any pressure in such a machine.", "Water vapour at the given temperature must be below its saturation pressure; this is not checked here."},
	Converts: true,
	Example: declare.Example{
		In:   []declare.Pair{{Name: "rate", Text: "0.02 mbar·L/s"}, {Name: "gas-temperature", Text: "20 °C"}, {Name: "reference", Text: "20 °C"}},
		Want: []declare.Pair{{Name: "leak", Text: "0.02 mbar·L/s"}, {Name: "standard", Text: "1.184 sccm"}, {Name: "air", Text: "0.08556 g/h"}},
		From: "GNU units 2.22, cases 02-O033 and 02-O039 of testdata/reference",
	},
	Eval:  throughputEval,
	Judge: throughputJudge,
}

func throughputEval(x *declare.Numbers) {
	gas, reference, n := x.In("gas-temperature"), constant.ZeroCelsius, x.In("rate") // what sccm count from where nothing is said
	kind, given := x.Kind("rate"), x.Has("reference")
	if given {
		reference = x.In("reference")
	}
	switch {
	case kind == quantity.Throughput:
		n /= constant.Gas * gas
	case kind == quantity.MolarFlow:
	case !given:
		x.Refuse("reference", "a flow in sccm has no meaning without its reference temperature: write {0 °C} or {20 °C}, as the flow meter's maker states it")
		return
	default:
		n *= constant.Atmosphere / (constant.Gas * reference)
	}
	x.Set("leak", n*constant.Gas*gas)
	x.Set("standard", n*constant.Gas*reference/constant.Atmosphere)
	x.Set("molar", n)
	x.Set("air", n*constant.Air)
	x.Set("water", n*constant.Water)
}

// mostLeak is the largest rate, Pa·m³/s.
const mostLeak = 1e5

// throughputJudge writes the lines by which the flows can be redone by hand: with R in J/(mol·K)
// they stay in SI units, whatever units the reader chose.
func throughputJudge(r *declare.Result) {
	leak, _ := r.Out("leak")
	if leak > mostLeak*(1+tie) { // the range of the entry bounds a leak rate only, not sccm or mol/s
		r.Refuse("rate", "that is above what is possible here ({1e6 mbar·L/s}); check number and unit")
		return
	}
	gas := r.In("gas-temperature")
	line, kelvin := "ṅ = Q / (R T) = [Pa·m³/s] / (8.314 J/(mol·K) × [K]) = {molar}", gas
	kind := r.Kind("rate")
	if kind == quantity.StandardFlow {
		line, kelvin = "ṅ = F · 101,325 Pa / (R Tᵣ) = [m³/s] × 101,325 Pa / (8.314 J/(mol·K) × [K]) = {molar}", r.In("reference")
	}
	if kind != quantity.MolarFlow {
		r.Work(declare.With(5, line, r.In("rate"), kelvin))
	}
	r.Work(declare.With(5, "Q = ṅ R T = {molar} × 8.314 J/(mol·K) × [K] = [Pa·m³/s] = {leak}", gas, leak))
	r.Work("as air: ṅ × 28.9647 g/mol = {air}; as water vapour: ṅ × 18.015268 g/mol = {water}")
	if leak > 100 {
		r.Caution("That is more than {1,000 mbar·L/s}, as through an open port. Check the number and its unit.")
	}
	counted := "sccm are counted at {0 °C} and {101,325 Pa}."
	if r.Has("reference") {
		counted = "sccm are counted at {reference} and {101,325 Pa}."
	}
	r.Caution(counted)
}
