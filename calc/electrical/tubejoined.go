package electrical

import (
	"math"

	"blankoff/calc/declare"
	"blankoff/calc/quantity"
	"blankoff/calc/uncertainty"
)

func (t *tube) judgeJoined() {
	masks := openLegs(&t.given, &t.over)
	switch {
	case t.across():
		t.find(uncertainty.Fail, "heater and couple apart", "No connection from heater to couple, but each is whole: in a joined tube the weld between them is broken, so replace the tube. A tube with an insulated junction shows this by design: look at its card first.")
	case len(masks) == 0:
		t.find(uncertainty.CannotTell, "bad contact", "No broken leg shows this pattern of OL:"+t.overNames()+". A probe missed its pin: wiping, pressing and repeating these three times would settle it.")
	case masks[0] != 0:
		t.brokenLegs(masks)
	}
	t.fit()
}

// across tells the pattern of an insulated junction: the four pairs from heater to couple
// open, and the two pairs whole.
func (t *tube) across() bool {
	return t.over == [6]bool{false, true, true, true, true, false} && t.given[0] && t.given[5]
}

func (t *tube) overNames() string {
	names := ""
	for i := range t.over {
		if t.over[i] {
			names += " " + pairNames[i]
		}
	}
	return names
}

func (t *tube) brokenLegs(masks []uint8) {
	if len(masks) > 1 {
		t.find(uncertainty.Fail, "a leg open", "No connection at"+t.overNames()+": a leg there is broken, or the pins are the wrong ones. Wipe the pins, press, repeat three times and measure every pair, to see which; if it stays, replace the tube.")
		return
	}
	open, parts := "", ""
	for leg := range 4 {
		if masks[0]>>leg&1 == 1 {
			open += " " + pinNames[leg]
			if part := [4]string{"heater", "heater", "couple", "couple"}[leg]; parts != part {
				parts = listed(parts, part)
			}
		}
	}
	t.find(uncertainty.Fail, parts+" open, leg"+open, "Every pair with"+open+" is open and the others are not: leg"+open+" is broken, or a probe did not touch it. Wipe the pins, press, and repeat three times; if it stays, replace the tube.")
}

// fit finds the legs from the pairs that are whole, and holds the pairs against them.
func (t *tube) fit() {
	own, leads := t.u, math.Hypot(meterU(t.r.Numbers, "leads"), t.r.Typed("leads").U)
	for i := range own {
		own[i] = math.Sqrt(max(0, own[i]*own[i]-leads*leads))
	}
	f := fitLegs(&t.net, &own, leads)
	if f.found {
		t.showFit(&f)
	}
	if f.found && f.spare > 0 && t.contact(&f) || f.found && t.negative(&f) {
		return
	}
	t.joinedPairs()
}

func (t *tube) joinedPairs() {
	whole, count := "", 0
	for i, id := range pairIDs {
		card, tolerance := t.r.In("card-"+id), t.r.In("tolerance")
		if t.given[i] && !t.over[i] && t.judgePair(i, pairNames[i], card*(1-tolerance), card*(1+tolerance)) {
			whole += " " + pairNames[i]
			count++
		}
	}
	switch {
	case count == 6:
		t.prove("all four legs are whole and meet")
	case count > 0:
		t.prove("whole:" + whole)
	}
}

func (t *tube) showFit(f *legFit) {
	line := ""
	for leg := range f.leg {
		if f.reached[leg] {
			t.r.Row("legs", declare.Cell{Text: pinNames[leg]}, declare.Cell{Value: f.leg[leg], U: f.u[leg]})
			line = listed(line, "r_"+pinNames[leg]+" = "+t.r.NumU(f.leg[leg], f.u[leg], "Ω"))
		}
	}
	t.r.Work("Least squares for R_ij = r_i + r_j: " + line)
	if f.spare < 1 {
		t.r.Work("As many readings as legs: nothing is left over to show a bad contact.")
		t.unproved = listed(t.unproved, "that the contacts were good: too few pairs are whole to tell")
		return
	}
	least := 0.0
	for i := range f.residual {
		if t.given[i] && !t.over[i] {
			t.r.Row("residuals", declare.Cell{Text: pairNames[i]}, declare.Cell{Value: t.net[i], U: t.u[i]}, declare.Cell{Value: f.fitted[i]},
				declare.Cell{Value: f.residual[i], Text: signed(f.residual[i])}, declare.Cell{Value: uncertainty.K * f.residualU[i], Text: signless(uncertainty.K * f.residualU[i])})
			least = max(least, float64(5-f.spare)*uncertainty.K*f.residualU[i])
		}
	}
	// A contact leaves a third of itself with all six pairs, a quarter with five.
	t.unproved = listed(t.unproved, "contacts, as bad ones under "+ohms(least, 2)+" do not show")
}

// signed writes a residual with its sign, to 10 mΩ.
func signed(x float64) string {
	x = math.Round(x*100) / 100
	text := signless(math.Abs(x))
	switch {
	case x > 0:
		return "+" + text
	case x < 0:
		return "−" + text
	}
	return text
}

func signless(x float64) string { return quantity.Format(x, -1, quantity.MustUnit(""), 2) }

// contact looks for a pair that does not fit its legs. One bad contact leaves as much at
// the pair that shares no pin with it, so the two are named together, unless the card
// tells them apart.
func (t *tube) contact(f *legFit) bool {
	worst, over := -1, 1.0
	for i := range f.residual {
		allowed := uncertainty.K * f.residualU[i]
		if f.residual[i] > 1e-9 && f.residual[i] > over*allowed*(1+1e-9) {
			worst, over = i, f.residual[i]/allowed
		}
	}
	if worst < 0 {
		return t.tooLow(f)
	}
	suspects := pairNames[worst]
	if other := 5 - worst; t.given[other] && !t.over[other] {
		mine, its := t.excess(worst), t.excess(other)
		switch {
		case math.IsNaN(mine) || math.IsNaN(its) || math.Abs(mine-its) <= t.u[worst]:
			suspects = pairNames[min(worst, other)] + " or " + pairNames[max(worst, other)]
		case its > mine:
			suspects = pairNames[other]
		}
	}
	t.find(uncertainty.CannotTell, "bad contact, "+suspects, "The six sums do not fit together: "+signed(f.residual[worst])+" Ω is left over where the meter explains "+ohms(uncertainty.K*f.residualU[worst], 2)+
		". One bad contact, most likely at "+suspects+": wiping, pressing and repeating it three times would settle it.")
	return true
}

// tooLow looks for a pair that is below its legs, which no contact makes.
func (t *tube) tooLow(f *legFit) bool {
	for i := range f.residual {
		if allowed := uncertainty.K * f.residualU[i]; -f.residual[i] > allowed*(1+1e-9) && -f.residual[i] > 1e-9 {
			t.find(uncertainty.CannotTell, "bad contact", pairNames[i]+" is "+ohms(-f.residual[i], 2)+" below the sum of its legs: two contacts were bad or a number is wrong. Repeating all six pairs would settle it.")
			return true
		}
	}
	return false
}

// excess is how far a pair lies above its card value, Ω; NaN without one.
func (t *tube) excess(i int) float64 {
	card := t.r.In("card-" + pairIDs[i])
	if card == 0 {
		return math.NaN()
	}
	return t.net[i] - card
}

// negative looks for a leg that comes out below nought: a number is wrong.
func (t *tube) negative(f *legFit) bool {
	for leg := range f.leg {
		if f.reached[leg] && f.leg[leg]+uncertainty.K*f.u[leg] < 0 {
			t.find(uncertainty.CannotTell, "leg below nought", "Leg "+pinNames[leg]+" comes out at "+t.r.NumU(f.leg[leg], f.u[leg], "Ω")+", which no wire has: a number or a pin is wrong. Repeating its pairs would settle it.")
			return true
		}
	}
	return false
}
