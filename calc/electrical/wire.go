package electrical

import (
	"blankoff/calc/declare"
	"blankoff/calc/uncertainty"
)

// The findings on a pair that should be a whole wire: # stands for a limit, * for advice.
var (
	wireOpen    = finding{uncertainty.Fail, "open", "No connection: the wire is broken, or a probe did not touch. Wipe the pins, press, and repeat three times before you condemn the tube."}
	wireBelow   = finding{uncertainty.CannotTell, onThisRange, "OL says only that the resistance is above {range-top}, and a whole wire may have #. The next higher range would settle it."}
	wireShorted = finding{uncertainty.Fail, "shorted", "{resistance} is less than such a wire can have (#): the pair is shorted, the pins are the wrong ones, or the probes were nulled on closed pins. Find the key again and repeat."}
	wireUnsure  = finding{uncertainty.CannotTell, notMeasurable, "Current passes, but {resistance} reaches across #, so a whole wire and a short look alike. *"}
	wireLeaks   = finding{uncertainty.Fail, "open", "{resistance} is no wire: the pair is open, and the meter shows what leaks across it. Wipe the pins, press, and repeat three times."}
	wireTooHigh = finding{uncertainty.CannotTell, "continuous, but too high for such a wire", "{resistance} is more than a pair of such a tube has. Check the unit and the decimal sign, the pin numbers, and that the probes touch; a card's high limit would settle it."}
	wireWhole   = finding{uncertainty.Pass, "", "{resistance}: the wire is whole. That is all it proves."}
	cardFits    = finding{uncertainty.Pass, "", "{resistance} lies within the card's limits (#): electrically intact. That is all it proves."}
	cardUnsure  = finding{uncertainty.CannotTell, "", "The wire is whole, but {resistance} may lie on either side of the card's limits (#). *"}
	cardBelow   = finding{uncertainty.Fail, "", "{resistance} lies outside the card's limits (#), but current passes. Check the key and the pin numbers, then null the probes again."}
	cardContact = finding{uncertainty.CannotTell, "", "{resistance} lies above the card's limits (#), by less than a third: contact resistance or the wrong pins are likelier than a worn wire. Wipe, press, repeat three times and take the lowest; four wires would settle it."}
	cardAbove   = finding{uncertainty.Fail, "", "{resistance} lies above the card's limits (#), by more than a bad contact explains: the wrong pins, the wrong card, or a broken wire. Wipe the pins and repeat."}
)

const notMeasurable = "continuous, but not measurable with this meter"

// judgeWire decides on a pair that should be a whole wire: whether it is one, and then by
// the card's limits. A low limit of nought is none.
func judgeWire(r *declare.Result, over bool) {
	low, high := r.In("low"), r.Or("high", endless)
	if low == 0 {
		low = -endless
	}
	net, u := r.Out("resistance")
	u *= uncertainty.K
	short := shortBelow(r, low, high)
	limit, advice := ohms(short, 3), ""
	is := uncertainty.AtLeast(net, u, short)
	fits := uncertainty.Within(net, u, low, high)
	found := &wireOpen
	switch {
	case over:
		most := r.Or("high", mostWire)
		if top := r.In("range-top"); top > 0 && uncertainty.AtLeast(top, 0, most) != uncertainty.Pass {
			found, limit = &wireBelow, ohms(most, 3)
		}
	case is == uncertainty.Fail:
		found = &wireShorted
	case is == uncertainty.CannotTell && fits != uncertainty.Fail:
		found, advice = &wireUnsure, finerMeter(r, nearer(distance(net, short, endless), distance(net, low, high)))
	default: // short or not, where it is not what the card wants
		state := "continuous"
		if is == uncertainty.CannotTell {
			state = notMeasurable
		}
		r.Text("state", state)
		judgeCard(r, fits, net, u, low, high)
		return
	}
	tell(r, found, limit, advice)
}

// shortBelow is the resistance under which a pair counts as shorted: half the card's
// low limit, or what any such wire has at least. Where the card lets a wire have
// nothing, or less than that, there is no such limit: a cable is not a filament.
func shortBelow(r *declare.Result, low, high float64) float64 {
	if low > 0 {
		return low / 2
	}
	if r.Has("low") || high <= leastWire {
		return -endless
	}
	return leastWire
}

// judgeCard compares a continuous pair of net ± u with the tube card's limits; without a
// high one, with what a pair of a tube has at most.
func judgeCard(r *declare.Result, fits uncertainty.Decision, net, u, low, high float64) {
	found := &cardBelow
	switch {
	case (high == endless || fits == uncertainty.Fail) && uncertainty.AtLeast(net, u, joined) == uncertainty.Pass:
		found = &wireLeaks
	case high == endless && uncertainty.AtMost(net, u, mostWire) != uncertainty.Pass:
		found = &wireTooHigh
	case high == endless && !r.Has("low"):
		found = &wireWhole
	case fits == uncertainty.Pass:
		found = &cardFits
	case fits == uncertainty.CannotTell:
		found = &cardUnsure
	case net > high:
		if found = &cardAbove; uncertainty.AtMost(net, u, farAbove*high) != uncertainty.Fail {
			found = &cardContact
		}
	}
	tell(r, found, cardText(r), finerMeter(r, distance(net, low, high)))
}

// cardText names the limits that were entered.
func cardText(r *declare.Result) string {
	if !r.Has("high") {
		return "at least {low}"
	}
	if !r.Has("low") {
		return "at most {high}"
	}
	return "{low} to {high}"
}
