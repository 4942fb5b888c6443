package gauge

import (
	"math"

	"blankoff/calc/constant"
	"blankoff/calc/declare"
	"blankoff/calc/quantity"
)

func compareJudge(r *declare.Result) {
	p := pairsOf(r.Numbers)
	for i := range p.list {
		q := &p.list[i]
		doubt, score := quantity.Number(q.doubt, -1, r.Unit("mTorr"), 3), scoreText(q.score)
		cells := new([5]declare.Cell)
		cells[0].Value, cells[1].Value, cells[2].Value = q.machine, q.reference, q.machine-q.reference
		cells[3].Value, cells[3].Text = q.doubt, doubt
		cells[4].Value, cells[4].Text = q.score, score
		r.Row("pairs", cells[:]...)
	}
	worst := &p.list[p.worst]
	r.Set("largest", worst.score)
	r.WorkWith(4, "E = |a − b| / √(A² + B²), largest at line []: [mTorr] / [mTorr] = {largest}",
		float64(r.Line("readings", p.worst)), math.Abs(worst.machine-worst.reference), worst.doubt)
	if p.fit.ok {
		r.Work("a = o + g b through the pairs up to {2,000 mTorr}: o = {offset}, g = {gain}; ± holds what both gauges promise, as it is common to all readings")
	}
	if r.Choice("gas") == "wet" && p.vapourExplains() {
		r.Text("state", "cannot tell: vapour in the chamber")
		r.Text("stands", "begin anew in air: no pair in vapour decides")
		r.Verdict(declare.CannotTell, "Water vapour makes a thermal gauge read up to 2.0 times too high, so this proves nothing. Drying the chamber, 30 min of pumping and the same pairs in air would settle it.")
		return
	}
	if worst.score <= 1+tie {
		agree(r, p)
		return
	}
	found := patternOf(r, p)
	text := "They disagree: the largest score is " + scoreText(worst.score) + ". " + found.text
	if found == &factor {
		text += p.reasons(r)
	}
	stands := "decided: they disagree"
	if found == &fewPairs {
		stands += "; keep going, for the pattern: three pairs far apart"
	}
	r.Text("stands", stands)
	r.Text("state", found.state)
	r.Verdict(declare.Fail, text)
	r.Caution("Two gauges that disagree do not say which is wrong. Is the independent one past its check date, then compare a third before you condemn anything.")
}

// agree is the verdict where no pair scores above 1: worth little where the doubts are so
// wide that even a machine gauge half as high again would have agreed, and nothing where no
// pair lies at a pressure that a thermal gauge can tell.
func agree(r *declare.Result, p *pairs) {
	machine, reference := 1.5*r.In("machine-accuracy"), r.In("reference-accuracy")
	room := 0.25 - machine*machine
	stands := "decided: they agree"
	is, state, text := declare.Pass, "agree", "They agree within what both promise: the largest score is {largest}. Believe the machine's gauge at these pressures, and look for the fault elsewhere."
	switch {
	case p.to == 0:
		is, state = declare.CannotTell, "cannot tell: no pair in the useful range"
		stands = "keep going: pairs at the lowest, at {250|250 mTorr} and at {900 mTorr}"
		text = "Pairs at the lowest pressure, about {250|250 mTorr} and about {900 mTorr} would settle it."
	case room <= reference*reference:
		is, state = declare.CannotTell, "cannot tell: doubts too wide"
		stands = "no more pairs will decide: a better gauge would"
		text = "No pair scores above 1, but with these accuracies even a machine gauge that reads half as high again would pass. A machine gauge that must keep 30 % or better, beside an independent gauge good to 10 %, would settle it."
		if room > 0 {
			text = declare.With(4, "No pair scores above 1, but with these accuracies even a machine gauge that reads half as high again would pass. An independent gauge good to [%] would settle it.", math.Floor(100*math.Sqrt(room))/100)
		}
	}
	if is == declare.Pass && p.from > lowEnough {
		r.Caution("Dirt shows at the lowest pressure first: add a pair there.")
		stands += " here; keep going, dirt shows lower"
	}
	r.Text("stands", stands)
	r.Text("state", state)
	r.Verdict(is, text)
}

// lowEnough is the pressure at or under which a pair can show dirt, Pa: the second of the
// three that the procedure asks for, 250 mTorr (chosen here).
const lowEnough = 0.25 * constant.Torr * (1 + tie)

// vapourExplains tells whether the machine is nowhere low, and nowhere higher than the
// two promises and the largest factor of vapour allow.
func (p *pairs) vapourExplains() bool {
	for i := range p.list {
		if q := &p.list[i]; q.machine-vapourHigh*q.reference > q.doubt*(1+tie) {
			return false
		}
	}
	return !p.low
}

// scoreText shows a score to two figures, but never a 1 that is above 1.
func scoreText(score float64) string {
	text := quantity.Format(score, -1, quantity.One, 2)
	if text == "1" && score > 1+tie {
		return "just above 1"
	}
	return text
}
