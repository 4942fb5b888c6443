package gauge

import (
	"math"

	"blankoff/calc/declare"
	"blankoff/calc/letters"
	"blankoff/calc/uncertainty"
	"blankoff/calc/vacuum"
)

func jumpJudge(r *declare.Result) {
	l := r.Studied().(*legs)
	var rise, fall judged
	if l.rises {
		rise = l.judgeRise(r)
	}
	l.workFall(r)
	if l.falls {
		fall = l.judgeFall(r)
	}
	is, state, last := declare.Pass, "plausible", "Gas can do that."
	switch {
	case rise.is == declare.Fail || fall.is == declare.Fail:
		is, state, last = declare.Fail, "electrical or display", "No gas can do that."
	case rise.is != "":
		is, state, last = declare.CannotTell, "open port or electrical", rise.settle
	case fall.is != "":
		is, state, last = declare.CannotTell, "cannot tell", fall.settle
	}
	r.Text("state", state)
	r.Verdict(is, l.said(rise.said+fall.said+last))
	l.cautions(r)
}

// marks stand in texts for the readings and times of the steps.
var marks = [names]string{"{low}", "{high}", "{rise}", "{top}", "{bottom}", "{span}"}

// said puts the names of the inputs where a text has marks.
func (l *legs) said(text string) string {
	for i, name := range l.name {
		text = letters.Replace(text, marks[i], "{"+name+"}")
	}
	return text
}

func (l *legs) cautions(r *declare.Result) {
	if !l.falls {
		r.Caution("The way back says more than the way up: add the reading after that.")
	}
	if l.rises && l.in(r.Numbers, risesTo) <= mostVapour {
		r.Caution("Below 17,547 mTorr water that boils off in the chamber can raise the reading without any hole.")
	}
	if math.Max(r.In("before"), r.In("after")) > ambientOf(r.Numbers)*(1+tie) {
		r.Caution("A reading lies above the air pressure outside, where no leak leads: trust no figure from that end of the scale.")
	}
}

// judged is one step: blank where gas can do it, else a verdict; what is said of it, and
// what would settle a doubt.
type judged struct{ is, said, settle string }

// judgeRise compares the hole with what may open. Kinder to the gas, the least hole
// leaves out what may be vapour, and lets the air warm as it comes in: the pressure then
// rises γ times faster than at one temperature.
func (l *legs) judgeRise(r *declare.Result) judged {
	r.Work(l.said("Q = V (p₂ − p₁) / t = {volume} × ({high} − {low}) / {rise} = {leak}"))
	r.Work("each mm² lets " + r.Num(flowOf(r.Numbers)*1e-6, "mbar·L/s") + " in: A = Q over that, a round hole of {hole}; the verdict allows for air that warms as it comes in and for vapour")
	hole, u := r.Out("hole")
	kinder := math.Sqrt(math.Max(0, 1-mostVapour/(l.in(r.Numbers, risesTo)-l.in(r.Numbers, risesFrom))) / vacuum.AirGamma)
	u *= uncertainty.K
	j := judged{declare.CannotTell, "The rise from {low} to {high} needs {leak}, a hole of {hole}", ""}
	if uncertainty.AtMost(hole, u, pinhole) == uncertainty.Pass {
		j.is = ""
		j.said += ", which a seal can leave open. "
		return j
	}
	if !r.Has("port") {
		j.said += ". "
		j.settle = "The bore of the largest port, and whether you heard it open, would settle it."
		return j
	}
	j.said += "; the largest port has {port}. "
	j.settle = "A port that opened, which you hear, or a bad contact: listen, look at the ports, and repeat; the way back would settle it."
	if uncertainty.AtMost(kinder*hole, kinder*u, r.In("port")) == uncertainty.Fail {
		j.is = declare.Fail
	}
	return j
}

// judgeFall compares the lower reading with what the pump can reach.
func (l *legs) judgeFall(r *declare.Result) judged {
	lowest, u := r.Out("lowest")
	least, leastU := r.Out("least")
	bottom, bottomU := l.in(r.Numbers, fallsTo), r.Typed(l.name[fallsTo]).U
	if uncertainty.AtLeast(bottom, uncertainty.K*math.Hypot(u, bottomU), lowest) == uncertainty.Pass {
		return judged{"", "The pump can make the fall from {top} to {bottom}. ", ""}
	}
	j := judged{declare.CannotTell, "The pump can bring {top} down to {lowest} in {span}, not to {bottom}", ""}
	if _, known := r.Value("time"); known {
		j.said += ", which takes it {time} at least"
	}
	j.said += ". "
	j.settle = "A cold trap that takes vapour could. The same again with the trap warm and the chamber dry, or a second gauge beside it, would settle it."
	if uncertainty.AtLeast(bottom, uncertainty.K*math.Hypot(leastU, bottomU), least) == uncertainty.Fail {
		j.is = declare.Fail
	}
	return j
}

func (l *legs) workFall(r *declare.Result) {
	r.Work(l.said("lowest: p exp(−S t / V) = {top} × exp(−{speed} × {span} / {volume}) = {lowest}, a fall by {fall}"))
	if _, known := r.Value("time"); known {
		r.Work(l.said("time: (V / S) ln(p / p′) = {volume} / {speed} × ln({top} / {bottom}) = {time}"))
	}
	if r.In("ultimate") > 0 {
		r.Work("both count from the pump's lowest pressure, {ultimate}")
	}
}
