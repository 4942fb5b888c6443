package pumping

import (
	"blankoff/calc/declare"
	"blankoff/calc/quantity"
	"blankoff/calc/uncertainty"
)

// hoseAccuracy is how far Knudsen's formula is trusted for a real hose, ± of the
// conductance (our notes of the trade, table of calculators, row 9): bores are nominal, hoses bend.
const hoseAccuracy = 0.15

// Conductance is what one hose or tube lets through.
var Conductance = declare.Calculator{
	ID:       "conductance",
	Title:    "Conductance of a hose or tube",
	Group:    declare.PumpAndLines,
	Decision: "How much gas does this hose let through at this pressure?",
	Inputs: []declare.Input{
		{ID: "bore", Label: "Bore", Symbol: "d", Kinds: []quantity.Kind{quantity.Length}, Unit: "mm", Units: []string{"cm", "in"},
			Min: "0.01 mm", Max: "2 m", UsualLow: "4 mm", UsualHigh: "50 mm", Required: true, Rising: 1, Help: "Inside diameter."},
		{ID: "length", Label: "Length", Symbol: "L", Kinds: []quantity.Kind{quantity.Length}, Unit: "m", Units: []string{"cm", "mm", "in", "ft"},
			Min: "0.1 mm", Max: "10 km", UsualLow: "0.1 m", UsualHigh: "5 m", Required: true, Rising: -1, Help: "Along its middle, bends followed."},
		{ID: "pressure", Label: "Mean pressure in it", Symbol: "p", Kinds: []quantity.Kind{quantity.Pressure}, Unit: "mTorr", Units: []string{"Pa", "mbar", "Torr", "micron"},
			Min: "0 Pa", Max: "200 kPa", UsualLow: "1 mTorr", UsualHigh: "5,000 mTorr", Required: true,
			Help: "Half the sum of the pressures at its two ends, not that of the chamber."},
		{ID: "gas", Label: "Gas", Default: "air", Help: "What flows in it.", Choices: []declare.Choice{
			{Value: "air", Label: "air"}, {Value: "water vapour", Label: "water vapour"}, {Value: "nitrogen", Label: "nitrogen"}, {Value: "argon", Label: "argon"},
			{Value: "helium", Label: "helium"}, {Value: "hydrogen", Label: "hydrogen"}, {Value: "carbon dioxide", Label: "carbon dioxide"}}},
		{ID: "temperature", Label: "Gas temperature", Symbol: "T", Kinds: []quantity.Kind{quantity.Temperature}, Unit: "°C", Units: []string{"°F", "K"},
			Min: "-100 °C", Max: "300 °C", UsualLow: "-20 °C", UsualHigh: "100 °C", Default: "20 °C", Because: "as in a usual room", Negative: true, Help: "That of the hose's wall."},
		{ID: "elbows", Label: "Elbows", Symbol: "n", Kinds: []quantity.Kind{quantity.Ratio}, Min: "0", Max: "100", Default: "0", Help: "Right-angled ones in it."},
		{ID: "per-elbow", Label: "Length for each elbow, in bores", Symbol: "b", Kinds: []quantity.Kind{quantity.Ratio}, Min: "0", Max: "100", Default: "1.33", Because: "from memory",
			Help: "Handbooks give 0.67 to 1.33 bores for molecular flow."},
	},
	Influences: []declare.Influence{
		{ID: "formula", Text: "± 15 % of the conductance: nominal bores, bends, rough walls", U: formulaU},
	},
	Outputs: []declare.Output{
		{ID: "conductance", Label: "Conductance", Symbol: "C", Kind: quantity.VolumeFlow, Unit: "L/s", Also: []string{"m³/h", "cfm"}},
		{ID: "regime", Label: "Flow"},
		{ID: "knudsen", Label: "Knudsen number", Symbol: "K", Kind: quantity.Ratio},
		{ID: "with-end", Label: "With the hole at its end", Symbol: "Cₑ", Kind: quantity.VolumeFlow, Unit: "L/s"},
		{ID: "molecular", Label: "Limit at low pressure", Symbol: "Cₘ", Kind: quantity.VolumeFlow, Unit: "L/s"},
		{ID: "viscous", Label: "Laminar part alone", Symbol: "Cᵥ", Kind: quantity.VolumeFlow, Unit: "L/s"},
		{ID: "hole", Label: "Hole of the same bore", Symbol: "Cₐ", Kind: quantity.VolumeFlow, Unit: "L/s"},
		{ID: "laminar", Label: "Laminar up to a gas flow of", Symbol: "Q", Kind: quantity.Throughput, Unit: "mbar·L/s"},
		{ID: "choked", Label: "Most that the bore can draw", Symbol: "S", Kind: quantity.VolumeFlow, Unit: "L/s"},
	},
	Formula: []string{
		"C = (d³ / l) (135 d p + 12.1 (1 + 192 d p) / (1 + 237 d p)); C in L/s, d and l in cm, p in mbar, for air at 20 °C. For another gas the first term goes with 1/η, the second with c, and d p in the fraction with √M/(η √T)",
		"l = L + n b d",
		"K = λ/d; viscous below 0.01, molecular above 0.5",
		"λ = (η/p) √(π R T / (2 M)); the mean free path",
		"c = √(8 R T / (π M)); the mean speed of the molecules",
		"Cₘ = π c d³ / (12 l)",
		"Cᵥ = π d⁴ p / (128 η l)",
		"Cₐ = c A / 4; A is the area of the bore",
		"1/Cₑ = 1/C + 1/Cₐ",
		"Q = 2,300 π d η R T / (4 M); where the Reynolds number is 2,300",
		"S = A √(γ R T / M) (2 / (γ + 1))^((γ + 1) / (2 (γ − 1))); the speed of sound stands in the way of more",
	},
	Sources: []declare.Source{
		{Title: "Knudsen's formula for a round tube, air at 20 °C", Where: "Leybold, Fundamentals of Vacuum Technology, eq. 1.26", Mark: declare.Published},
		{Title: "Bounds of the flow regimes", Where: "Pfeiffer, Vacuum Technology Book, 1.2.6", Mark: declare.Published},
		{Title: "Other gases: mean speed and viscosity put into Knudsen's formula; speed of sound in an ideal nozzle", Where: "kinetic theory, gas dynamics", Mark: declare.Computed},
		{Title: "Viscosities by Sutherland's law, elbows, hole in series (Dushman), Reynolds number 2,300", Where: "", Mark: declare.Memory},
	},
	Cautions: []string{
		"The formula is for a long, round, smooth tube. Kinks, flattened hose, filters and valves let less through.",
		"It says what the hose can pass, not what the pump draws: net-speed puts the two together.",
	},
	Hazards: []string{"vacuum"},
	Limits: []string{
		"At high pressure the laminar formula promises too much: above the gas flow shown as laminar the flow is turbulent, and no difference of pressure draws more than the choked bore passes.",
		"A tube shorter than five bores: take the value with the hole at its end. It is right in molecular flow and on the low side above it.",
	},
	Example: declare.Example{
		In:   []declare.Pair{{Name: "bore", Text: "25 mm"}, {Name: "length", Text: "100 cm"}, {Name: "pressure", Text: "0.1 mbar"}},
		Want: []declare.Pair{{Name: "conductance", Text: "6.8 ± 1.0 L/s"}, {Name: "regime", Text: "transitional"}},
		From: "GNU units 2.22, case 05-O003 of testdata/reference: 6.81104 L/s; ± 15 % of it",
	},
	Eval:  conductanceEval,
	Judge: conductanceJudge,
}

func formulaU(*declare.Numbers) float64 { return hoseAccuracy / uncertainty.K }

func conductanceEval(x *declare.Numbers) {
	bore, p, t := x.In("bore"), x.In("pressure"), x.In("temperature")
	length := x.In("length") + x.In("elbows")*x.In("per-elbow")*bore
	g := findGas(x.Choice("gas"))
	var u tube
	u.set(g, t, &Part{Bore: bore, Length: length})
	c, hole := u.conductance(p)*(1+x.Influence("formula")), g.aperture(t, bore)
	for i, value := range []float64{c, 1 / (1/c + 1/hole), g.molecular(t, bore, length), g.viscous(t, bore, length, p), hole, u.laminar, u.choked} {
		x.Set(conductances[i], value)
	}
	if p > 0 {
		x.Set("knudsen", g.freePath(t)/(p*bore))
	}
}

var conductances = [7]string{"conductance", "with-end", "molecular", "viscous", "hole", "laminar", "choked"}

func conductanceJudge(r *declare.Result) {
	bore, regime := r.In("bore"), 2
	if kn, ok := r.Value("knudsen"); ok {
		regime = regimeOf(kn)
	}
	r.Text("regime", regimes[regime])
	// A pressure times a length has no kind, so no reader chooses a unit for it.
	work(r, "d p = [mbar·cm], so C = {conductance}", "", bore*r.In("pressure"))
	r.Work("1/Cₑ = 1/C + 1/Cₐ with Cₐ = {hole}: Cₑ = {with-end}")
	c, _ := r.Out("conductance")
	if most, _ := r.Out("choked"); c > most {
		r.Caution("The bore can draw {choked} at most, whatever the pump: this conductance holds for small differences of pressure only.")
	}
	if r.In("length") < shortTube*bore {
		r.Caution("Shorter than five bores, so the hole at its end counts: take {with-end}.")
	}
	if regime == 0 {
		r.Caution("Laminar up to {laminar}. A larger gas flow is turbulent and meets more resistance than this.")
	}
}
