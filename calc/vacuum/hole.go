package vacuum

import (
	"blankoff/calc/constant"
	"blankoff/calc/declare"
	"blankoff/calc/quantity"
)

// Hole gives the size of the hole that would let a leak in, and the leak of a hole. It is
// an equivalent: what lets gas in is seldom round and seldom one. Two shapes bound it, a
// hole in a thin wall, where the gas goes as fast as it can, and a long narrow capillary,
// where it rubs along the wall.
//
// The discharge coefficient lies between 0.6 for a sharp edge and 0.85 (our notes of the trade). 0.8
// ± 0.2 covers that: it reaches from 0.6 to 1, the most there can be.
var Hole = declare.Calculator{
	ID:       "hole",
	Title:    "Leak as an equivalent hole",
	Group:    declare.Leaks,
	Decision: "How large is the hole, or the fine bore, that this leak is equivalent to?",
	Inputs: []declare.Input{
		{ID: "leak", Label: "Leak", Symbol: "Q", Kinds: []quantity.Kind{quantity.Throughput}, Unit: "mbar·L/s", Units: []string{"Torr·L/s", "Pa·m³/s"},
			Min: "1e-9 mbar·L/s", Max: "1e6 mbar·L/s", UsualLow: "1e-5 mbar·L/s", UsualHigh: "1,000 mbar·L/s", Rising: 1,
			Help: "Gives the equivalent sizes. Blank where a size is given."},
		{ID: "diameter", Label: "Diameter of a hole", Symbol: "d", Kinds: []quantity.Kind{quantity.Length}, Unit: "mm", Units: []string{"µm", "in"},
			Min: "0.1 µm", Max: "1 m", UsualLow: "1 µm", UsualHigh: "50 mm",
			Help: "Gives the leak through it. Blank where a leak is given."},
		{ID: "coefficient", Label: "Discharge coefficient", Symbol: "C", Kinds: []quantity.Kind{quantity.Ratio},
			Min: "0.3", Max: "1", UsualLow: "0.6", UsualHigh: "0.85", Default: "0.8", Because: "from memory for a small hole, which has 0.6 to 0.85", Accuracy: "0.2",
			Help: "0.6 for a sharp edge, 1 for a nozzle."},
		{ID: "length", Label: "Length of the capillary", Symbol: "l", Kinds: []quantity.Kind{quantity.Length}, Unit: "mm", Units: []string{"µm", "in"},
			Min: "0.1 mm", Max: "10 m", UsualLow: "1 mm", UsualHigh: "100 mm", Default: "10 mm", Because: "from memory, about as wide as a seal",
			Help: "The way through the seal or the wall."},
		{ID: "ambient", Label: "Air pressure outside", Symbol: "p₁", Kinds: []quantity.Kind{quantity.Pressure}, Unit: "inHg", Units: []string{"mbar", "kPa", "Torr"},
			Min: "30 kPa", Max: "115 kPa", Help: "From a barometer in the room, not corrected to sea level. Or give the altitude."},
		{ID: "altitude", Label: "Altitude", Symbol: "z", Kinds: []quantity.Kind{quantity.Length}, Unit: "m", Units: []string{"ft"},
			Min: "-500 m", Max: "9000 m", Negative: true, Help: "Used where no air pressure is given. Blank: sea level."},
		{ID: "inside", Label: "Pressure inside", Symbol: "p₂", Kinds: []quantity.Kind{quantity.Pressure}, Unit: "mTorr", Units: []string{"mbar", "Torr", "kPa", "Pa"},
			Min: "0 Pa", Max: "115 kPa", UsualLow: "0 Pa", UsualHigh: "5,000 mTorr", Default: "0 mTorr", Because: "as a vacuum, whose pressure hardly counts",
			Help: "Matters only where it comes near the pressure outside."},
		{ID: "temperature", Label: "Air temperature", Symbol: "T", Kinds: []quantity.Kind{quantity.Temperature}, Unit: "°C", Units: []string{"°F", "K"},
			Min: "-60 °C", Max: "200 °C", UsualLow: "-20 °C", UsualHigh: "60 °C", Default: "20 °C", Because: "as in a usual room", Negative: true,
			Help: "Of the air outside; the leak is counted at it."},
	},
	Influences: []declare.Influence{
		{ID: "weather", Text: "weather, ± 3 % of the air pressure, where that was not given", U: outsideU},
	},
	Outputs: []declare.Output{
		{ID: "hole", Label: "Equivalent hole, diameter", Symbol: "d", Kind: quantity.Length, Unit: "µm", Also: []string{"mm"}},
		{ID: "bore", Label: "Equivalent capillary, bore", Symbol: "b", Kind: quantity.Length, Unit: "µm", Also: []string{"mm"}},
		{ID: "through-hole", Label: "Equivalent leak of such a hole", Symbol: "Q", Kind: quantity.Throughput, Unit: "mbar·L/s", Also: []string{"Torr·L/s", "Pa·m³/s"}},
		{ID: "through-bore", Label: "Equivalent leak of a capillary of that bore", Symbol: "Q", Kind: quantity.Throughput, Unit: "mbar·L/s"},
		{ID: "ambient", Label: "Air pressure used", Symbol: "p₁", Kind: quantity.Pressure, Unit: "kPa", Also: []string{"inHg"}},
	},
	Formula: []string{
		"Q = C p₁ (π d² / 4) √(γ R T / M) (2 / (γ + 1))^((γ + 1) / (2 (γ − 1))) ψ; hole: γ = 1.4, M = 28.9647 g/mol; ψ = 1 while p₂ is under 0.528 p₁, then it falls to 0 at p₂ = p₁",
		"Q = π b⁴ (p₁² − p₂²) / (256 μ l); capillary, laminar and viscous",
		"μ = μ₀ (T / T₀)^1.5 (T₀ + s) / (T + s); viscosity of air, μ₀ = 17.16 µPa·s, T₀ = 273.15 K, s = 110.4 K",
	},
	Sources: []declare.Source{
		{Title: "Choked flow of an ideal gas", Where: "isentropic flow; checked against testdata/reference/06_choked_flow.csv", Mark: declare.Computed},
		{Title: "Critical ratio 0.528 for air", Where: "texts on choked flow of gases, case 06-O004 of testdata/reference", Mark: declare.Published},
		{Title: "Leak of a laminar capillary ∝ p₁² − p₂²", Where: "worked examples of a leak-test newsletter, case 06-O020 of testdata/reference", Mark: declare.Published},
		{Title: "Discharge coefficient 0.6 to 0.85; viscosity of air", Mark: declare.Memory},
	},
	Cautions: []string{
		"An equivalent size, not a finding: the way in may be a scratch, a hair across a seal, a porous spot, or many of them.",
		neverPressurise,
	},
	Limits: []string{
		"Air only, at one temperature. Water vapour, helium or a solvent pass differently.",
		"A capillary is given only while its flow is laminar (Reynolds number under 2,000). A human hair is about 50 to 100 µm thick (from memory).",
		"A size equivalent to a rise may stand for vapour, which needs no hole at all.",
	},
	Hazards: []string{"vacuum", "pane"},
	Example: declare.Example{
		In:   []declare.Pair{{Name: "leak", Text: "1 mbar·L/s"}, {Name: "ambient", Text: "1013 mbar"}},
		Want: []declare.Pair{{Name: "hole", Text: "89 ± 11 µm"}, {Name: "bore", Text: "109.5 µm"}},
		From: "hole: GNU units 2.22, case 06-O013 of testdata/reference (79.54 µm at C = 1), divided by √0.8, ± half of 25 %; bore by hand: 256 · 1.8133e-5 Pa·s · 0.01 m · 0.1 Pa·m³/s / (π · (101,300 Pa)²), fourth root",
	},
	Study: holeStudy,
	Eval:  holeEval,
	Judge: holeJudge,
}

// laminar is the highest Reynolds number at which a capillary is given.
const laminar = 2000.0

// opening is what lets the gas in: a hole, and a capillary of the leak or the diameter
// that is given.
type opening struct {
	outside, inside, kelvin float64
	each                    float64   // choked flow through each m² of a hole at C = 1
	share                   float64   // of the flow that there is
	bore, leak              float64   // of the capillary
	given                   bool      // a leak, and no diameter
	_                       [0]func() // never compared: saves the code for it
}

func openingOf(x *declare.Numbers) *opening {
	o := &opening{outside: outside(x), inside: x.In("inside"), kelvin: x.In("temperature"), bore: x.In("diameter"), leak: x.In("leak"), given: x.Has("leak")}
	o.each = ChokedThroughput(1, o.outside, o.kelvin, AirGamma, constant.Air, 1)
	o.share = FlowShare(o.inside/o.outside, AirGamma)
	if length := x.In("length"); o.given {
		o.bore = CapillaryBore(o.leak, length, o.outside, o.inside, o.kelvin)
	} else {
		o.leak = CapillaryThroughput(o.bore, length, o.outside, o.inside, o.kelvin)
	}
	return o
}

// holeStudy refuses what leaves nothing to compute, and gives something only where a
// capillary can be given, before any entry is varied.
func holeStudy(x *declare.Numbers) any {
	o := openingOf(x)
	field, text := "", ""
	switch diameter := x.Has("diameter"); {
	case o.given && diameter:
		field, text = "diameter", "give either the leak or the diameter: the other is the result"
	case !o.given && !diameter:
		field, text = "leak", "give a leak, to get the equivalent sizes, or a diameter, to get the leak through it"
	case o.inside >= 0.99*o.outside:
		field, text = "inside", "the pressure inside is as high as outside, so nothing flows in; check both"
	case Reynolds(o.leak, o.bore, o.kelvin) <= laminar:
		return o
	default:
		return nil
	}
	x.Refuse(field, text)
	return nil
}

func holeEval(x *declare.Numbers) {
	o := openingOf(x)
	each := o.each * o.share * x.In("coefficient")
	size, value, capillary, result := "through-hole", RoundArea(o.bore)*each, "through-bore", o.leak
	if o.given {
		size, value, capillary, result = "hole", RoundHole(o.leak/each), "bore", o.bore
	}
	x.Set(size, value)
	if x.Studied() != nil {
		x.Set(capillary, result)
	}
	x.Set("ambient", o.outside)
}

func holeJudge(r *declare.Result) {
	o := openingOf(r.Numbers)
	if !r.Has("ambient") && !r.Has("altitude") {
		r.Caution("Neither air pressure nor altitude given: sea level taken, {ambient}.")
	}
	bothGiven(r)
	if o.inside > o.outside*CriticalRatio(AirGamma) {
		r.Caution("The pressure inside is more than 0.528 of that outside: the flow is not choked, and the equivalent hole is larger for the same leak.")
	}
	r.WorkWith(4, "through each mm² of a hole at C = 1, from {ambient} at {temperature}: q = [mbar·L/s]", o.each*o.share*1e-6)
	hole := "hole: Q = C q π d² / 4 = {through-hole}, with d = {diameter} and C = {coefficient}"
	size, weight := "through-hole", 1.0
	bore := "capillary of {length}, with μ = [Pa·s]: Q = π d⁴ (p₁² − p₂²) / (256 μ l) = {through-bore}"
	if o.given {
		size, weight = "hole", 0.5 // a diameter goes with the root of the coefficient
		hole = "hole: d = √(4 Q / (π C q)) = {hole}, with Q = {leak} and C = {coefficient}"
		bore = "capillary of {length}, with μ = [Pa·s]: b = ⁴√(256 μ l Q / (π (p₁² − p₂²))) = {bore}"
	}
	r.Work(hole)
	if r.Studied() == nil {
		r.Caution("No equivalent capillary of {length}: so much gas would not flow laminar in it. Take the hole.")
	} else {
		r.WorkWith(4, bore, AirViscosity(o.kelvin))
		if CapillaryKnudsen(o.bore, o.outside/2, o.kelvin) > 0.01 {
			r.Caution("In a bore this fine the air slips along the wall: a capillary lets more through than its formula says, so the equivalent bore is somewhat smaller.")
		}
		if o.leak > RoundArea(o.bore)*o.each*o.share/2 {
			r.Caution("So short a bore acts half as a hole: the equivalent size lies between the two.")
		}
	}
	if value, u := r.Out(size); weight*r.Typed("coefficient").U/r.In("coefficient")*value > 0.8*u && u > 0 {
		r.Caution("The ± of the hole is mostly that of the discharge coefficient.")
	}
}
