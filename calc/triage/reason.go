package triage

import (
	"math"

	"blankoff/calc/declare"
	"blankoff/calc/letters"
)

// next lists what could come next, the best first, by minutes that are the same on all machines.
func (j *job) next() []Choice {
	list := j.Plan(j.bench, j.answers, look)
	var sorted []Choice
	for _, i := range ranked(len(list), func(i int) float64 { return -math.Round(list[i].Minutes * 1e3) }) {
		sorted = append(sorted, list[i])
	}
	return sorted
}

// atOnce is the time of a test that is a question: answered by looking or remembering.
const atOnce = 3

func (j *job) kind(step int) string {
	switch {
	case step == HandOver:
		return "hand-over"
	case len(j.Steps[step].Cures) > 0:
		return "repair"
	case j.Times[step] <= atOnce:
		return "question"
	}
	return "test"
}

// own is the time of a step and of those that it still needs, without parts and proof.
func (j *job) own(step int) float64 {
	if step == HandOver {
		return 0
	}
	sum := j.Times[step]
	for _, n := range j.Steps[step].Needs {
		if !j.plan.done[n] {
			sum += j.own(n)
		}
	}
	return sum
}

func (j *job) steps(list []Choice) declare.Given {
	g := table("steps", "Next", "name", "kind", "#expected", "#own", "#ends", "reason")
	for i, c := range list[:min(mostNext, len(list))] {
		name := "hand-over"
		if c.Step != HandOver {
			name = j.Steps[c.Step].ID
		}
		reason := j.reason(c)
		if i == 0 && len(list) > 1 {
			reason += put(" Soonest on average: _ min to the end, _ with the next best.", whole(c.Minutes), whole(list[1].Minutes))
		}
		add(&g, text(name), text(j.kind(c.Step)), minutes(c.Minutes), minutes(j.own(c.Step)), share(c.Ends), text(reason))
	}
	return g
}

// reason says in words why a step may come next, in figures that were computed.
func (j *job) reason(c Choice) string {
	var sentence string
	switch j.kind(c.Step) {
	case "hand-over":
		return put("Giving the job away counts as _ min of work.", whole(j.Call))
	case "repair":
		sentence = j.mends(c.Step)
	default:
		sentence = j.parted(j.asks(c.Step))
	}
	var first []string
	for _, n := range j.Steps[c.Step].Needs {
		if !j.plan.done[n] {
			first = append(first, j.Does[n])
		}
	}
	if len(first) > 0 {
		sentence += put(" Before it: _.", letters.Join(first, ", "))
	}
	return sentence
}

// mends names the cause for which a repair is most likely to be right.
func (j *job) mends(step int) string {
	best, highest := Cure{}, -1.0
	for _, cure := range j.Steps[step].Cures {
		if gain := j.of(j.belief, cure.Cause) * cure.Chance; gain > highest+same {
			best, highest = cure, gain
		}
	}
	p := j.of(j.belief, best.Cause)
	return put("“_” has _, and this ends it in _ of such jobs.", j.Titles[best.Cause], percent(math.Min(p, ceiling)), percent(best.Chance))
}

// parted says what the answers to a finding would do.
func (j *job) parted(f int) string {
	low, high := 1.0, 0.0
	leading, _ := j.leader(j.belief)
	stays := true
	n := len(j.Findings[f].Sound)
	chance, lead, cause := make([]float64, n), make([]float64, n), make([]int, n)
	for o := range chance {
		b, p := j.after(f, o)
		chance[o] = p
		cause[o], lead[o] = j.leader(b)
		if p >= shown {
			stays = stays && cause[o] == leading
			low, high = math.Min(low, lead[o]), math.Max(high, lead[o])
		}
	}
	if stays {
		return put("Whatever it tells, “_” stays in front, with _ to _.", j.Titles[leading], percent(math.Min(low, ceiling)), percent(math.Min(high, ceiling)))
	}
	order := ranked(n, func(o int) float64 { return chance[o] })
	var said []string
	for i, sentence := range []string{"“_” (_) would put “_” in front with _", "“_” (_) “_” with _"} {
		o := order[i]
		said = append(said, put(sentence, j.outcome(f, o), percent(chance[o]), j.Titles[cause[o]], percent(math.Min(lead[o], ceiling))))
	}
	return letters.Join(said, ", ") + "."
}

// verdict says whether the triage has its answer.
func (j *job) verdict(steps []Choice) declare.Verdict {
	for i := range j.answers {
		if j.strange(i) {
			t := j.answered(j.answers[i].Finding)
			return declare.Verdict{Is: declare.CannotTell, Text: put("The answers do not go together. Recheck _ = _ first.", j.Findings[t.finding].ID, t.text)}
		}
	}
	leading, p := j.leader(j.belief)
	group := j.groupNames()[0]
	switch {
	case leading == len(j.Causes):
		return declare.Verdict{Is: declare.CannotTell, Text: put("Nothing that is listed explains it: what is not listed has _. _", percent(most(p)), j.settles(steps))}
	case p >= sure:
		return declare.Verdict{Is: declare.Pass, Text: put("It is most likely this: “_” (_).", j.Titles[leading], percent(most(p)))}
	case j.group(group) >= sure:
		return declare.Verdict{Is: declare.Pass, Text: put("It is most likely in the group “_” (_), there most of all “_” (_).",
			group, percent(most(j.group(group))), j.Titles[j.leaderOf(group)], percent(most(j.of(j.belief, j.leaderOf(group)))))}
	}
	order := ranked(len(j.Titles), func(c int) float64 { return j.of(j.belief, c) })
	second := order[1]
	return declare.Verdict{Is: declare.CannotTell, Text: put("“_” (_) is in front of “_” (_). _",
		j.Titles[leading], percent(most(p)), j.Titles[second], percent(most(j.of(j.belief, second))), j.settles(steps))}
}

func (j *job) leaderOf(group string) int {
	for _, c := range ranked(len(j.Causes), func(c int) float64 { return j.of(j.belief, c) }) {
		if j.Groups[c] == group {
			return c
		}
	}
	return 0
}

// settles names what would bring the job on.
func (j *job) settles(steps []Choice) string {
	for _, c := range steps {
		if c.Step == HandOver {
			break
		}
		if len(j.Steps[c.Step].Cures) == 0 {
			return put("What would settle it soonest: _ (_ min).", j.Does[c.Step], whole(j.own(c.Step)))
		}
	}
	if len(steps) > 0 && steps[0].Step != HandOver {
		return put("No test pays any more; try this: _ (_ min).", j.Does[steps[0].Step], whole(j.own(steps[0].Step)))
	}
	return "No step of this reader brings it to an end sooner than handing the job over."
}
