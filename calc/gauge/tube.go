package gauge

import (
	"math"

	"blankoff/calc/declare"
	"blankoff/calc/letters"
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
		{ID: "tube-scale", Text: "this tube against the curve of its type", U: func(x *declare.Numbers) float64 { return uncertainty.FromAccuracy(x.In("tube")) }},
		{ID: "between", Text: "what the curve may do between its rows", U: func(x *declare.Numbers) float64 { return curveOf(x).doubt(signalAtCard(x)) }},
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
		{Title: "Signal goes with the heater's power, I²", Where: "trade brief, 2.9", Mark: declare.Computed},
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
		From: "trade brief, 2.9: the model tube gives 7.20 mV at 100 mTorr; ± 20 % as given",
	},
	Study: tubeCurve,
	Eval:  tubeEval,
	Judge: tubeJudge,
}

// modelCurve is the invented tube TQ-4 of the trade brief, 9.6 mV / (1 + 12 p / (p + 3,500 mTorr)).
const modelCurve = "signal mV,pressure mTorr\n9.57,1\n9.28,10\n8.21,50\n7.20,100\n5.33,250\n3.84,500\n2.62,1000\n1.79,2000\n0.971,10000\n0.817,30000\n0.742,760000"

func curveOf(x *declare.Numbers) *curve { return x.Studied().(*curve) }

func stepU(x *declare.Numbers, kind quantity.Kind) float64 {
	if x.Kind("step") != kind {
		return 0
	}
	return uncertainty.FromStep(x.In("step"))
}

// currentShare is (I / I₀)², 1 where no currents are given.
func currentShare(x *declare.Numbers) float64 {
	if !x.Has("current") || !x.Has("nominal") {
		return 1
	}
	return math.Pow(x.In("current")/x.In("nominal"), 2)
}

// signalAtCard is the signal that the same pressure gives at the card's current.
func signalAtCard(x *declare.Numbers) float64 {
	return (x.In("signal") + x.Influence("signal-step")) / currentShare(x)
}

// tubeCurve reads the table, whose rows may run either way.
func tubeCurve(x *declare.Numbers) any {
	signal, pressure := x.Column("curve", "signal"), x.Column("curve", "pressure")
	n := len(signal)
	if n < 3 {
		x.Refuse("curve", "a curve needs three rows or more")
		return nil
	}
	turned := signal[n-1] < signal[0]
	s, p := make([]float64, n), make([]float64, n)
	for i := range s {
		line := i
		if turned {
			line = n - 1 - i
		}
		s[i], p[i] = signal[line], pressure[line]
		at := "line " + letters.Whole(x.Line("curve", line)) + ": "
		switch {
		case !(p[i] > 0) || s[i] != s[i]:
			x.Refuse("curve", at+"each row needs a signal and a pressure above nought; leave out rows without them")
			return nil
		case i > 0 && !(s[i] > s[i-1] && p[i] < p[i-1]):
			x.Refuse("curve", at+"the signal must fall from row to row as the pressure rises; check this row and its neighbours, and their order")
			return nil
		}
	}
	tubeEntries(x)
	return newCurve(s, p)
}

func tubeEntries(x *declare.Numbers) {
	switch {
	case x.In("signal") < 0:
		x.Refuse("signal", "a negative signal means that the couple's two wires, or the meter's leads, are swapped; swap them and read again")
	case x.Has("current") && !x.Has("nominal"):
		x.Refuse("nominal", "give the card's heater current as well: the signal goes with the square of now over card")
	case x.Has("nominal") && !x.Has("current"):
		x.Refuse("current", "give the heater current now as well, or leave both blank")
	}
}

func tubeEval(x *declare.Numbers) {
	c, share, signal := curveOf(x), currentShare(x), signalAtCard(x)
	if !c.holds(x, signal) {
		return
	}
	p, slope := c.at(signal)
	p = p*(1+x.Influence("tube-scale"))*(1+x.Influence("between")) + x.Influence("pressure-step")
	sensitivity := -share / (p * slope)
	x.Set("pressure", p)
	x.Set("sensitivity", sensitivity)
	x.Set("microvolt", 1e-6/sensitivity)
	if x.Kind("step") == quantity.Voltage {
		x.Set("step-pressure", x.In("step")/sensitivity)
	} else {
		x.Set("step-signal", x.In("step")*sensitivity)
	}
	if raw := signal * share; share != 1 && raw >= c.signal[0] && raw <= c.signal[len(c.signal)-1] {
		shown, _ := c.at(raw)
		x.Set("shown", shown)
	}
}

// holds refuses a signal beyond the ends of the curve, with a hair for rounding.
func (c *curve) holds(x *declare.Numbers, signal float64) bool {
	last := len(c.signal) - 1
	switch {
	case signal < c.signal[0]*(1-tie):
		x.Refuse("signal", "this signal is lower than the curve's last, "+c.end(0)+": too little heat, an open couple or a bad plug look like that; check the tube's wires first")
	case signal > c.signal[last]*(1+tie):
		x.Refuse("signal", "this signal is higher than the curve's first, "+c.end(last)+": the pressure lies below what the curve tells, or the heater current is too high")
	default:
		return true
	}
	return false
}

// end writes a row of the curve.
func (c *curve) end(i int) string {
	return quantity.Format(c.signal[i], -1, quantity.MustUnit("mV"), 4) + " at " + quantity.Format(math.Exp(c.log[i]), -1, quantity.MustUnit("mTorr"), 4)
}
