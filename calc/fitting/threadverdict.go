package fitting

import (
	"math"

	"blankoff/calc/declare"
	"blankoff/calc/quantity"
)

// shownCandidates is how many threads the table has at least; what is not excluded is
// always shown.
const shownCandidates = 4

func threadJudge(r *declare.Result) {
	k := r.Studied().(*ranking)
	open := 0
	for i, c := range k.list {
		if c.standing != excluded {
			open++
		} else if i >= shownCandidates {
			break
		}
		r.Row("candidates", declare.Cell{Text: c.pipe.name(k.measured.female)}, declare.Cell{Value: c.expected * mm}, declare.Cell{Value: c.offWidth * mm},
			declare.Cell{Value: c.pipe.count / (inch * mm)}, declare.Cell{Value: c.offTurn / (inch * mm)}, declare.Cell{Text: c.match()})
	}
	best := k.list[0]
	r.Text("thread", k.names(max(open, 1)))
	r.Work("{diameter} − " + r.Num(best.expected*mm, "mm") + " = {off}")
	if r.Has("pitch") {
		r.Work("p = 25.4 mm / n = {pitch}; the best of the list has " + r.Num(best.pipe.pitch()*mm, "mm"))
	}
	if assumedCountU(r.Numbers) > 0 {
		r.Caution("Pitch given without ±: " + assumedCount(r.Numbers) + " taken (common practice, no source).")
	}
	switch {
	case open == 0:
		r.Verdict(declare.Fail, "No NPT, R or G thread from 1/16 to 1 is like this; the nearest, {thread}, is ruled out by its "+best.why+". Screw nothing on it: measure again, then look among metric and unified threads.")
		r.Text("thread", "none of these")
	case open == 1 && best.standing == fits:
		k.make(r, best.pipe)
	default:
		r.Verdict(declare.CannotTell, "It may be {thread}. "+k.howToSettle(open))
	}
}

func (c *candidate) match() string {
	switch c.standing {
	case fits:
		return "fits"
	case possible:
		return "possible"
	}
	return "no: " + c.why
}

// wraps is how a taper is taped (trade brief, common practice).
const wraps = "2 to 3 tight wraps on the male thread, clockwise seen from its end, starting one thread back (common practice)"

// make says how the joint of the one thread that fits is made.
func (k *ranking) make(r *declare.Result, p *pipe) {
	r.Verdict(declare.Pass, "{thread} fits, and every other thread of the list is ruled out. Screw it only on its own kind.")
	if !p.tapered() {
		text := "none: it seals on a washer, an O-ring or its face, not on the thread"
		if k.measured.female {
			text = "none with a G, which seals on its face; with an R in an Rp " + wraps
		}
		r.Text("tape", text)
		return
	}
	r.Set("engagement", p.hand*mm)
	r.Text("tape", wraps)
	r.Work("Hand-tight after " + r.Num(p.hand/p.pitch(), "") + " turns, then 1 to 1½ turns with the boss held (common practice).")
	if p.form == npt {
		r.Work("L₂ = (0.8 D + 6.8) p = " + r.Num(p.effective()*mm, "mm") + " of thread is good to seal with; E₀ = " + quantity.Format(p.smallEnd()*mm, -1, quantity.MustUnit("mm"), 6))
	}
}

// names lists the first threads of the ranking.
func (k *ranking) names(count int) string {
	text := ""
	for i := range count {
		text = join(text, k.list[i].pipe.name(k.measured.female))
	}
	return text
}

// howToSettle says which measure tells apart what is still open.
func (k *ranking) howToSettle(open int) string {
	tapered, straight, american, other, counts := false, false, false, false, false
	for i := range open {
		p := k.list[i].pipe
		tapered, straight = tapered || p.tapered(), straight || !p.tapered()
		american, other = american || p.form == npt, other || p.form != npt
		counts = counts || p.count != k.list[0].pipe.count
	}
	text := ""
	switch {
	case math.IsNaN(k.measured.count):
		text = "Its pitch, by a thread gauge or counted over 25.4 mm, would settle it"
	case counts:
		text = "A thread gauge laid in, entered as good to ± 0.1 TPI, would settle it"
	case american && other:
		text = "The flank angle would settle it: hold a gauge of 60° (NPT) and one of 55° (R, G) against the light"
	case tapered && straight:
		return "Whether it tapers would settle it: a taper loses 1 mm of diameter in 16 mm."
	default:
		return "Measure the diameter to ± 0.05 mm and the pitch with a thread gauge: that would settle it."
	}
	if tapered && straight {
		text += ", together with whether it tapers"
	}
	return text + "."
}
