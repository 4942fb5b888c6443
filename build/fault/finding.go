package fault

import (
	"fmt"
	"math"
	"slices"

	"blankoff/build/source"
	"blankoff/calc/quantity"
	"blankoff/calc/triage"
)

func (r *reader) finding(e source.Entry) {
	m := e.Value.Map
	r.reserved(e.Key, e.KeySpan, "a finding", triage.Entries...)
	f := &Finding{Named: named(e, "ask"), Called: text(m, "called"), From: text(m, "from"), Unit: quantity.One}
	r.model.Findings = append(r.model.Findings, f)
	if kind := text(m, "kind"); kind.Text != "" {
		if entry, found := m.Find("answers"); found {
			r.refuse("triage-unit", entry.KeySpan, "answers belong to a choice; what is measured is answered with a value", "take them out, or the line `kind:`")
		}
		r.measured(f, m, kind)
		return
	}
	for _, key := range []string{"unit", "cuts"} {
		if entry, found := m.Find(key); found {
			r.refuse("triage-unit", entry.KeySpan, key+" belongs to a measured finding", "add `kind: pressure`, or take "+key+" out")
		}
	}
	r.choice(f, m)
}

// choice reads a finding with a few answers; `usual` names them.
func (r *reader) choice(f *Finding, m *source.Mapping) {
	usual := m.Text("usual").Map
	if usual == nil {
		return
	}
	for i, e := range usual.Entries {
		if i == triage.MaxOutcomes {
			r.refuse("triage-size", e.KeySpan, fmt.Sprintf("the finding %s has more than %d answers", source.Quote(f.Name), triage.MaxOutcomes), "put together those after which the same would be done")
			return
		}
		if r.plain(e, "an answer") {
			r.reserved(e.Key, e.KeySpan, "an answer", triage.Unknown)
			f.Answers = append(f.Answers, Answer{Name: e.Key})
		}
	}
	if len(f.Answers) < 2 {
		r.refuse("probability", usual.Span, "the finding "+source.Quote(f.Name)+" has fewer than two answers", "write `usual: {yes: 5 %, no: 95 %}`")
		return
	}
	if words := m.Text("answers").Map; words != nil {
		for _, e := range words.Entries {
			switch i := f.answer(e.Key); {
			case i < 0:
				r.unknownAnswer(Text{e.Key, e.KeySpan}, f)
			case e.Value.Shape != source.Text:
				r.refuse("shape", e.KeySpan, "the answer "+e.Key+" holds "+e.Value.Shape.String()+", not a text", "write the answer in words: `"+e.Key+": There is a hiss.`")
			default:
				f.Answers[i].Text = e.Value.Text
			}
		}
	}
	f.Usual = r.shares(source.Value{Map: usual, Shape: source.Nested, Span: usual.Span}, f)
}

// answer is the number of an answer, or -1.
func (f *Finding) answer(name string) int {
	return slices.IndexFunc(f.Answers, func(a Answer) bool { return a.Name == name })
}

func (f *Finding) answerNames() []string {
	var names []string
	for _, a := range f.Answers {
		names = append(names, a.Name)
	}
	return names
}

func (r *reader) unknownAnswer(t Text, f *Finding) {
	r.refuse("triage-name", t.Span, "the finding "+source.Quote(f.Name)+" has no answer "+source.Quote(t.Text), r.meant(t.Text, f.answerNames()))
}

// shares reads the probability of each answer. A single percentage is that of the first answer; one answer that is left
// out takes the rest.
func (r *reader) shares(v source.Value, f *Finding) []float64 {
	given := make([]float64, len(f.Answers))
	for i := range given {
		given[i] = -1
	}
	switch {
	case v.Shape == source.Text && len(f.Answers) > 0:
		p, ok := r.percent(textOf(v), f.Name)
		if !ok {
			return nil
		}
		given[0] = p
	case v.Shape == source.Nested:
		for _, e := range v.Map.Entries {
			i := f.answer(e.Key)
			if i < 0 {
				r.unknownAnswer(Text{e.Key, e.KeySpan}, f)
				return nil
			}
			p, ok := r.percent(Text{e.Value.Text, e.Value.Span}, e.Key)
			if !ok {
				return nil
			}
			given[i] = p
		}
	default:
		r.refuse("shape", v.Span, f.Name+" holds "+v.Shape.String()+", not a probability", "write `"+f.Name+": 85 %`, or one for each answer")
		return nil
	}
	return r.filled(v.Span, f, given)
}

// filled gives the rest to the answer that was left out, and asks that the whole is 1.
func (r *reader) filled(at source.Span, f *Finding, given []float64) []float64 {
	sum, open := 0.0, 0
	for _, p := range given {
		if p < 0 {
			open++
			continue
		}
		sum += p
	}
	const slack = 1e-6
	if open > 1 || sum > 1+slack || open == 0 && sum < 1-slack {
		what := fmt.Sprintf("the answers of %s come to %.4g %%", source.Quote(f.Name), 100*sum)
		if open > 1 {
			what += fmt.Sprintf(", and %d of them have none", open)
		}
		r.refuse("probability", at, what, "the probabilities of all answers come to 100 %; one of them may be left out and takes the rest")
		return nil
	}
	for i, p := range given {
		if p < 0 {
			given[i] = math.Max(1-sum, 0)
		} else if open == 0 {
			given[i] /= sum
		}
	}
	return given
}

// guards reads under which answers of another finding each one counts; the others are known by then.
func (r *reader) guards(m *source.Mapping) {
	for _, f := range r.model.Findings {
		entry, _ := m.Text("findings").Map.Find(f.Name)
		when := entry.Value.Map.Text("when").Map
		if when == nil {
			continue
		}
		for _, e := range when.Entries {
			on := r.model.Finding(e.Key)
			if on == nil || on == f || on.Measured() {
				r.refuse("triage-name", e.KeySpan, "there is no finding "+source.Quote(e.Key)+" with answers, beside this one", r.meant(e.Key, r.choices(f)))
				continue
			}
			guard := Guard{Finding: Text{e.Key, e.KeySpan}, Answers: r.texts(e.Key, e.Value)}
			if len(guard.Answers) == 0 {
				r.refuse("shape", e.KeySpan, e.Key+" names no answer", "write `when: {"+e.Key+": [no]}`")
			}
			r.once(guard.Answers)
			for _, a := range guard.Answers {
				if on.answer(a.Text) < 0 && len(on.Answers) > 0 { // of one without answers that is said
					r.unknownAnswer(a, on)
				}
			}
			f.When = append(f.When, guard)
		}
	}
}

func (r *reader) choices(but *Finding) []string {
	var names []string
	for _, f := range r.model.Findings {
		if f != but && !f.Measured() {
			names = append(names, f.Name)
		}
	}
	return names
}
