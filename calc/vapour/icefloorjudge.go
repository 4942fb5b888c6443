package vapour

import (
	"blankoff/calc/declare"
	"blankoff/calc/quantity"
	"blankoff/calc/uncertainty"
)

func floorJudge(r *declare.Result) {
	if r.Has("reading") && thermal(r.Numbers) && r.In("reading") > ceiling*(1+tie) {
		r.Refuse("reading", "above 2,000 mTorr a thermal gauge does not follow water vapour by one factor; pump further down, or use a capacitance gauge")
		return
	}
	workFloor(r)
	if r.Has("temperature") && r.In("temperature") > TriplePointKelvin {
		r.Caution("Above 0.01 °C there is no ice: the line of liquid water was taken. A trap this warm catches nothing.")
	}
	if _, u := r.Out("floor"); r.Has("temperature") && r.Typed("temperature").U > lopsided {
		floor, _ := r.Out("floor")
		r.Caution("± " + r.Num(uncertainty.K*u/floor, "%") + " is lopsided: the floor lies between " + ends(r) + ".")
	}
	if r.Has("reading") && !r.Has("gauge") && !r.Typed("reading").HasU {
		r.Caution("No accuracy given: ± 20 % of the reading taken, from memory for a thermal gauge without a certificate.")
	}
	if r.Has("temperature") && r.Has("reading") {
		decideFloor(r)
	}
}

// lopsided is the standard uncertainty in K from which the floor's is no longer alike on
// both sides: first order is then a twentieth off.
const lopsided = 2.5

// ends are the floors of the coldest and the warmest that the ice may be.
func ends(r *declare.Result) string {
	t, wide := r.In("temperature"), uncertainty.K*r.Typed("temperature").U
	return r.Num(floorOf(max(t-wide, 110)), "mTorr") + " and " + r.Num(floorOf(min(t+wide, CriticalKelvin)), "mTorr")
}

func workFloor(r *declare.Result) {
	if r.Has("temperature") {
		line := "the line of liquid water"
		if r.In("temperature") <= TriplePointKelvin {
			line = "ln p = 9.550426 − 5723.265 / T + 3.53068 ln T − 0.00728332 T"
		}
		r.Work("T = {in:temperature} = " + quantity.Format(r.In("temperature"), -1, quantity.MustUnit("K"), 5) + ": " + line + " gives p = {floor}")
	}
	if !r.Has("reading") {
		return
	}
	if thermal(r.Numbers) {
		r.Work("p = {in:reading} / 1.726 = {true}; in water vapour a thermal gauge shows 1.49 to 2.0 times, and here 1.726 = √(1.49 × 2)")
	}
	r.Work("ice, or water, of the vapour pressure {true} has {ice}")
	if r.Has("temperature") {
		r.Work("ΔT = {ice} − ({in:temperature}) = {excess}; the pressure is {ratio} times the floor")
	}
}

// decideFloor: vapour-limited is a reading that ice between the sensor's temperature and
// 5 K above explains. Below lies what no ice allows, above what needs something else.
func decideFloor(r *declare.Result) {
	excess, u := r.Out("excess")
	wide := uncertainty.K * u
	switch {
	case uncertainty.AtLeast(excess, wide, 0) == uncertainty.Fail:
		r.Text("state", "below the floor")
		r.Verdict(declare.CannotTell, "The reading is lower than ice at {in:temperature} allows. Either nothing in the chamber is wet and the trap is dry, or gauge or trap sensor is wrong. An independent gauge beside it would settle it.")
	case uncertainty.AtMost(excess, wide, surface) == uncertainty.Fail:
		r.Text("state", "above the floor")
		r.Verdict(declare.Fail, "The trap's ice does not explain it: only ice or water near {ice} would. Air also enters, or something wet lies where it is warmer. A log of the rise with the valve closed tells: straight is air, bending is vapour.")
	case uncertainty.Within(excess, wide, 0, surface) == uncertainty.Pass:
		r.Text("state", "vapour-limited")
		r.Verdict(declare.Pass, "The trap's ice explains the reading: do not hunt a leak yet. A colder trap or a drier load brings it down. It does not prove that no air enters; a rise test of the dry chamber does.")
	default:
		r.Text("state", "near the floor, not settled")
		r.Verdict(declare.CannotTell, "The reading is near what the trap's ice gives, but neither is known well enough. If the load allows it, let the trap warm by 5 K: a reading that follows it up by half or more is vapour, one that stays is air or the gauge; that would settle it. A capacitance gauge helps too.")
	}
}
