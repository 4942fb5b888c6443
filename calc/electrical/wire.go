package electrical

import (
	"math"

	"blankoff/calc/declare"
	"blankoff/calc/uncertainty"
)

// judgeWire decides on a pair that should be a whole wire.
func judgeWire(r *declare.Result, over bool) {
	if over && r.Has("range-top") && uncertainty.AtLeast(r.In("range-top"), 0, wireAtMost(r)) != uncertainty.Pass {
		r.Text("state", onThisRange)
		r.Verdict(declare.CannotTell, "OL says only that the resistance is above {range-top}, and a whole wire may have "+ohms(wireAtMost(r), 3)+". The next higher range would settle it.")
		return
	}
	if over {
		r.Text("state", "open")
		r.Verdict(declare.Fail, "No connection: the wire is broken, or a probe did not touch. Wipe the pins, press, and repeat three times before you condemn the tube.")
		return
	}
	net, u := r.Out("resistance")
	short := shortBelow(r)
	limit := ohms(short, 3)
	switch uncertainty.AtLeast(net, uncertainty.K*u, short) {
	case uncertainty.Fail:
		r.Text("state", "shorted")
		r.Verdict(declare.Fail, r.Show("resistance")+" is less than such a wire can have ("+limit+"): the pair is shorted, the pins are the wrong ones, or the probes were nulled on closed pins. Find the key again and repeat.")
	case uncertainty.CannotTell:
		r.Text("state", "continuous, but not measurable with this meter")
		low, high := card(r)
		if uncertainty.Within(net, uncertainty.K*u, low, high) == uncertainty.Fail { // short or not, it is not what the card wants
			judgeCard(r)
			return
		}
		r.Verdict(declare.CannotTell, "Current passes, but "+r.Show("resistance")+" reaches across "+limit+", so a whole wire and a short look alike. "+finerMeter(r, math.Min(math.Abs(net-short), distance(net, low, high))))
	default:
		r.Text("state", "continuous")
		judgeCard(r)
	}
}

// shortBelow is the resistance under which a pair counts as shorted: half the card's
// low limit, or what any such wire has at least. Where the card lets a wire have
// nothing, or less than that, there is no such limit: a cable is not a filament.
func shortBelow(r *declare.Result) float64 {
	switch {
	case r.Has("low") && r.In("low") > 0:
		return r.In("low") / 2
	case r.Has("low") || r.Has("high") && r.In("high") <= leastWire:
		return math.Inf(-1)
	}
	return leastWire
}

// wireAtMost is the most that a whole wire has.
func wireAtMost(r *declare.Result) float64 {
	if r.Has("high") {
		return r.In("high")
	}
	return mostWire
}

// judgeCard compares a continuous pair with the tube card's limits.
func judgeCard(r *declare.Result) {
	net, u := r.Out("resistance")
	low, high := card(r)
	if !r.Has("high") && uncertainty.AtMost(net, uncertainty.K*u, mostWire) != uncertainty.Pass {
		judgeHigh(r, net, u)
		return
	}
	if !r.Has("low") && !r.Has("high") {
		r.Verdict(declare.Pass, r.Show("resistance")+": the wire is whole. That is all it proves.")
		return
	}
	limits := "the card's limits (" + cardText(r) + ")"
	switch uncertainty.Within(net, uncertainty.K*u, low, high) {
	case uncertainty.Pass:
		r.Verdict(declare.Pass, r.Show("resistance")+" lies within "+limits+": electrically intact. That is all it proves.")
	case uncertainty.Fail:
		text := r.Show("resistance") + " lies outside " + limits + ", but current passes. "
		if net > high {
			text += "Wipe the pins and repeat, then check the pin numbers: contact resistance is likelier than a worn wire."
		} else {
			text += "Check the key and the pin numbers, then null the probes again."
		}
		r.Verdict(declare.Fail, text)
	default:
		r.Verdict(declare.CannotTell, "The wire is whole, but "+r.Show("resistance")+" may lie on either side of "+limits+". "+finerMeter(r, distance(net, low, high)))
	}
}

// judgeHigh decides on more ohms than a pair of a tube has, where no card says how many
// it may have.
func judgeHigh(r *declare.Result, net, u float64) {
	if uncertainty.AtLeast(net, uncertainty.K*u, joined) == uncertainty.Pass {
		r.Text("state", "open")
		r.Verdict(declare.Fail, r.Show("resistance")+" is no wire: the pair is open, and the meter shows what leaks across it. Wipe the pins, press, and repeat three times.")
		return
	}
	r.Text("state", "continuous, but too high for such a wire")
	r.Verdict(declare.CannotTell, r.Show("resistance")+" is more than a pair of such a tube has. Check the unit and the decimal sign, the pin numbers, and that the probes touch; a card's high limit would settle it.")
}

// card gives the limits of the tube's card; without one, or with a low limit of nought,
// that side is open.
func card(r *declare.Result) (low, high float64) {
	low, high = math.Inf(-1), math.Inf(1)
	if r.Has("low") && r.In("low") > 0 {
		low = r.In("low")
	}
	if r.Has("high") {
		high = r.In("high")
	}
	return low, high
}

func cardText(r *declare.Result) string {
	switch {
	case !r.Has("high"):
		return "at least " + r.Entry("low")
	case !r.Has("low"):
		return "at most " + r.Entry("high")
	}
	return r.Entry("low") + " to " + r.Entry("high")
}
