package pumping

import (
	"math"

	"blankoff/calc/declare"
	"blankoff/calc/uncertainty"
)

func logEval(x *declare.Numbers) {
	d, _ := x.Studied().(*descentLog)
	scale := 1 + x.Influence("scale")
	if d.heading {
		x.Set("floor", (d.floor.Intercept+x.Influence("fit"))*scale)
	}
	if d.curve.points == nil {
		return
	}
	if d.early == d.early {
		x.Set("early", d.reach(d.split, math.Log(scale))/d.curve.reach(d.split, 0)) // no number while much is varied: then the other side counts
	}
	if d.late == d.late {
		x.Set("late", d.late*scale)
	}
}

func logJudge(r *declare.Result) {
	d, _ := r.Studied().(*descentLog)
	d.remark(r)
	if d.high > 0 {
		caution(r, "Not used: # above {ceiling}, where a thermal gauge does not read true.", count(d.high))
	}
	if len(d.points) < 3 {
		d.begun(r)
		return
	}
	d.speeds(r)
	if d.heading {
		r.Work("p₀ = {floor} from the last readings over 1/t")
	}
	if d.curve.points == nil {
		r.Caution("No expected curve given, so there is no verdict.")
		r.Text("stands", "no verdict without an expected curve")
		return
	}
	early, late, toSettle, more := uncertainty.Pass, uncertainty.Pass, "", ""
	if d.early == d.early {
		early, toSettle = partOf(r, "early")
		work(r, "early: {early} of the curve's time to [mTorr]", "", math.Exp(d.split))
	} else {
		r.Caution("The early part cannot be compared: log or curve has no reading between 500 mTorr and the ceiling. The rest goes by the clock.")
	}
	if d.late == d.late {
		late, more = partOf(r, "late")
		if early != uncertainty.CannotTell {
			toSettle = more
		}
		r.Work("late: {late} of the curve's pressure, {band} more allowed")
	}
	is, state, text := declare.Fail, "", ""
	switch {
	case early == uncertainty.Fail && late == uncertainty.Fail:
		state = "slow in the early part, and high in the late one"
		text = "Both parts are worse than the curve ({early} of its time, {late} of its pressure). Begin with the pump: blank it off and read again."
	case early == uncertainty.Fail:
		state = "slow in the early part: the pump, the hose, or something wet"
		text = "The early part takes {early} of the curve's time: pump or hose. Look for a kinked or narrow hose, then blank the pump off."
	case late == uncertainty.Fail:
		state = "high in the late part: a leak, vapour, the pump's blank-off, or the gauge"
		text = "The late part lies at {late} of the curve's pressure. Blank the pump off, make a rise test and compare the gauge, in that order."
	case toSettle != "":
		is, state, text = declare.CannotTell, "cannot tell yet", toSettle
	case d.covered < d.needs*(1-1e-9):
		is, state = declare.CannotTell, "log too short"
		text = written(r.Numbers, "As its curve so far, but leaks and vapour show late. A log that goes on to [min] would settle it.", "", []float64{wholeMinutes(d.needs + d.delay)})
	default:
		is, state = declare.Pass, "as it should be"
		text = "It comes down as its curve does, within {band}, or better. That does not prove it tight: a rise test does."
	}
	stands := "decided: " + state
	if is == declare.CannotTell {
		stands = "a longer log is not likely to decide"
		if early == uncertainty.Pass {
			stands = d.stands(r, d.settles(r)-d.points[len(d.points)-1].x, stands)
		}
	}
	r.Text("stands", stands)
	r.Text("state", state)
	r.Verdict(is, text)
}

// begun is the answer as long as readings are lacking: a pass needs half of the curve.
func (d *descentLog) begun(r *declare.Result) {
	last := 0.0
	for _, t := range r.Column("log", "time") {
		last = math.Max(last, t)
	}
	r.Text("state", "log too short")
	r.Text("stands", d.stands(r, d.needs-last, "keep going, how long is not to be foreseen"))
	r.Verdict(declare.CannotTell, "Three readings at or below {ceiling}, to which the gauge reads true, would settle whether it comes down as its curve does.")
}

// stands says how much longer the log must be, if that is known.
func (d *descentLog) stands(r *declare.Result, more float64, unknown string) string {
	if !(more > 0) {
		return unknown
	}
	r.Set("more", wholeMinutes(more))
	return "keep going, about {more} more"
}

// partOf decides one part. Where it lies near its limit, or is better than a machine of this
// curve can be, it says so and what would settle it.
func partOf(r *declare.Result, id string) (is uncertainty.Decision, toSettle string) {
	ratio, u := r.Out(id)
	limit := 1 + r.In("band")
	if uncertainty.AtLeast(ratio, uncertainty.K*u, 1/limit) == uncertainty.Fail {
		return uncertainty.CannotTell, written(r.Numbers, "The # part, {#}, is better than the band allows. The right curve, unit and start of the clock would settle it.", id, nil)
	}
	if is = uncertainty.AtMost(ratio, uncertainty.K*u, limit); is == uncertainty.CannotTell {
		toSettle = "A blank-off test and a rise test would settle it."
		if gauge := gaugeToSettle(r, limit-ratio, u, 0); gauge != "" {
			toSettle = gauge + ". " + toSettle
		}
		toSettle = written(r.Numbers, "The # part, {#}, may lie on either side of [%]. ", id, []float64{limit}) + toSettle
	}
	return is, toSettle
}

// The decades of the table begin at ln of 1 mTorr in Pa; one of them is ln 10.
const edgeAt, decade = -2.0149852607660046, math.Ln10

// speeds adds the table, decade by decade of mTorr, from the top. The gauge's errors at the
// two ends of a decade are taken as independent: a thermal gauge is not off by the same share
// over all of it.
func (d *descentLog) speeds(r *declare.Result) {
	top := d.points[0].y
	bottom := top
	for _, p := range d.points {
		if p.y < bottom {
			bottom = p.y
		}
	}
	volume := r.Typed("volume")
	for edge := edgeAt + decade*math.Ceil((top-edgeAt)/decade-1e-9); edge > bottom; edge -= decade {
		high, low := min(top, edge), max(bottom, edge-decade)
		fall, time := high-low, d.reach(low, 0)-d.reach(high, 0)
		if !(time > 0) || fall < 0.1 {
			continue
		}
		speed := volume.Value * fall / time
		ofFall, ofVolume := math.Sqrt2*gaugeU(r.Numbers)/fall, volume.U/volume.Value
		u := math.Sqrt(ofFall*ofFall + ofVolume*ofVolume)
		share, shareU := math.NaN(), 0.0
		if r.Has("speed") {
			pump := r.Typed("speed")
			share = speed / pump.Value
			ofPump := pump.U / pump.Value
			shareU = share * math.Sqrt(u*u+ofPump*ofPump)
		}
		r.Row("speeds", declare.Cell{Value: math.Exp(high)}, declare.Cell{Value: math.Exp(low)}, declare.Cell{Value: speed, U: speed * u}, declare.Cell{Value: share, U: shareU})
		work(r, "S = V ln(p₁/p₂) / (t₂ − t₁) = {volume} × [] / [min] = #", r.NumU(speed, speed*u, "L/s"), fall, time)
	}
}
