package fitting

import (
	"blankoff/calc/declare"
	"blankoff/calc/letters"
	"blankoff/calc/quantity"
)

// shownCandidates is how many threads the table has at least; what is not excluded is
// always shown.
const shownCandidates = 4

func threadJudge(r *declare.Result) {
	k, _ := r.Studied().(*ranking)
	list := k.list
	best := list[0]
	p := best.pipe
	open, names := 0, ""
	for i, c := range list {
		name, match := c.pipe.name(k.female), "no: "+c.why
		if c.standing == fits {
			match = "fits"
		}
		if c.standing == possible {
			match = "possible"
		}
		if c.standing != excluded {
			open++
		} else if i >= shownCandidates {
			break
		}
		if open > i || i == 0 {
			names = join(names, name)
		}
		r.Row("candidates", declare.Cell{Text: name}, declare.Cell{Value: c.expected * mm}, declare.Cell{Value: c.offWidth * mm},
			declare.Cell{Value: c.pipe.count / (inch * mm)}, declare.Cell{Value: c.offTurn / (inch * mm)}, declare.Cell{Text: match})
	}
	r.Text("thread", names)
	r.Work("{diameter} − " + r.Num(best.expected*mm, "mm") + " = {off}")
	if r.Has("pitch") {
		r.Work("p = {25.4 mm} / n = {pitch}; the best of the list has " + r.Num(p.pitch()*mm, "mm"))
	}
	if assumedCountU(r.Numbers) > 0 {
		assumed := "± 0.5 TPI"
		if r.Kind("pitch") == quantity.Length {
			assumed = "± {0.01 mm}"
		}
		r.Caution("Pitch given without ±: " + assumed + " taken (common practice, no source).")
	}
	switch {
	case open == 0:
		r.Verdict(declare.Fail, "No NPT, R or G thread from 1/16 to 1 is like this; the nearest, {thread}, is ruled out by its "+best.why+". Screw nothing on it: measure again, then look among metric and unified threads.")
		r.Text("thread", "none of these")
	case open == 1 && best.standing == fits:
		r.Verdict(declare.Pass, "{thread} fits, and every other thread of the list is ruled out. Screw it only on its own kind.")
		k.tape(r, p)
	default:
		r.Verdict(declare.CannotTell, "It may be {thread}. "+k.howToSettle(open))
	}
}

// wraps is how a taper is taped (our notes of the trade, common practice).
const wraps = "2 to 3 tight wraps on the male thread, clockwise seen from its end, starting one thread back (common practice)"

// tape says how the joint of the one thread that fits is made.
func (k *ranking) tape(r *declare.Result, p *pipe) {
	text := wraps
	switch {
	case p.tapered():
		r.Set("engagement", p.hand*mm)
		r.Work("Hand-tight after " + r.Num(p.hand/p.pitch(), "") + " turns, then 1 to 1½ turns with the boss held (common practice).")
		if p.form == npt {
			r.Work("L₂ = (0.8 D + 6.8) p = " + r.Num(p.effective()*mm, "mm") + " of thread is good to seal with; E₀ = " + r.With(6, "[mm]", p.smallEnd()*mm))
		}
	case k.female:
		text = "none with a G, which seals on its face; with an R in an Rp " + wraps
	default:
		text = "none: it seals on a washer, an O-ring or its face, not on the thread"
	}
	r.Text("tape", text)
}

// howToSettle says which measure tells apart what is still open.
func (k *ranking) howToSettle(open int) string {
	count := k.list[0].pipe.count
	var has [3]bool // of each form
	for _, c := range k.list[:open] {
		p := c.pipe
		has[p.form] = true
		if p.count != count {
			count = 0
		}
	}
	both := has[g] && (has[npt] || has[r])
	text, taper := "", ""
	if both {
		taper = ", together with whether it tapers,"
	}
	switch {
	case k.count != k.count:
		text = "Its pitch (by a thread gauge, or counted over {25.4 mm})# would settle it."
	case count == 0:
		text = "A thread gauge laid in (entered as good to ± 0.1 TPI)# would settle it."
	case has[npt] && (has[r] || has[g]):
		text = "The flank angle# would settle it: hold a gauge of 60° (NPT) and one of 55° (R, G) against the light."
	case both:
		return "Whether it tapers would settle it: a taper loses {1 mm} of diameter in {16 mm}."
	default:
		return "Measure the diameter to ± {0.05 mm} and the pitch with a thread gauge: that would settle it."
	}
	return letters.Replace(text, "#", taper)
}
