package electrical

import (
	"blankoff/calc/declare"
	"blankoff/calc/uncertainty"
)

// farAbove is how many times the card's high limit a contact no longer explains.
const farAbove = 1.3

// tube is what was read of a tube and what was found so far.
type tube struct {
	r           *declare.Result
	given, over [6]bool    // by pair
	net, u      [6]float64 // Ω, leads taken off; NaN where there is no number

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
	t.judgeCase()
	t.conclude()
}

// find takes note of a finding; the worst kind stands, and of one kind all.
func (t *tube) find(is uncertainty.Decision, state, text string) {
	switch {
	case is == uncertainty.Fail && t.is != uncertainty.Fail, is == uncertainty.CannotTell && t.is == uncertainty.Pass:
		t.is, t.state, t.text = is, state, text
	case is == t.is && state != t.last:
		t.state, t.text = t.state+"; "+state, t.text+" "+text
	default:
		return
	}
	t.last = state
}

func (t *tube) prove(text string) { t.proved = listed(t.proved, text) }

func listed(list, text string) string {
	if list == "" {
		return text
	}
	return list + "; " + text
}

// judgePair decides on a pair that must be a wire, with its card limits (nought: none),
// and tells whether it surely is within them.
func (t *tube) judgePair(i int, name string, low, high float64) bool {
	card := " (card: " + cardOf(low, high) + ")"
	if low == 0 && high == 0 {
		card = ""
	}
	short, far := low/2, high*farAbove
	if low == 0 {
		low, short = leastWire, leastWire
	}
	if high == 0 {
		high, far = mostWire, joined
	}
	net, expanded := t.net[i], uncertainty.K*t.u[i]
	shown := name + ", " + t.r.NumU(net, t.u[i], "Ω") + card + ","
	switch {
	case uncertainty.AtLeast(net, expanded, short) == uncertainty.Fail:
		t.find(uncertainty.Fail, name+" shorted", shown+" is far too low: shorted, the wrong pins, or the probes were nulled on closed pins. Find the key again and repeat; if it stays, replace the tube.")
	case uncertainty.AtMost(net, expanded, far) == uncertainty.Fail:
		t.find(uncertainty.Fail, name+" far too high", shown+" is more than a bad contact explains: the wrong pins, the wrong card, or a broken wire. Wipe the pins and repeat; if it stays, replace the tube.")
	case uncertainty.Within(net, expanded, low, high) == uncertainty.Pass:
		return true
	case uncertainty.AtMost(net, expanded, high) == uncertainty.Fail:
		t.find(uncertainty.CannotTell, name+" high", shown+" is too high: a contact or the wrong pins, sooner than a worn wire. Wipe, press and repeat three times; four wires would settle it.")
	case uncertainty.AtLeast(net, expanded, low) == uncertainty.Fail:
		t.find(uncertainty.CannotTell, name+" low", shown+" is too low for the card and too high for a short: null the probes again and check the pins; the same reading twice with four wires would settle it.")
	default:
		t.find(uncertainty.CannotTell, "meter too coarse", shown+" may lie on either side of a limit. "+goodTo(min(distance(net, low, high), distance(net, short, far))))
	}
	return false
}

func cardOf(low, high float64) string {
	switch {
	case high == 0:
		return "at least " + ohms(low, 4)
	case low == 0:
		return "at most " + ohms(high, 4)
	}
	return ohms(low, 4) + " to " + ohms(high, 4)
}

// isolated decides on two points that must not be connected: good or more passes, less
// than bad fails.
func (t *tube) isolated(id string, good, bad float64) uncertainty.Decision {
	if t.r.Typed(id).Over {
		if t.r.Has("range-top") && uncertainty.AtLeast(t.r.In("range-top"), 0, good) == uncertainty.Pass {
			return uncertainty.Pass
		}
		return uncertainty.CannotTell
	}
	value, expanded := t.r.In(id), isolationLimit(t.r.Numbers, id)+uncertainty.K*t.r.Typed(id).U
	switch {
	case uncertainty.AtLeast(value, expanded, good) == uncertainty.Pass:
		return uncertainty.Pass
	case uncertainty.AtLeast(value, expanded, bad) == uncertainty.Fail:
		return uncertainty.Fail
	}
	return uncertainty.CannotTell
}

// doubt says why an isolation is not settled, and what would.
func (t *tube) doubt(id, name string, good float64) {
	switch {
	case !t.r.Typed(id).Over:
		t.find(uncertainty.CannotTell, name+" damp", name+", "+t.r.Entry(id)+", is not surely above "+megohm(good)+". Dry it for 24 h in a warm room and repeat.")
	case t.r.Has("range-top"):
		t.find(uncertainty.CannotTell, "range too low", "OL says only that there is more than {range-top}; a range that reaches "+megohm(good)+" would settle it.")
	default:
		t.find(uncertainty.CannotTell, "range not known", "OL says only that there is more than the range can show. The top of that range, entered, would settle it if it reaches "+megohm(good)+".")
	}
}

func (t *tube) judgeCase() {
	good := t.r.In("case-limit")
	met, missing := 0, ""
	for i, pin := range [4]string{"a", "b", "c", "d"} {
		id, name := pin+caseSuffix, pinNames[i]+" to case"
		if !t.r.Has(id) {
			missing = missing + " " + pinNames[i]
			continue
		}
		switch t.isolated(id, good, min(good, joined)) {
		case uncertainty.Pass:
			met++
		case uncertainty.Fail:
			t.find(uncertainty.Fail, name+" connected", name+", "+t.r.Entry(id)+", is wet inside or shorted. Dry it for 24 h in a warm room and repeat; if it stays, replace the tube.")
		default:
			t.doubt(id, name, good)
		}
	}
	switch {
	case met == 4:
		t.prove("no pin touches the case, " + megohm(good) + " or more")
	case missing != "":
		t.unproved = listed(t.unproved, "that the pins not measured do not touch the case:"+missing)
	}
}

// conclude turns the findings into the answer.
func (t *tube) conclude() {
	missing := ""
	for i, given := range t.given {
		if !given {
			missing = missing + " " + pairNames[i]
		}
	}
	if missing != "" {
		t.unproved = listed(t.unproved, "anything of the pairs not measured:"+missing)
		t.find(uncertainty.CannotTell, "partial", "Not all pairs were measured; these would settle it:"+missing+".")
	}
	r := t.r
	verdict := [3]string{uncertainty.Pass: declare.Pass, uncertainty.Fail: declare.Fail, uncertainty.CannotTell: declare.CannotTell}[t.is]
	if t.is == uncertainty.Pass {
		t.state, t.text = "electrically intact", "Electrically intact: "+t.proved+". That is all it proves."
		if !r.Has("a"+caseSuffix) || !r.Has("b"+caseSuffix) || !r.Has("c"+caseSuffix) || !r.Has("d"+caseSuffix) {
			t.state += "; pins to the case not measured"
		}
	}
	if t.is == uncertainty.Fail {
		t.prove("with the pins wiped and met, " + t.state)
		t.unproved = listed(t.unproved, "why it failed")
	}
	if t.proved == "" {
		t.proved = "nothing yet"
	}
	r.Text("state", t.state)
	r.Text("proved", t.proved)
	r.Text("not-proved", listed("how true the gauge reads; that the wire is clean; that its heater current is right", t.unproved))
	r.Verdict(verdict, t.text)
}
