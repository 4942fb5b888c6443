package pumping

import (
	"blankoff/calc/declare"
	"blankoff/calc/quantity"
)

// PumpDownLog compares a pump-down with the machine's own curve and says which part of it
// is slow.
//
// The early part comes down on a straight line of ln p, so it is compared by its time: at
// one time pressures differ by far more than the machine does. The late part is nearly
// flat, so it is compared by its pressure, counted from the moment at which the early part
// ended: a slow start must not make the late part look bad.
var PumpDownLog = declare.Calculator{
	ID:       "pump-down-log",
	Title:    "Pump-down log",
	Group:    declare.PumpAndLines,
	Decision: "Does this machine pump down as it should, and if not, is it the pump and hose or what comes in?",
	Inputs: []declare.Input{
		{ID: "log", Label: "Log", Columns: timeColumns, Required: true, Help: "Time since the pump started, and reading; 3 rows or more."},
		{ID: "volume", Label: "Chamber volume", Symbol: "V", Kinds: []quantity.Kind{quantity.Volume}, Unit: "L", Units: []string{"m³", "ft³", "gal"},
			Min: "1 mL", Max: "1e6 m³", UsualLow: "2 L", UsualHigh: "500 L", Accuracy: "5 %", Required: true, Help: "With lines up to the pump."},
		{ID: "expected", Label: "Expected curve", Columns: timeColumns, Help: "Of this machine, dry and sound: measured once, or from its card."},
		{ID: "speed", Label: "Pump's speed", Symbol: "S", Kinds: []quantity.Kind{quantity.VolumeFlow}, Unit: "m³/h", Units: []string{"L/s", "cfm", "L/min"},
			Min: "1e-9 L/s", Max: "1e6 m³/h", UsualLow: "0.5 m³/h", UsualHigh: "100 m³/h", Accuracy: "10 %", Help: "From the nameplate, to compare with."},
		gaugeInput,
		{ID: "ceiling", Label: "Gauge reads true up to", Symbol: "c", Kinds: []quantity.Kind{quantity.Pressure}, Unit: "mTorr", Units: pressureUnits, Min: "1 mTorr", Max: "200 kPa",
			Default: "2,000 mTorr", Because: "as for a thermal gauge", Help: "Readings above it are not used. A capacitance gauge has no such limit: give 1,100 mbar."},
		{ID: "band", Label: "Band allowed", Symbol: "b", Kinds: []quantity.Kind{quantity.Ratio}, Unit: "%", Min: "1 %", Max: "300 %", UsualLow: "10 %", UsualHigh: "100 %",
			Default: "25 %", Because: "by common practice", Help: "How much slower, or higher, than the curve still counts as sound."},
	},
	Influences: []declare.Influence{
		{ID: "scale", Text: "scale error of the gauge", U: gaugeU},
		{ID: "fit", Text: "scatter of the readings about the line to the floor", U: floorU},
	},
	Outputs: []declare.Output{
		{ID: "early", Label: "Early part: time against the curve's", Symbol: "e", Kind: quantity.Ratio, Unit: "%"},
		{ID: "late", Label: "Late part: pressure against the curve's", Symbol: "l", Kind: quantity.Ratio, Unit: "%"},
		{ID: "floor", Label: "Where it is heading", Symbol: "p₀", Kind: quantity.Pressure, Unit: "mTorr"},
		{ID: "state", Label: "State"},
		{ID: "stands", Label: "As it stands"},
		{ID: "more", Label: "Longer, to decide", Kind: quantity.Time, Unit: "min", Derived: true},
		{ID: "speeds", Label: "Net speed by decade", Columns: []declare.Column{
			{ID: "from", Label: "From", Kinds: []quantity.Kind{quantity.Pressure}, Unit: "mTorr"},
			{ID: "to", Label: "To", Kinds: []quantity.Kind{quantity.Pressure}, Unit: "mTorr"},
			{ID: "speed", Label: "Net speed", Kinds: []quantity.Kind{quantity.VolumeFlow}, Unit: "L/s"},
			{ID: "share", Label: "Share of the pump's", Kinds: []quantity.Kind{quantity.Ratio}, Unit: "%"}}},
	},
	Formula: []string{
		"S = V ln(p₁/p₂) / (t₂ − t₁); over the part of each decade that the log covers",
		"e = t/T; times at which log and curve come down to 1,000 mTorr, or to the first reading below that",
		"ln(l) = Σ w ln(p/P) / Σ w; log against curve after that moment, or in the second half of the time if that is more, w the step in the logarithm of time",
		"p = p₀ + B / t; line of least squares through the last three quarters of the time",
	},
	Sources: []declare.Source{
		{Title: "Speed from a pump-down", Where: "ISO 21360-1 (scope: one of its three ways)", Mark: declare.Published},
		{Title: "Below about 1 Torr the gas load rules, near 1/t", Where: "O'Hanlon, A User's Guide to Vacuum Technology", Mark: declare.Published},
		{Title: "Band of ± 25 %; thermal gauges bend above about 2,000 mTorr", Where: "", Mark: declare.CommonPractice},
	},
	Cautions: []string{
		"Net speed counts what still comes in as well: where the load rules, it says little of the pump.",
		"A thermal gauge cannot be trusted above about {2,000 mTorr}, and reads high in water vapour.",
	},
	Hazards: []string{"vacuum", "pane"},
	Limits: []string{
		"Log and curve must start with the pump, from the same pressure, with the same trap state, empty and dry.",
		"It tells an early fault from a late one, not a leak from vapour: that is what a rise test is for.",
	},
	Example: declare.Example{
		In: []declare.Pair{
			{Name: "log", Text: "time min,pressure mTorr\n1.5,4980\n2,1750\n3,888\n5,770\n8,741\n12,726\n20,714\n30,708"},
			{Name: "volume", Text: "24.0 L ± 1.0 L"}, {Name: "expected", Text: "time min,pressure mTorr\n1.5,4350\n2,1170\n3,358\n5,208\n8,156\n12,125\n20,97\n30,82"}, {Name: "speed", Text: "5.1 m³/h"}},
		Want: []declare.Pair{{Name: "state", Text: "high in the late part: a leak, vapour, the pump's blank-off, or the gauge"}},
		From: "our notes of the trade, case 6: weak oil",
	},
	Study: logStudy,
	Eval:  logEval,
	Judge: logJudge,
	Plot:  &logPlot,
}
