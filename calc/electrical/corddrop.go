package electrical

import (
	"math"

	"blankoff/calc/declare"
	"blankoff/calc/letters"
	"blankoff/calc/quantity"
	"blankoff/calc/uncertainty"
)

// stopShare is the drop at which a machine must not run: the compressor's motor may
// stall and both motor and lead overheat (our notes of the trade, common practice).
const stopShare = 0.10

// thinnestGauge and thickestGauge bound the gauges of leads.
const thinnestGauge, thickestGauge = 40, 0

// CordDrop says what an extension lead leaves of the voltage.
//
// The conductor's resistance carries ± 16 %: a flexible cord may have up to that much
// more than pure copper of its nominal area (IEC 60228, class 5, 0.5 to 1.5 mm²: 13 to
// 16 % more; rigid wire 4 to 8 %). Contacts of plugs are within it, too.
var CordDrop = declare.Calculator{
	ID:       "cord-drop",
	Title:    "Voltage lost in an extension lead",
	Group:    declare.TemperaturePowerFitting,
	Decision: "Is this lead thick enough for the machine?",
	Inputs: []declare.Input{
		{ID: "length", Label: "Length of the lead", Symbol: "l", Kinds: []quantity.Kind{quantity.Length}, Unit: "m", Units: []string{"ft"},
			Min: "0 m", Max: "10 km", UsualLow: "0.5 m", UsualHigh: "100 m", Required: true, Rising: 1, Help: "From plug to socket, once. The way back is counted by itself."},
		{ID: "conductor", Label: "Conductor", Symbol: "A", Kinds: []quantity.Kind{quantity.Area, quantity.WireGauge}, Unit: "mm²", Units: []string{"AWG"},
			Min: "0 mm²", Max: "1000 mm²", UsualLow: "0.5 mm²", UsualHigh: "10 mm²", Required: true, Help: "Printed on the sheath: 3 × 1.5 is 1.5 mm²; 16/3 is 16 AWG. Copper."},
		{ID: "current", Label: "Running current", Symbol: "I", Kinds: []quantity.Kind{quantity.Current}, Unit: "A", Units: []string{"mA"},
			Min: "0 A", Max: "1000 A", UsualLow: "0.1 A", UsualHigh: "32 A", Required: true, Rising: 1, Help: "From the machine's plate or card."},
		{ID: "supply", Label: "Voltage at the outlet", Symbol: "V", Kinds: []quantity.Kind{quantity.Voltage}, Unit: "V", Units: []string{"kV"},
			Min: "1 V", Max: "1000 V", UsualLow: "12 V", UsualHigh: "400 V", Required: true, Help: "120 V or 230 V, as the plate says, or as a plug-in meter shows."},
		{ID: "temperature", Label: "Conductor temperature", Symbol: "T", Kinds: []quantity.Kind{quantity.Temperature}, Unit: "°C", Units: []string{"°F", "K"},
			Min: "-40 °C", Max: "100 °C", Default: "20 °C", Because: "as wire tables do", Negative: true, Rising: 1, Help: "A loaded or coiled lead is warmer: 0.4 % more for each kelvin."},
		{ID: "start", Label: "Starting current", Symbol: "I₁", Kinds: []quantity.Kind{quantity.Current}, Unit: "A", Units: []string{"mA"},
			Min: "0 A", Max: "10000 A", Help: "The moment at which the compressor starts; from the machine's card."},
		{ID: "limit", Label: "Largest share that may be lost", Symbol: "L", Kinds: []quantity.Kind{quantity.Ratio}, Unit: "%",
			Min: "0.1 %", Max: "10 %", Default: "3 %", Because: "from memory, as an informational note of NFPA 70 recommends", Help: "3 % for the lead, 5 % together with the wiring of the house."},
		{ID: "spread", Label: "How far the lead may be off", Symbol: "g", Kinds: []quantity.Kind{quantity.Ratio}, Unit: "%",
			Min: "0 %", Max: "50 %", Default: "16 %", Because: "as IEC 60228 lets a flexible cord have up to that much more than copper of its area", Help: "From the resistance of copper of the area printed on it."},
	},
	Influences: []declare.Influence{
		{ID: "make", Text: "resistance of the lead", U: func(x *declare.Numbers) float64 { return uncertainty.FromAccuracy(x.In("spread")) }},
	},
	Outputs: []declare.Output{
		{ID: "drop", Label: "Lost in the lead", Symbol: "ΔV", Kind: quantity.Voltage, Unit: "V"},
		{ID: "share", Label: "Share of the supply", Symbol: "s", Kind: quantity.Ratio, Unit: "%"},
		{ID: "voltage", Label: "Left at the machine", Symbol: "V₁", Kind: quantity.Voltage, Unit: "V"},
		{ID: "start-drop", Label: "Lost while it starts", Symbol: "ΔV₁", Kind: quantity.Voltage, Unit: "V"},
		{ID: "start-share", Label: "Share of the supply then", Symbol: "s₁", Kind: quantity.Ratio, Unit: "%"},
		{ID: "resistance", Label: "Both conductors", Symbol: "R", Kind: quantity.Resistance, Unit: "Ω", Also: []string{"mΩ"}},
		{ID: "area", Label: "Area of one conductor", Symbol: "A", Kind: quantity.Area, Unit: "mm²"},
	},
	Formula: []string{"R = 2 ρ l / A · (1 + α (T − T₀)); ρ = 1/58 Ω·mm²/m, α = 0.00393/K, T₀ = 20 °C", "ΔV = I R", "s = ΔV / V",
		"A = (π / 4) d²; for a gauge n, d = 0.127 mm · 92^((36 − n) / 39)"},
	Sources: []declare.Source{
		{Title: "Copper of 1/58 Ω·mm²/m at 20 °C", Where: "NBS Handbook 100 (1966), as quoted in testdata/reference/11_copper.csv", Mark: declare.Published},
		{Title: "0.00393 for each kelvin", Where: "Industrial Power Engineering and Applications Handbook, table of conductor properties", Mark: declare.Published},
		{Title: "Wire gauges", Where: "ASTM B258; table values in testdata/reference/11_copper.csv", Mark: declare.Published},
		{Title: "Most that a cord may have", Where: "IEC 60228, transcribed tables in testdata/reference/11_copper.csv", Mark: declare.Published},
		{Title: "3 % and 5 %, recommendation of NFPA 70", Mark: declare.Memory},
		{Title: "Stop above 10 %", Mark: declare.CommonPractice},
	},
	Cautions: []string{
		"The wiring of the house loses voltage as well; measured at the machine under load, both count.",
		"A lead that is thick enough for its loss may still be too thin for its current, above all coiled. The lead's own rating, the outlet and the local code decide; outlets belong to a licensed electrician.",
	},
	Hazards: []string{"long-lead", "mains"},
	Limits:  []string{"One phase or direct current, copper, out and back. The lead's inductance does not matter at such sizes.", "The current is taken as it was entered: a motor on low voltage draws more, which makes it worse."},
	Example: declare.Example{
		In:   []declare.Pair{{Name: "length", Text: "30 m"}, {Name: "conductor", Text: "16 AWG"}, {Name: "current", Text: "9.5 A"}, {Name: "supply", Text: "120 V"}, {Name: "start", Text: "28 A"}},
		Want: []declare.Pair{{Name: "drop", Text: "7.5 ± 1.2 V"}, {Name: "share", Text: "6.3 ± 1.0 %"}, {Name: "start-drop", Text: "22.1 ± 3.5 V"}},
		From: "our notes of the trade, section 7, computed: 7.5 V, 6.3 %, and 22 V at the start; ± by hand, 16 % of each",
	},
	Eval:  cordEval,
	Judge: cordJudge,
}

func cordEval(x *declare.Numbers) {
	area := x.In("conductor")
	if typed := x.Typed("conductor"); typed.Kind == quantity.WireGauge {
		// 16/3 on a sheath is three wires of gauge 16 and no fraction, 00 is thicker than 0
		if area < thickestGauge || area > thinnestGauge || letters.Contains(typed.Text, "/") || letters.HasPrefix(typed.Text, "00") {
			x.Refuse("conductor", "write the gauge alone, 0 AWG to 40 AWG, such as 16 AWG for 16/3; a thicker conductor in mm²")
			return
		}
		area = gaugeArea(area)
	}
	if area < 1e-9 {
		x.Refuse("conductor", "Conductor must be above 0.001 mm²; write what is printed on the sheath, such as 1.5 mm² or 16 AWG")
		return
	}
	resistance := 2 * copperResistance(x.In("length"), area, x.In("temperature")) * (1 + x.Influence("make"))
	supply, drop := x.In("supply"), x.In("current")*resistance
	if drop >= supply {
		x.Refuse("current", "so long and thin a lead cannot carry this current: it would lose more than the supply has. Check length, conductor and current")
		return
	}
	x.Set("area", area)
	x.Set("resistance", resistance)
	x.Set("drop", drop)
	x.Set("share", drop/supply)
	x.Set("voltage", supply-drop)
	if x.Has("start") {
		drop = x.In("start") * resistance
		x.Set("start-drop", drop)
		x.Set("start-share", drop/supply)
	}
}

func cordJudge(r *declare.Result) {
	if r.Kind("conductor") == quantity.WireGauge {
		// The gauge is defined in millimetres here, so that the area comes out in mm².
		r.Work("A = π/4 (0.127 mm · 92^((36 − n)/39))² = {area} for {conductor}")
	}
	// α counts for each kelvin from 20 °C on.
	r.Work("R = 2 ρ l (1 + α (T − 20 °C)) / A = {resistance}, out and back, at {own:temperature}")
	r.Work("ΔV = I R = {current} × {resistance} = {drop}, {share} of {supply}")
	if r.Has("start") {
		r.Work("while it starts: {start} × {resistance} = {start-drop}, {start-share}; at most 10 %")
	} else {
		r.Caution("Without the starting current nothing is said of the moment at which the compressor starts.")
	}
	limit := r.In("limit")
	share, u := r.Out("share")
	start, startU := r.Out("start-share") // nought without a starting current
	u *= uncertainty.K
	is, atStart := uncertainty.AtMost(share, u, limit), uncertainty.AtMost(start, uncertainty.K*startU, stopShare)
	found := &cordPass
	switch {
	case uncertainty.AtMost(share, u, stopShare) == uncertainty.Fail:
		found = &cordStop
	case atStart == uncertainty.Fail:
		found = &cordStall
	case is == uncertainty.Fail:
		found = &cordFail
	case is == uncertainty.CannotTell:
		found = &cordUnsure
	case atStart == uncertainty.CannotTell:
		found = &cordStart
	}
	tell(r, found, cordAdvice(r, (share+u)/limit), "")
}

// The findings on a lead: # stands for one that passes.
var (
	cordPass   = finding{uncertainty.Pass, "", "The lead loses {share}, within {limit}; {voltage} are left."}
	cordStop   = finding{uncertainty.Fail, "", "Stop: the lead loses {share}, and more than 10 % stalls motors and heats the lead. Plug the machine straight into an outlet of the right rating."}
	cordStall  = finding{uncertainty.Fail, "", "Stop: while the machine starts the lead loses {start-share}, and more than 10 % stalls motors and heats the lead. Plug the machine straight into an outlet of the right rating."}
	cordFail   = finding{uncertainty.Fail, "", "The lead loses {share}, more than {limit}. Take a shorter or thicker one: # passes."}
	cordUnsure = finding{uncertainty.CannotTell, "", "The lead loses {share}, which may lie on either side of {limit}. A shorter or thicker one would settle it: # passes. So would the voltage at the machine, measured under load."}
	cordStart  = finding{uncertainty.CannotTell, "", "While the machine starts the lead loses {start-share}, which may lie on either side of 10 %. A thicker lead, or the lowest voltage that a recording meter catches at the start, would settle it."}
)

// cordAdvice is a length and an area that keep the limit with all that is in doubt, over
// being how many times it is reached.
func cordAdvice(r *declare.Result, over float64) string {
	area, _ := r.Out("area")
	unit := r.Unit("m") // rounded down in the reader's unit
	length := unit.From(r.In("length") / over)
	step := niceStep(length) / 10
	return put("# of it, or the same length of *", quantity.Format(unit.To(math.Floor(length/step)*step), -1, unit, 2),
		quantity.Format(math.Ceil(area*over*1e7)/1e7, -1, quantity.MustUnit("mm²"), 3))
}
