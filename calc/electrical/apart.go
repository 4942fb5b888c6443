package electrical

import (
	"blankoff/calc/declare"
	"blankoff/calc/uncertainty"
)

const onThisRange = "open on this range"

// topOfRange names the top of the range, where it was written.
func topOfRange(r *declare.Result) string {
	if r.Has("range-top") {
		return ", " + r.Entry("range-top")
	}
	return ""
}

// apartLimits are what two points that must not be connected have at least, and the
// least that says no more than that they are damp, with their texts. A card limit, where
// one is given, takes the place of both limits of the trade; one of nought would pass a
// dead short.
func apartLimits(r *declare.Result) (good, bad float64, goodText, badText string) {
	if r.Has("low") && r.In("low") > 0 {
		return r.In("low"), r.In("low"), r.Entry("low"), r.Entry("low")
	}
	return apart, joined, megohm(apart), megohm(joined)
}

// judgeApart decides on two points that must not be connected.
func judgeApart(r *declare.Result, over bool) {
	good, bad, goodText, badText := apartLimits(r)
	if over {
		judgeOver(r, good, goodText)
		return
	}
	net, u := r.Out("resistance")
	expanded := uncertainty.K * u
	switch {
	case uncertainty.AtLeast(net, expanded, good) == uncertainty.Pass:
		r.Text("state", "open")
		r.Verdict(declare.Pass, r.Show("resistance")+" is above "+goodText+": no connection that matters.")
	case uncertainty.AtLeast(net, expanded, bad) == uncertainty.Fail:
		r.Text("state", "connected")
		r.Verdict(declare.Fail, r.Show("resistance")+" is below "+badText+": wet inside, or touching. Dry it for 24 h in a warm room and repeat; if it stays, replace the tube.")
	case good == bad:
		r.Text("state", "leaky, or damp")
		r.Verdict(declare.CannotTell, r.Show("resistance")+" may lie on either side of "+goodText+". Dry it for 24 h in a warm room and repeat.")
	default:
		r.Text("state", "leaky, or damp")
		r.Verdict(declare.CannotTell, r.Show("resistance")+" lies between "+badText+" and "+goodText+", or reaches into that span. Dry it for 24 h in a warm room and repeat.")
	}
}

// judgeOver decides on OL between two points that must not be connected: it says that
// the resistance is above the top of the range, which must reach the limit. Where the
// top was not written, the worth of the last digit tells a megohm range from a low one.
func judgeOver(r *declare.Result, good float64, goodText string) {
	switch {
	case r.Has("range-top") && uncertainty.AtLeast(r.In("range-top"), 0, good) != uncertainty.Pass:
		r.Text("state", onThisRange)
		r.Verdict(declare.CannotTell, "OL says only that the resistance is above {range-top}, the top of this range, and "+goodText+" are wanted. A range or meter that reaches "+goodText+" would settle it.")
	case r.Has("range-top"):
		r.Text("state", "open")
		r.Verdict(declare.Pass, "No connection found up to {range-top}; "+goodText+" are enough.")
	case r.In("resolution") < coarseStep:
		r.Text("state", onThisRange)
		r.Verdict(declare.CannotTell, "OL says only that the resistance is above the top of this range, which may be a few hundred ohms. Set the highest range, enter what its last digit is worth (0.01 MΩ, say), and measure again.")
	default:
		r.Text("state", "open")
		r.Verdict(declare.Pass, "No connection found up to the top of the meter's highest range.")
	}
}
