package electrical

import (
	"math"

	"blankoff/calc/uncertainty"
)

// read takes the pairs, leads off; false when they cannot be used.
func (t *tube) read() bool {
	r, line := t.r, ""
	leads := r.Typed("leads")
	common := math.Hypot(leadsU(r.Numbers), leads.U)
	t.leadsU = common
	for i := range pairIDs {
		id, name := pairIDs[i], pairNames[i]
		if !r.Has(id) {
			t.net[i] = math.NaN()
			t.missing += " " + name
			continue
		}
		t.given[i] = true
		if typed := r.Typed(id); typed.Over {
			t.over[i], t.net[i] = true, math.NaN()
			t.open += " " + name
			name += " OL"
		} else {
			net, u := typed.Value-leads.Value, math.Hypot(math.Hypot(meterU(r.Numbers, id), typed.U), common)
			t.net[i], t.u[i] = net, u
			if net+uncertainty.K*u < 0 {
				r.Refuse("leads", put("the probes alone show more than #; hold them together, null again, and repeat", name, ""))
				return false
			}
			name += put(" {#} − {leads} = *", id, t.ohms(net, u))
		}
		line = listed(line, name)
	}
	if line == "" {
		r.Refuse("ab", "no pair was entered; write what the meter shows from A to B, such as 8.4 Ω, or OL, and then the others")
		return false
	}
	r.Work("Less the leads: " + line)
	return true
}

func (t *tube) ohms(x, u float64) string { return t.r.NumU(x, u, "Ω") }

func (t *tube) judgeInsulated() {
	r := t.r
	for i := range wires {
		w := &wires[i]
		if pair := 5 * i; t.over[pair] {
			t.find(&pairOpen, w.name, w.output)
		} else if t.net[pair] == t.net[pair] && t.judgePair(pair, w.name, r.In(w.low), r.In(w.high)) {
			t.prove(w.name + " is whole, " + t.ohms(t.net[pair], t.u[pair]))
		}
	}
	good := r.In("across")
	met, connected := 0, ""
	for i := 1; i < 5; i++ {
		if t.given[i] {
			switch t.isolated(pairIDs[i], pairNames[i], good, good) {
			case uncertainty.Pass:
				met++
			case uncertainty.Fail:
				connected += " " + pairNames[i]
			}
		}
	}
	if met == 4 {
		t.prove("heater and couple are apart, " + megohm(good) + " or more")
	}
	if connected != "" {
		t.find(&connectedAcross, connected, "")
	}
}
