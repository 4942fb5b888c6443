package electrical

import (
	"math"

	"blankoff/calc/declare"
	"blankoff/calc/quantity"
	"blankoff/calc/uncertainty"
)

// judgeJoined looks for broken legs, finds the legs from the pairs that are whole, and
// holds the pairs against legs and card.
func (t *tube) judgeJoined() {
	sure, found := openLegs(&t.given, &t.over)
	switch {
	case t.over == [6]bool{false, true, true, true, true, false} && t.given[0] && t.given[5]: // heater and couple whole
		t.find(&weldBroken, "", "")
	case !found:
		t.find(&noPattern, t.open, "")
	case t.open != "" && sure == 0:
		t.find(&someLeg, t.open, "")
	case t.open != "":
		open, parts := "", ""
		for leg := range pinNames {
			if sure>>leg&1 == 0 {
				continue
			}
			open += " " + pinNames[leg]
			if part := wires[leg/2].output; parts != part {
				parts = listed(parts, part)
			}
		}
		t.find(&legOpen, open, parts)
	}
	own, common := t.u, t.leadsU
	for i := range own {
		if u := own[i]; u != 0 {
			own[i] = math.Sqrt(u*u - common*common)
		}
	}
	if f := fitLegs(&t.net, &own, common); f.found && t.unfit(&f) {
		return
	}
	whole, count := "", 0
	tolerance := t.r.In("tolerance")
	for i := range pairNames {
		name, card := pairNames[i], t.r.In(cardIDs[i])
		if t.net[i] == t.net[i] && t.judgePair(i, name, card*(1-tolerance), card*(1+tolerance)) {
			whole += " " + name
			count++
		}
	}
	if count == 6 {
		t.prove("all four legs are whole and meet")
	} else if count > 0 {
		t.prove("whole:" + whole)
	}
}

// unfit shows legs and pairs, and tells whether they do not fit together.
func (t *tube) unfit(f *legFit) bool {
	r, line, negative := t.r, "", -1
	for leg := range pinNames {
		if f.reached[leg] {
			name, x, u := pinNames[leg], f.leg[leg], f.u[leg]
			r.Row("legs", declare.Cell{Text: name}, declare.Cell{Value: x, U: u})
			line = listed(line, put("r_# = *", name, t.ohms(x, u)))
			if x+uncertainty.K*u < 0 && negative < 0 {
				negative = leg
			}
		}
	}
	r.Work("Least squares for R_ij = r_i + r_j: " + line)
	if f.spare < 1 {
		r.Work("As many readings as legs: nothing is left over to show a bad contact.")
		t.leave("that the contacts were good: too few pairs are whole to tell")
	} else if t.holdPairs(f) {
		return true
	}
	if negative >= 0 { // a number is wrong
		t.find(&belowNought, pinNames[negative], t.ohms(f.leg[negative], f.u[negative]))
	}
	return negative >= 0
}

// holdPairs shows the pairs against their legs and looks for one that does not fit. One
// bad contact leaves as much at the pair that shares no pin with it, so the two are named
// together, unless the card tells them apart. No contact makes a pair lower than its legs.
func (t *tube) holdPairs(f *legFit) bool {
	worst, low, over, hidden := -1, -1, 1.0, 0.0
	for i := range pairNames {
		if t.net[i] != t.net[i] { // not read
			t.leave("a contact at " + pairNames[5-i] + ", which shows only with " + pairNames[i])
			continue
		}
		x, allowed := f.residual[i], uncertainty.K*f.residualU[i]
		t.r.Row("residuals", declare.Cell{Text: pairNames[i]}, declare.Cell{Value: t.net[i], U: t.u[i]}, declare.Cell{Value: f.fitted[i]},
			declare.Cell{Value: x, Text: signed(x)}, declare.Cell{Value: allowed, Text: signless(allowed)})
		least := allowed * (1 + 1e-9)
		if x > 1e-9 && x > over*least {
			worst, over = i, x/allowed
		}
		if -x > 1e-9 && -x > least && low < 0 {
			low = i
		}
		// A contact leaves a third of itself with all six pairs, a quarter with five.
		if allowed *= float64(5 - f.spare); allowed > hidden {
			hidden = allowed
		}
	}
	t.leave(put("contacts, as bad ones under # do not show", ohms(hidden, 2), ""))
	if worst >= 0 {
		t.find(&badContact, t.suspects(worst, f.residual[worst]), put("# Ω is left over where the meter explains *", signed(f.residual[worst]), ohms(uncertainty.K*f.residualU[worst], 2)))
	} else if low >= 0 {
		t.find(&belowLegs, pairNames[low], ohms(-f.residual[low], 2))
	}
	return worst >= 0 || low >= 0
}

// signed writes a residual with its sign, to 10 mΩ.
func signed(x float64) string {
	x = math.Round(x*100) / 100
	sign := ""
	if x > 0 {
		sign = "+"
	} else if x < 0 {
		sign = "−"
	}
	return sign + signless(math.Abs(x))
}

func signless(x float64) string { return quantity.Format(x, -1, quantity.MustUnit(""), 2) }

// suspects names the pair with the bad contact, or both that it may be. A contact leaves a
// third of itself or a little less; the card tells where it is if one pair is above its
// card by half the contact more than the other is.
func (t *tube) suspects(worst int, residual float64) string {
	other := 5 - worst
	name, its := pairNames[worst], pairNames[other]
	if t.net[other] != t.net[other] {
		return name
	}
	mine, card := t.r.In(cardIDs[worst]), t.r.In(cardIDs[other])
	more := (t.net[worst] - mine) - (t.net[other] - card)
	if mine == 0 || card == 0 || math.Abs(more) <= 1.5*residual {
		if other < worst {
			name, its = its, name
		}
		return put("# or *", name, its)
	}
	if more < 0 {
		return its
	}
	return name
}
