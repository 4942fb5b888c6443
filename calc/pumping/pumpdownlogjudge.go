package pumping

import (
	"math"
	"strconv"

	"blankoff/calc/declare"
	"blankoff/calc/uncertainty"
)

func logEval(x *declare.Numbers) {
	d := x.Studied().(*descentLog)
	scale := 1 + x.Influence("scale")
	if d.heading {
		x.Set("floor", (d.floor.Intercept+x.Influence("fit"))*scale)
	}
	if d.curve == nil {
		return
	}
	if !math.IsNaN(d.early) {
		x.Set("early", d.earlyWith(math.Log(scale))) // no number while much is varied: then the other side counts
	}
	if !math.IsNaN(d.late) {
		x.Set("late", d.late*scale)
	}
}

func logJudge(r *declare.Result) {
	d := r.Studied().(*descentLog)
	d.speeds(r)
	d.remarks(r)
	if d.curve == nil {
		r.Caution("No expected curve given, so there is no verdict.")
		return
	}
	limit := 1 + r.In("band")
	early, late := uncertainty.Pass, uncertainty.Pass
	if !math.IsNaN(d.early) {
		early = partOf(r, "early", limit)
		r.Work("early: {early} of the curve's time to " + r.Num(math.Exp(d.split), "mTorr"))
	} else {
		r.Caution("The early part cannot be compared: log or curve has no reading between 500 mTorr and the ceiling. Late readings are compared by the clock.")
	}
	if !math.IsNaN(d.late) {
		late = partOf(r, "late", limit)
		r.Work("late: {late} of the curve's pressure, {band} more allowed")
	}
	decideLog(r, early, late)
}

func partOf(r *declare.Result, id string, limit float64) uncertainty.Decision {
	ratio, u := r.Out(id)
	if ratio < 1/limit {
		r.Caution("The " + id + " part is better than the curve by more than the band: check the units, when the clock was started, and which machine's curve this is.")
	}
	return uncertainty.AtMost(ratio, uncertainty.K*u, limit)
}

// The states of a pump-down.
const (
	stateSound = "as it should be"
	stateEarly = "slow in the early part: the pump, the hose, or something wet"
	stateLate  = "high in the late part: a leak, vapour, the pump's blank-off, or the gauge"
)

func decideLog(r *declare.Result, early, late uncertainty.Decision) {
	switch {
	case early == uncertainty.Fail && late == uncertainty.Fail:
		r.Text("state", "slow in the early part, and high in the late one")
		r.Verdict(declare.Fail, "Both parts are worse than the curve ({early} of its time, {late} of its pressure). Begin with the pump: blank it off and read again.")
	case early == uncertainty.Fail:
		r.Text("state", stateEarly)
		r.Verdict(declare.Fail, "The early part takes {early} of the curve's time: pump or hose. Look for a kinked or narrow hose, then blank the pump off.")
	case late == uncertainty.Fail:
		r.Text("state", stateLate)
		r.Verdict(declare.Fail, "The late part lies at {late} of the curve's pressure. Blank the pump off, make a rise test and compare the gauge, in that order.")
	case early == uncertainty.CannotTell || late == uncertainty.CannotTell:
		r.Text("state", "too near the band to tell")
		id := "late"
		if early == uncertainty.CannotTell {
			id = "early"
		}
		r.Verdict(declare.CannotTell, "The "+id+" part, {"+id+"}, may lie on either side of "+r.Num(1+r.In("band"), "%")+". "+settleLog(r, id))
	default:
		r.Text("state", stateSound)
		r.Verdict(declare.Pass, "It comes down as its curve does, within {band}. That does not prove it tight: a rise test does.")
	}
}

// settleLog says what would decide a part that lies near its limit.
func settleLog(r *declare.Result, id string) string {
	ratio, u := r.Out(id)
	need := r.In("gauge") * math.Abs(1+r.In("band")-ratio) / (uncertainty.K * u)
	if need < 0.005 {
		return "It is too near the limit for any gauge; a blank-off test and a rise test would settle it."
	}
	return "A gauge good to " + strconv.Itoa(int(need*100+1e-9)) + " % of reading would settle it; so would a blank-off test and a rise test."
}

// remarks tells how the log was used.
func (d *descentLog) remarks(r *declare.Result) {
	d.log.remark(r)
	if d.log.high > 0 {
		r.Caution(count(d.log.high) + " above {ceiling} are not used: a thermal gauge does not read true there.")
	}
	if d.heading {
		r.Work("p₀ = {floor} from the last readings over 1/t")
	}
}

func count(n int) string {
	if n == 1 {
		return "1 reading"
	}
	return strconv.Itoa(n) + " readings"
}

// speeds adds the table, decade by decade of mTorr, from the top.
func (d *descentLog) speeds(r *declare.Result) {
	top, bottom := d.log.log[0], d.log.log[0]
	for _, p := range d.log.log {
		bottom = math.Min(bottom, p)
	}
	edge := math.Log(splitAt/1000) + math.Ln10*math.Ceil((top-math.Log(splitAt/1000))/math.Ln10-1e-9)
	worked := false
	for ; edge > bottom; edge -= math.Ln10 {
		worked = d.decade(r, math.Min(top, edge), math.Max(bottom, edge-math.Ln10)) || worked
	}
	if !worked {
		r.Work("the reading moved too little for a speed")
	}
}

// decade adds the net speed between two pressures, ln p. The gauge's errors at the two
// ends are taken as independent: a thermal gauge is not off by the same share over a whole
// decade. It tells whether there was enough to go by.
func (d *descentLog) decade(r *declare.Result, high, low float64) bool {
	time := d.log.reach(low, 0) - d.log.reach(high, 0)
	if !(time > 0) || high-low < 0.1 {
		return false
	}
	volume := r.In("volume")
	cells := make([]declare.Cell, 4)
	cells[0].Value, cells[1].Value, cells[2].Value, cells[3].Value = math.Exp(high), math.Exp(low), volume*(high-low)/time, math.NaN()
	speed := cells[2].Value
	u := uncertainty.Combine(math.Sqrt2*uncertainty.FromAccuracy(r.In("gauge"))/(high-low), r.Typed("volume").U/volume)
	cells[2].U = speed * u
	if r.Has("speed") {
		pump := r.In("speed")
		cells[3].Value, cells[3].U = speed/pump, speed/pump*uncertainty.Combine(u, r.Typed("speed").U/pump)
	}
	r.Row("speeds", cells...)
	r.Work("S = V ln(p₁/p₂) / (t₂ − t₁) = {volume} × " + r.Num(high-low, "") + " / " + r.Num(time, "min") + " = " + r.NumU(speed, speed*u, "L/s"))
	return true
}
