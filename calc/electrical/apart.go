package electrical

import (
	"blankoff/calc/declare"
	"blankoff/calc/uncertainty"
)

const onThisRange = "open on this range"

// The findings on points that must not be connected: # stands for what is enough, * for
// what is too little.
var (
	apartTo    = finding{uncertainty.Pass, "open", "No connection found up to {range-top}; # are enough."}
	apartBelow = finding{uncertainty.CannotTell, onThisRange, "OL says only that the resistance is above {range-top}, the top of this range, and # are wanted. A range or meter that reaches # would settle it."}
	apartFine  = finding{uncertainty.CannotTell, onThisRange, "OL says only that the resistance is above the top of this range, and # are wanted. The highest range would settle it, with its top entered."}
	apartOpen  = finding{uncertainty.Pass, "open", "No connection found up to the top of the meter's highest range."}
	apartAbove = finding{uncertainty.Pass, "open", "{resistance} is above #: no connection that matters."}
	connected  = finding{uncertainty.Fail, "connected", "{resistance} is below *: wet inside, or touching. Dry it for 24 h in a warm room and repeat; if it stays, replace the tube."}
	leaky      = finding{uncertainty.CannotTell, "leaky, or damp", "{resistance} lies between * and #, or reaches into that span. Dry it for 24 h in a warm room and repeat."}
	leakyCard  = finding{uncertainty.CannotTell, "leaky, or damp", "{resistance} may lie on either side of #. Dry it for 24 h in a warm room and repeat."}
)

// judgeApart decides on two points that must not be connected. A card limit, where one is
// given, takes the place of both limits of the trade; one of nought would pass a dead
// short.
//
// OL says that the resistance is above the top of the range, which must reach the limit.
// Where the top was not written, the worth of the last digit tells where it is at least.
func judgeApart(r *declare.Result, over bool) {
	good, bad, limit, least := apart, joined, megohm(apart), megohm(joined)
	found := &leaky
	if low := r.In("low"); low > 0 {
		good, bad, limit, least = low, low, "{low}", "{low}"
		found = &leakyCard
	}
	net, u := r.Out("resistance")
	u *= uncertainty.K
	top, below, reached := r.In("range-top"), &apartBelow, &apartTo
	if top == 0 {
		top, below, reached = fewestCounts*r.In("resolution"), &apartFine, &apartOpen
	}
	switch {
	case over && uncertainty.AtLeast(top, 0, good) == uncertainty.Pass:
		found = reached
	case over:
		found = below
	case uncertainty.AtLeast(net, u, good) == uncertainty.Pass:
		found = &apartAbove
	case uncertainty.AtLeast(net, u, bad) == uncertainty.Fail:
		found = &connected
	}
	tell(r, found, limit, least)
}
