package temperature

import (
	"math"

	"blankoff/calc/declare"
	"blankoff/calc/uncertainty"
)

// What the three calculators of this package share: an entry `reading`, what the meter
// shows; an entry `reference`, what another thermometer shows; outputs `temperature`,
// `expected`, `error`, `allowed` and `state`. The reference alone is a look-up.

// assumedReference is the accuracy taken of a reference thermometer that has none
// written, K (common practice, no source).
const assumedReference = 0.5

// tie lets an end of a range be typed in any unit, K.
const tie = 1e-6

// What the three declarations say in the same words. The entries themselves stand in each:
// a declaration that copies a variable is no longer laid down by the compiler, but by code
// that runs when the page starts.
const (
	referenceHelp = "What a thermometer tied to the probe shows. Alone: what should the meter show at this temperature?"
	allowedHelp   = "From the machine's card. It takes the place of the class."
	referenceText = "error of a reference thermometer without ±"
)

func referenceU(x *declare.Numbers) float64 {
	if !x.Has("reading") || !x.Has("reference") || x.Typed("reference").HasU {
		return 0
	}
	return uncertainty.FromAccuracy(assumedReference)
}

// reference is the reference temperature in kelvin.
func reference(x *declare.Numbers) float64 { return x.In("reference") + x.Influence("reference-error") }

// setTemperature gives the temperature in kelvin, and its error where there is a reference.
func setTemperature(x *declare.Numbers, kelvin float64) {
	x.Set("temperature", kelvin)
	if x.Has("reference") {
		x.Set("error", kelvin-reference(x))
	}
}

// nothingEntered refuses a request without a reading and without a reference.
func nothingEntered(x *declare.Numbers) bool {
	if x.Has("reading") || x.Has("reference") {
		return false
	}
	x.Refuse("reading", "write what the meter shows, or a reference temperature to look up what it should show")
	return true
}

// judgeOpen is the verdict where the meter shows OL.
func judgeOpen(r *declare.Result) {
	r.Text("state", "open")
	r.Work("The meter shows OL: no current passes.")
	r.Verdict(declare.Fail, "The probe or its cable is open, or a contact did not touch. Wipe the contacts, press, and repeat three times; measure again at the probe itself before you replace it.")
}

// judgeError compares a probe with its reference; rule says where the allowed error comes
// from, hint what to look at first where it fails.
func judgeError(r *declare.Result, allowed float64, rule, hint string) {
	r.Text("state", "whole")
	if !r.Has("reference") {
		r.Caution("No reference thermometer given, so there is no verdict on the probe.")
		return
	}
	if referenceU(r.Numbers) > 0 {
		r.Caution("Reference thermometer given without ±: ± 0.5 K taken (common practice, no source).")
	}
	r.Work("e = t − t_r = {temperature} − ({reference}) = {error}")
	e, u := r.Out("error")
	limit := "± " + r.Num(allowed, "K") + " (" + rule + ")"
	switch uncertainty.Within(e, uncertainty.K*u, -allowed, allowed) {
	case uncertainty.Pass:
		r.Verdict(declare.Pass, "The probe is off by {error}, within "+limit+", uncertainty allowed for.")
	case uncertainty.Fail:
		r.Verdict(declare.Fail, "The probe is off by {error}, outside "+limit+". "+hint+" If it stays off with both sensors tied together in stirred ice water, replace the probe.")
	default:
		r.Verdict(declare.CannotTell, "The probe is off by {error}, which may lie on either side of "+limit+". "+howToSettle(r, math.Abs(math.Abs(e)-allowed)))
	}
}

// howToSettle names the better instrument that settles a doubt, room being the distance to
// the limit in kelvin.
func howToSettle(r *declare.Result, room float64) string {
	if room < 0.02 {
		return "It sits on the limit itself: no workshop thermometer settles that. Compare at another temperature."
	}
	_, u := r.Out("error")
	ofReference := r.Typed("reference").U + referenceU(r.Numbers)
	others := math.Max(0, u*u-ofReference*ofReference)
	if left := room*room/(uncertainty.K*uncertainty.K) - others; left > 1e-4 {
		return "A reference good to ± " + enough(r, uncertainty.K*math.Sqrt(left)) + " would settle it."
	}
	return "A meter reading, probe data and reference good to ± " + enough(r, room) + " together would settle it."
}

// enough writes an accuracy in kelvin, never coarser than it is: to one figure, downwards.
func enough(r *declare.Result, kelvin float64) string {
	place := math.Pow(10, math.Floor(math.Log10(kelvin)+1e-9))
	return r.Num(math.Floor(kelvin/place+1e-9)*place, "K")
}
