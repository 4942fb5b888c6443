package gauge

import (
	"math"

	"blankoff/calc/constant"
	"blankoff/calc/declare"
	"blankoff/calc/uncertainty"
)

// pattern is what a disagreement looks like: a short name and what to do next.
type pattern struct{ state, text string }

var (
	fewPairs = pattern{"disagree",
		"A pattern needs three pairs below {2,000 mTorr} whose pressures differ by twice or more: take the lowest, about {250|250 mTorr} and about {900 mTorr}."}
	dirt = pattern{"machine high by a constant: pattern of a dirty filament",
		"The machine gauge is high by nearly the same amount at low pressure, {offset}, and by a smaller share higher up: the pattern of a dirty filament. Liquid in the tube and a heater current that is too low look much the same. Electrical check first, then clean the tube off the machine, and compare again."}
	factor = pattern{"off by a constant factor: gas, unit or setting",
		"The machine gauge shows {gain} times the other one at every pressure. "}
	scatter = pattern{"scatter: connection",
		"The differences follow no curve, so no dirt and no gas explains them. Look for a loose or corroded plug and a chafed cable, plug out, and repeat one pressure three times: it must give one reading."}
	heater = pattern{"machine low: heater current high",
		"The machine gauge is low, by the larger share at low pressure: it makes the vacuum look better than it is. The pattern of a heater current that is too high. It is measured live, which is work for a licensed electrician or qualified person."}
	mixed = pattern{"disagree, no single pattern",
		"Neither one offset nor one factor explains the differences. More pairs over a wider span, from the lowest pressure to about {1,500 mTorr}, or a third gauge, would settle it."}
)

// bend is the pressure at which the response of the model tube has bent to a half, Pa:
// 3,500 mTorr for the curve of our notes of the trade. With dirt it sets how much the gain
// rises with the offset: (1 + o/b)², the slope of that curve.
const bend = 3.5 * constant.Torr

// patternOf names the difference. An offset or a factor counts only where it explains
// most of what is seen: more than half of the difference at the worst pair.
func patternOf(r *declare.Result, p *pairs) *pattern {
	switch {
	case p.scattered || p.high && p.low:
		return &scatter
	case !p.fit.ok:
		return &fewPairs
	}
	offset, offsetU := r.Out("offset")
	half := math.Abs(p.list[p.worst].machine-p.list[p.worst].reference) / 2
	offsetU *= uncertainty.K
	switch {
	case offset-offsetU > 0 && offset > half && p.gainFits(r, 1, (1+offset/bend)*(1+offset/bend)):
		return &dirt
	case offset+offsetU < 0 && p.low:
		return &heater
	case math.Abs(offset)+uncertainty.K*p.fit.offsetU < half:
		return &factor
	}
	return &mixed
}

// gainFits tells whether the gain may lie between two limits.
func (p *pairs) gainFits(r *declare.Result, low, high float64) bool {
	gain, u := r.Out("gain")
	return uncertainty.Within(gain, uncertainty.K*u, low, high) != uncertainty.Fail
}

// factors are the usual reasons for a constant factor: how many times the true pressure
// a gauge then shows. Gas factors from testdata/reference/17_gauge_facts.csv.
var factors = [...]struct {
	low, high float64
	text      string
}{
	{0.133, 0.134, "a reading in mTorr taken for Pa"},
	{0.58, 0.60, "argon (0.59)"},
	{0.75, 0.7501, "a reading in Torr taken for mbar (0.75)"},
	{1.25, 1.25, "helium (1.25)"},
	{1.333, 1.334, "a reading in mbar taken for Torr (1.33)"},
	{vapourLow, vapourHigh, "water vapour (1.49 to 2.0)"},
	{7.5, 7.501, "a reading in Pa taken for mTorr (7.5)"},
	{10, 10, "a reading in Pa taken for µbar (10)"},
}

// reasons lists the factors that the gain may be.
func (p *pairs) reasons(r *declare.Result) string {
	text := ""
	for i := range factors {
		if f := &factors[i]; p.gainFits(r, f.low, f.high) {
			if text != "" {
				text += "; or "
			}
			text += f.text
		}
	}
	if text == "" {
		return "No usual gas or unit has that factor: compare sensor type, constant and unit set in the machine with its card."
	}
	return "It fits " + text + ". Check the gas, both units, and the sensor type set in the machine."
}
