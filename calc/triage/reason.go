package triage

import (
	"math"

	"blankoff/calc/declare"
	"blankoff/calc/letters"
)

// next lists what could come next, the best first.
func (j *job) next() []Choice { return j.Plan(j.bench, j.answers, Look) }

// atOnce is the time of a test that is a question: answered by looking or remembering.
const atOnce = 3

func (j *job) kind(step int) string {
	switch {
	case step == HandOver:
		return HandingOver
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

// offered are the steps as a reader is offered them: the best first, but before it the one that he prefers, else a test
// that was told in part.
func (s *sheaf) offered() []Choice {
	first := s.pick
	if first == HandOver || s.Steps[first].Who&s.bench.Who == 0 {
		first = s.unfinished()
	}
	if first == HandOver {
		return s.steps
	}
	list := append([]Choice{{Step: first, Minutes: s.steps[0].Minutes}}, s.steps...)
	for i := 1; i < len(list); i++ {
		if list[i].Step == first {
			list[0] = list[i]
			return append(list[:i], list[i+1:]...)
		}
	}
	return list
}

func (s *sheaf) nexts() {
	s.table("steps", "Next", "name kind #expected #own #ends reason label asks")
	list := s.offered()
	for i := range list[:min(mostNext, len(list))] {
		c := &list[i]
		name, label, asks, reason := HandingOver, "Hand it to the shop", "", s.reason(c.Step)
		switch {
		case c.Step != HandOver:
			name, label = s.Steps[c.Step].ID, s.Does[c.Step]+", "+spell(s.own(c.Step))
			if f := s.question(c.Step); f >= 0 {
				asks = s.Findings[f].ID
			}
		case s.bench.Who == Customer:
			label = "Call the shop"
		}
		if i == 0 && len(s.steps) > 1 && c.Step == s.steps[0].Step {
			reason += s.first(c)
		}
		s.row(name, s.kind(c.Step))
		s.minutes(c.Minutes)
		s.minutes(s.own(c.Step))
		s.share(c.Ends)
		s.text(reason, label, asks)
	}
}

// first says why the first step is the first.
func (s *sheaf) first(c *Choice) string {
	if without := s.plan.untested(s.steps); c.Minutes < without && s.plan.isTest(c.Step) {
		return s.compare(" Saves most for its minutes: _ to the end on average, _ without a test.", c.Minutes, without)
	}
	return s.compare(" Soonest on average: _ to the end, _ with the next best step.", c.Minutes, s.steps[1].Minutes)
}

// compare puts two expectations into a sentence, as a reader will find them.
func (s *sheaf) compare(sentence string, mine, other float64) string {
	mean := s.left().Mean
	a, b := spell(mine*mean), spell(other*mean)
	if a == b {
		return " The next best is about as good."
	}
	return put(sentence, a, b)
}

// reason says in words why a step may come next, in figures that were computed.
func (j *job) reason(step int) string {
	var sentence string
	switch j.kind(step) {
	case HandingOver:
		return put("Giving the job away counts as _ min of work.", whole(j.Call))
	case "repair":
		sentence = j.mends(step)
	default:
		if f := j.question(step); f >= 0 {
			sentence = j.parted(f)
		}
	}
	var first []string
	for _, n := range j.Steps[step].Needs {
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
		if gain := j.now[cure.Cause] * cure.Chance; gain > highest+same {
			best, highest = cure, gain
		}
	}
	p := j.now[best.Cause]
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
		cause[o], lead[o], chance[o] = j.after(f, o)
		if chance[o] >= shown {
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
		said = append(said, put(sentence, letters.TrimSuffix(j.outcome(f, o), "."), percent(chance[o]), j.Titles[cause[o]], percent(math.Min(lead[o], ceiling))))
	}
	return letters.Join(said, ", ") + "."
}

// verdict says whether the triage has its answer.
func (s *sheaf) verdict() string {
	for i := range s.answers {
		if s.odd[i].strange {
			t := s.answered(s.answers[i].Finding)
			return put("The answers do not go together. Recheck this first: _ = _.", s.Called[t.finding], t.text)
		}
	}
	order := ranked(len(s.Titles), func(c int) float64 { return s.now[c] })
	first := order[0]
	p := s.now[first]
	title, amount := s.Titles[first], percent(most(p))
	if first == len(s.Causes) {
		return put("Nothing that is listed explains it: what is not listed has _. _", amount, s.settles())
	}
	group := s.groupNames()[0]
	held := s.group(group)
	if p >= sure || held >= sure {
		s.Verdict.Is = declare.Pass
	}
	switch {
	case p >= sure:
		return put("It is most likely this: “_” (_).", title, amount)
	case held >= sure:
		for s.Groups[first] != group { // what is not listed has less than a fifth, so that a cause of the group comes before it
			order = order[1:]
			first = order[0]
		}
		return put("It is most likely in the group “_” (_), there most of all “_” (_).", group, percent(most(held)), s.Titles[first], percent(s.now[first]))
	}
	return put("“_” (_) is in front of “_” (_). _", title, amount, s.Titles[order[1]], percent(s.now[order[1]]), s.settles())
}

// settles names what would bring the job on.
func (s *sheaf) settles() string {
	for i := range s.steps {
		step := s.steps[i].Step
		if step == HandOver {
			break
		}
		if len(s.Steps[step].Cures) == 0 {
			return put("What would settle it soonest: _ (_ min).", s.Does[step], whole(s.own(step)))
		}
	}
	if step := s.steps[0].Step; step != HandOver {
		return put("No test pays any more; try this: _ (_ min).", s.Does[step], whole(s.own(step)))
	}
	return "No step of this reader brings it to an end sooner than handing the job over."
}
