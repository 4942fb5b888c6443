package temperature

import (
	"math"

	"blankoff/calc/declare"
	"blankoff/calc/letters"
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
	return assumedReference / uncertainty.K
}

// reference is the reference temperature in kelvin, NaN where none was written. A request
// without a reading and without a reference is refused, and not ok.
func reference(x *declare.Numbers) (kelvin float64, ok bool) {
	if x.Has("reference") {
		return x.In("reference") + x.Influence("reference-error"), true
	}
	ok = x.Has("reading")
	if !ok {
		x.Refuse("reading", "write what the meter shows, or a reference temperature to look up what it should show")
	}
	return math.NaN(), ok
}

// setTemperature gives the temperature in kelvin, and its error where there is a reference.
func setTemperature(x *declare.Numbers, kelvin, reference float64) {
	x.Set("temperature", kelvin)
	if reference == reference {
		x.Set("error", kelvin-reference)
	}
}

// begin is what the judgements have in common: the limit that applies, and the answers that
// need no curve. An allowed error that is NaN is none; ends are those of a probe measured in
// ohms, net its reading without leads. It gives no rule when all is said.
func begin(r *declare.Result, ends *resistor, net, allowed float64, rule, lookUp string) (kelvin float64, by string) {
	if r.Has("allowed") {
		allowed, rule = r.In("allowed"), "as entered"
	}
	if r.Has("reference") && allowed == allowed {
		r.Set("allowed", allowed)
	}
	if !r.Has("reading") {
		r.Work(lookUp)
		return 0, ""
	}
	if r.Typed("reading").Over {
		r.Text("state", "open")
		r.Work("The meter shows OL: more than its range.")
		r.Verdict(declare.Fail, "The probe or its cable is open, or a contact did not touch. Wipe the contacts, press, and repeat three times; measure again at the probe itself before you replace it.")
		return 0, ""
	}
	if ends != nil && !ends.whole {
		ends.judge(r, net)
		return 0, ""
	}
	return allowed, rule
}

// judgeError compares a probe with its reference; rule says where the allowed error comes
// from, hint what to look at first where it fails.
func judgeError(r *declare.Result, allowed float64, rule, hint string) {
	r.Text("state", "whole")
	if !r.Has("reference") {
		r.Caution("No reference thermometer given, so there is no verdict on the probe.")
		return
	}
	if allowed != allowed {
		r.Verdict(declare.CannotTell, rule+" says nothing at {reference}. The allowed error from the machine's card would settle it.")
		return
	}
	if referenceU(r.Numbers) > 0 {
		r.Caution("Reference thermometer given without ±: ± {Δ0.5 K} taken (common practice, no source).")
	}
	r.Work("e = t − t_r = {temperature} − ({reference}) = {error}")
	e, u := r.Out("error")
	limit := numbers(r.Numbers, "± [ΔK] (#)", rule, allowed)
	is, text, more := declare.Pass, "within [, uncertainty allowed for.", ""
	switch uncertainty.Within(e, uncertainty.K*u, -allowed, allowed) {
	case uncertainty.Fail:
		is, text, more = declare.Fail, "outside [. # If it stays off with both sensors tied together in stirred ice water, replace the probe.", hint
	case uncertainty.CannotTell:
		is, text, more = declare.CannotTell, "which may lie on either side of [. #", howToSettle(r, math.Abs(math.Abs(e)-allowed), u)
	}
	r.Verdict(is, "The probe is off by {error}, "+letters.Replace(letters.Replace(text, "[", limit), "#", more))
}

// howToSettle names the better instrument that settles a doubt, room being the distance to
// the limit in kelvin and u the uncertainty of the error.
func howToSettle(r *declare.Result, room, u float64) string {
	if room < 0.02 {
		return "It sits on the limit itself: no workshop thermometer settles that. Compare at another temperature."
	}
	ofReference := r.Typed("reference").U + referenceU(r.Numbers)
	others := max(0, u*u-ofReference*ofReference)
	text := "A meter reading, probe data and reference good to ± [ΔK] together would settle it."
	if left := room*room/(uncertainty.K*uncertainty.K) - others; left > 1e-4 {
		room, text = uncertainty.K*math.Sqrt(left), "A reference good to ± [ΔK] would settle it."
	}
	// To one figure, downwards: never coarser than it is.
	place := math.Pow(10, math.Floor(math.Log10(room)+1e-9))
	return numbers(r.Numbers, text, "", math.Floor(room/place+1e-9)*place)
}

// numbers puts a word in place of # and each number (SI) in place of the next unit that stands
// in square brackets: "# has [Ω]". A sentence that is data weighs far less than the code that
// joins its pieces. [K] stays a kelvin, as formulas take it; differences are [ΔK].
func numbers(x *declare.Numbers, text, word string, list ...float64) string {
	return letters.Replace(x.With(4, text, list...), "#", word)
}
