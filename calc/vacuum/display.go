package vacuum

import (
	"blankoff/calc/declare"
	"blankoff/calc/quantity"
)

// What a rise test and its plan ask of the display.
var (
	stepInput = declare.Input{ID: "step", Label: "Display step", Symbol: "d", Kinds: []quantity.Kind{quantity.Pressure}, Unit: "mTorr", Units: []string{"Pa", "mbar", "micron"},
		Min: "0 Pa", Max: "100 kPa", UsualLow: "0.01 mTorr", UsualHigh: "100 mTorr", Default: "1 mTorr", Because: "as the usual display",
		Help: "The smallest change shown, or the flicker where that is larger."}
	ceilingInput = declare.Input{ID: "ceiling", Label: "Gauge reads true up to", Symbol: "c", Kinds: []quantity.Kind{quantity.Pressure}, Unit: "mTorr", Units: []string{"Torr", "Pa", "mbar"},
		Min: "1 mTorr", Max: "200 kPa", Default: "2,000 mTorr",
		Help: "A thermocouple gauge bends above about 2,000 mTorr; a capacitance gauge does not."}
)
