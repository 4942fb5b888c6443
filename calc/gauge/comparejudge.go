package gauge

import (
	"math"

	"blankoff/calc/declare"
	"blankoff/calc/letters"
	"blankoff/calc/quantity"
)

func compareJudge(r *declare.Result) {
	p := pairsOf(r.Numbers)
	worst := &p.list[p.worst]
	r.Set("largest", worst.score)
	unit := quantity.MustUnit("mTorr")
	for i := range p.list {
		q := &p.list[i]
		r.Row("pairs", declare.Cell{Value: q.machine}, declare.Cell{Value: q.reference}, declare.Cell{Value: q.machine - q.reference},
			declare.Cell{Value: q.doubt, Text: quantity.Number(q.doubt, -1, unit, 3)}, declare.Cell{Value: q.score, Text: scoreText(q.score)})
	}
	r.Work("E = |a − b| / √(A² + B²), largest at line " + letters.Whole(r.Line("readings", p.worst)) + ": " +
		r.Num(math.Abs(worst.machine-worst.reference), "mTorr") + " / " + r.Num(worst.doubt, "mTorr") + " = {largest}")
	if p.fit.ok {
		r.Work("a = o + g b through the pairs up to 2,000 mTorr: o = {offset}, g = {gain}; ± holds what both gauges promise, as it is common to all readings")
	}
	if worst.score <= 1+tie {
		p.agree(r)
		return
	}
	p.disagree(r)
}

// agree is the verdict where no pair scores above 1: worth little where the doubts are
// so wide that even a machine gauge half as high again would have agreed.
func (p *pairs) agree(r *declare.Result) {
	machine, reference := r.In("machine-accuracy"), r.In("reference-accuracy")
	if r.Choice("gas") == "wet" {
		r.Caution("With vapour in the chamber two thermal gauges agree and may both be wrong by the same factor.")
	}
	room := 0.25 - math.Pow(1.5*machine, 2)
	if room > reference*reference {
		r.Text("state", "agree")
		r.Verdict(declare.Pass, "They agree within what both promise: the largest score is {largest}. Believe the machine's gauge that far, and look for the fault elsewhere.")
		return
	}
	r.Text("state", "cannot tell: doubts too wide")
	text := "No pair scores above 1, but with these accuracies even a machine gauge that reads half as high again would pass. "
	if room > 0 {
		text += "An independent gauge good to " + r.Num(math.Floor(100*math.Sqrt(room))/100, "%") + " would settle it."
	} else {
		text += "A machine gauge that must keep 30 % or better, beside an independent gauge good to 10 %, would settle it."
	}
	r.Verdict(declare.CannotTell, text)
}

func (p *pairs) disagree(r *declare.Result) {
	if r.Choice("gas") == "wet" && p.vapourExplains() {
		r.Text("state", "cannot tell: vapour in the chamber")
		r.Verdict(declare.CannotTell, "The machine gauge is high, but by no more than water vapour does to a thermal gauge (up to 2.0 times). Drying the chamber, 30 min of pumping and the same pairs in air would settle it.")
		return
	}
	found := patternOf(r, p)
	text := found.text
	if found == &factor {
		text += p.reasons(r)
	}
	r.Text("state", found.state)
	r.Verdict(declare.Fail, "They disagree: the largest score is "+scoreText(p.list[p.worst].score)+". "+text)
	r.Caution("Two gauges that disagree do not say which is wrong. Is the independent one past its check date, then compare a third before you condemn anything.")
}

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
