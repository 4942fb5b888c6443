package load

import (
	"math"

	"blankoff/calc/declare"
	"blankoff/calc/uncertainty"
	"blankoff/calc/vapour"
)

func dryingJudge(r *declare.Result) {
	heat, share := heatOf(r.Numbers), r.In("share")
	planned, pressure := r.In("planned"), r.In("pressure") // nought where blank
	if r.Has("power") {
		r.WorkWith(4, "t_h = w L / (η P) = {water} × [kJ/kg] / ([] × {power}) = {by-heat}", heat, share)
	}
	workVapour(r)
	if planned != 0 {
		r.WorkWith(4, "P_p = w L / (η t_p) = {water} × [kJ/kg] / ([] × {planned}) = {needed}; {water} in {planned} is {rate}, as vapour {throughput}", heat, share)
	}
	if pressure != 0 {
		if most := vapour.IcePressure(r.In("ice")); pressure > most*(1+1e-3) {
			r.Caution(r.With(4, "Ice at {ice} has no more than [mTorr]: the pressure given is not its vapour alone.", most))
		}
		if !r.Has("speed") && !r.Has("port") {
			r.Caution("The pressure was not needed: it goes with a speed or a port.")
		}
	}
	t, u := r.Out("time")
	if t == 0 {
		r.Text("limits", "not known: no limit was given")
		return
	}
	more := decideLimit(r)
	if planned == 0 {
		r.Caution("No planned time given, so there is no verdict.")
		return
	}
	// It can refuse a plan, never promise it.
	wide := uncertainty.K * uncertainty.Combine(u, r.Typed("planned").U)
	is, text := uncertainty.AtMost(t, wide, planned), "As entered it cannot dry in {planned}: it takes {time} at the least. Less in the batch, or more of what limits: "+more
	switch {
	case is == uncertainty.Fail && uncertainty.AtMost(t, wide, planned*t/firmTime(r.Numbers, t)) != uncertainty.Fail:
		is, text = uncertainty.CannotTell, "With ice of {ice}, taken and not measured, it takes {time} at the least. Its temperature in the product, or the pressure, would settle it."
	case is != uncertainty.Fail:
		is, text = uncertainty.CannotTell, "Nothing here forbids {planned}, but this is a lower bound and promises nothing. A log of the product's temperature, which climbs to the shelf's when the ice is gone, would settle it."
	}
	r.Decide(is, text, text, text)
}

// firmTime is what of a time in s stands whatever the ice has, where nobody gave its
// temperature: that may be 0 °C. Else it is the time.
func firmTime(x *declare.Numbers, time float64) float64 {
	firm := time
	if !x.Written("ice") && !x.Has("pressure") {
		heat, _ := x.Value("by-heat")
		firm = max(heat, x.In("water")/x.Or("trap", endless), time*pressureOf(x)/vapour.TriplePointPressure)
	}
	return firm
}

// workVapour shows how much each limit lets through.
func workVapour(r *declare.Result) {
	trap, speed, port := vapourLimits(r.Numbers)
	text, p := "", pressureOf(r.Numbers)
	if trap != endless {
		text = " {trap} by the trap;"
	}
	if speed != endless {
		text += r.With(4, " p S M / (R T) = [g/h] at [Pa] and {speed};", speed, p)
	}
	if port != endless {
		text += r.With(4, " [g/h] by a port of {port}, choked, at [Pa];", port, p)
	}
	if text != "" {
		r.Work("the vapour is limited to" + text + " with the least of them t_v = {by-vapour}")
	}
}

// alike is the share by which heat and vapour may differ and still be called alike (common
// practice, no source).
const alike = 0.01

// decideLimit names the slower of heat and vapour, unless they lie too close to say, and
// gives what would make it quicker. A time that is not known is nought.
func decideLimit(r *declare.Result) (more string) {
	heat, u := r.Out("by-heat")
	flow, v := r.Out("by-vapour")
	limits, more := "heat", "heat to the product."
	if heat < flow {
		limits, more = "vapour", "a colder or larger trap, a wider way for the vapour."
	}
	// The ± of the water moves both times together and cannot exchange them.
	shared := r.Typed("water").U / r.In("water")
	apart := uncertainty.K * math.Sqrt(max(0, u*u+v*v-2*heat*flow*shared*shared))
	if heat > 0 && flow > 0 && math.Abs(heat-flow) <= apart+alike*heat {
		limits = "heat and vapour alike"
		r.Caution("Heat and vapour limit alike. Where the two meet, the ± of the longer time is not exact, and the time itself tends to be a little longer.")
	}
	r.Text("limits", limits)
	return more
}
