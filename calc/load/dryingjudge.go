package load

import (
	"math"

	"blankoff/calc/declare"
	"blankoff/calc/uncertainty"
	"blankoff/calc/vapour"
)

func dryingJudge(r *declare.Result) {
	t := r.In("ice")
	heat := r.Num(heatOf(r.Numbers), "kJ/kg")
	if r.Has("power") {
		r.Work("t_h = w L / (η P) = {water} × " + heat + " / (" + r.Num(r.In("share"), "") + " × {power}) = {by-heat}")
	}
	workVapour(r)
	if r.Has("planned") {
		r.Work("P_p = w L / (η t_p) = {water} × " + heat + " / (" + r.Num(r.In("share"), "") + " × {planned}) = {needed}; {water} in {planned} is {rate}, as vapour {throughput}")
	}
	if r.Has("pressure") && r.In("pressure") > vapour.IcePressure(t)*(1+1e-3) {
		r.Caution("Ice at {ice} has no more than " + r.Num(vapour.IcePressure(t), "mTorr") + ": the pressure given is not its vapour alone.")
	}
	if r.Has("pressure") && !r.Has("speed") && !r.Has("port") {
		r.Caution("The pressure was not needed: it goes with a speed or a port.")
	}
	if _, known := r.Value("time"); !known {
		r.Text("limits", "not known: no limit was given")
		return
	}
	r.Text("limits", limitOf(r))
	decideDrying(r)
}

// workVapour shows how much each limit lets through.
func workVapour(r *declare.Result) {
	trap, speed, port := vapourLimits(r.Numbers)
	if math.IsInf(math.Min(trap, math.Min(speed, port)), 1) {
		return
	}
	text := "the vapour is limited to"
	p := r.Num(pressureOf(r.Numbers), "Pa")
	if r.Has("trap") {
		text += " {trap} by the trap;"
	}
	if r.Has("speed") {
		text += " p S M / (R T) = " + r.Num(speed, "g/h") + " at " + p + " and {speed};"
	}
	if r.Has("port") {
		text += " " + r.Num(port, "g/h") + " by a port of {port}, choked, at " + p + ";"
	}
	r.Work(text + " with the least of them t_v = {by-vapour}")
}

// limitOf names the slower of the two, unless they lie too close to say.
func limitOf(r *declare.Result) string {
	heat, known := r.Value("by-heat")
	flow, also := r.Value("by-vapour")
	_, u := r.Out("by-heat")
	_, v := r.Out("by-vapour")
	switch wide := uncertainty.K * uncertainty.Combine(u, v); {
	case known && also && math.Abs(heat-flow) <= wide+1e-9*heat:
		r.Caution("Heat and vapour limit alike. Where the two meet, the ± of the longer time is not exact, and the time itself tends to be a little longer.")
		return "heat and vapour alike"
	case known && (!also || heat > flow):
		return "heat"
	}
	return "vapour"
}

// decideDrying can refuse a plan, never promise it.
func decideDrying(r *declare.Result) {
	if !r.Has("planned") {
		r.Caution("No planned time given, so there is no verdict.")
		return
	}
	t, u := r.Out("time")
	if uncertainty.AtMost(t, uncertainty.K*uncertainty.Combine(u, r.Typed("planned").U), r.In("planned")) == uncertainty.Fail {
		r.Verdict(declare.Fail, "It cannot dry in {planned}: it takes {time} at the least. Less in the batch, or more of what limits: "+limitText(r)+".")
		return
	}
	r.Verdict(declare.CannotTell, "Nothing here forbids {planned}, but this is a lower bound and promises nothing. A log of the product's temperature, which climbs to the shelf's when the ice is gone, would settle it.")
}

func limitText(r *declare.Result) string {
	heat, known := r.Value("by-heat")
	flow, also := r.Value("by-vapour")
	if known && (!also || heat >= flow) {
		return "heat to the product"
	}
	return "a colder or larger trap, a wider way for the vapour"
}
