package vapour

import (
	"blankoff/calc/declare"
	"blankoff/calc/quantity"
	"blankoff/calc/uncertainty"
)

// lopsided is the standard uncertainty in K from which the floor's is no longer alike on
// both sides: first order is then a twentieth off.
const lopsided = 2.5

func floorJudge(r *declare.Result) {
	warm, read, gauge := r.Has("temperature"), r.Has("reading"), thermal(r.Numbers)
	if read && gauge && r.In("reading") > ceiling*(1+tie) {
		r.Refuse("reading", "above {2,000 mTorr} a thermal gauge does not follow water vapour by one factor; pump further down, or use a capacitance gauge")
		return
	}
	if warm {
		workFloor(r)
	}
	if !read {
		return
	}
	if gauge {
		r.Work("p = {in:reading} / 1.726 = {true}; in water vapour a thermal gauge shows 1.49 to 2.0 times, and here 1.726 = √(1.49 × 2)")
	}
	r.Work("ice, or water, of the vapour pressure {true} has {ice}")
	if !r.Has("gauge") && !r.Typed("reading").HasU {
		r.Caution("No accuracy given: ± 20 % of the reading taken, from memory for a thermal gauge without a certificate.")
	}
	if warm {
		r.Work("ΔT = {ice} − ({in:temperature}) = {excess}; the pressure is {ratio} times the floor")
		decideFloor(r)
	}
}

// workFloor shows the floor; with a doubtful temperature also those of the coldest and
// the warmest that the ice may be.
func workFloor(r *declare.Result) {
	t, wide := r.In("temperature"), r.Typed("temperature").U
	line := "ln p = 9.550426 − 5723.265 / T + 3.53068 ln T − 0.00728332 T"
	if t > TriplePointKelvin {
		line = "the line of liquid water"
		r.Caution("Above {0.01 °C} there is no ice: the line of liquid water was taken. A trap this warm catches nothing.")
	}
	// The formula takes kelvins.
	r.Work("T = {in:temperature} = " + quantity.Format(t, -1, quantity.MustUnit("K"), 5) + ": " + line + " gives p = {floor}")
	if wide > lopsided {
		wide *= uncertainty.K
		floor, u := r.Out("floor")
		r.Caution(r.With(4, "± [%] is lopsided: the floor lies between [mTorr] and [mTorr].", uncertainty.K*u/floor,
			floorOf(max(t-wide, 110)), floorOf(min(t+wide, CriticalKelvin))))
	}
}

// decideFloor: vapour-limited is a reading that ice between the sensor's temperature and
// 5 K above explains. Below lies what no ice allows, above what needs something else.
func decideFloor(r *declare.Result) {
	excess, u := r.Out("excess")
	u *= uncertainty.K
	is := uncertainty.Within(excess, u, 0, surface)
	state, text := "above the floor", "The trap's ice does not explain it: only ice or water near {ice} would. Air also enters, or something wet lies where it is warmer. A log of the rise with the valve closed tells: straight is air, bending is vapour."
	switch {
	case uncertainty.AtLeast(excess, u, 0) == uncertainty.Fail:
		is, state, text = uncertainty.CannotTell, "below the floor", "The reading is lower than ice or water at {in:temperature} allows. Either nothing in the chamber is wet and the trap is dry, or gauge or trap sensor is wrong. An independent gauge beside it would settle it."
	case is == uncertainty.Pass:
		state, text = "vapour-limited", "The trap's ice explains the reading: do not hunt a leak yet. A colder trap or a drier load brings it down. It does not prove that no air enters; a rise test of the dry chamber does."
	case is == uncertainty.CannotTell:
		state, text = "near the floor, not settled", "The reading is near what the trap's ice gives, but neither is known well enough. If the load allows it, let the trap warm by {Δ5 K}: a reading that follows it up by half or more is vapour, one that stays is air or the gauge; that would settle it. A capacitance gauge helps too."
	}
	r.Text("state", state)
	r.Decide(is, text, text, text)
}
