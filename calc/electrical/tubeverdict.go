package electrical

import (
	"blankoff/calc/declare"
	"blankoff/calc/letters"
	"blankoff/calc/uncertainty"
)

// farAbove is how many times the card's high limit a contact no longer explains.
const farAbove = 1.3

// tube is what was read of a tube and what was found so far.
type tube struct {
	_             [0]func() // never compared: saves the code for it
	r             *declare.Result
	given, over   [6]bool    // by pair
	net, u        [6]float64 // Ω, leads taken off; NaN where there is no number
	leadsU        float64    // the part of u that all pairs share
	open, missing string     // pairs that show OL, pairs not measured

	is          uncertainty.Decision // the worst so far; Pass at first
	state, text string
	last        string // the state found last, so that six like it are told once
	proved      string
	unproved    string
}

func tubeJudge(r *declare.Result) {
	t := &tube{r: r, is: uncertainty.Pass}
	if !t.read() {
		return
	}
	if r.Choice("construction") == jointLegs {
		t.judgeJoined()
	} else {
		t.judgeInsulated()
	}
	cased := t.judgeCase()
	if t.missing != "" {
		t.leave("anything of the pairs not measured:" + t.missing)
		t.find(&notAll, t.missing, "")
	}
	state, text := t.state, t.text
	switch {
	case t.is == uncertainty.Pass:
		state, text = "electrically intact", put("Electrically intact: #. That is all it proves.", t.proved, "")
		if !cased {
			state = "electrically intact; pins to the case not measured"
		}
	case t.is == uncertainty.Fail:
		t.prove("with the pins wiped and met, " + state)
		t.leave("why it failed")
	case t.proved == "":
		t.proved = "nothing yet"
	}
	r.Text("proved", t.proved)
	r.Text("not-proved", listed("how true the gauge reads; that the wire is clean; that its heater current is right", t.unproved))
	text = letters.TrimSpace(text)
	r.Text("state", state)
	r.Decide(t.is, text, text, text)
}

// judgePair decides on a pair that must be a wire, with its card limits (nought: none),
// and tells whether it surely is within them.
func (t *tube) judgePair(i int, name string, low, high float64) bool {
	net, u := t.net[i], t.u[i]
	least, most, card := ohms(low, 4), ohms(high, 4), " (card: # to *),"
	reading := put("#, *", name, t.ohms(net, u))
	short, far := low/2, high*farAbove
	if low == 0 {
		low, short, card = leastWire, leastWire, " (card: at most *),"
	}
	if high == 0 {
		high, far = mostWire, joined
		if card = ","; short != low {
			card = " (card: at least #),"
		}
	}
	u *= uncertainty.K
	which := &meterCoarse
	switch {
	case uncertainty.AtLeast(net, u, short) == uncertainty.Fail:
		which = &pairShorted
	case uncertainty.AtMost(net, u, far) == uncertainty.Fail:
		which = &pairFar
	case uncertainty.Within(net, u, low, high) == uncertainty.Pass:
		return true
	case uncertainty.AtMost(net, u, high) == uncertainty.Fail:
		which = &pairHigh
	case uncertainty.AtLeast(net, u, low) == uncertainty.Fail:
		which = &pairLow
	default:
		name = goodTo(nearer(distance(net, low, high), distance(net, short, far)))
	}
	t.find(which, name, reading+put(card, least, most))
	return false
}

// isolated decides on two points that must not be connected: good or more passes, less
// than bad fails. Where it is not settled it says why, and what would. What the last digit
// of a megohm range is worth is not asked for: any display shows 200 counts or more of a
// value that is not on too high a range (common practice).
func (t *tube) isolated(id, name string, good, bad float64) uncertainty.Decision {
	r := t.r
	which, reading := &rangeUnknown, megohm(good)
	if typed := r.Typed(id); !typed.Over {
		value, resolution := typed.Value, r.In("resolution")
		if resolution < value/200 {
			resolution = value / 200
		}
		expanded := allowed(r.Numbers, value, resolution) + uncertainty.K*typed.U
		is := uncertainty.AtLeast(value, expanded, good)
		if is == uncertainty.Pass || uncertainty.AtLeast(value, expanded, bad) == uncertainty.Fail {
			return is
		}
		which, reading = &damp, "{"+id+"}, is not surely above "+reading
	} else if top := r.In("range-top"); top > 0 {
		if uncertainty.AtLeast(top, 0, good) == uncertainty.Pass {
			return uncertainty.Pass
		}
		which = &rangeLow
	}
	t.find(which, name, reading)
	return uncertainty.CannotTell
}

// judgeCase decides on the pins against the case, and tells whether all were measured.
func (t *tube) judgeCase() bool {
	good := t.r.In("case-limit")
	met, missing := 0, ""
	for i := range caseIDs {
		id, name := caseIDs[i], pinNames[i]
		if !t.r.Has(id) {
			missing += " " + name
			continue
		}
		name += " to case"
		switch t.isolated(id, name, good, nearer(good, joined)) {
		case uncertainty.Pass:
			met++
		case uncertainty.Fail:
			t.find(&connectedCase, name, id)
		}
	}
	if met == 4 {
		t.prove("no pin touches the case, " + megohm(good) + " or more")
	}
	if missing != "" {
		t.leave("that the pins not measured do not touch the case:" + missing)
	}
	return missing == ""
}
