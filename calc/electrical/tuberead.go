package electrical

import (
	"math"

	"blankoff/calc/uncertainty"
)

// read takes the pairs, leads off; false when they cannot be used.
func (t *tube) read() bool {
	entered := false
	leads := t.r.In("leads")
	leadsU := math.Hypot(meterU(t.r.Numbers, "leads"), t.r.Typed("leads").U)
	for i, id := range pairIDs {
		t.given[i], t.net[i] = t.r.Has(id), math.NaN()
		entered = entered || t.given[i]
		switch {
		case !t.given[i]:
		case t.r.Typed(id).Over:
			t.over[i] = true
		default:
			t.net[i] = t.r.In(id) - leads
			own := math.Hypot(meterU(t.r.Numbers, id), t.r.Typed(id).U)
			t.u[i] = math.Hypot(own, leadsU)
			if t.net[i]+uncertainty.K*t.u[i] < 0 {
				t.r.Refuse("leads", "the probes alone show more than "+pairNames[i]+"; hold them together, null again, and repeat")
				return false
			}
		}
	}
	if !entered {
		t.r.Refuse("ab", "no pair was entered; write what the meter shows from A to B, such as 8.4 Ω, or OL, and then the others")
		return false
	}
	t.workPairs()
	return true
}

func (t *tube) workPairs() {
	line := ""
	for i, id := range pairIDs {
		if t.given[i] {
			text := pairNames[i] + " OL"
			if !t.over[i] {
				text = pairNames[i] + " " + t.r.Entry(id) + " − {leads} = " + t.r.NumU(t.net[i], t.u[i], "Ω")
			}
			line = listed(line, text)
		}
	}
	t.r.Work("Less the leads: " + line)
}

func (t *tube) judgeInsulated() {
	t.insulatedPair(0, "heater", "the heater pair")
	t.insulatedPair(5, "couple", "the couple pair")
	good := t.r.In("across")
	met, connected := 0, ""
	for i := 1; i < 5; i++ {
		if !t.given[i] {
			continue
		}
		switch t.isolated(pairIDs[i], good, good) {
		case uncertainty.Pass:
			met++
		case uncertainty.Fail:
			connected += " " + pairNames[i]
		default:
			t.doubt(pairIDs[i], pairNames[i], good)
		}
	}
	if met == 4 {
		t.prove("heater and couple are apart, " + megohm(good) + " or more")
	}
	if connected != "" {
		t.find(uncertainty.Fail, "heater and couple connected", "Heater and couple are connected:"+connected+". Wet inside or touching: dry it for 24 h in a warm room and repeat; if it stays, replace the tube. A tube with a joined junction shows a few ohms there by design: look at its card first.")
	}
}

func (t *tube) insulatedPair(i int, id, name string) {
	switch {
	case t.over[i]:
		t.find(uncertainty.Fail, id+" open", "No connection through "+name+": "+openText)
	case t.given[i]:
		if t.judgePair(i, name, t.r.In(id+"-low"), t.r.In(id+"-high")) {
			t.prove(name + " is whole, " + t.r.NumU(t.net[i], t.u[i], "Ω"))
		}
	}
}

const openText = "its wire is broken, or a probe did not touch. Wipe the pins, press, and repeat three times; if it stays, replace the tube."
