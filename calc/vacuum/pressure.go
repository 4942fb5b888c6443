package vacuum

import (
	"blankoff/calc/constant"
	"blankoff/calc/declare"
	"blankoff/calc/quantity"
	"blankoff/calc/vapour"
)

// weather is how far the pressure at a place strays from the standard atmosphere,
// as a share of it: ± 3 % (our notes of the trade, common practice, no source).
const weather = 0.03

// Pressure turns a reading into the absolute pressure, whatever it is counted from.
var Pressure = declare.Calculator{
	ID:       "pressure",
	Title:    "Pressure and dial vacuum",
	Group:    declare.PressureAndGas,
	Decision: "Are two readings the same pressure, and what does a dial that shows vacuum really mean here?",
	Inputs: []declare.Input{
		{ID: "value", Label: "Reading", Symbol: "p", Kinds: []quantity.Kind{quantity.Pressure}, Unit: "mTorr",
			Units: []string{"Pa", "mbar", "Torr", "kPa", "psi", "inHg", "inHg gauge", "micron"},
			Min:   "0 Pa", Max: "1 MPa", UsualLow: "0.1 Pa", UsualHigh: "110 kPa", Required: true, Gauge: true, Negative: true, Rising: 1,
			Help: "As shown, with its unit. A dial that counts from the air around it: -28 inHg gauge."},
		{ID: "ambient", Label: "Air pressure here", Symbol: "pₐ", Kinds: []quantity.Kind{quantity.Pressure}, Unit: "inHg",
			Units: []string{"mbar", "kPa", "Torr"}, Min: "30 kPa", Max: "115 kPa",
			Help: "From a barometer in the room, not corrected to sea level. A gauge reading needs it, or the altitude."},
		{ID: "altitude", Label: "Altitude", Symbol: "z", Kinds: []quantity.Kind{quantity.Length}, Unit: "m", Units: []string{"ft"},
			Min: "-500 m", Max: "9000 m", Negative: true,
			Help: "Used where no air pressure is given: the standard atmosphere, good to about ± 3 % for the weather."},
	},
	Influences: []declare.Influence{
		{ID: "dial", Text: "a dial's own error, ± 2 % of its full scale, where the reading has no ± of its own", U: dialU},
		{ID: "weather", Text: "weather, ± 3 % of the air pressure, where it follows from the altitude", U: outsideU},
	},
	Outputs: []declare.Output{
		{ID: "absolute", Label: "Absolute pressure", Symbol: "p", Kind: quantity.Pressure, Unit: "mTorr", Also: []string{"Pa", "mbar", "Torr", "psi"}},
		{ID: "vacuum", Label: "Below the air outside", Symbol: "pₐ − p", Kind: quantity.Pressure, Unit: "inHg", Also: []string{"kPa"}},
		{ID: "share", Label: "Share of a standard atmosphere", Symbol: "p / p₀", Kind: quantity.Ratio, Unit: "%"},
		{ID: "ambient", Label: "Air pressure used", Symbol: "pₐ", Kind: quantity.Pressure, Unit: "inHg", Also: []string{"mbar"}},
		{ID: "place", Label: "Where that is"},
	},
	Formula: []string{
		"p = pₐ + g; g is what a dial shows, negative below the air outside",
		"pₐ = p₀ (1 − 0.0065 H / 288.15)^5.25588; p₀ = 101,325 Pa, H in metres",
		"H = 6,356,766 z / (6,356,766 + z); z in metres",
	},
	Sources: []declare.Source{
		{Title: "Torr, inch of mercury, psi", Where: "NIST SP 811, Appendix B, conventions; SI Brochure", Mark: declare.Published},
		{Title: "U.S. Standard Atmosphere 1976", Where: "pressure against height, checked against GNU units' stdatmP", Mark: declare.Computed},
		{Title: "± 3 % for the weather", Where: "", Mark: declare.CommonPractice},
		{Title: "± 2 % of full scale for a dial", Where: "", Mark: declare.Memory},
	},
	Limits: []string{
		"A dial vacuum gauge cannot tell a good vacuum from a poor one: near the bottom its scale is finer than the weather.",
		"1 micron is taken as 1 mTorr; the micrometre of mercury differs by 1.4 parts in ten million.",
	},
	Converts: true,
	Example: declare.Example{
		In:   []declare.Pair{{Name: "value", Text: "-28 inHg gauge"}, {Name: "altitude", Text: "430 m"}},
		Want: []declare.Pair{{Name: "absolute", Text: "11,000 ± 26,000 mTorr"}, {Name: "ambient", Text: "28.43 ± 0.85 inHg"}},
		From: "ambient by GNU units: stdatmP(430 m) = 28.427 inHg; ± by hand: √((3 % of that)² + (2 % of an atmosphere)²)",
	},
	Eval:  pressureEval,
	Judge: pressureJudge,
}

// dialShare is the accuracy of an ordinary dial as a share of its full scale, one
// atmosphere (from memory; the dial's face may say better).
const dialShare = 0.02

func dialU(x *declare.Numbers) float64 {
	if q := x.Typed("value"); !q.Gauge || q.HasU {
		return 0
	}
	return dialShare / quantity.CoverageFactor * constant.Atmosphere
}

// outsideU is the uncertainty of the weather, where the air pressure was not measured.
func outsideU(x *declare.Numbers) float64 {
	if x.Has("ambient") {
		return 0
	}
	return weather / quantity.CoverageFactor
}

// outside is the air pressure; sea level where nothing is known of it.
func outside(x *declare.Numbers) float64 {
	if x.Has("ambient") {
		return x.In("ambient")
	}
	return StandardAtmosphere(x.In("altitude")) * (1 + x.Influence("weather")) // a blank altitude is 0
}

func pressureEval(x *declare.Numbers) {
	ambient, p := outside(x), x.In("value")
	known, below := x.Has("ambient") || x.Has("altitude"), ambient-p
	if x.Typed("value").Gauge {
		if !known {
			x.Refuse("ambient", "a gauge reading counts from the air around it: give the air pressure here, or the altitude")
			return
		}
		p += x.Influence("dial")
		below = -p // what the dial shows, whatever the air outside
		p += ambient
	}
	x.Set("absolute", p)
	x.Set("share", p/constant.Atmosphere)
	if known { // else nothing is known of the air outside
		x.Set("vacuum", below)
		x.Set("ambient", ambient)
	}
}

func pressureJudge(r *declare.Result) {
	p, u := r.Out("absolute")
	ambient, q := outside(r.Numbers), r.Typed("value")
	u *= quantity.CoverageFactor
	if p+u < -1e-9*ambient {
		r.Refuse("value", r.Fill("{value} would lie below a perfect vacuum where the air has {ambient}; check the reading, its unit and the air pressure"))
		return
	}
	if u == 0 && p < 0 { // what rounding leaves of an exact nought
		p = 0
		r.Set("absolute", p)
		r.Set("share", p)
	}
	work := "p = {value} = {absolute}"
	if q.Gauge {
		work = "p = pₐ + reading = {ambient} + ({value}) = {absolute}"
	}
	r.Work(work)
	_, known := r.Value("vacuum")
	if known && !q.Gauge {
		r.Work("below the air outside: pₐ − p = {ambient} − " + r.ShowIn("absolute", "vacuum") + " = {vacuum}")
	}
	// The place: both ends of what the pressure may be must lie in the same one.
	text := "not known: the uncertainty covers everything down to nothing"
	if u <= p {
		low := place(p-u, ambient)
		text = low
		if high := place(p+u, ambient); low != high {
			text = "not settled: the uncertainty reaches from “" + low + "” to “" + high + "”"
		}
	}
	if !known && !q.Gauge && p+u > highestPlace*ambient && p-u < 0.9*ambient {
		text = "air in a high place, or low (rough) vacuum: give the altitude"
	}
	r.Text("place", text)
	pressureCautions(r, q, p > ambient)
	if u > p {
		r.Caution("The uncertainty is larger than the pressure: this reading cannot say how good the vacuum is. Use an absolute gauge, or a finer one.")
	}
}

func pressureCautions(r *declare.Result, q *quantity.Quantity, above bool) {
	bothGiven(r)
	high := "This is above the air pressure outside. A vacuum chamber must never be put under pressure."
	if q.Gauge {
		if !q.HasU {
			// The sample is of such a dial, and to be typed as it stands.
			r.Caution("The dial's reading has no ±: ± 2 % of its full scale taken (from memory). Write it as on the dial's face: -28 inHg gauge ± 0.5 inHg.")
		}
		high = "A positive gauge reading is pressure above the air outside. If the dial shows vacuum, write it with a minus sign. A vacuum chamber must never be put under pressure."
	} else if q.Unit.Symbol == "inHg" {
		r.Caution("Read as absolute. If a dial shows it as vacuum, write -{value} gauge.")
	}
	if above {
		r.Caution(high)
	}
}

// bothGiven says which of the two counts where air pressure and altitude are given.
func bothGiven(r *declare.Result) {
	if r.Has("ambient") && r.Has("altitude") {
		r.Caution("The air pressure given was used; the altitude was not needed.")
	}
}

// highestPlace is the air at about 5,500 m, as a share of that at sea level: few machines
// stand higher. Where the altitude is not known, what lies between may be air.
const highestPlace = 0.5

// places name a pressure above a share of the air pressure, or above some pascals. The
// limits of low (rough) and medium vacuum, 100 Pa and 0.1 Pa, are those of ISO 3529-1,
// from memory.
var places = [...]struct {
	share, pascals float64
	text           string
}{
	{1.1, 0, "above the pressure of the air outside"},
	{0.9, 0, "air, or nearly so"},
	{0, vapour.TriplePointPressure, "low (rough) vacuum, above the triple point of water: water can be liquid"},
	{0, 100, "low (rough) vacuum, below the triple point of water: only ice and vapour"},
	{0, 0.1, "medium vacuum, where freeze drying happens"},
	{0, 0, "high vacuum: beyond what an oil-sealed pump of such a machine reaches"},
}

func place(p, ambient float64) string {
	for i := range places {
		if at := &places[i]; p > at.share*ambient+at.pascals {
			return at.text
		}
	}
	return "a display of zero: less than it can show, or a dead sensor"
}
