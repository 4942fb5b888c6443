package pumping

import (
	"blankoff/calc/declare"
	"blankoff/calc/quantity"
	"blankoff/calc/uncertainty"
)

// What is asked of the gauge that was read, and of its display.
var (
	gaugeInput = declare.Input{ID: "gauge", Label: "Gauge accuracy", Symbol: "a", Kinds: []quantity.Kind{quantity.Ratio}, Unit: "%", Min: "0 %", Max: "100 %", UsualLow: "0.1 %", UsualHigh: "50 %",
		Default: "20 %", Because: "from memory for a thermocouple gauge without a certificate", Help: "± of reading."}
	stepInput = declare.Input{ID: "step", Label: "Display step", Symbol: "s", Kinds: []quantity.Kind{quantity.Pressure}, Unit: "mTorr", Units: pressureUnits, Min: "0 Pa", Max: "100 kPa",
		UsualLow: "0.01 mTorr", UsualHigh: "100 mTorr", Default: "1 mTorr", Because: "as the usual display", Help: "The smallest change shown."}
)

// gaugeU is the standard uncertainty of the gauge's scale, a share.
func gaugeU(x *declare.Numbers) float64 { return x.In("gauge") / uncertainty.K }

func displayU(x *declare.Numbers) float64 { return uncertainty.FromStep(x.In("step")) }
