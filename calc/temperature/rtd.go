package temperature

import (
	"blankoff/calc/constant"
	"blankoff/calc/declare"
	"blankoff/calc/quantity"
	"blankoff/calc/uncertainty"
)

// RTD is a platinum resistance thermometer, Pt100 or Pt1000.
var RTD = declare.Calculator{
	ID:       "rtd",
	Title:    "Platinum resistance probe (Pt100, Pt1000)",
	Group:    declare.TemperaturePowerFitting,
	Decision: "How warm is the platinum probe, and does it read true?",
	Inputs: []declare.Input{
		{ID: "reading", Label: "Meter reading", Symbol: "R₁", Kinds: []quantity.Kind{quantity.Resistance}, Unit: "Ω", Units: []string{"kΩ"},
			Min: "0 Ω", Max: "100 MΩ", UsualLow: "60 Ω", UsualHigh: "2 kΩ", MayBeOver: true, Rising: 1, Accuracy: "0.5 %",
			Help: "Probe unplugged, ordinary ohms range. ± from the meter's booklet may follow: 0.5 % is a common meter (from memory)."},
		{ID: "reference", Label: "Reference thermometer", Symbol: "t_r", Kinds: []quantity.Kind{quantity.Temperature}, Unit: "°C", Units: []string{"°F", "K"},
			Min: "-273.15 °C", Max: "2,000 °C", UsualLow: "-80 °C", UsualHigh: "150 °C", Negative: true, Help: referenceHelp},
		{ID: "nominal", Label: "Resistance at 0 °C", Symbol: "R₀", Kinds: []quantity.Kind{quantity.Resistance}, Unit: "Ω", Units: []string{"kΩ"},
			Min: "10 Ω", Max: "10 kΩ", Default: "100 Ω", Because: "as of a Pt100", Help: "100 Ω for a Pt100, 1,000 Ω for a Pt1000."},
		{ID: "leads", Label: "Leads", Symbol: "R_l", Kinds: []quantity.Kind{quantity.Resistance}, Unit: "Ω", Units: []string{"mΩ"},
			Min: "0 Ω", Max: "50 Ω", UsualLow: "0 Ω", UsualHigh: "5 Ω", Default: "0 Ω", Because: "as nulled, or met by a third or fourth wire",
			Help: "Both wires of a two-wire probe with the meter's leads. 0.4 Ω is 1 K of a Pt100."},
		{ID: "class", Label: "Tolerance class", Choices: []declare.Choice{{Value: "A"}, {Value: "B"}}, Default: "B", Because: "as for ordinary probes (common practice)", Help: "Of IEC 60751."},
		{ID: "allowed", Label: "Allowed error", Symbol: "a", Kinds: []quantity.Kind{quantity.TemperatureDifference}, Unit: "K", Min: "0 K", Max: "100 K", Help: allowedHelp},
	},
	Influences: []declare.Influence{{ID: "reference-error", Text: referenceText, U: referenceU}},
	Outputs: []declare.Output{
		{ID: "temperature", Label: "Temperature", Symbol: "t", Kind: quantity.Temperature, Unit: "°C", Also: []string{"°F"}},
		{ID: "expected", Label: "Meter should show", Symbol: "R_r", Kind: quantity.Resistance, Unit: "Ω"},
		{ID: "error", Label: "Probe less reference", Symbol: "e", Kind: quantity.TemperatureDifference, Unit: "K"},
		{ID: "allowed", Label: "Allowed error", Symbol: "a", Kind: quantity.TemperatureDifference, Unit: "K", Derived: true},
		{ID: "state", Label: "State"},
	},
	Formula: []string{
		"R₁ − R_l = R₀ (1 + A t + B t² + C (t − 100) t³); A = 3.9083×10⁻³, B = −5.775×10⁻⁷, C = −4.183×10⁻¹² below 0 °C and 0 above, t in °C",
		"a = 0.15 + 0.002 |t|; class A, in kelvin",
		"a = 0.30 + 0.005 |t|; class B, in kelvin",
	},
	Sources: []declare.Source{
		{Title: "Callendar–Van Dusen equation and coefficients", Where: "IEC 60751, several transcriptions, testdata/reference/10_rtd_ntc.csv", Mark: declare.Published},
		{Title: "Class A, and class B at 0 °C", Where: "IEC 60751, transcription of a sensor maker", Mark: declare.Published},
		{Title: "Class B away from 0 °C", Mark: declare.Memory},
	},
	Cautions: []string{
		"One temperature says nothing of another: compare near the temperature at which the probe works.",
		"Unplug the probe: a board in parallel lowers the reading.",
	},
	Hazards: []string{"mains", "stored-charge", "cold"},
	Limits: []string{
		"For platinum of the standard's kind only, −200 °C to 850 °C; the classes end sooner for film probes.",
		"Ordinary meters settle no class A: 0.15 K is 0.06 Ω of a Pt100.",
	},
	Example: declare.Example{
		In:   []declare.Pair{{Name: "reading", Text: "83.48 Ω ± 0.08 Ω"}, {Name: "reference", Text: "-42 °C ± 0.3 K"}},
		Want: []declare.Pair{{Name: "temperature", Text: "−42.00 ± 0.20 °C"}, {Name: "expected", Text: "83.48 ± 0.12 Ω"}, {Name: "error", Text: "0.00 ± 0.36 K"}, {Name: "allowed", Text: "0.51 K"}},
		From: "our notes of the trade, section 7, computed: 83.48 Ω, class B ± 0.51 K; ± by hand from 0.397 Ω/K",
	},
	Study: rtdStudy,
	Eval:  rtdEval,
	Judge: rtdJudge,
}

func rtdStudy(x *declare.Numbers) any {
	low, _ := platinumRatio(platinumLow)
	high, _ := platinumRatio(platinumHigh)
	nominal := x.In("nominal")
	p := &resistor{low: nominal * low, high: nominal * high}
	net := x.In("reading") - x.In("leads")
	p.wrong = uncertainty.Combine(x.Typed("reading").U, x.Typed("leads").U, x.Typed("nominal").U*net/nominal)
	return p.study(x, net)
}

func rtdEval(x *declare.Numbers) {
	known, ok := reference(x)
	if !ok {
		return
	}
	nominal, leads := x.In("nominal"), x.In("leads")
	if known == known {
		t := known - constant.ZeroCelsius
		if t < platinumLow-tie || t > platinumHigh+tie {
			x.Refuse("reference", "the platinum curve is defined from {−200 °C} to {850 °C} only")
			return
		}
		ratio, _ := platinumRatio(t)
		x.Set("expected", nominal*ratio+leads)
	}
	if p, _ := x.Studied().(*resistor); p.whole {
		setTemperature(x, platinumCelsius((x.In("reading")-leads)/nominal)+constant.ZeroCelsius, known)
	}
}

// longLeads is more than the two wires of a probe in a machine have, Ω (common practice, no
// source).
const longLeads = 3.0

func rtdJudge(r *declare.Result) {
	class, nominal, leads := r.Choice("class"), r.In("nominal"), r.In("leads")
	p, _ := r.Studied().(*resistor)
	allowed, rule := begin(r, p, r.In("reading")-leads, platinumAllowed(class, r.In("reference")-constant.ZeroCelsius), "class "+class, "R_r = R₀ (1 + A t_r + B t_r² + …) + R_l = {expected}")
	if rule == "" {
		return
	}
	t, _ := r.Out("temperature")
	ratio, slope := platinumRatio(t - constant.ZeroCelsius)
	slope *= nominal
	r.Work("(R₁ − R_l) / R₀ = ({reading} − {leads}) / {nominal} = " + quantity.Format(ratio, -1, quantity.One, 6))
	r.Work(numbers(r.Numbers, "t = {temperature}; there the probe gives [Ω] for each kelvin", "", slope))
	// Leads that were not taken off make a two-wire probe read too high.
	hint := "Check the resistance at 0 °C that was entered, and the contacts."
	e, _ := r.Out("error")
	if ohms := e * slope; ohms > 0 && ohms < longLeads && leads == 0 {
		hint = numbers(r.Numbers, "Leads of [Ω] would explain it: measure them.", "", ohms)
	}
	judgeError(r, allowed, rule, hint)
}
