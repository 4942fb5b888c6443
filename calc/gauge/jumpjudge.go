package gauge

import (
	"math"

	"blankoff/calc/declare"
	"blankoff/calc/uncertainty"
	"blankoff/calc/vacuum"
)

func jumpJudge(r *declare.Result) {
	l, _ := r.Studied().(*legs)
	is, state, last := declare.Pass, "plausible", "Gas can do that."
	said, rise := "", uncertainty.Pass
	if l.rise > 0 {
		rise, said = judgeRise(r, &ways[l.rise])
	}
	fall, text := judgeFall(r, &ways[l.fall])
	if !l.falls {
		fall, text = uncertainty.Pass, ""
	}
	switch {
	case rise == uncertainty.Fail || fall == uncertainty.Fail:
		is, state, last = declare.Fail, "electrical or display", "No gas can do that."
	case rise == uncertainty.CannotTell:
		is, state, last = declare.CannotTell, "open port or electrical", "The bore of the largest port, and whether you heard it open, would settle it."
		if r.Has("port") {
			last = "A port that opened, which you hear, or a bad contact: listen, look at the ports, and repeat; the way back would settle it."
		}
	case fall == uncertainty.CannotTell:
		is, state, last = declare.CannotTell, "cannot tell", "A cold trap that takes vapour could. The same again with the trap warm and the chamber dry, or a second gauge beside it, would settle it."
	}
	r.Text("state", state)
	r.Verdict(is, said+text+last)
	if !l.falls {
		r.Caution("The way back says more than the way up: add the reading after that.")
	}
	if l.rise > 0 && r.In(ways[l.rise].name[1]) <= mostVapour {
		r.Caution("Below {17,547 mTorr} water that boils off in the chamber can raise the reading without any hole.")
	}
	if high := ambientOf(r.Numbers) * (1 + tie); r.In("before") > high || r.In("after") > high {
		r.Caution("A reading lies above the air pressure outside, where no leak leads: trust no figure from that end of the scale.")
	}
}

// judgeRise compares the hole with what may open, and says so. Kinder to the gas, the
// least hole leaves out what may be vapour, and lets the air warm as it comes in: the
// pressure then rises γ times faster than at one temperature.
func judgeRise(r *declare.Result, l *leg) (decision uncertainty.Decision, text string) {
	r.Work(l.named("Q = V (p₂ − p₁) / t = {volume} × ({TO} − {FROM}) / {TIME} = {leak}"))
	r.WorkWith(4, "each mm² lets [mbar·L/s] in: A = Q over that, a round hole of {hole}; the verdict allows for air that warms as it comes in and for vapour", flowOf(r.Numbers)*1e-6)
	hole, u := r.Out("hole")
	u *= uncertainty.K
	text = "The rise from {FROM} to {TO} needs {leak}, a hole of {hole}. "
	if uncertainty.AtMost(hole, u, pinhole) == uncertainty.Pass {
		decision, text = uncertainty.Pass, "The rise from {FROM} to {TO} needs {leak}, a hole of {hole}, which a seal can leave open. "
	} else if r.Has("port") {
		text = "The rise from {FROM} to {TO} needs {leak}, a hole of {hole}; the largest port has {port}. "
		kinder := 0.0
		if air := 1 - mostVapour/(r.In(l.name[1])-r.In(l.name[0])); air > 0 {
			kinder = math.Sqrt(air / vacuum.AirGamma)
		}
		decision = uncertainty.AtMost(kinder*hole, kinder*u, r.In("port"))
		if decision == uncertainty.Pass {
			decision = uncertainty.CannotTell
		}
	}
	return decision, l.named(text)
}

// judgeFall compares the lower reading with what the pump can reach, and says so.
func judgeFall(r *declare.Result, l *leg) (decision uncertainty.Decision, text string) {
	r.Work(l.named("lowest: p exp(−S t / V) = {FROM} × exp(−{speed} × {TIME} / {volume}) = {lowest}, a fall by {fall}"))
	text = "The pump can bring {FROM} down to {lowest} in {TIME}, not to {TO}. "
	if _, known := r.Value("time"); known {
		r.Work(l.named("time: (V / S) ln(p / p′) = {volume} / {speed} × ln({FROM} / {TO}) = {time}"))
		text = "The pump can bring {FROM} down to {lowest} in {TIME}, not to {TO}, which takes it {time} at least. "
	}
	if r.In("ultimate") > 0 {
		r.Work("both count from the pump's lowest pressure, {ultimate}")
	}
	bottom, bottomU := r.In(l.name[1]), r.Typed(l.name[1]).U
	lowest, u := r.Out("lowest")
	if uncertainty.AtLeast(bottom, uncertainty.K*math.Hypot(u, bottomU), lowest) == uncertainty.Pass {
		decision, text = uncertainty.Pass, "The pump can make the fall from {FROM} to {TO}. "
	} else {
		lowest, u = r.Out("least")
		decision = uncertainty.AtLeast(bottom, uncertainty.K*math.Hypot(u, bottomU), lowest)
		if decision == uncertainty.Pass {
			decision = uncertainty.CannotTell
		}
	}
	return decision, l.named(text)
}
