package gauge

import (
	"math"

	"blankoff/calc/declare"
	"blankoff/calc/quantity"
	"blankoff/calc/uncertainty"
)

// TubeSignal turns the millivolts of a thermocouple tube into a pressure by the curve of
// its card. The signal goes with the power in the heater, and so with the square of its
// current.
var TubeSignal = declare.Calculator{
	ID:       "tube-signal",
	Title:    "Millivolts of a gauge tube",
	Group:    declare.GaugeAndSensor,
	Decision: "Which pressure do these millivolts mean, and how much is one step of the display here?",
	Inputs: []declare.Input{
		{ID: "curve", Label: "Curve of the tube", Required: true, Columns: []declare.Column{
			{ID: "signal", Label: "Signal", Kinds: []quantity.Kind{quantity.Voltage}, Unit: "mV", Min: "0 V", Max: "10 V", Required: true},
			{ID: "pressure", Label: "Pressure", Kinds: []quantity.Kind{quantity.Pressure}, Unit: "mTorr", Min: "0 Pa", Max: "200 kPa", Required: true},
		}, Help: "From the tube's card, in order, three rows or more. The signal falls as the pressure rises."},
		{ID: "signal", Label: "Signal", Symbol: "e", Kinds: []quantity.Kind{quantity.Voltage}, Unit: "mV", Units: []string{"µV", "V"}, Min: "-10 V", Max: "10 V",
			Required: true, Negative: true, Rising: -1, Help: "At the couple's pins, heater on, in air. The meter's accuracy may follow: 6.63 mV ± 0.02 mV."},
		{ID: "current", Label: "Heater current now", Symbol: "I", Kinds: []quantity.Kind{quantity.Current}, Unit: "mA", Units: []string{"A"}, Min: "0.1 mA", Max: "10 A",
			Rising: 1, Help: "Measured live, which is work for a licensed electrician or qualified person. Blank: as the card says."},
		{ID: "nominal", Label: "Heater current of the card", Symbol: "I₀", Kinds: []quantity.Kind{quantity.Current}, Unit: "mA", Units: []string{"A"}, Min: "0.1 mA", Max: "10 A",
			Rising: -1, Help: "The current for which the curve stands."},
		{ID: "step", Label: "Display step", Symbol: "d", Kinds: []quantity.Kind{quantity.Voltage, quantity.Pressure}, Unit: "µV", Units: []string{"mV", "mTorr", "Pa"}, Min: "0 V", Max: "200 kPa",
			Default: "1 µV", Because: "to show what noise does", Help: "The smallest change shown: of the meter, or of the machine's own display."},
		{ID: "tube", Label: "Tube against its curve", Symbol: "a", Kinds: []quantity.Kind{quantity.Ratio}, Unit: "%",
			Min: "0 %", Max: "100 %", UsualLow: "1 %", UsualHigh: "50 %", Default: thermalAccuracy, Because: thermalBecause, Help: "± of the pressure: how far tubes of one type differ."},
	},
	Influences: []declare.Influence{
		{ID: "tube-scale", Text: "this tube against the curve of its type", U: func(x *declare.Numbers) float64 { return x.In("tube") / uncertainty.K }},
		{ID: "between", Text: "what the curve may do between its rows", U: betweenU},
		{ID: "signal-step", Text: "step of the meter", U: func(x *declare.Numbers) float64 { return stepU(x, quantity.Voltage) }},
		{ID: "pressure-step", Text: "step of the machine's display", U: func(x *declare.Numbers) float64 { return stepU(x, quantity.Pressure) }},
	},
	Outputs: []declare.Output{
		{ID: "pressure", Label: "Pressure", Symbol: "p", Kind: quantity.Pressure, Unit: "mTorr", Also: []string{"Pa", "mbar"}},
		{ID: "shown", Label: "What the machine makes of it", Symbol: "p_s", Kind: quantity.Pressure, Unit: "mTorr", Also: []string{"Pa"}},
		{ID: "sensitivity", Label: "Fall of the signal with pressure", Symbol: "k", Kind: quantity.Sensitivity, Unit: "µV/mTorr"},
		{ID: "microvolt", Label: "1 µV here", Kind: quantity.Pressure, Unit: "mTorr"},
		{ID: "step-pressure", Label: "Display step, as pressure", Kind: quantity.Pressure, Unit: "mTorr"},
		{ID: "step-signal", Label: "Display step, as signal", Kind: quantity.Voltage, Unit: "µV"},
	},
	Formula: []string{
		"E = e (I₀ / I)²; the signal that the same pressure gives at the card's current",
		"p = f(E); f is the curve, and between its rows ln(p) is a monotone cubic of the signal",
		"k = (I / I₀)² |Δe / Δp|; the slope of the curve there",
	},
	Sources: []declare.Source{
		{Title: "Signal falls as pressure rises", Where: "testdata/reference/17_gauge_facts.csv, case 17-O013", Mark: declare.Published},
		{Title: "Signal goes with the heater's power, I²", Where: "our notes of the trade, 2.9", Mark: declare.Computed},
		{Title: "Monotone cubic (Fritsch and Butland)", Where: "", Mark: declare.Memory},
	},
	Cautions: []string{"The card's curve is for a clean tube in air. Dirt and other gases lower the signal too."},
	Hazards:  []string{"mains", "static"},
	Limits: []string{
		"Nothing is said beyond the ends of the curve.",
		"A sparse curve is uncertain between its rows. The ± counts that where neighbouring pressures are within 3 times of each other.",
	},
	Example: declare.Example{
		In:   []declare.Pair{{Name: "curve", Text: modelCurve}, {Name: "signal", Text: "7.20 mV"}, {Name: "step", Text: "1 mTorr"}, {Name: "tube", Text: "20 %"}},
		Want: []declare.Pair{{Name: "pressure", Text: "100 ± 20 mTorr"}},
		From: "our notes of the trade, 2.9: the model tube gives 7.20 mV at 100 mTorr; ± 20 % as given",
	},
	Study: tubeCurve,
	Eval:  tubeEval,
	Judge: tubeJudge,
	Plot:  &tubePlot,
}

// modelCurve is the invented tube TQ-4 of our notes of the trade, 9.6 mV / (1 + 12 p / (p + 3,500 mTorr)).
const modelCurve = "signal mV,pressure mTorr\n9.57,1\n9.28,10\n8.21,50\n7.20,100\n5.33,250\n3.84,500\n2.62,1000\n1.79,2000\n0.971,10000\n0.817,30000\n0.742,760000"

func curveOf(x *declare.Numbers) *curve {
	c, _ := x.Studied().(*curve)
	return c
}

// betweenU is what the curve may do between its rows.
func betweenU(x *declare.Numbers) float64 {
	signal, _ := signalOf(x)
	return curveOf(x).doubt(signal)
}

func stepU(x *declare.Numbers, kind quantity.Kind) float64 {
	if x.Kind("step") != kind {
		return 0
	}
	return uncertainty.FromStep(x.In("step"))
}

// signalOf is the signal that the same pressure gives at the card's current, and
// (I / I₀)², 1 where no currents are given.
func signalOf(x *declare.Numbers) (atCard, share float64) {
	share = 1
	if x.Has("current") {
		share = x.In("current") / x.In("nominal")
		share *= share
	}
	return (x.In("signal") + x.Influence("signal-step")) / share, share
}

// tubeCurve reads the table, whose rows may run either way, and refuses what leaves
// nothing to read off.
func tubeCurve(x *declare.Numbers) any {
	signal, pressure := x.Column("curve", "signal"), x.Column("curve", "pressure")
	n := len(signal)
	field, text := "curve", "a curve needs three rows or more"
	if n < 3 {
		x.Refuse(field, text)
		return nil
	}
	line, way := 0, 1
	if signal[n-1] < signal[0] {
		line, way = n-1, -1
	}
	last, lastP, text := -1.0, math.MaxFloat64, ""
	for range n {
		v, p := signal[line], pressure[line]
		if !(p > 0) || v != v {
			text = "line []: each row needs a signal and a pressure above nought; leave out rows without them"
		} else if !(v > last && p < lastP) {
			text = "line []: the signal must fall from row to row as the pressure rises; check this row and its neighbours, and their order"
		}
		if text != "" {
			x.Refuse(field, declare.With(4, text, float64(x.Line(field, line))))
			return nil
		}
		last, lastP = v, p
		line += way
	}
	now, card := x.Has("current"), x.Has("nominal")
	switch {
	case x.In("signal") < 0:
		field, text = "signal", "a negative signal means that the couple's two wires, or the meter's leads, are swapped; swap them and read again"
	case now && !card:
		field, text = "nominal", "give the card's heater current as well: the signal goes with the square of now over card"
	case card && !now:
		field, text = "current", "give the heater current now as well, or leave both blank"
	}
	if text != "" {
		x.Refuse(field, text)
	}
	return newCurve(signal, pressure)
}

func tubeEval(x *declare.Numbers) {
	c := curveOf(x)
	signal, share := signalOf(x)
	low, high := &c.rows[0], &c.rows[len(c.rows)-1]
	// Nothing is read beyond the ends of the curve, with a hair for rounding.
	beyond, text := low, ""
	if signal < low.signal*(1-tie) {
		text = "this signal is lower than the curve's last, [mV] at [mTorr]: too little heat, an open couple or a bad plug look like that; check the tube's wires first"
	} else if signal > high.signal*(1+tie) {
		beyond, text = high, "this signal is higher than the curve's first, [mV] at [mTorr]: the pressure lies below what the curve tells, or the heater current is too high"
	}
	if text != "" {
		x.Refuse("signal", x.With(4, text, beyond.signal, math.Exp(beyond.log)))
		return
	}
	p, slope := c.at(signal)
	p = p*(1+x.Influence("tube-scale"))*(1+x.Influence("between")) + x.Influence("pressure-step")
	sensitivity := -share / (p * slope)
	x.Set("pressure", p)
	x.Set("sensitivity", sensitivity)
	x.Set("microvolt", 1e-6/sensitivity)
	id, step := "step-pressure", x.In("step")
	if x.Kind("step") == quantity.Voltage {
		step /= sensitivity
	} else {
		id, step = "step-signal", step*sensitivity
	}
	x.Set(id, step)
	if raw := signal * share; share != 1 && raw >= low.signal && raw <= high.signal {
		shown, _ := c.at(raw)
		x.Set("shown", shown)
	}
}
