package electrical

import "blankoff/calc/uncertainty"

// finding is a verdict with its state, where there is one; # stands for the part of which
// it is said, * for what was read of it.
type finding struct {
	is          uncertainty.Decision
	state, text string
}

// The findings on a tube.
var (
	pairOpen        = finding{uncertainty.Fail, "* open", "No connection through #: its wire is broken, or a probe did not touch. Wipe the pins, press, and repeat three times; if it stays, replace the tube."}
	pairShorted     = finding{uncertainty.Fail, "# shorted", "* is far too low: shorted, the wrong pins, or the probes were nulled on closed pins. Find the key again and repeat; if it stays, replace the tube."}
	pairFar         = finding{uncertainty.Fail, "# far too high", "* is more than a bad contact explains: the wrong pins, the wrong card, or a broken wire. Wipe the pins and repeat; if it stays, replace the tube."}
	pairHigh        = finding{uncertainty.CannotTell, "# high", "* is too high: a contact or the wrong pins, sooner than a worn wire. Wipe, press and repeat three times; four wires would settle it."}
	pairLow         = finding{uncertainty.CannotTell, "# low", "* is too low for the card and too high for a short: null the probes again and check the pins; the same reading twice with four wires would settle it."}
	meterCoarse     = finding{uncertainty.CannotTell, "meter too coarse", "* may lie on either side of a limit. #"}
	connectedAcross = finding{uncertainty.Fail, "heater and couple connected", "Heater and couple are connected:#. Wet inside or touching: dry it for 24 h in a warm room and repeat; if it stays, replace the tube. A tube with a joined junction shows a few ohms there by design: look at its card first."}
	connectedCase   = finding{uncertainty.Fail, "# connected", "#, {*}, is wet inside or shorted. Dry it for 24 h in a warm room and repeat; if it stays, replace the tube."}
	damp            = finding{uncertainty.CannotTell, "# damp", "#, *. Dry it for 24 h in a warm room and repeat."}
	rangeUnknown    = finding{uncertainty.CannotTell, "range not known", "OL says only that there is more than the range can show. The top of that range, entered, would settle it if it reaches *."}
	rangeLow        = finding{uncertainty.CannotTell, "range too low", "OL says only that there is more than {range-top}; a range that reaches * would settle it."}
	weldBroken      = finding{uncertainty.Fail, "heater and couple apart", "No connection from heater to couple, but each is whole: in a joined tube the weld between them is broken, so replace the tube. A tube with an insulated junction shows this by design: look at its card first."}
	noPattern       = finding{uncertainty.CannotTell, "bad contact", "No broken leg shows this pattern of OL:#. A probe missed its pin: wiping, pressing and repeating these three times would settle it."}
	someLeg         = finding{uncertainty.Fail, "a leg open", "No connection at#: a leg there is broken, or the pins are the wrong ones. Wipe the pins, press, repeat three times and measure every pair, to see which; if it stays, replace the tube."}
	legOpen         = finding{uncertainty.Fail, "* open, leg#", "Every pair with# that was measured is open, and no other: leg# is broken, or a probe did not touch it. Wipe the pins, press, and repeat three times; if it stays, replace the tube."}
	badContact      = finding{uncertainty.CannotTell, "bad contact, #", "The six sums do not fit together: *. One bad contact, most likely at #: wiping, pressing and repeating it three times would settle it."}
	belowLegs       = finding{uncertainty.CannotTell, "bad contact", "# is * below the sum of its legs: two contacts were bad or a number is wrong. Repeating all six pairs would settle it."}
	belowNought     = finding{uncertainty.CannotTell, "leg below nought", "Leg # comes out at *, which no wire has: a number or a pin is wrong. Repeating its pairs would settle it."}
	notAll          = finding{uncertainty.CannotTell, "partial", "Not all pairs were measured; these would settle it:#."}
)

// find takes note of a finding; the worst kind stands, and of one kind all.
func (t *tube) find(f *finding, part, reading string) {
	state := put(f.state, part, reading)
	if f.is != t.is && t.is != uncertainty.Fail {
		t.is, t.state, t.text = f.is, "", ""
	} else if f.is != t.is || state == t.last {
		return
	}
	t.last = state
	t.state = listed(t.state, state)
	t.text += put(f.text, part, reading) + " "
}

func listed(list, text string) string {
	switch {
	case list == "":
		return text
	case text == "":
		return list
	}
	return list + "; " + text
}

func (t *tube) prove(text string) { t.proved = listed(t.proved, text) }

func (t *tube) leave(text string) { t.unproved = listed(t.unproved, text) }
